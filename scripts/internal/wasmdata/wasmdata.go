// Package wasmdata lays the data of a WebAssembly program out for a smaller
// download.
//
// The Go linker leaves runs of zeros out of the data section, which cuts it
// into tens of thousands of segments. Their offsets hardly compress, while
// zeros compress to nothing: with its segments joined across short gaps, the
// same memory takes a twelfth less of the whole download.
//
// The binary format is that of the WebAssembly Core Specification, chapter 5.
package wasmdata

import (
	"cmp"
	"encoding/binary"
	"errors"
	"fmt"
	"slices"
)

// Segment is bytes that are put into memory when the program starts.
type Segment struct {
	Offset int64
	Bytes  []byte
}

const (
	headSize       = 8 // the magic number and the version
	dataSection    = 11
	dataCount      = 12
	activeSegment  = 0 // of memory 0
	constI32       = 0x41
	end            = 0x0b
	shortestToKeep = 4096 // a gap of so many zeros is left out
)

var head = "\x00asm\x01\x00\x00\x00"

// Join returns the file with segments of its data section joined where the
// gap between them is short. Every byte of memory starts as before.
func Join(file []byte) ([]byte, error) { return rewrite(file, func([]Segment) error { return nil }) }

// JoinWithoutLines does the same and drops the tables of source lines.
func JoinWithoutLines(file []byte) ([]byte, error) { return rewrite(file, dropLines) }

// rewrite joins the data segments of a file and changes what is in them.
func rewrite(file []byte, change func(joined []Segment) error) ([]byte, error) {
	if len(file) < headSize || string(file[:headSize]) != head {
		return nil, errors.New("this is not a WebAssembly file of version 1")
	}
	out := append([]byte{}, file[:headSize]...)
	r := reader{rest: file[headSize:]}
	for len(r.rest) > 0 {
		id, body := r.byte(), r.bytes(int(r.unsigned()))
		if r.err != nil {
			return nil, r.err
		}
		switch id {
		case dataCount:
			// It is only needed by instructions that Go does not use, and would
			// have to change with the number of segments.
			return nil, errors.New("the file counts its data segments ahead; they cannot be joined")
		case dataSection:
			segments, err := read(body)
			if err != nil {
				return nil, err
			}
			joined, err := join(segments)
			if err != nil {
				return nil, err
			}
			if err := change(joined); err != nil {
				return nil, err
			}
			body = write(joined)
		}
		out = append(out, id)
		out = binary.AppendUvarint(out, uint64(len(body)))
		out = append(out, body...)
	}
	return out, nil
}

// Segments returns the segments of a file's data section.
func Segments(file []byte) ([]Segment, error) {
	r := reader{rest: file[min(len(file), headSize):]}
	for len(r.rest) > 0 {
		id, body := r.byte(), r.bytes(int(r.unsigned()))
		if r.err != nil {
			return nil, r.err
		}
		if id == dataSection {
			return read(body)
		}
	}
	return nil, nil
}

// read takes a data section apart.
func read(body []byte) ([]Segment, error) {
	r := reader{rest: body}
	segments := make([]Segment, 0, 1024)
	for range r.unsigned() {
		if kind := r.unsigned(); kind != activeSegment {
			return nil, fmt.Errorf("data segment %d is of kind %d, not one for memory 0", len(segments), kind)
		}
		if op := r.byte(); op != constI32 && r.err == nil {
			return nil, fmt.Errorf("the place of data segment %d is not a constant", len(segments))
		}
		s := Segment{Offset: r.signed()}
		if op := r.byte(); op != end && r.err == nil {
			return nil, fmt.Errorf("the place of data segment %d is not one constant", len(segments))
		}
		s.Bytes = r.bytes(int(r.unsigned()))
		if r.err != nil {
			return nil, r.err
		}
		segments = append(segments, s)
	}
	if len(r.rest) > 0 {
		return nil, errors.New("the data section is longer than its segments")
	}
	return segments, nil
}

// join puts segments in order and fills short gaps between them. They must not
// lie on one another.
func join(segments []Segment) (joined []Segment, err error) {
	segments = slices.Clone(segments)
	slices.SortStableFunc(segments, func(a, b Segment) int { return cmp.Compare(a.Offset, b.Offset) })
	for _, s := range segments {
		if n := len(joined); n > 0 {
			last := &joined[n-1]
			gap := s.Offset - last.Offset - int64(len(last.Bytes))
			if gap < 0 {
				return nil, errors.New("two data segments lie on one another")
			}
			if gap < shortestToKeep {
				last.Bytes = append(last.Bytes, make([]byte, gap)...)
				last.Bytes = append(last.Bytes, s.Bytes...)
				continue
			}
		}
		joined = append(joined, Segment{s.Offset, slices.Clone(s.Bytes)})
	}
	return joined, nil
}

// write puts a data section together.
func write(segments []Segment) []byte {
	out := binary.AppendUvarint(nil, uint64(len(segments)))
	for _, s := range segments {
		out = append(out, activeSegment, constI32)
		out = appendSigned(out, s.Offset)
		out = append(out, end)
		out = binary.AppendUvarint(out, uint64(len(s.Bytes)))
		out = append(out, s.Bytes...)
	}
	return out
}

// appendSigned writes a signed LEB128 number.
func appendSigned(out []byte, v int64) []byte {
	for {
		b := byte(v & 0x7f)
		v >>= 7
		if v == 0 && b&0x40 == 0 || v == -1 && b&0x40 != 0 {
			return append(out, b)
		}
		out = append(out, b|0x80)
	}
}

// reader takes bytes from the front of a file. After the first fault it
// returns zeros.
type reader struct {
	rest []byte
	err  error
}

func (r *reader) bytes(n int) []byte {
	if n < 0 || n > len(r.rest) {
		if r.err == nil {
			r.err = errors.New("the file ends early")
		}
		r.rest = nil
		return nil
	}
	b := r.rest[:n]
	r.rest = r.rest[n:]
	return b
}

func (r *reader) byte() byte {
	if b := r.bytes(1); len(b) == 1 {
		return b[0]
	}
	return 0
}

func (r *reader) unsigned() uint64 {
	v, n := binary.Uvarint(r.rest)
	if n <= 0 {
		r.bytes(-1)
		return 0
	}
	r.rest = r.rest[n:]
	return v
}

func (r *reader) signed() int64 {
	var v int64
	for shift := 0; shift < 64; shift += 7 {
		b := r.byte()
		v |= int64(b&0x7f) << shift
		if b&0x80 == 0 {
			if b&0x40 != 0 && shift+7 < 64 {
				v |= -1 << (shift + 7)
			}
			return v
		}
	}
	r.bytes(-1)
	return 0
}
