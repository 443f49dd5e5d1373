package usage

import "ripeby/schedule/cp/problem"

// Packings is the questions to the packing answered so far, and orders of floors.
type Packings struct {
	known map[string][]problem.Placed
	turns [][Arrangements / 2][]int // orders of each space's floors
	kept  map[string][]int8
}

// NewPackings knows no answers yet.
func NewPackings(m *problem.Model) *Packings {
	p := &Packings{known: map[string][]problem.Placed{}, kept: map[string][]int8{}}
	for i := range m.Spaces {
		p.turns = append(p.turns, floorTurns(m.Spaces[i].Floors))
	}
	return p
}

// Kept is memory for so many answers to questions of a name, none known at first.
func (s *Ledger) Kept(name string, size int) []int8 {
	if _, known := s.packed.kept[name]; !known {
		s.packed.kept[name] = make([]int8, size)
	}
	return s.packed.kept[name]
}

// packKey names a packing question; equal questions have equal answers.
func packKey(floor problem.Rect, fixed []problem.Placed, box problem.Rect, n int) string {
	b := make([]byte, 0, 40*(len(fixed)+2))
	num := func(v int64) {
		for v >= 0x80 {
			b = append(b, byte(v)|0x80)
			v >>= 7
		}
		b = append(b, byte(v))
	}
	num(floor.W)
	num(floor.D)
	num(box.W)
	num(box.D)
	num(int64(n))
	for _, p := range fixed {
		num(p.X)
		num(p.Y)
		num(p.W)
		num(p.D)
	}
	return string(b)
}
