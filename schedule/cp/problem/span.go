package problem

// Overlap reports whether two footprints on one floor share any of it.
func Overlap(a, b Placed) bool {
	return a.X < b.X+b.W && b.X < a.X+a.W && a.Y < b.Y+b.D && b.Y < a.Y+a.D
}

// AnyOverlap reports whether one of the spans has a moment in [from, until).
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

// Holds reports whether a moment is in the span.
func (a Span) Holds(t int) bool { return a.From <= t && t < a.Until }
