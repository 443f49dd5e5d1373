package shelf

import "encoding/binary"

// MemoMost is how many failed states are remembered; more are searched again.
const MemoMost = 1 << 18

// memo remembers the states at the beginning of a row from which no way leads to
// the end. The whole state is the key, so that nothing is ever taken for
// something else.
type memo struct {
	failed map[string]struct{}
	key    []byte
}

// name writes the state: what is left of each kind and the skyline. The row's
// front is the lowest step, and the area that may be wasted follows from both.
func (m *memo) name(s *search, v scene) {
	m.key = m.key[:0]
	for i := range s.kinds {
		m.key = binary.AppendUvarint(m.key, uint64(s.kinds[i].left))
	}
	m.key = binary.AppendUvarint(m.key, uint64(v.y))
	for _, g := range s.arena[v.lo:v.hi] {
		firm := uint64(0)
		if g.firm {
			firm = 1
		}
		m.key = binary.AppendUvarint(m.key, uint64(g.x))
		m.key = binary.AppendUvarint(m.key, uint64(g.top)<<1|firm)
	}
}

func (m *memo) has(s *search, v scene) bool {
	m.name(s, v)
	_, ok := m.failed[string(m.key)]
	return ok
}

func (m *memo) put(s *search, v scene) {
	if len(m.failed) >= MemoMost {
		return
	}
	if m.failed == nil {
		m.failed = make(map[string]struct{})
	}
	m.name(s, v)
	m.failed[string(m.key)] = struct{}{}
}
