package trace

import (
	"math"

	"ripeby/resources"
	"ripeby/schedule/record"
)

// Weights is what became of a batch by weight:
//
//	Made = Gone + Took - Back + Left + Gap
//
// Made is what it weighed when it was first weighed, with what had left before; Left what is left by the
// last weighing. What left in between is taken to weigh what its pieces did when they were last weighed
// before, so the water that a cheese loses is in the gap. All is in whole grams.
type Weights struct {
	Made, Gone, Took, Back, Left, Gap resources.Milligrams
	// First and Last are the weighings that this goes by: those from packing on, else the last alone, for
	// before that there is whey in what is weighed.
	First, Last *record.Entry
	// Pieces is how many there were when it was last weighed.
	Pieces int
}

// weighing is what so many pieces weighed.
type weighing struct {
	by     *record.Entry
	pieces int
}

// each is what one piece weighed, in milligrams.
func (w weighing) each() float64 { return float64(w.by.Batch.Weight.Value) / float64(w.pieces) }

// weigh works out the balance by weight; nil where nobody weighed. lost is how many pieces were lost with the
// batch.
func (a *Archive) weigh(s *source, of record.Entries, leavings []Leaving, b *Balance, lost int) *Weights {
	all := a.weighings(s, of, leavings, b.Made)
	if len(all) == 0 {
		return nil
	}
	first, last := all[0], all[len(all)-1]
	each := func(at resources.Moment) float64 {
		w := first
		for _, x := range all {
			if x.by.At <= at {
				w = x
			}
		}
		return w.each()
	}
	made, gone := float64(first.by.Batch.Weight.Value), float64(lost)*last.each()
	took, back := 0.0, 0.0
	flow := func(to *float64, at resources.Moment, pieces int, out float64) {
		mass := float64(pieces) * each(at)
		*to += mass
		if at <= first.by.At {
			made += out * mass
		}
	}
	for _, e := range of {
		flow(&gone, e.At, e.Batch.Gone.Or(0), 1)
	}
	for _, l := range leavings {
		flow(&took, l.By, l.Pieces, 1)
		if l.BackBy != nil {
			flow(&back, l.BackBy.At, l.Back, -1)
		}
	}
	left := float64(b.Left) * last.each()
	w := &Weights{Made: grams(made), Gone: grams(gone), Took: grams(took), Back: grams(back), Left: grams(left),
		First: first.by, Last: last.by, Pieces: last.pieces}
	// Grams are rounded one by one: what that leaves over is in the gap only where there is one.
	if w.Gap = grams(made - gone - took + back - left); w.Left > 0 {
		w.Left = w.Made - w.Gone - w.Took + w.Back - w.Gap
	} else {
		w.Gap = w.Made - w.Gone - w.Took + w.Back
	}
	return w
}

// weighings are those from packing on, else the last alone, each with the pieces that there were then; in
// the order of moments.
func (a *Archive) weighings(s *source, of record.Entries, leavings []Leaving, made int) (all []weighing) {
	var packed resources.Moment
	if stages := a.stages(s); s.kept != nil && len(stages) > 0 && stages[len(stages)-1].Known != Planned {
		packed = stages[len(stages)-1].Start
	}
	var before *weighing
	for _, e := range of.With(func(e *record.Entry) bool { return e.Batch.Weight.Value > 0 }).ByTime() {
		pieces, _ := here(s, of, leavings, made, e.At)
		w := weighing{e, pieces}
		switch {
		case pieces == 0:
		case packed > 0 && e.At >= packed:
			all = append(all, w)
		default:
			before = &w
		}
	}
	if len(all) == 0 && before != nil {
		all = append(all, *before)
	}
	return all
}

// gram is how fine weights are told.
const gram = 1000 // milligrams

// grams rounds to whole grams.
func grams(milligrams float64) resources.Milligrams {
	return resources.Milligrams(math.Round(milligrams/gram)) * gram
}
