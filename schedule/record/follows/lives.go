package follows

import (
	"slices"

	"ripeby/schedule"
	"ripeby/schedule/record"
)

// Life is what is known at the planning start of a batch that has begun, be it under way, over
// or lost: what goes into the file that is kept of it.
type Life struct {
	// Batch is as it went: the stages that have begun first, each Begun; those after them as the
	// plan before had them. It has no stages where begun.yaml alone knows of it.
	Batch schedule.Batch
	Said  []string // who said when a stage of Batch was ([schedule.SaidByRecord] …); "" for nobody
	Lost  bool
	// OffPlan is the entry by which it was made off the plan; nil for any other.
	OffPlan *record.Entry
	// Counted is what begun.yaml says that there was of it; nil where it says nothing.
	Counted *schedule.Count
	// First is how many pieces were counted first; 0 where nobody counted.
	First int
	// Gone are the shares of the plan before whose moment has come.
	Gone []schedule.KeptShare
	// Litres, Pieces and Milk tell what of these somebody said.
	Litres, Pieces, Milk bool
}

// lives tells of every batch that has begun.
func (f *follower) lives(batches []*batch) {
	for _, x := range batches {
		if l := f.life(x); l != nil {
			f.out.Lives = append(f.out.Lives, *l)
		}
	}
}

// life tells of one batch; nil where it has not begun.
func (f *follower) life(x *batch) *Life {
	if x.never {
		return nil
	}
	l := &Life{Lost: x.lost || slices.Contains(f.p.Lost, x.id)}
	y := *x // what is told of it changes nothing of it
	if x = &y; x.lost && x.recipe != nil {
		x = f.livedUntilLost(x)
	}
	begun := len(x.starts)
	if x.alone {
		begun = f.aloneAsWritten(x)
	} else if x.recipe == nil {
		for begun < len(x.batch.Stages) && x.batch.Stages[begun].Start < f.p.From {
			begun++
		}
	}
	if begun == 0 && !x.alone {
		return nil
	}
	l.Batch = x.batch
	l.Batch.Stages = slices.Clone(x.batch.Stages)
	l.Said = make([]string, len(l.Batch.Stages))
	for i := range l.Batch.Stages {
		t := &l.Batch.Stages[i]
		if t.Begun = i < begun; !t.Begun {
			continue
		}
		switch {
		case len(x.entries.Began(t.Stage))+len(x.entries.Did(t.Stage)) > 0:
			l.Said[i] = schedule.SaidByRecord
		case x.written != nil && i < len(x.written) && x.written[i] >= 0:
			l.Said[i] = schedule.SaidByBegun
		}
	}
	for _, e := range x.entries {
		if e.Subject.Kind == record.OfCheese {
			l.OffPlan = e
		}
		l.Litres = l.Litres || e.Batch.Litres.Given
		l.Pieces = l.Pieces || e.Batch.Pieces.Given
		l.Milk = l.Milk || e.Batch.Drew.Given
	}
	l.First, _ = x.entries.FirstCount()
	f.lifeAsWritten(l)
	f.goneOf(l, x)
	return l
}

// livedUntilLost lives a batch through up to when it was said to be lost. What that leaves to be
// answered or is warned of is no matter any more.
func (f *follower) livedUntilLost(x *batch) *batch {
	lost := x.entries.With(func(e *record.Entry) bool { return e.Batch.Lost }).Latest().At
	found, unanswered := f.found, f.out.Unanswered
	y := *x
	y.batch.Stages = slices.Clone(x.batch.Stages)
	f.livedThrough(&y)
	f.found, f.out.Unanswered = found, slices.Clone(unanswered)
	for n := len(y.starts); n > 0 && y.starts[n-1] >= lost && !f.spokenOf(&y, n-1); n-- {
		y.starts, y.works = y.starts[:n-1], y.works[:n-1]
	}
	return &y
}

// aloneAsWritten has the stages of a batch start as begun.yaml alone says, and gives how many have
// begun.
func (f *follower) aloneAsWritten(x *batch) (begun int) {
	x.batch.Stages = slices.Clone(x.batch.Stages)
	for _, w := range f.p.Begun {
		for _, s := range w.Stages {
			if t := x.batch.Stage(s.Stage); w.ID == x.id && t != nil {
				t.Start = s.Start
				begun++
			}
		}
	}
	return begun
}

// lifeAsWritten takes over what begun.yaml says of a batch.
func (f *follower) lifeAsWritten(l *Life) {
	k := slices.IndexFunc(f.p.Begun, func(b schedule.Begun) bool { return b.ID == l.Batch.ID })
	if k < 0 {
		return
	}
	w := &f.p.Begun[k]
	l.Litres = true
	if w.Pieces >= 0 {
		at, _ := f.asOf(w.ID, w.InShort())
		l.Counted, l.Pieces = &schedule.Count{Pieces: w.Pieces, At: at}, true
	}
}

// goneOf tells what has left of a batch, want by want.
func (f *follower) goneOf(l *Life, x *batch) {
	gone, _ := schedule.LeftAsPlanned(x.batch.Left, x.batch.For, f.p.From)
	for _, g := range gone {
		k := schedule.KeptShare{Gone: true, Left: g.Pieces, Assumed: f.handedOver(g.Target, x.batch.Cheese).took == nil,
			Share: schedule.Share{Target: g.Target, By: g.By, Want: g.Want, Pieces: g.Planned, Promised: f.promisedOf(x.id, &g)}}
		l.Gone = append(l.Gone, k)
	}
}

// promisedOf is how many pieces of what left the plan before had as promised; 0 where it does not tell.
func (f *follower) promisedOf(id string, g *schedule.LeftShare) int {
	if b := f.p.Earlier.Batch(id); b != nil {
		for _, s := range b.For {
			if s.Target == g.Target && s.By == g.By && s.Want == g.Want {
				return s.Promised
			}
		}
	}
	return 0
}

// livesAsPlanned tells of every batch where nobody has said anything: all went as the plan before
// had it. What has been packed gets its lot.
func (f *follower) livesAsPlanned() {
	e := f.went
	if e == nil {
		return
	}
	batches := f.batches()
	for _, x := range batches {
		for i := range x.batch.Stages {
			t := &x.batch.Stages[i]
			if t.Start >= f.p.From {
				break
			}
			x.starts, x.works = append(x.starts, t.Start), append(x.works, t.Work)
		}
	}
	f.lots(batches)
	f.lives(batches)
	lived := *e
	lived.Batches = slices.Clone(e.Batches)
	for i := range lived.Batches { // they come first among all that are known
		if lot := batches[i].batch.Lot; lived.Batches[i].Lot != lot {
			lived.Batches[i].Lot, f.p.Lived = lot, &lived
		}
	}
}
