package follows

import (
	"fmt"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
)

// Position is where a kitchen stands at the planning start.
type Position struct {
	// Problem is the one given, as the record leaves it. Nothing of the one given is changed.
	Problem *schedule.Problem
	// Unanswered is the work that was taken as planned without a word, or that waits for one, by start.
	Unanswered []Unanswered
	// Lives tells of every batch that has begun, those too that are over or lost.
	Lives []Life
	// Never are batches of the plan before that were said to be made off it, which was struck.
	Never []string
	// Left is how many entries are of later than the planning start, and left out.
	Left int
}

// Unanswered is work that nobody spoke of and that counts as done as planned; or, where silence is no
// assent, that waits.
type Unanswered struct {
	Batch, Cheese, Stage string
	Start                resources.Moment
	Work                 resources.Minutes
	Who                  string
	Waits                bool
	Carried              string // to where it is taken to have been carried; no stage, work nor person then
}

// Of says where the kitchen of a problem stands by its record. With nothing in it, and nothing in
// begun.yaml, all went as planned.
func Of(p *schedule.Problem, all *record.Book) *Position {
	known, left := all.Until(p.From)
	f := &follower{p: clone(p), entries: known.Standing(), all: known.All(), out: &Position{Left: left}, handed: map[[2]string]*handed{}, held: map[string][]holder{}}
	f.out.Problem = f.p
	f.takers = f.entries.With(func(e *record.Entry) bool { return e.Person.Takes.Given }).ByTime()
	f.positions()
	f.begunOver()
	f.closeKitchen()
	f.went = f.p.Carried(f.p.Earlier)
	f.stock()
	if len(known.All()) == 0 && !p.Kitchen.UnsaidWaits && len(f.p.Begun) == 0 {
		if e := p.Earlier; e != nil {
			f.p.OffPlan = slices.Clone(e.OffPlan)
		}
		f.livesAsPlanned()
		f.warnAll()
		return f.out
	}
	f.milk()
	f.takenTargets()
	f.live()
	if len(known.All()) > 0 || f.p.Kitchen.UnsaidWaits {
		f.toAnswer()
	}
	f.packets()
	f.warnAll()
	return f.out
}

// follower goes through what was said.
type follower struct {
	p       *schedule.Problem // as it is left
	entries record.Entries    // that stand
	all     record.Entries    // those that are struck too
	went    *schedule.Plan    // the plan before, its cheese where it stands now; nil for none
	out     *Position
	found   []schedule.Warning
	takers  record.Entries        // of who takes on work, in order of time
	handed  map[[2]string]*handed // by target and cheese, of those that were asked for
	held    map[string][]holder   // by cheese, likewise
}

// clone is a problem whose lists may be changed.
func clone(p *schedule.Problem) *schedule.Problem {
	out := *p
	out.Kitchen = p.Kitchen.Clone()
	out.Targets = slices.Clone(p.Targets)
	out.Begun = slices.Clone(p.Begun)
	out.Stock = slices.Clone(p.Stock)
	out.Ordered = slices.Clone(p.Ordered)
	out.Held, out.Looks, out.TakenOn = slices.Clone(p.Held), slices.Clone(p.Looks), slices.Clone(p.TakenOn)
	out.Came = slices.Clone(p.Came)
	out.Lost = slices.Clone(p.Lost)
	out.Warnings = slices.Clone(p.Warnings)
	return &out
}

// note adds a warning; at is 0 where it belongs to no moment.
func (f *follower) note(code string, at resources.Moment, format string, args ...any) {
	f.found = append(f.found, schedule.Warning{Code: code, At: at, Text: fmt.Sprintf(format, args...)})
}

// warnAll gives the warnings with the problem's own.
func (f *follower) warnAll() {
	f.p.Warnings = slices.DeleteFunc(f.p.Warnings, f.toldBefore)
	f.p.Warnings = append(f.p.Warnings, f.found...)
	if n := f.out.Left; n > 0 {
		f.p.Warnings = append(f.p.Warnings, schedule.Warning{Code: "record-later", At: f.p.From,
			Text: fmt.Sprintf("Left out, for it is said of after the planning start: %s of the record.", schedule.Counted(n, "line"))})
	}
}

// toldBefore reports whether a warning is that a target was due before the planning start, and the
// plan before has told so: that is told once, by the first plan from then on.
func (f *follower) toldBefore(w schedule.Warning) bool {
	e := f.p.Earlier
	switch {
	case e == nil || w.Code != schedule.WarnTargetPast || w.At >= e.From:
		return false
	case e.From == f.p.From: // the same plan once more
		return !slices.ContainsFunc(e.Warnings, func(o schedule.Warning) bool { return o.Code == w.Code && o.At == w.At && o.Text == w.Text })
	}
	return true
}

// when writes a moment as the maker reads it.
func (f *follower) when(m resources.Moment) string {
	return resources.ShowMoment(m, f.p.Kitchen.Zone)
}

// live lives the plan before through: every batch of it that was to begin before the planning
// start or of which somebody spoke, those of begun.yaml that somebody spoke of, and those made
// off the plan.
func (f *follower) live() {
	lived := &schedule.Plan{Kitchen: f.p.Kitchen.Name, From: f.p.From}
	if e := f.went; e != nil {
		copied := *e
		lived = &copied
	}
	batches := f.batches()
	lived.Batches, lived.Past = nil, nil
	var begun []*batch
	for _, b := range batches {
		switch {
		case b.never:
			f.p.Lost = append(f.p.Lost, b.id)
			f.out.Never = append(f.out.Never, b.id)
		case b.lost:
			if !slices.Contains(f.p.Lost, b.id) {
				f.p.Lost = append(f.p.Lost, b.id)
			}
		case b.alone: // begun.yaml speaks of it and nobody else does
		case b.recipe == nil:
			lived.Batches = append(lived.Batches, b.batch)
		case f.livedThrough(b):
			begun = append(begun, b)
		}
	}
	f.lots(batches)
	f.lives(batches)
	for _, b := range begun {
		lived.Batches = append(lived.Batches, b.batch)
	}
	f.looks(batches)
	f.taken(batches)
	f.carriesToAnswer(batches)
	f.p.Begun = slices.DeleteFunc(f.p.Begun, func(x schedule.Begun) bool {
		return slices.ContainsFunc(batches, func(b *batch) bool { return b.id == x.ID && !b.alone })
	})
	slices.SortStableFunc(f.out.Unanswered, func(a, b Unanswered) int { return int(a.Start - b.Start) })
	f.p.Lived = lived
}
