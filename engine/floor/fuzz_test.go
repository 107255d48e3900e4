package floor

import (
	"encoding/binary"
	"math"
	"testing"

	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// cornersFrom reads corners from bytes: whole millimetres of 16 bits each or,
// with an odd first byte, any numbers of 64 bits each.
func cornersFrom(data []byte) (room []plane.Point) {
	if len(data) == 0 {
		return nil
	}
	size, raw := 2, data[0]%2 == 1
	if raw {
		size = 8
	}
	number := func(b []byte) float64 {
		if raw {
			return math.Float64frombits(binary.LittleEndian.Uint64(b))
		}
		return float64(int16(binary.LittleEndian.Uint16(b)))
	}
	for data = data[1:]; len(data) >= 2*size && len(room) < 64; data = data[2*size:] {
		room = append(room, plane.Point{X: number(data), Y: number(data[size:])})
	}
	return room
}

// bytesOf is the way back, in whole millimetres.
func bytesOf(room ...plane.Point) []byte {
	data := []byte{0}
	for _, p := range room {
		data = binary.LittleEndian.AppendUint16(data, uint16(int16(p.X)))
		data = binary.LittleEndian.AppendUint16(data, uint16(int16(p.Y)))
	}
	return data
}

// FuzzOutline gives New any outline: it has to refuse it in sentences or make
// a plan whose blocks cover the field.
func FuzzOutline(f *testing.F) {
	f.Add(bytesOf(rect(0, 0, 4200, 3600)...), byte(0))
	f.Add(bytesOf(plane.Point{}, plane.Point{X: 5200}, plane.Point{X: 5200, Y: 3100}, plane.Point{X: 2100, Y: 3100}, plane.Point{X: 2100, Y: 4600}, plane.Point{Y: 4600}), byte(1))
	f.Add(bytesOf(plane.Point{}, plane.Point{X: 4200, Y: 3600}, plane.Point{X: 4200}, plane.Point{Y: 3600}), byte(2))
	f.Add(bytesOf(plane.Point{}, plane.Point{X: 10000}, plane.Point{X: 1, Y: 1}, plane.Point{Y: 10000}), byte(3))
	f.Add(bytesOf(plane.Point{X: -1050, Y: -1085}, plane.Point{X: 1400, Y: -1085}, plane.Point{X: 1400, Y: 35}, plane.Point{X: 350, Y: 35}, plane.Point{X: 350, Y: 1225}, plane.Point{X: -1050, Y: 1225}), byte(12))
	f.Add(bytesOf(plane.Point{}, plane.Point{X: 70}, plane.Point{X: 70, Y: 350}, plane.Point{X: 69, Y: 1}), byte(13))
	f.Add([]byte{1, 0, 0, 0, 0, 0, 0, 0xf8, 0x7f, 0, 0, 0, 0, 0, 0, 0xf0, 0x7f}, byte(4))
	f.Add([]byte{}, byte(255))
	f.Fuzz(func(t *testing.T, data []byte, choice byte) {
		job := Job{Room: cornersFrom(data), Centre: &plane.Point{}}
		if len(job.Room) == 0 {
			return // the default room
		}
		if choice&1 != 0 {
			job.Gap, job.Border = 12, length.Length(choice)
		}
		if choice&2 != 0 {
			job.Pattern = Chevron
		}
		job.Axis = []float64{0, 45, 10, -90}[choice>>2&3]
		job.Strands = 1 + int(choice>>4&1)
		if choice&32 != 0 {
			job.Start = FromWall
		}
		if choice&64 != 0 {
			job.Centre = nil
		}
		if _, err := New(job); err != nil {
			for _, e := range fieldErrors(t, err) {
				checkSentence(t, e.Error())
			}
			return
		}
		addsUp(t, job)
		p, _ := New(job)
		n := 0
		for row := range p.Rows() {
			n += row.Blocks()
		}
		if c := p.Count(); n != c.Full+c.Cut {
			t.Errorf("%d blocks in rows, %d in the plan", n, c.Full+c.Cut)
		}
	})
}
