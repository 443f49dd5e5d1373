package judge

import (
	"ripeby/resources"
	"ripeby/schedule"
)

// past is what has happened to one begun batch: of begun.yaml, or carried over
// from the earlier plan.
type past struct {
	id, cheese string
	litres     resources.Millilitres
	pieces     int // what is left of it, or was made
	gone       int // of these, what has left for targets
	made       int // how many there were at first, where that is another number
	left       []schedule.LeftShare
	stages     []pastStage
	pot, at    string // as the maker wrote them; "" when not
	carried    bool
	optional   bool // stock may or may not stand for it: packed at midnight
}

// pastStage is one stage that has begun. Where its work has two readings, both
// are given.
type pastStage struct {
	start       resources.Moment
	work, other resources.Minutes
}

// allPasts lists the begun batches that the plan must hold, in a fixed order.
func (h *hearing) allPasts() []*past {
	var out []*past
	known := map[string]bool{}
	for _, id := range h.problem.Lost {
		known[id] = true
	}
	for i := range h.problem.Begun {
		b := &h.problem.Begun[i]
		known[b.ID] = true
		if x := h.written(b); x != nil {
			out = append(out, x)
		}
	}
	went := h.problem.Went()
	if went == nil {
		return out
	}
	for i := range went.Batches {
		b := &went.Batches[i]
		if known[b.ID] || len(b.Stages) == 0 || b.Stages[0].Start >= h.from {
			continue
		}
		if x := h.carried(b); x != nil {
			out = append(out, x)
		}
	}
	return out
}

// written is the past of a batch of begun.yaml; nil when its cheese is unknown.
func (h *hearing) written(b *schedule.Begun) *past {
	r := h.problem.Recipe(b.Cheese)
	if r == nil {
		return nil
	}
	x := &past{id: b.ID, cheese: b.Cheese, litres: b.Litres, pieces: b.Pieces, pot: b.Pot, at: b.At}
	if x.pieces < 0 {
		x.pieces = made(r, b.Litres)
	}
	starts := map[string]resources.Moment{}
	for _, s := range b.Stages {
		starts[s.Stage] = s.Start
	}
	for i := range r.Stages {
		start, known := starts[r.Stages[i].Name]
		if !known {
			if start, known = h.atOnce(r, x, i); !known {
				break
			}
		}
		w := workLength(r, i, x.litres, x.pieces, h.step)
		x.stages = append(x.stages, pastStage{start, w, w})
	}
	return x
}

// atOnce gives the start of a stage without work that followed stage i-1 at once,
// if it has begun: nobody would write it down.
func (h *hearing) atOnce(r *schedule.Recipe, x *past, i int) (resources.Moment, bool) {
	if i == 0 || i != len(x.stages) || workLength(r, i, x.litres, x.pieces, h.step) > 0 {
		return 0, false
	}
	if _, most := limits(r, i-1, h.step); most > 0 {
		return 0, false
	}
	before := x.stages[i-1]
	done := before.start.Add(before.work)
	return done, done <= h.from
}

// carried is the past of a batch of the earlier plan; nil when it is over, when
// stock stands for it, or when its cheese is unknown.
func (h *hearing) carried(b *schedule.Batch) *past {
	r := h.problem.RecipeOf(b.ID, b.Cheese)
	if r == nil {
		return nil
	}
	x := &past{id: b.ID, cheese: b.Cheese, litres: b.Litres, pieces: b.Pieces, gone: b.Gone, made: b.Made, carried: true}
	x.left = append(x.left, b.Left...)
	for _, s := range b.For {
		if s.By < h.from {
			x.gone += s.Pieces
			x.left = append(x.left, schedule.LeftShare{Target: s.Target, By: s.By, Want: s.Want, Planned: s.Pieces, Pieces: s.Pieces})
		}
	}
	for i := range r.Stages {
		other := workLength(r, i, x.litres, x.pieces, h.step)
		if i < len(b.Stages) && b.Stages[i].Start < h.from {
			x.stages = append(x.stages, pastStage{b.Stages[i].Start, b.Stages[i].Work, other})
			continue
		}
		start, begun := h.atOnce(r, x, i)
		if !begun {
			return x
		}
		x.stages = append(x.stages, pastStage{start, other, other})
	}
	packing := x.stages[len(x.stages)-1]
	packed := packing.start.Add(packing.work)
	keeps := r.Keeps
	if r.Stages[len(r.Stages)-1].Hold != nil {
		_, most := limits(r, len(r.Stages)-1, h.step)
		keeps = min(keeps, most)
	}
	switch {
	case packed.Add(keeps) < h.from:
		return nil
	case packed <= h.from && h.stockStandsFor(x, packing.start, packed):
		return nil
	case sellable(r, x.litres, x.pieces)-x.gone <= 0:
		h.over = append(h.over, soldOut{b, x})
		return nil
	}
	return x
}

// stockStandsFor reports whether a stock entry was packed on the day on which the
// batch was. Packing that crosses midnight has two days; stock of the first leaves
// it open whether it is the same cheese.
func (h *hearing) stockStandsFor(x *past, start, packed resources.Moment) bool {
	for _, s := range h.problem.Stock {
		if s.Cheese != x.cheese {
			continue
		}
		switch dayIn(s.Packed, h.zone) {
		case dayIn(packed, h.zone):
			return true
		case dayIn(start, h.zone):
			x.optional = true
		}
	}
	return false
}
