package planner_test

import (
	"cmp"
	"fmt"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// plan writes the best plan out, so that the judge can hear it.
func (e *everyPlan) plan() *schedule.Plan {
	k := &e.p.Kitchen
	out := &schedule.Plan{Kitchen: k.Name, TimeZone: k.TimeZone, From: e.from, Outcome: schedule.Met, Score: inTenths(e.best.Score),
		Proof: schedule.Proof{Best: true, Level: schedule.LevelAll, Bound: inTenths(e.best.Score)}}
	out.Past = e.past
	shares := shareOut(e.wants, e.givers(e.set)).sharesOf(len(e.set), e.wants, e.p.Targets)
	last := e.p.NumbersGiven()
	for i, w := range e.ways {
		kind := &e.kinds[e.set[i]]
		switch {
		case kind.slot >= len(e.under):
			s := &e.p.Stock[kind.slot-len(e.under)]
			use := schedule.StockUse{Cheese: s.Cheese, Pieces: s.Pieces, Packed: s.Packed, At: s.At, Ends: w.leaves(), For: shares[i]}
			if s.At != "room" && w.leaves() >= e.from {
				use.BoxesAt = e.boxesAt(i, 0, s.At, s.Boxes)
			}
			if x := e.sitter(-1, kind.slot-len(e.under)); x != nil && x.homeless {
				warn(out, "boxes-do-not-fit", s.Cheese)
			}
			e.carryStock(out, i, &use, e.sitter(-1, kind.slot-len(e.under)))
			out.Stock = append(out.Stock, use)
		case kind.slot >= 0:
			begun := &e.under[kind.slot]
			b := e.batch(i, e.begunLister(begun), begun.ID, shares[i])
			if begun.carried && e.p.Lived != nil {
				b.Lot, b.Made = begun.earlier.Lot, begun.earlier.Made
			}
			b.Left = begun.left
			if b.Gone = begun.gone; w.stuck {
				warn(out, "begun-stuck", b.ID)
			} else if e.overruns(&b) {
				warn(out, "hold-overrun", b.ID)
			}
			if at := &b.Stages[len(e.begunLister(begun).fixed)-1]; at.At != "room" && at.Hold > 0 && at.BoxesAt == nil {
				warn(out, "boxes-do-not-fit", b.ID)
			}
			e.carryBatch(out, i, &b, e.sitter(kind.slot, -1), w.stuck)
			out.Batches = append(out.Batches, b)
		default:
			l := &lister{everyWorld: e.everyWorld, r: &e.p.Recipes[kind.recipe], litres: kind.litres}
			l.pieces = int(int64(l.litres) * int64(l.r.Yield.Pieces) / int64(l.r.Yield.From))
			if e.as[i] >= 0 {
				last.Note(e.told.may[e.as[i]].ID)
				out.Batches = append(out.Batches, e.batch(i, l, e.told.may[e.as[i]].ID, shares[i]))
				continue
			}
			date := w.starts[0].DateIn(k.Zone)
			stem := fmt.Sprintf("%s-%02d%02d%02d", l.r.Code, date.Year%100, date.Month, date.Day)
			out.Batches = append(out.Batches, e.batch(i, l, last.Next(stem), shares[i]))
		}
	}
	for i := range out.Batches {
		if e.begunOutside(&out.Batches[i]) {
			warn(out, "room-outside", out.Batches[i].ID)
		}
	}
	out.LastNumber = last.List()
	out.Looks, out.BegunAsOf = e.p.LooksOf(out), e.p.BegunAsOf
	slices.SortStableFunc(out.Carries, func(a, b schedule.Carry) int {
		return cmp.Or(cmp.Compare(a.Stock, b.Stock), cmp.Compare(a.Batch, b.Batch))
	})
	e.results(out, shares)
	e.warnUnused(out)
	out.Changes = e.p.Changes(out)
	e.p.MarkOverdue(out)
	for i := range out.Changes {
		out.Changes[i].Because = "said by nobody"
	}
	return out
}

// warn says something of a batch.
func warn(plan *schedule.Plan, code, id string) {
	plan.Warnings = append(plan.Warnings, schedule.Warning{Code: code, Text: "Look at " + id + "."})
}

// overruns reports whether a hold of what has begun, running or to come, is past its most.
func (e *everyPlan) overruns(b *schedule.Batch) bool {
	r := e.p.RecipeOf(b.ID, b.Cheese)
	for i := range len(b.Stages) - 1 {
		t := &b.Stages[i]
		_, most := e.limits(e.warm(r.Stages[i].Hold, t.Start.Add(t.Work)))
		if !b.Stages[i+1].Begun && t.Hold > most {
			return true
		}
	}
	return false
}

// results tells how far each want is met.
func (e *everyPlan) results(out *schedule.Plan, shares [][]schedule.Share) {
	for _, w := range e.wants {
		t := &e.p.Targets[w.target]
		r := schedule.WantResult{Target: t.Name, By: w.by, Want: w.place, Cheese: w.Cheese, Price: w.Price, Promised: w.Promised, Wanted: w.Pieces}
		for _, s := range slices.Concat(shares...) {
			if s.Target == t.Name && s.By == w.by && s.Want == w.place {
				r.Met += s.Pieces
			}
		}
		if r.Short = r.Wanted - r.Met; r.Short > 0 {
			r.Because, out.Outcome = "there is no more to be had", schedule.Short
		}
		out.Targets = append(out.Targets, r)
	}
}

// batch writes the i-th chosen way out.
func (e *everyPlan) batch(i int, l *lister, id string, shares []schedule.Share) schedule.Batch {
	w, r := e.ways[i], l.r
	b := schedule.Batch{ID: id, Cheese: r.Name, Litres: l.litres, Spare: r.Spare, Begun: l.begun != nil, Milk: w.draw, For: shares}
	b.Pieces, l.now = l.pieces, *w
	leaves := w.leaves()
	if n := len(w.starts) - 1; w.stuck { // the plan has to end somewhere
		leaves = max(e.last, w.starts[n].Add(w.works[n]), e.from).Add(resources.Day)
	}
	for k := range w.starts {
		t := schedule.Task{Stage: r.Stages[k].Name, Start: w.starts[k], Work: w.works[k], At: w.at[k], Begun: k < len(l.fixed),
			SlipFrom: w.starts[k], SlipUntil: w.starts[k], Revised: e.from, RevisedText: e.from, Ends: leaves}
		if k+1 < len(w.starts) {
			t.Ends = w.starts[k+1]
		}
		t.Hold = t.Ends.Sub(t.Start.Add(t.Work))
		if w.who[k] >= 0 {
			t.Who = e.p.Kitchen.People[w.who[k]].Name
		}
		if t.At != "room" && t.Hold > 0 && (k >= len(l.fixed)-1 || t.Ends > e.from) {
			t.BoxesAt = e.boxesAt(i, k, t.At, filled(boxingAt(r, k), l.pieces))
		}
		if was := e.stood(id).Stage(t.Stage); was != nil && t.Begun {
			t.Carried = was.Carried
		}
		e.revise(&t, id, k)
		b.Stages = append(b.Stages, t)
	}
	pots := w.pots
	for _, run := range everyRuns(r) {
		if run.first >= len(w.starts) {
			continue
		}
		name, count, clean := "", 1, resources.Minutes(0)
		if run.use.Kind == schedule.UsePot {
			name, pots = pots[0], pots[1:]
			for _, p := range e.p.Kitchen.Pots {
				if p.Name == name {
					clean = p.Clean
				}
			}
		} else {
			name, count, clean = l.owned(run)
		}
		c := l.claim(run, name, count, clean)
		until := min(c.until.Add(-clean), leaves)
		b.Stages[run.first].Uses = append(b.Stages[run.first].Uses, schedule.Occupied{Thing: name, Count: count, From: c.from,
			Until: until, CleanUntil: until.Add(clean)})
	}
	b.MarkCritical()
	return b
}

// revise counts how often a stage has changed.
func (e *everyPlan) revise(t *schedule.Task, id string, stage int) {
	if old := e.inPlanBefore(id); old != nil {
		was := &old.Stages[stage]
		t.Sequence, t.Revised = was.Sequence, was.Revised
		if was.Start != t.Start || was.Ends != t.Ends || was.At != t.At {
			t.Sequence, t.Revised = was.Sequence+1, e.from
		}
	}
}

// boxesAt lists where the boxes of the stay stand that the stage of the i-th chosen
// way belongs to; nil where they are, but do not stand.
func (e *everyPlan) boxesAt(i, stage int, place string, boxes int) []schedule.Standing {
	at := slices.IndexFunc(e.p.Kitchen.Cold, func(c resources.ColdPlace) bool { return c.Name == place })
	c := &e.p.Kitchen.Cold[at]
	var out []schedule.Standing
	if !c.Measured() {
		for range boxes {
			out = append(out, schedule.Standing{Place: place})
		}
		return out
	}
	var all []everyStay
	var empty []bool // nothing comes to a place that was kept free for it
	mine, here := -1, 0
	goes := func(w *everyWay, s everyStay) bool { // it is kept a place, and is not carried
		return s.carried > 0 && !slices.ContainsFunc(w.stays, func(o everyStay) bool { return o.carried == 0 && o.stage <= s.stage && o.until > s.carried }) &&
			!slices.ContainsFunc(w.claims, func(c everyClaim) bool {
				return e.things[c.thing].side == sideCold && !c.planned && c.from < s.carried && c.until > s.carried // where boxes are counted
			})
	}
	for n, w := range e.ways {
		for _, s := range w.stays {
			if s.place != at {
				continue
			}
			if n == i && s.stage <= stage {
				mine = here
			}
			all, empty = append(all, s), append(empty, goes(w, s))
			here++
		}
	}
	if mine < 0 {
		return nil // a stay that is over
	}
	piles, _ := e.bench.shelf.piles(all, at)
	for _, p := range piles {
		below := 0
		for _, o := range piles {
			x, y := &all[o.stay], &all[mine]
			first := x.from < y.from || x.from == y.from && o.stay < mine
			if o.shelf == p.shelf && o.square(p) && x.until > y.from && first && !empty[o.stay] {
				below += o.layers
			}
		}
		if p.stay == mine && below+p.layers > int(c.Shelves[p.shelf].Size.Height/e.p.Kitchen.Boxes[all[mine].box].Size.Height) {
			return nil // others that should have been gone are there
		}
		for layer := below + 1; p.stay == mine && layer <= below+p.layers; layer++ {
			out = append(out, schedule.Standing{Place: place, Shelf: c.Shelves[p.shelf].Name, X: p.x, Y: p.y, Width: p.w, Depth: p.d, Layer: layer})
		}
	}
	return out
}
