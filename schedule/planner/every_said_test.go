package planner_test

import (
	"math/rand/v2"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
	"ripeby/schedule/record/follows"
)

// saidNumbers is the first number of a tiny kitchen that is planned again after somebody has said
// what really happened.
const saidNumbers = 5_000_000

// saidKitchen draws the kitchen of such a number: the first of its dice that can be listed whole and
// where what was said is of consequence. Of every two in one something has to be moved, of every four one
// is late; and one stands on few shelves, is late, has something to be moved, and boxes of several batches
// share a spot. Those passed over are counted.
func saidKitchen(seed uint64, number int) (e *everyPlan, passed int) {
	turn := number / 6
	d := &dice{Rand: rand.New(rand.NewPCG(seed, uint64(number))), tight: sides, shelves: turn%4 == 3}
	for ; ; passed++ {
		d.draw()
		if !d.planBefore() {
			continue
		}
		settle(seed, number+passed, d.p, false)
		d.speak()
		if len(d.p.Targets) == 0 || notYet(d.p) {
			continue
		}
		e, ok := listLate(d.p, -1)
		if !ok || d.shelves && !e.standsNow() {
			continue
		}
		if _, ok := e.solve([sides]bool{}); !ok {
			continue
		}
		switch late, moved := e.best.stuck > 0 || e.isOverdue(), e.best.Moved > 0; {
		case turn%4 == 0 && !late, turn%2 == 1 && !moved, d.shelves && !(late && e.sharesSpots()):
			continue
		}
		return e, passed
	}
}

// speak has one to three things said since the plan before, and takes the kitchen as it stands by them.
func (d *dice) speak() {
	p := *d.p
	p.Kitchen = p.Kitchen.Clone()
	p.Kitchen.UnsaidWaits = d.chance(15)
	p.Kitchen.Cold = slices.Clone(p.Kitchen.Cold)
	for i := range p.Kitchen.Cold {
		c := &p.Kitchen.Cold[i]
		c.Shelves = slices.Clone(c.Shelves)
		for k := range c.Shelves {
			c.Shelves[k].Taken = nil // where what runs late on one that closes stands is for the next plan to say
		}
	}
	var said []record.Entry
	spoken := map[string]bool{}
	for range d.n(1, 3) {
		b := oneOf(d, p.Earlier.Batches...)
		if spoken[b.ID] || slices.Contains(p.Lost, b.ID) || b.Begun {
			continue
		}
		if x, ok := d.entry(&p, &b); ok {
			spoken[b.ID] = spoken[b.ID] || x.Subject.Kind == record.OfBatch
			said = append(said, x)
		}
	}
	d.p = follows.Of(&p, record.NewBook(said)).Problem
}

// entry is something that may be said of a batch of the plan before, or of what it needs; false where
// it cannot be.
func (d *dice) entry(p *schedule.Problem, b *schedule.Batch) (x record.Entry, ok bool) {
	x.Subject = record.Subject{Kind: record.OfBatch, Name: b.ID}
	begun := 0
	for begun < len(b.Stages) && b.Stages[begun].Start < p.From {
		begun++
	}
	between := func(from, until resources.Moment) resources.Moment {
		return from.Add(minutes(d.n(0, max(0, int(until.Sub(from))))))
	}
	started := b.Stages[0].Start
	switch d.n(0, 11) {
	case 0, 1: // done, earlier or later than planned, or what was to come
		k := d.n(max(0, begun-1), min(begun, len(b.Stages)-1))
		t := &b.Stages[k]
		if t.Work == 0 {
			return x, false
		}
		x.At = min(p.From, t.Start.Add(t.Work+minutes(d.n(-60, 120))))
		x.Batch.Did = t.Stage
		if d.chance(30) {
			x.Batch.Did, x.Batch.Began = "", t.Stage
		}
	case 2, 3: // not yet
		if begun == 0 || begun == len(b.Stages) || b.Stages[begun].Work == 0 || b.Stages[begun-1].Hold == 0 {
			return x, false
		}
		x.At = between(max(b.Stages[begun-1].Start.Add(b.Stages[begun-1].Work), p.From.Add(-12*resources.Hour)), p.From)
		x.Batch.NotYet = b.Stages[begun].Stage
		if d.chance(60) {
			x.Batch.Look = record.Say(minutes(60 * d.n(1, 12)))
		}
	case 4: // fewer, or some gone
		if begun == 0 {
			return x, false
		}
		x.At = between(started, p.From)
		if d.chance(50) {
			x.Batch.Pieces = record.Say(d.n(1, b.Pieces)) // of none the listing knows no boxes
		} else {
			x.Batch.Gone = record.Say(d.n(1, max(1, b.Pieces/2)))
		}
	case 5:
		x.At, x.Batch.Lost = between(p.From.Add(-6*resources.Hour), p.From), true
	case 6: // less milk came
		if b.Milk == nil || b.Milk.Collect > p.From {
			return x, false
		}
		x.Subject = record.Subject{Kind: record.OfMilk, Name: b.Milk.Supply, Day: b.Milk.Collect.DateIn(p.Kitchen.Zone)}
		x.At, x.Milk.Came = b.Milk.Collect, record.Say(litres(d.n(0, 4)))
	case 7, 8, 9, 10: // somebody takes work that is to come
		k := d.n(begun, len(b.Stages))
		if k == len(b.Stages) || b.Stages[k].Work == 0 {
			return x, false
		}
		who := p.Recipe(b.Cheese).Stages[k].Who
		if len(who) == 0 {
			for _, y := range p.Kitchen.People {
				who = append(who, y.Name)
			}
		}
		x.Subject = record.Subject{Kind: record.OfPerson, Name: oneOf(d, who...)}
		x.At = between(p.From.Add(-12*resources.Hour), p.From)
		x.Person.Takes = record.Say(record.Task{Batch: b.ID, Stage: b.Stages[k].Stage})
	default: // somebody is away
		x.Subject = record.Subject{Kind: record.OfPerson, Name: oneOf(d, p.Kitchen.People...).Name}
		x.At = between(p.From.Add(-20*resources.Hour), p.From)
		x.Person.Away = record.Say(record.Stretch{From: x.At, Until: record.Say(x.At.Add(minutes(60 * d.n(2, 30))))})
	}
	return x, x.At <= p.From
}

// asFound is a batch's recipe as looks found its hold, and with what somebody has taken on.
func (e *everyWorld) asFound(b *everyBegun) *schedule.Recipe {
	r := *e.p.Recipe(b.Cheese)
	r.Stages = slices.Clone(r.Stages)
	for _, x := range e.p.Held {
		if x.Batch == b.ID && b.carried {
			r.Stages[x.Stage].Hold = &x.Hold
		}
	}
	for _, x := range e.p.TakenOn {
		if x.Batch == b.ID && b.carried {
			r.Stages[r.StageNumber(x.Stage)].Who = []string{x.Who}
		}
	}
	return &r
}

// workOf is how long the work of stage i is, or really was.
func (l *lister) workOf(i int) resources.Minutes {
	if l.begun != nil && l.begun.carried && i < len(l.begun.Stages) && l.p.Lived != nil {
		return l.begun.earlier.Stages[i].Work
	}
	return workMinutes(&l.r.Stages[i], l.litres, l.pieces, l.step)
}

// looksOf are the times that looks keep free of a person's.
func (e *everyWorld) looksOf(who int) []resources.Span {
	var out []resources.Span
	for _, l := range e.p.Looks {
		if l.Who == e.p.Kitchen.People[who].Name {
			out = append(out, resources.Span{From: l.Start, Until: l.Start.Add(l.Minutes)})
		}
	}
	return out
}

// said counts what the record had to do with it.
func (n *everyCounts) said(e *everyPlan) {
	if e.p.Lived == nil {
		return
	}
	n.note("said", true)
	n.note("a look", len(e.p.Looks) > 0)
	n.note("a hold that goes on", len(e.p.Held) > 0)
	under, ahead, later := false, false, false
	for _, x := range e.p.TakenOn {
		t := e.p.Earlier.Batch(x.Batch).Stage(x.Stage)
		under, ahead = under || x.Begun, ahead || !x.Begun && t.Who != x.Who
		later = later || !x.Begun && t.Start >= e.p.Settled().Until
	}
	n.note("taken on, under way", under)
	n.note("taken from another", ahead)
	n.note("taken for later", later)
	other, never := false, false
	for _, b := range e.p.Earlier.Batches {
		went := e.p.Lived.Batch(b.ID)
		never = never || went == nil && b.Stages[0].Start < e.from && !slices.Contains(e.p.Lost, b.ID)
		for k := range b.Stages {
			other = other || went != nil && went.Stages[k].Start < e.from && went.Stages[k].Start != b.Stages[k].Start
		}
	}
	n.note("another start than planned", other)
	n.note("never began", never)
}
