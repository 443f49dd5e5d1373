package planner

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp"
	"ripeby/schedule/cp/problem"
)

// What stands where it is closed, or will be, is carried elsewhere, before anything new is planned:
// each batch or entry of stock whole, batches by id and then stock as it is listed, to the first
// listed place that takes it beside what stands there. Where it goes, who carries it and when follows
// from what is, never from the plan:
//
//	fridge   ████████│× × × closed × × ×│
//	cave             │██████████████████████
//	Nell     ─ make ─│─ round ─│carry│────
//
// Where the place is closed already, the engine has the cheese in the new one. Where it will be, the
// engine has it where it is for as long as it is there, and the new place kept free from the closing
// on for as long as it may be needed.

// carryLong is how long a carry takes, and carryWithin how far ahead somebody's hours are sought.
const (
	carryLong   = resources.Minutes(5)
	carryWithin = 21 * resources.Day
)

// carried is cheese that is carried, or that nothing takes (no who).
type carried struct {
	shut
	schedule.Carry
	to   problem.StayPlace
	kept int // in the model: the stock that keeps a new place free
}

// addCarries finds what is to be carried.
func (pl *Stated) addCarries() {
	if !slices.ContainsFunc(pl.p.Kitchen.Cold, hasClosings) {
		return
	}
	now := cp.StandNow(pl.model)
	standing := pl.standingNow(now)
	for _, x := range standing {
		now.Put(x.boxes(pl), x.at)
	}
	var free [][]resources.Span
	for i := range standing {
		x := &standing[i]
		if !pl.findClosing(x) {
			pl.keepOnOpen(x)
			continue
		}
		if free == nil {
			free = pl.freeToCarry()
		}
		long := resources.CeilLength(carryLong, pl.clock.step)
		who, start := earliestFree(free, x.moved, long, pl.clock.step)
		if who < 0 || start >= x.closed.Until {
			continue // nobody is there before it is open again
		}
		c := carried{shut: *x}
		if !x.isLater() {
			now.Take(x.boxes(pl), x.at)
		}
		c.to = pl.roomFor(x, now)
		switch {
		case c.to.Space < 0 && !x.isLater():
			now.Put(x.boxes(pl), x.at)
		case c.to.Space >= 0:
			now.Put(x.boxesFrom(pl, x.moved), c.to)
			c.Carry = pl.carryOf(x, c.to, who, start, long)
			free[who] = resources.Subtract(free[who], []resources.Span{{From: c.Start, Until: c.Ends()}})
		}
		pl.carries = append(pl.carries, c)
	}
	pl.standElsewhere()
	pl.pin(now)
}

// keepOnOpen has boxes of which nobody knows the shelf stay on those on which they were found to
// stand, where others of the place close: nothing new pushes them there.
func (pl *Stated) keepOnOpen(x *shut) {
	closes := func(s resources.Shelf) bool {
		return slices.ContainsFunc(s.Taken, resources.Span{From: x.since, Until: max(x.until, x.since+1)}.Overlaps)
	}
	if !slices.ContainsFunc(pl.p.Kitchen.Cold[x.at.Space].Shelves, closes) {
		return
	}
	pl.prefer(x, x.at.Stacks)
}

// prefer has cheese that stands in the cold keep the spots where it does, or come to some.
func (pl *Stated) prefer(x *shut, spots []problem.Standing) {
	if x.u != nil {
		pl.model.Begun[x.begun].Prefer = spots
	} else {
		pl.model.Stocks[x.stock].Prefer = spots
	}
}

// roomFor is the first listed place that takes cheese that is carried: one that is open for as long
// as it may stand there, else one that is open when it comes. No space where there is none.
func (pl *Stated) roomFor(x *shut, now *cp.Now) problem.StayPlace {
	b := x.boxesFrom(pl, x.moved)
	for _, open := range []problem.Span{x.open(pl), {From: b.From, Until: b.From + 1}} {
		for _, space := range x.places {
			if at, ok := now.Room(b, space, x.prefer, open); ok {
				return at
			}
		}
	}
	return problem.StayPlace{Space: -1}
}

// carryOf is a carry that has a place, a person and a moment.
func (pl *Stated) carryOf(x *shut, to problem.StayPlace, who int, start resources.Moment, long resources.Minutes) schedule.Carry {
	k := &pl.p.Kitchen
	c := schedule.Carry{Stock: -1, Start: start, Minutes: long, Who: k.People[who].Name, Since: x.moved,
		From: k.Cold[x.at.Space].Name, To: k.Cold[to.Space].Name}
	if x.u != nil {
		c.Batch, c.Stage = x.u.id, x.u.recipe.Stages[len(x.u.starts)-1].Name
	} else {
		c.Stock = x.entry
	}
	return c
}

// standElsewhere has the engine know what is carried, and the person busy. Which spots it takes in the
// new place is the engine's to say, but where the plan before had it carried there already, or where
// shelves close. What is closed with its shelf alone stays on that until then.
func (pl *Stated) standElsewhere() {
	for i := range pl.carries {
		c := &pl.carries[i]
		if c.shelf && (!c.isMade() || c.isLater()) {
			pl.prefer(&c.shut, c.at.Stacks)
		}
		if !c.isMade() {
			continue
		}
		if c.u != nil {
			c.u.moves = true
		}
		var spots []problem.Standing
		if slices.Equal(c.to.Stacks, c.prefer) || shelvesClose(pl.p.Kitchen.Cold[c.to.Space]) {
			spots = c.to.Stacks
		}
		w := &pl.model.Workers[pl.p.Kitchen.PersonNumber(c.Who)]
		w.Windows = pl.without(w.Windows, resources.Span{From: c.Start, Until: c.Ends()})
		switch {
		case c.isLater():
			b := c.boxesFrom(pl, c.moved)
			c.kept = len(pl.model.Stocks)
			pl.model.Stocks = append(pl.model.Stocks, problem.Stock{Family: c.family, Ready: problem.Infinite, Space: c.to.Space, Kind: b.Kind, Boxes: b.Boxes,
				Pool: -1, Prefer: spots, Since: b.From, Keep: b.Until})
		case c.u == nil:
			pl.model.Stocks[c.stock].Space = c.to.Space
			pl.prefer(&c.shut, spots)
		default:
			b := &pl.model.Begun[c.begun]
			b.Homes[b.RunningStay()] = c.to.Space
			c.u.to = c.To
			pl.prefer(&c.shut, spots)
		}
	}
}

// pin has all that stands now keep the spots beside which room was found, where the engine by itself
// would find no place for some.
func (pl *Stated) pin(now *cp.Now) {
	if !slices.ContainsFunc(pl.carries, carried.isMade) {
		return
	}
	homeless := func(before, after []problem.StayPlace) bool {
		for i := range after {
			if after[i].Homeless && (i >= len(before) || !before[i].Homeless) {
				return true
			}
		}
		return false
	}
	if after := cp.StandNow(pl.model); !homeless(now.Begun, after.Begun) && !homeless(now.Stocks, after.Stocks) {
		return
	}
	for i := range now.Begun {
		pl.model.Begun[i].Prefer = now.Begun[i].Stacks
	}
	for i := range now.Stocks {
		pl.model.Stocks[i].Prefer = now.Stocks[i].Stacks
	}
	for i := range pl.carries {
		switch c := &pl.carries[i]; {
		case !c.isMade():
		case c.isLater():
			pl.model.Stocks[c.kept].Prefer = c.to.Stacks
		default:
			pl.prefer(&c.shut, c.to.Stacks)
		}
	}
}

// isMade reports whether there is a place to carry it to.
func (c carried) isMade() bool { return c.Who != "" }

// without takes a span out of windows.
func (pl *Stated) without(windows []problem.Span, kept resources.Span) []problem.Span {
	var list []resources.Span
	for _, s := range windows {
		list = append(list, resources.Span{From: pl.clock.moment(s.From), Until: pl.clock.moment(s.Until)})
	}
	return pl.spans(resources.Subtract(list, []resources.Span{kept}))
}

// freeToCarry are each person's hours without rounds, looks and the work that has begun, as far ahead
// as anything may be carried.
func (pl *Stated) freeToCarry() [][]resources.Span {
	k := &pl.p.Kitchen
	within := resources.Span{From: pl.p.From.Add(-resources.Day), Until: pl.within.Until.Add(carryWithin)}
	taken := make([][]resources.Span, len(k.People))
	keep := func(who int, from resources.Moment, long resources.Minutes) {
		if who >= 0 {
			taken[who] = append(taken[who], resources.Span{From: from, Until: from.Add(long)})
		}
	}
	for _, r := range k.Rounds(within) {
		keep(r.Person, r.Span.From, r.Span.Length())
	}
	for _, l := range pl.p.Looks {
		keep(k.PersonNumber(l.Who), l.Start, l.Minutes)
	}
	for i := range pl.model.Begun {
		b := &pl.model.Begun[i]
		for a, start := range b.Starts {
			keep(b.Workers[a], pl.clock.moment(start), resources.Minutes(b.Mode.Acts[a].Work))
		}
	}
	out := make([][]resources.Span, len(k.People))
	for i := range k.People {
		out[i] = resources.Subtract(k.People[i].Windows(within, k.Zone), taken[i])
	}
	return out
}

// earliestFree is who is free for so long at the first grid moment from one on, and when; of several
// the first listed, -1 for nobody within carryWithin.
func earliestFree(free [][]resources.Span, from resources.Moment, long, step resources.Minutes) (who int, at resources.Moment) {
	who, at = -1, from.Add(carryWithin)
	for i := range free {
		for _, s := range free[i] {
			if m := resources.CeilTo(max(s.From, from), step); m.Add(long) <= s.Until && m < at {
				who, at = i, m
			}
		}
	}
	return who, at
}

// toldCarry is what becomes in a plan of cheese that is to be carried.
type toldCarry struct {
	*carried
	until     resources.Moment  // when it goes on or leaves
	at, there problem.StayPlace // where it stands before and after
}

// isCarried reports whether it is, by then, or would stand there still.
func (t *toldCarry) isCarried() bool { return t.isMade() && t.until > t.Start }

// carriesIn is what becomes in an answer of all cheese that is to be carried.
func (pl *Stated) carriesIn(r *problem.Result) []toldCarry {
	var out []toldCarry
	for i := range pl.carries {
		c := &pl.carries[i]
		until, at := 0, problem.StayPlace{}
		if c.u == nil {
			until, at = r.Stocks[c.stock].End, r.Stocks[c.stock].Place
		} else {
			b, j := &pl.model.Begun[c.begun], slices.IndexFunc(r.Jobs, func(j problem.Job) bool { return j.Begun == c.begun })
			run := b.RunningStay()
			_, until, _ = r.Jobs[j].Occupies(&b.Mode, b.Mode.Stays[run].Occupied())
			at = r.Jobs[j].Stays[run]
		}
		t := toldCarry{c, pl.clock.moment(until), at, at}
		if c.isMade() && c.isLater() {
			t.there = r.Stocks[c.kept].Place
		} else {
			t.at = c.at // it was there
		}
		out = append(out, t)
	}
	return out
}

// tellCarries lists the carries of a plan, and has it tell where the cheese comes to stand.
func (pl *Stated) tellCarries(plan *schedule.Plan, r *problem.Result) {
	for _, t := range pl.carriesIn(r) {
		if !t.isCarried() {
			continue
		}
		c := t.Carry
		c.Stood = t.stoodThere(pl, t.at)
		plan.Carries = append(plan.Carries, c)
		stands := func() []schedule.Standing { return pl.standing(t.there, t.count) }
		if t.u == nil {
			use := &plan.Stock[t.entry]
			use.CarryTo(t.To)
			use.BoxesAt = stands()
			continue
		}
		if !t.isLater() {
			continue // there the engine has it
		}
		b := plan.Batch(t.Batch)
		st := &t.u.chain.stays[pl.model.Begun[t.begun].RunningStay()]
		for k := len(t.u.starts) - 1; k < len(b.Stages) && t.u.chain.actOf[k] <= st.last; k++ {
			b.Stages[k].At = t.To
			if b.Stages[k].Hold > 0 {
				b.Stages[k].BoxesAt = stands()
			}
		}
	}
}
