package problem

// Layers is how many boxes of a kind stand on one another on the highest floor.
func (m *Model) Layers(space, kind int) int64 {
	most := int64(0)
	if h := m.Kinds[kind].Height; h > 0 {
		for i := range m.Spaces[space].Floors {
			most = max(most, m.Spaces[space].Floors[i].Height/h)
		}
	}
	return most
}

// AreaOf is the floor that stacks stand on.
func AreaOf(stacks []Standing) int64 {
	sum := int64(0)
	for _, st := range stacks {
		sum += st.Place.W * st.Place.D
	}
	return sum
}

// StacksLike counts stacks at least as large as a box.
func StacksLike(stacks []Standing, box Rect) int64 {
	n := int64(0)
	for _, st := range stacks {
		if p := st.Place; p.W >= box.W && p.D >= box.D || p.D >= box.W && p.W >= box.D {
			n++
		}
	}
	return n
}

// GCD is the greatest number that divides both.
func GCD(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
