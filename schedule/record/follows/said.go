package follows

import (
	"ripeby/resources"
	"ripeby/schedule/needs"
	"ripeby/schedule/record"
)

// said works out the starts and the work of all stages up to the last of which something was
// said.
//
// `began` gives a start. `did` alone gives the moment less the planned work, but not before the
// end of the last stage of which something was said. Of what nobody spoke between it was as
// planned, or, where the plan has it later than what was said, as close before that as its work
// allows.
func (f *follower) said(x *batch) {
	n := len(x.recipe.Stages)
	began, did := make([]*record.Entry, n), make([]*record.Entry, n)
	last := -1
	for i := range n {
		name := x.recipe.Stages[i].Name
		var again record.Entries
		began[i], again = x.entries.Began(name).First()
		f.saidTwice(x, "began", began[i], again)
		did[i], again = x.entries.Did(name).First()
		f.saidTwice(x, "did", did[i], again)
		if began[i] != nil || did[i] != nil || x.written != nil && x.written[i] >= 0 {
			last = i
		}
	}
	x.starts, x.works = make([]resources.Moment, last+1), make([]resources.Minutes, last+1)
	over := resources.Moment(-1)  // when the last stage that was said was over
	since := resources.Moment(-1) // and when it began
	for i := range last + 1 {
		start, work, known := resources.Moment(-1), x.batch.Stages[i].Work, true
		switch b, d := began[i], did[i]; {
		case b != nil && d != nil && d.At >= b.At:
			start, work = b.At, d.At.Sub(b.At)
		case b != nil:
			start = b.At
		case d != nil:
			start = min(max(d.At.Add(-work), over), d.At)
			work = d.At.Sub(start)
		case x.written != nil && x.written[i] >= 0:
			start = x.written[i]
		default:
			known = false
		}
		if known && start < since { // they were said in the wrong order
			f.note("said-order", start, "The %s of %s is said to have been before the stage before it: it is taken to have been at once after that began.", x.recipe.Stages[i].Name, x.id)
			start = since
		}
		if known { // what was said has begun, though it were in this very minute
			start = min(start, f.p.From-1)
		}
		x.starts[i], x.works[i] = start, work
		if known {
			f.shorten(x, i)
			since = start
			over = start.Add(work)
		}
		for _, e := range []*record.Entry{began[i], did[i]} {
			if e != nil && e.Who != "" && x.batch.Stages[i].Work > 0 {
				x.batch.Stages[i].Who = e.Who
			}
		}
	}
	f.between(x)
}

// shorten ends the work of the stages before one no later than it began.
func (f *follower) shorten(x *batch, stage int) {
	for i := range stage {
		if x.starts[i] >= 0 {
			x.works[i] = min(x.works[i], x.starts[stage].Sub(x.starts[i]))
		}
	}
}

// saidTwice tells what was said again of what happens once.
func (f *follower) saidTwice(x *batch, what string, first *record.Entry, again record.Entries) {
	for _, e := range again {
		f.note("said-twice", e.At, "%s, line %d: that %s %s was said before, in %s, line %d, for %s: that one holds. Strike it if this one is right.",
			e.File, e.Line, what, x.id, first.File, first.Line, f.when(first.At))
	}
}

// between fills in the stages of which nobody spoke before one of which somebody did.
func (f *follower) between(x *batch) {
	for i := len(x.starts) - 2; i >= 0; i-- {
		if x.starts[i] >= 0 {
			continue
		}
		next, floor := x.starts[i+1], f.overBefore(x, i)
		t := &x.batch.Stages[i]
		if i < x.planned && t.Start.Add(x.works[i]) <= next && t.Start >= floor {
			x.starts[i] = t.Start
			continue
		}
		x.starts[i] = max(next.Add(-x.works[i]), floor)
		x.works[i] = max(next.Sub(x.starts[i]), 0)
		if i < x.planned && x.batch.Stages[i].Work > 0 {
			f.note("unsaid-before", x.starts[i], "Nobody said when the %s of %s was, and by the plan it was later than what was said: it is taken to have begun %s.", t.Stage, x.id, f.when(x.starts[i]))
		}
	}
	for i := 1; i < len(x.starts)-1; i++ { // at once after a stage without a hold
		if needs.HoldOf(x.recipe, i-1, f.p.Kitchen.Step).Most == 0 && !f.spokenOf(x, i) {
			x.starts[i] = min(x.starts[i-1].Add(x.works[i-1]), x.starts[i+1])
			x.works[i] = min(x.works[i], x.starts[i+1].Sub(x.starts[i]))
		}
	}
}

// overBefore is when the last stage before one whose start is known was over.
func (f *follower) overBefore(x *batch, stage int) resources.Moment {
	for i := stage - 1; i >= 0; i-- {
		if x.starts[i] >= 0 {
			return x.starts[i].Add(x.works[i])
		}
	}
	return 0
}

// spokenOf reports whether somebody said when a stage was, in the record or in begun.yaml.
func (f *follower) spokenOf(x *batch, stage int) bool {
	name := x.recipe.Stages[stage].Name
	return len(x.entries.Began(name)) > 0 || len(x.entries.Did(name)) > 0 || x.written != nil && x.written[stage] >= 0
}
