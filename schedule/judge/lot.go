package judge

import (
	"ripeby/resources"
	"ripeby/schedule"
)

// lot is a batch of the plan with its recipe and what has happened to it.
type lot struct {
	batch   *schedule.Batch
	recipe  *schedule.Recipe // nil when the cheese is unknown; holds as the room has them by the plan
	written *schedule.Recipe // the same with holds as they are written
	past    *past            // nil for a new batch
	begun   int              // how many stages have begun, the first ones
	stuck   bool             // no later stage is possible: only begun stages are there
	sound   bool             // the stages are the recipe's, so that rules about stages apply
}

func (h *hearing) newLot(b *schedule.Batch) *lot {
	l := &lot{batch: b, written: h.problem.RecipeOf(b.ID, b.Cheese)}
	l.recipe = h.warmedAsPlanned(l.written, b)
	for _, past := range h.pasts {
		if past.id == b.ID {
			l.past = past
			l.begun = len(past.stages)
		}
	}
	if l.recipe == nil || len(l.recipe.Stages) == 0 || l.changed() {
		return l
	}
	want := len(l.recipe.Stages)
	if l.past != nil && l.begun < want && len(b.Stages) == l.begun && h.plan.Warned("begun-stuck", b.ID) {
		l.stuck = true
		want = l.begun
	}
	l.sound = len(b.Stages) == want && want > 0
	for i := 0; l.sound && i < want; i++ {
		l.sound = b.Stages[i].Stage == l.recipe.Stages[i].Name
	}
	return l
}

// changed reports whether a begun batch has become another cheese, so that no rule
// about its stages makes sense.
func (l *lot) changed() bool { return l.past != nil && l.past.cheese != l.batch.Cheese }

// planned reports whether stage i is still to come.
func (l *lot) planned(i int) bool { return i >= l.begun }

// last reports whether i is the recipe's last stage.
func (l *lot) last(i int) bool { return i == len(l.recipe.Stages)-1 }

// ends is when the batch leaves the kitchen; a stuck one never does.
func (l *lot) ends() resources.Moment { return l.batch.Stages[len(l.batch.Stages)-1].Ends }

// packed is when the packing work is done. Only for sound lots that are not stuck.
func (l *lot) packed() resources.Moment {
	t := &l.batch.Stages[len(l.batch.Stages)-1]
	return t.Start.Add(t.Work)
}

// work is the span of the work of stage i, hold the span after it.
func (l *lot) work(i int) resources.Span {
	t := &l.batch.Stages[i]
	return resources.Span{From: t.Start, Until: t.Start.Add(t.Work)}
}

func (l *lot) hold(i int) resources.Span {
	t := &l.batch.Stages[i]
	return resources.Span{From: t.Start.Add(t.Work), Until: t.Ends}
}

// boxing is what stage i packs the pieces into; nil when it uses no box.
func (l *lot) boxing(i int) *schedule.Boxing { return boxingOf(l.recipe, i) }

func boxingOf(r *schedule.Recipe, i int) *schedule.Boxing {
	for _, u := range r.Stages[i].Uses {
		if u.Kind == schedule.UseBox {
			if r.Stages[i].Box != nil {
				return r.Stages[i].Box
			}
			return r.Box
		}
	}
	return nil
}

// boxes is how many boxes stage i fills.
func (l *lot) boxes(i int) int {
	if b := l.boxing(i); b != nil {
		return ceilDiv(l.batch.Pieces, b.Takes)
	}
	return 0
}

// limits gives the least and most of stage i's hold, rounded inward to the grid;
// 0 and 0 where no hold is written.
func limits(r *schedule.Recipe, i int, step resources.Minutes) (least, most resources.Minutes) {
	w := r.Stages[i].Hold
	if w == nil {
		return 0, 0
	}
	if w.AsIs { // a look found that it lasts so long
		return w.Least, max(w.Least, w.Most/step*step)
	}
	return (w.Least + step - 1) / step * step, w.Most / step * step
}

// workLength gives the hands-on minutes of stage i for so much milk and so many
// pieces, rounded up to the grid. All figures are whole millionths of a minute, so
// it is exact.
func workLength(r *schedule.Recipe, i int, litres resources.Millilitres, pieces int, step resources.Minutes) resources.Minutes {
	w := r.Stages[i].Hands
	if w == nil {
		return 0
	}
	millionths := int64(w.Fixed)*1000 + int64(w.PerLitre)*int64(litres) + int64(w.PerPiece)*1000*int64(pieces)
	unit := int64(step) * 1_000_000
	return resources.Minutes((millionths + unit - 1) / unit * int64(step))
}

// workOf is the work of stage i of a batch by its recipe, whatever the plan says.
func (h *hearing) workOf(l *lot, i int) resources.Minutes {
	return workLength(l.recipe, i, l.batch.Litres, l.batch.Pieces, h.step)
}

// made is how many pieces so much milk gives.
func made(r *schedule.Recipe, litres resources.Millilitres) int {
	if r.Yield.From <= 0 {
		return 0
	}
	return int(int64(litres) * int64(r.Yield.Pieces) / int64(r.Yield.From))
}

// ceilDiv is a/b rounded up; a when b says nothing.
func ceilDiv(a, b int) int {
	if b <= 0 {
		return a
	}
	return (a + b - 1) / b
}
