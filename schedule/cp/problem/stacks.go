package problem

// Layers is how many boxes of a kind stand on one another on each floor of a space.
func (m *Model) Layers(space, kind int) []int64 {
	out := make([]int64, len(m.Spaces[space].Floors))
	if h := m.Kinds[kind].Height; h > 0 {
		for i := range out {
			out[i] = m.Spaces[space].Floors[i].Height / h
		}
	}
	return out
}

// AreaOf is the floor that stacks stand on.
func AreaOf(stacks []Standing) int64 {
	sum := int64(0)
	for _, st := range stacks {
		sum += st.Place.W * st.Place.D
	}
	return sum
}

// Covers reports whether a footprint is at least as large as another, turned or not.
func (r Rect) Covers(o Rect) bool {
	return r.W >= o.W && r.D >= o.D || r.D >= o.W && r.W >= o.D
}

// GCD is the greatest number that divides both.
func GCD(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
