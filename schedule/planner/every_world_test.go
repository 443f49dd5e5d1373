package planner_test

import (
	"fmt"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// side says what a thing is, so that the same can be asked of a kitchen in which
// batches do not take such things from one another.
type side int

const (
	sideKit  side = iota // pots, stations, moulds, boxes
	sideWork             // people
	sideCold             // cold places
	sideMilk             // collections
	sides
)

// thing is something of which there is so much.
type thing struct {
	side  side
	limit int64
}

// everyWorld is a kitchen as the listing of all plans sees it: everything that can
// run out is a thing with a limit. It knows the contract, and nothing of the planner.
type everyWorld struct {
	p      *schedule.Problem
	step   resources.Minutes
	from   resources.Moment
	last   resources.Moment // the last target leaves
	past   []schedule.Batch // sold out
	under  []everyBegun
	free   [][]resources.Span
	there  resources.Moment // when the last of these ends
	rather [][]resources.Span
	rounds []resources.DatedRound
	things []thing
	named  map[string]int
	milk   map[string][]collected
	wants  []everyWant

	sitters []*everySitter
	unsure  bool // what is carried where cannot be listed
}

// freeWantsServe says whether a piece for a want of price 0 lets a batch be made, or
// leave later, that otherwise could not. The planner does without such wants: no
// batch is made for what is worth nothing.
const freeWantsServe = true

// everyWant is one want with what its target asks.
type everyWant struct {
	schedule.Want
	target, place int
	by            resources.Moment
	packed        resources.Minutes
}

// open reports whether cheese packed then may go to the want.
func (w *everyWant) open(cheese string, packed resources.Moment, keeps resources.Minutes) bool {
	return w.Cheese == cheese && (freeWantsServe || w.Price > 0) && packed.Add(w.packed) <= w.by && w.by <= packed.Add(keeps)
}

func newEveryWorld(p *schedule.Problem) *everyWorld {
	e := &everyWorld{p: p, step: p.Kitchen.Step, from: p.From, last: p.From, named: map[string]int{}, milk: map[string][]collected{}}
	for i := range p.Targets {
		t := &p.Targets[i]
		e.last = max(e.last, t.By)
		for k, w := range t.Wants {
			e.wants = append(e.wants, everyWant{w, i, k, t.By, t.Packed})
		}
	}
	k := &p.Kitchen
	all := resources.Span{From: e.from.Add(-10 * resources.Day), Until: e.last.Add(7 * resources.Day)}
	for i := range k.People {
		free := k.People[i].Windows(all, k.Zone)
		for _, w := range free {
			e.there = max(e.there, w.Until)
		}
		e.free = append(e.free, free)
		e.rather = append(e.rather, k.People[i].Avoids(all, k.Zone))
		e.add("person "+k.People[i].Name, sideWork, 1)
	}
	e.rounds = k.Rounds(all)
	for _, x := range k.Pots {
		e.add(x.Name, sideKit, int64(x.Count))
	}
	for _, x := range k.Stations {
		e.add(x.Name, sideKit, int64(x.Count))
	}
	for _, x := range k.Moulds {
		e.add(x.Name, sideKit, int64(x.Count))
	}
	for _, x := range k.Boxes {
		e.add(x.Name, sideKit, int64(x.Count))
	}
	for _, c := range k.Cold {
		e.add(c.Name, sideCold, int64(c.Boxes))
	}
	for i := range k.Milk {
		e.collections(&k.Milk[i], all)
	}
	e.allBegun()
	e.allCarries()
	e.allHomes()
	e.drawnByOthers()
	return e
}

func (e *everyWorld) add(name string, s side, limit int64) int {
	e.named[name] = len(e.things)
	e.things = append(e.things, thing{s, limit})
	return len(e.things) - 1
}

// dayOfWork is the thing that a person's work on a local date counts against, and the
// date's number; -1 for a person without a limit.
func (e *everyWorld) dayOfWork(who int, at resources.Moment) (int, resources.Moment) {
	zone := e.p.Kitchen.Zone
	day := at.DateIn(zone)
	number := resources.Moment(e.from.DateIn(zone).DaysUntil(day))
	most := e.p.Kitchen.People[who].MostPerDay
	if most == resources.NoLimit {
		return -1, number
	}
	name := fmt.Sprintf("day %d %d", who, number)
	if t, known := e.named[name]; known {
		return t, number
	}
	for _, r := range e.rounds {
		if r.Person == who && r.Span.From.DateIn(zone) == day {
			most -= r.Span.Length()
		}
	}
	for _, l := range e.looksOf(who) {
		if l.From.DateIn(zone) == day {
			most -= l.Length()
		}
	}
	return e.add(name, sideWork, int64(most)), number
}

// mayWork reports whether a person's hours and rounds leave a span of work free.
func (e *everyWorld) mayWork(who int, work resources.Span) bool {
	for _, r := range e.rounds {
		if r.Person == who && r.Span.Overlaps(work) {
			return false
		}
	}
	if slices.ContainsFunc(e.looksOf(who), work.Overlaps) {
		return false
	}
	for _, w := range e.free[who] {
		if w.Contains(work) {
			return true
		}
	}
	return false
}

// grudged counts whole five minutes of a piece of work in time that its person would
// rather not work in.
func (e *everyWorld) grudged(who int, work resources.Span) int64 {
	sum := resources.Minutes(0)
	for _, s := range resources.Intersect(e.rather[who], []resources.Span{work}) {
		sum += s.Length()
	}
	return int64(sum / 5)
}

// limits are a hold's least and most on the grid; none is written: 0 and 0.
func (e *everyWorld) limits(h *schedule.Hold) (least, most resources.Minutes) {
	if h == nil {
		return 0, 0
	}
	if h.AsIs { // as a look found it
		return h.Least, max(h.Least, resources.FloorLength(h.Most, e.step))
	}
	return resources.CeilLength(h.Least, e.step), resources.FloorLength(h.Most, e.step)
}

// offHold is what a hold of a length costs: per cent of how far it may be from best,
// halves up, and more beyond its limit.
func (e *everyWorld) offHold(h *schedule.Hold, is resources.Minutes) int64 {
	if h == nil || !h.HasBest || is == h.Best {
		return 0
	}
	least, most := e.limits(h)
	off, room := int64(is-h.Best), int64(most-h.Best)
	if off < 0 {
		off, room = -off, int64(h.Best-least)
	}
	if room <= 0 {
		return 100
	}
	return (2*100*off + room) / (2 * room)
}
