package trace

import (
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
	"ripeby/schedule/record"
)

// Balance is what became of all pieces of a batch:
//
//	Made = Gone + Took - Back + Left + Gap
//
// Gap is what nobody has accounted for; below 0 where more is accounted for than was made.
type Balance struct {
	Known bool // false where nobody knows how many were made: then only what was said is told
	Made  int  // the larger of the yield and the first count
	Gone  int  // said to be gone: eaten, broken, given, and what was lost with the batch
	Took  int  // left for targets
	Back  int  // came back of them
	Left  int  // by the last count and what was said since, else all that is not accounted for
	Gap   int
	// Counted is when pieces were last counted; 0 where nobody did.
	Counted resources.Moment
	Lost    bool
	// Where is where what is left stands; nil where nothing is left, or nobody knows.
	Where *Place
	// Weights is the same by weight; nil where nobody weighed.
	Weights *Weights
}

// balance works out what became of the pieces of a batch.
func (a *Archive) balance(s *source, leavings []Leaving) Balance {
	of := a.standing(s.entries).With(func(e *record.Entry) bool {
		return e.Subject.Kind == record.OfBatch || e.Subject.Kind == record.OfCheese
	})
	b := Balance{}
	b.Made, b.Known = made(s, of)
	for _, e := range of {
		b.Gone += e.Batch.Gone.Or(0)
		b.Lost = b.Lost || e.Batch.Lost
	}
	for _, l := range leavings {
		b.Took, b.Back = b.Took+l.Pieces, b.Back+l.Back
	}
	left, counted := here(s, of, leavings, b.Made, stillOpen)
	b.Counted = max(counted, 0)
	lost := 0
	if b.Lost = b.Lost || s.kept != nil && s.kept.Lost; b.Lost {
		lost, left = left, 0
	}
	b.Gone += lost
	if b.Left = left; b.Known {
		b.Gap = b.Made - b.Gone - b.Took + b.Back - b.Left
		b.Weights = a.weigh(s, of, leavings, &b, lost)
	}
	if b.Left > 0 {
		b.Where = a.where(s)
	}
	return b
}

// here is how many pieces of a batch were here at a moment, of so many that were made, by the last count
// before it and what was said since; and when that count was, -1 for none.
func here(s *source, of record.Entries, leavings []Leaving, made int, until resources.Moment) (left int, since resources.Moment) {
	of = of.With(func(e *record.Entry) bool { return e.At <= until })
	left = made
	count, since := counting(s, of)
	if since > until { // begun.yaml counted later than is asked
		since = -1
	}
	if since >= 0 {
		left = count.Pieces
	}
	counted, gone := of.Pieces()
	switch {
	case since < 0 || counted != nil && counted.At >= since:
		left -= gone
	default: // begun.yaml counted later
		for _, e := range of {
			if e.At > since {
				left -= e.Batch.Gone.Or(0)
			}
		}
	}
	for _, l := range leavings {
		if l.By > since && l.By <= until {
			left -= l.Pieces
		}
		if l.BackBy != nil && l.BackBy.At > since && l.BackBy.At <= until {
			left += l.Back
		}
	}
	return max(left, 0), since
}

// made is how many pieces were made, by the litres that were said last; of what only the record knows
// the first count.
func made(s *source, of record.Entries) (pieces int, known bool) {
	first, counted := of.FirstCount()
	if s.kept == nil {
		return first, counted
	}
	return needs.Made(s.kept, of.Litres(s.kept.Litres), first), true
}

// counting is the last count of a batch, by the record or by begun.yaml; since is -1 where nobody
// counted.
func counting(s *source, of record.Entries) (c schedule.Count, since resources.Moment) {
	since = -1
	if s.kept != nil && s.kept.Counted != nil {
		c, since = *s.kept.Counted, s.kept.Counted.At
	}
	if e, _ := of.Pieces(); e != nil && e.At >= since {
		c, since = schedule.Count{Pieces: e.Batch.Pieces.Value, At: e.At}, e.At
	}
	return c, since
}
