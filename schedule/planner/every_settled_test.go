package planner_test

import (
	"math/rand/v2"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// What the earlier plan told counts where it is otherwise. The listing reads the contract for itself:
// every way has its count for each batch of the earlier plan that it may be, and every way of giving
// ids is tried.

// everyUnrest is stages moved within the settled time, and points of bother of those told for later.
type everyUnrest struct {
	moved  int
	bother int64
}

// everyTold is what the earlier plan told.
type everyTold struct {
	until  resources.Moment  // of the settled time; 0 for none
	may    []*schedule.Batch // batches that have not begun: each may be one new batch, or none
	undone []everyUnrest     // what each of them counts that is none
	always everyUnrest       // of those that can be none
}

func (e *everyWorld) listTold() (t everyTold) {
	if e.p.Earlier == nil || e.p.Kitchen.Settled == 0 {
		return t
	}
	t.until = e.from.Add(e.p.Kitchen.Settled)
	for i := range e.p.Earlier.Batches {
		b := &e.p.Earlier.Batches[i]
		under := slices.ContainsFunc(e.under, func(u everyBegun) bool { return u.ID == b.ID })
		if under || slices.Contains(e.p.Lost, b.ID) {
			continue
		}
		began := b.Begun || b.Stages[0].Start < e.from
		if e.p.Lived != nil { // one of which the record shows that it never began is planned anew
			began = e.p.HasBegun(b.ID)
		}
		if u := e.unrest(t.until, b, nil, nil, 0); began {
			t.always = everyUnrest{t.always.moved + u.moved, t.always.bother + u.bother}
		} else {
			t.may, t.undone = append(t.may, b), append(t.undone, u)
		}
	}
	return t
}

// unrest counts the stages of a batch of the earlier plan, nil for none, and of a way, nil for none, of which
// so many stages have begun: one whose work begins in the settled time by either, and is not the same in
// both, is moved; one whose work the earlier plan had later, and is not the same, costs 3 otherwise. What
// somebody has taken on since counts one more unless they do it, and by whom else it is told plays no part.
func (e *everyWorld) unrest(until resources.Moment, old *schedule.Batch, r *schedule.Recipe, w *everyWay, begun int) (u everyUnrest) {
	type work struct {
		at  resources.Moment
		who string
	}
	was, is, out := map[string]work{}, map[string]work{}, map[string]bool{}
	taken := map[string]string{}
	var names []string
	if old != nil {
		for _, t := range old.Stages {
			names = append(names, t.Stage)
			if out[t.Stage] = t.Start < e.from; t.Work > 0 {
				was[t.Stage] = work{t.Start, t.Who}
				for _, x := range e.p.TakenOn {
					if x.Batch == old.ID && x.Stage == t.Stage {
						taken[t.Stage] = x.Who
					}
				}
			}
		}
	}
	if w != nil {
		for k := range w.starts {
			name := r.Stages[k].Name
			if !slices.Contains(names, name) {
				names = append(names, name)
			}
			if out[name] = out[name] || k < begun; w.works[k] > 0 {
				is[name] = work{w.starts[k], e.p.Kitchen.People[w.who[k]].Name}
			}
		}
	}
	for _, name := range names {
		a, had := was[name]
		b, has := is[name]
		who := taken[name]
		if who != "" && !(w != nil && begun > 0 && slices.IndexFunc(r.Stages, func(s schedule.Stage) bool { return s.Name == name }) < begun) && b.who != who {
			u.moved++
		}
		if out[name] || had == has && (a == b || who != "" && a.at == b.at) {
			continue
		}
		if had && a.at < until || has && b.at < until {
			u.moved++
		} else if had {
			u.bother += 3
		}
	}
	return u
}

// countTold gives every way its count for what it is: that of a batch under way, of a new one, and
// of each of the earlier plan's that it may be.
func (e *everyPlan) countTold() {
	if e.told.until == 0 {
		return
	}
	for i := range e.kinds {
		k := &e.kinds[i]
		for n := range k.ways {
			w := &k.ways[n]
			switch {
			case k.slot >= len(e.under):
				w.unrest = []everyUnrest{{}} // stock
			case k.slot >= 0:
				u := &e.under[k.slot]
				w.unrest = []everyUnrest{e.unrest(e.told.until, e.inPlanBefore(u.ID), e.p.Recipe(u.Cheese), w, len(e.begunLister(u).fixed))}
			default:
				r := &e.p.Recipes[k.recipe]
				w.unrest = []everyUnrest{e.unrest(e.told.until, nil, r, w, 0)}
				for _, b := range e.told.may {
					if b.Cheese == r.Name {
						w.unrest = append(w.unrest, e.unrest(e.told.until, b, r, w, 0))
					} else {
						w.unrest = append(w.unrest, everyUnrest{})
					}
				}
			}
		}
		k.calm = slices.MinFunc(k.ways, func(a, b everyWay) int { return a.calmest() - b.calmest() }).calmest()
		slices.SortStableFunc(k.ways, func(a, b everyWay) int { return a.calmest() - b.calmest() })
	}
}

// calmest is the fewest stages that a way can count as moved.
func (w everyWay) calmest() int {
	return slices.MinFunc(w.unrest, func(a, b everyUnrest) int { return a.moved - b.moved }).moved
}

// ids calls with each batch of the earlier plan that the i-th kind's way may be, -1 for none, and what that
// counts.
func (e *everyPlan) ids(k *everyKind, w *everyWay, is func(of int, u everyUnrest)) {
	if e.told.until == 0 {
		is(-1, everyUnrest{})
		return
	}
	is(-1, w.unrest[0])
	if k.slot >= 0 {
		return
	}
	for x, b := range e.told.may {
		if !e.used[x] && b.Cheese == e.p.Recipes[k.recipe].Name {
			e.used[x] = true
			is(x, w.unrest[1+x])
			e.used[x] = false
		}
	}
}

// unkept is what batches of the earlier plan count that are none.
func (e *everyPlan) unkept() everyUnrest {
	out := e.told.always
	for x, u := range e.told.undone {
		if !e.used[x] {
			out = everyUnrest{out.moved + u.moved, out.bother + u.bother}
		}
	}
	return out
}

// settle says for how long nothing is to be moved without need, and, where it is asked for, changes
// something since the earlier plan was made. It has dice of its own, so that nothing else that is drawn
// goes by it.
func settle(seed uint64, number int, p *schedule.Problem, change bool) {
	d := &dice{Rand: rand.New(rand.NewPCG(seed, uint64(number)+7)), tight: sides, p: p}
	p.Kitchen.Settled = minutes(60 * oneOf(d, 0, 2, 5, 12, 24, 36, 48, 96))
	if !change {
		return
	}
	p.Targets = slices.Clone(p.Targets)
	t := &p.Targets[d.IntN(len(p.Targets))]
	t.Wants = slices.Clone(t.Wants)
	w := &t.Wants[d.IntN(len(t.Wants))]
	p.Kitchen = p.Kitchen.Clone()
	switch d.n(0, 5) {
	case 0:
		w.Pieces += d.n(1, 3)
	case 1:
		w.Pieces = max(1, w.Pieces-d.n(1, 3))
	case 2:
		t.By = t.By.Add(p.Kitchen.Step * resources.Minutes(d.n(-6, 6)))
	case 3:
		x := &p.Kitchen.People[d.IntN(len(p.Kitchen.People))]
		x.Away = append(slices.Clone(x.Away), d.span(30))
	case 4:
		d.lose()
	case 5:
		var may []string
		for _, b := range p.Earlier.Batches {
			if !b.Begun && b.Stages[0].Start >= p.From {
				may = append(may, b.ID)
			}
		}
		if len(may) > 0 {
			p.Lost = []string{oneOf(d, may...)}
		}
	}
}
