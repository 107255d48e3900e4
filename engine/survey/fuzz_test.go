package survey

import (
	"encoding/binary"
	"errors"
	"math"
	"testing"
	"time"

	"keelrow/engine/length"
	"keelrow/engine/plane"
)

// readingsOf reads a survey from bytes: the number of corners, with a bit for
// lengths of any 64 bits instead of whole millimetres of 16; then the walls'
// lengths in order, as far as the bytes go, and two corners and a length for
// every further reading.
func readingsOf(data []byte) (corners int, readings []Reading) {
	if len(data) == 0 {
		return 0, nil
	}
	corners, size := int(data[0]&0x7f), 2
	if data[0]&0x80 != 0 {
		size = 8
	}
	data = data[1:]
	number := func() length.Length {
		b := data[:size]
		data = data[size:]
		if size == 8 {
			return length.Length(math.Float64frombits(binary.LittleEndian.Uint64(b)))
		}
		return length.Length(binary.LittleEndian.Uint16(b))
	}
	for i := 0; i < corners && len(data) >= size; i++ {
		readings = append(readings, Reading{i, (i + 1) % corners, number()})
	}
	for len(data) >= size+2 && len(readings) < 200 {
		r := Reading{From: int(int8(data[0])), To: int(int8(data[1]))}
		data = data[2:]
		r.Length = number()
		readings = append(readings, r)
	}
	return corners, readings
}

// bytesOf is the way back, in whole millimetres.
func bytesOf(room plane.Ring, diagonals ...[2]int) []byte {
	data := []byte{byte(len(room))}
	for k, r := range taped(room, diagonals...) {
		if k >= len(room) {
			data = append(data, byte(r.From), byte(r.To))
		}
		data = binary.LittleEndian.AppendUint16(data, uint16(math.Round(float64(r.Length))))
	}
	return data
}

// FuzzSolve gives Solve any readings: it has to refuse them in sentences, or
// place corners that fit them within the limit and make an outline.
func FuzzSolve(f *testing.F) {
	square := outline(0, 0, 4200, 0, 4200, 3600, 0, 3600)
	five := outline(0, 0, 4300, 60, 5200, 2300, 2700, 4400, -350, 3100)
	ell := outline(0, 0, 5200, 0, 5200, 3100, 2100, 3100, 2100, 4600, 0, 4600)
	f.Add(bytesOf(square, [2]int{0, 2}), uint16(3))
	f.Add(bytesOf(square, [2]int{0, 2}, [2]int{1, 3}), uint16(3))
	f.Add(bytesOf(five, [2]int{0, 2}, [2]int{0, 3}, [2]int{1, 3}, [2]int{1, 4}, [2]int{2, 4}), uint16(0))
	f.Add(bytesOf(ell, [2]int{0, 2}, [2]int{0, 3}, [2]int{0, 4}), uint16(100))
	f.Add(bytesOf(ell, [2]int{0, 2}, [2]int{1, 5}, [2]int{0, 4}), uint16(60000))
	f.Add(append([]byte{0x83}, make([]byte, 40)...), uint16(3))
	f.Fuzz(func(t *testing.T, data []byte, limit uint16) {
		corners, readings := readingsOf(data)
		began := time.Now()
		got, err := Solve(corners, readings, length.Length(limit))
		if took := time.Since(began); took > 5*time.Second {
			t.Errorf("%d corners, %d readings took %v", corners, len(readings), took)
		}
		if err != nil {
			if err.Error() == "" {
				t.Error("the error says nothing")
			}
			var misfit *MisfitError
			if got == nil {
				return
			}
			if !errors.As(err, &misfit) {
				t.Fatalf("a result beside %v", err)
			}
		}
		for i, p := range got.Outline {
			if !(math.Abs(p.X) < 1e10 && math.Abs(p.Y) < 1e10) {
				t.Fatalf("corner %s at %v", CornerName(i), p)
			}
		}
		for k, c := range got.Checks {
			r := readings[k]
			d := got.Outline[r.From].Sub(got.Outline[r.To]).Length()
			if math.Abs(d-float64(c.Adjusted)) > 1e-6+1e-9*d {
				t.Errorf("%v is %v in the outline, %v in the checks", r, d, c.Adjusted)
			}
			if err == nil && got.Surplus > 0 && math.Abs(float64(c.Residual)) > max(float64(limit), finest) {
				t.Errorf("%v is off by %v, the limit is %v", r, c.Residual, limit)
			}
		}
		if err == nil {
			if flaw, _, _ := got.Outline.Check(); flaw != plane.Sound || got.Outline.Area() <= 0 {
				t.Errorf("flaw %v, area %v", flaw, got.Outline.Area())
			}
		}
	})
}
