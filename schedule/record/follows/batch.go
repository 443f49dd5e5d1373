package follows

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
	"ripeby/schedule/record"
)

// batch is what is known of one batch.
type batch struct {
	id      string
	recipe  *schedule.Recipe   // nil where the folder no longer has it
	batch   schedule.Batch     // as it was planned, then as it went
	planned int                // so many of its stages were planned
	entries record.Entries     // about it
	written []resources.Moment // starts that begun.yaml tells, by stage; -1 where it tells none
	alone   bool               // of begun.yaml, and as that says
	since   resources.Moment   // as of when that is; 0 for what begun.yaml does not tell
	counted resources.Moment   // as of when begun.yaml tells how many pieces there are; 0 likewise
	lost    bool
	never   bool // it was said to be made off the plan, and that was struck
	past    bool // nothing of it was left to sell

	starts []resources.Moment // of the stages that have begun
	works  []resources.Minutes
}

// batches lists what may have begun: the plan before's, those of begun.yaml alone, and those
// made off the plan.
func (f *follower) batches() []*batch {
	var out []*batch
	if e := f.went; e != nil {
		for i := range e.Batches {
			out = append(out, f.newBatch(e.Batches[i], len(e.Batches[i].Stages)))
		}
		for i := range e.Past {
			x := f.newBatch(e.Past[i], len(e.Past[i].Stages))
			x.past = true
			out = append(out, x)
		}
	}
	for i := range f.p.Begun {
		w := &f.p.Begun[i]
		k := slices.IndexFunc(out, func(b *batch) bool { return b.id == w.ID })
		if k < 0 {
			k = len(out)
			out = append(out, f.newBatch(schedule.Batch{ID: w.ID, Cheese: w.Cheese, Litres: w.Litres}, 0))
		}
		f.begunAsWritten(out[k], w)
	}
	return append(out, f.offPlan(out)...)
}

// newBatch is a batch with what was said of it; so many of its stages were planned. A recipe that
// has fewer stages by now is not its own any more.
func (f *follower) newBatch(b schedule.Batch, planned int) *batch {
	b.Stages = slices.Clone(b.Stages)
	x := &batch{id: b.ID, recipe: f.p.Recipe(b.Cheese), batch: b, planned: planned, entries: f.entries.Of(record.OfBatch, b.Names()...)}
	if x.recipe != nil && len(b.Stages) > len(x.recipe.Stages) {
		x.recipe = nil
	}
	f.toTakers(x)
	x.lost = slices.ContainsFunc(x.entries, func(e *record.Entry) bool { return e.Batch.Lost })
	return x
}

// begunAsWritten takes over what begun.yaml says of a batch: it is the last word on it, but for
// what the record says of a stage.
func (f *follower) begunAsWritten(x *batch, w *schedule.Begun) {
	var before bool
	x.since, before = f.asOf(w.ID, w.InShort())
	if x.alone = len(x.entries) == 0 && x.since >= f.p.From || x.recipe == nil || x.recipe.Name != w.Cheese; x.alone {
		return
	}
	if !before { // what the plan before gave away was counted
		x.batch.Gone = 0
	}
	x.batch.Litres = w.Litres
	x.batch.Pieces = w.Pieces
	if w.Pieces < 0 {
		x.batch.Pieces = needs.Pieces(x.recipe, w.Litres)
	} else {
		x.counted = x.since
	}
	x.batch.Made = x.batch.Pieces
	x.batch.Spare = x.recipe.Spare
	x.written = make([]resources.Moment, len(x.recipe.Stages))
	for i := range x.written {
		x.written[i] = -1
		for _, s := range w.Stages {
			if s.Stage == x.recipe.Stages[i].Name {
				x.written[i] = s.Start
			}
		}
	}
	f.fill(x)
	if w.Pot != "" {
		f.inPot(x, w.Pot)
	}
	for i := range x.batch.Stages {
		since := x.batch.Stages[i].Carried // elsewhere, after it was written
		if w.At != "" && x.written[i] >= 0 && x.recipe.Stages[i].At.Kind != schedule.AtRoom && since < x.since {
			x.batch.Stages[i].At = w.At
		}
	}
}

// fill gives a batch a task for every stage of its recipe: of those that no plan had only the
// name.
func (f *follower) fill(x *batch) {
	for i := len(x.batch.Stages); i < len(x.recipe.Stages); i++ {
		st := &x.recipe.Stages[i]
		t := schedule.Task{Stage: st.Name, Work: needs.Work(st, x.size(), f.p.Kitchen.Step), At: "room"}
		if places := needs.Places(&f.p.Kitchen, st.At); st.At.Kind != schedule.AtRoom && len(places) > 0 {
			t.At = f.p.Kitchen.Cold[places[0]].Name
		}
		if who := needs.Who(st, &f.p.Kitchen); t.Work > 0 && len(who) > 0 {
			t.Who = f.p.Kitchen.People[who[0]].Name
		}
		x.batch.Stages = append(x.batch.Stages, t)
	}
}

// size is how large the batch is.
func (x *batch) size() needs.Size { return needs.Size{Litres: x.batch.Litres, Pieces: x.batch.Pieces} }

// inPot says which pot a batch is in.
func (f *follower) inPot(x *batch, pot string) {
	isPot := func(name string) bool {
		return slices.ContainsFunc(f.p.Kitchen.Pots, func(p resources.Pot) bool { return p.Name == name })
	}
	for i := range x.batch.Stages {
		uses := slices.Clone(x.batch.Stages[i].Uses)
		for k := range uses {
			if isPot(uses[k].Thing) {
				uses[k].Thing = pot
			}
		}
		x.batch.Stages[i].Uses = uses
	}
	if first := &x.batch.Stages[0]; !slices.ContainsFunc(first.Uses, func(o schedule.Occupied) bool { return isPot(o.Thing) }) {
		first.Uses = append(first.Uses, schedule.Occupied{Thing: pot, Count: 1})
	}
}

// livedThrough works out how far a batch has come, and reports whether it has begun.
func (f *follower) livedThrough(x *batch) bool {
	f.facts(x)
	f.said(x)
	f.silent(x)
	f.counts(x)
	if len(x.starts) == 0 {
		return false
	}
	for i := range x.batch.Stages {
		t := &x.batch.Stages[i]
		if i >= len(x.starts) {
			t.Start = max(t.Start, f.p.From)
			continue
		}
		t.Start, t.Work = x.starts[i], x.works[i]
		if t.Work == 0 { // said to have been over at once
			t.Who = ""
		}
	}
	return true
}

// facts takes over what was said of the whole batch: litres, pot, milk, where it stands.
func (f *follower) facts(x *batch) {
	latest := func(given func(*record.BatchFacts) bool) *record.Entry {
		return x.entries.With(func(e *record.Entry) bool { return given(&e.Batch) }).Latest()
	}
	if e := latest(func(b *record.BatchFacts) bool { return b.Litres.Given }); e != nil && e.Batch.Litres.Value != x.batch.Litres {
		x.batch.Litres = e.Batch.Litres.Value
		x.batch.Pieces = needs.Pieces(x.recipe, x.batch.Litres)
		x.batch.Made = x.batch.Pieces
	}
	f.fill(x)
	if e := latest(func(b *record.BatchFacts) bool { return b.Pot != "" }); e != nil {
		f.inPot(x, e.Batch.Pot)
	}
	if e := latest(func(b *record.BatchFacts) bool { return b.Drew.Given }); e != nil {
		d := e.Batch.Drew.Value
		if ready, ok := f.collected(d); ok {
			x.batch.Milk = &schedule.Draw{Supply: d.Supply, Collect: ready}
		}
	}
	if e := latest(func(b *record.BatchFacts) bool { return b.Stands.Given }); e != nil {
		f.standsAt(x, e)
	}
}
