package problem

func Overlap(a, b Placed) bool {
	return a.X < b.X+b.W && b.X < a.X+a.W && a.Y < b.Y+b.D && b.Y < a.Y+a.D
}

func AnyOverlap(spans []Span, from, until int) bool {
	for _, c := range spans {
		if c.From < until && from < c.Until {
			return true
		}
	}
	return false
}

// Always is a stretch without ends.
func Always() Span { return Span{-Infinite, Infinite} }

func (a Span) Holds(t int) bool { return a.From <= t && t < a.Until }
