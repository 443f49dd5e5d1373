package shelf

// Prove answers as Fit does, by the proof search alone: no quick dives before
// it, so that its bounds and its memory are at work from the first row on.
func Prove(floor Rect, fixed []Placed, boxes []Rect, budget int64) ([]Placed, Answer) {
	var s search
	s.budget = budget
	a := atOnce(floor, boxes)
	if a == Unknown {
		a = s.prepare(floor, fixed, boxes)
	}
	if a == Unknown {
		s.sort()
		a = s.prove()
	}
	if a == Yes {
		return s.places(), a
	}
	return nil, a
}

// String gives the answer as a word.
func (a Answer) String() string {
	switch a {
	case No:
		return "no"
	case Yes:
		return "yes"
	case Unknown:
		return "unknown"
	}
	return "answer?"
}
