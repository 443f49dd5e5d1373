package problem

// Stacking is what boxes of a kind may stand on.
type Stacking int

// The ways. Boxes that stand on any of their kind share a spot: at each moment it holds boxes of
// as many stays as are there, no more than its floor is high for.
const (
	OnKind Stacking = iota // boxes of their kind
	OnStay                 // boxes of their own stay
	OnNone                 // the floor alone
)

// Layers is how many boxes of a kind stand on one another on each floor of a space.
func (m *Model) Layers(space, kind int) []int64 {
	out := make([]int64, len(m.Spaces[space].Floors))
	for i := range out {
		out[i] = m.Kinds[kind].High(&m.Spaces[space].Floors[i])
	}
	return out
}

// High is how many boxes of a kind stand on one another on a floor.
func (k *Kind) High(floor *Floor) int64 {
	switch {
	case k.Height <= 0 || k.Height > floor.Height:
		return 0
	case k.Stack == OnNone:
		return 1
	}
	return floor.Height / k.Height
}

// Shares reports whether stays share spots for a kind on a floor.
func (k *Kind) Shares(floor *Floor) bool { return k.Stack == OnKind && k.High(floor) > 1 }

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
