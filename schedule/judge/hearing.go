package judge

import (
	"fmt"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// hearing is one plan before the judge, with everything that the rules look up.
type hearing struct {
	problem *schedule.Problem
	plan    *schedule.Plan
	kitchen *resources.Kitchen
	zone    *time.Location
	step    resources.Minutes
	from    resources.Moment

	lots   []*lot
	pasts  []*past
	over   []soldOut // packed batches that keep, and of which nothing is left to sell
	people []person
	rounds []block // of every day that the plan touches, sorted
	span   resources.Span

	earlier map[string]*schedule.Batch
	lived   *schedule.Plan // the earlier plan as it went; nil for none
	stood   *schedule.Plan // the earlier plan, its cheese where it stands now; nil for none
	sitters []*sitter      // what stands in the cold at the planning start
	wants   map[wantKey]*wanted
	met     map[wantKey]int

	found []Violation
}

// person is one of the kitchen's people with hours written out.
type person struct {
	*resources.Person
	free   []resources.Span // hours less away
	rather []resources.Span // where they would rather not
}

// wantKey names one want of one target.
type wantKey struct {
	target string
	by     resources.Moment
	want   int
}

// wanted is one want with the target it belongs to.
type wanted struct {
	target *schedule.Target
	*schedule.Want
}

func newHearing(p *schedule.Problem, plan *schedule.Plan) *hearing {
	h := &hearing{problem: p, plan: plan, kitchen: &p.Kitchen, zone: p.Kitchen.Zone,
		step: p.Kitchen.Step, from: p.From,
		earlier: map[string]*schedule.Batch{}, wants: map[wantKey]*wanted{}, met: map[wantKey]int{}}
	if h.zone == nil {
		h.zone = time.UTC
	}
	if h.step <= 0 || h.step > resources.Hour {
		h.step = resources.DefaultStep
	}
	h.lived, h.stood = p.Went(), p.Carried(p.Earlier)
	if p.Earlier != nil {
		for i := range p.Earlier.Batches {
			h.earlier[p.Earlier.Batches[i].ID] = &p.Earlier.Batches[i]
		}
	}
	for i := range p.Targets {
		t := &p.Targets[i]
		for k := range t.Wants {
			h.wants[wantKey{t.Name, t.By, k}] = &wanted{t, &t.Wants[k]}
		}
	}
	h.pasts = h.allPasts()
	for i := range plan.Batches {
		h.lots = append(h.lots, h.newLot(&plan.Batches[i]))
		h.tally(plan.Batches[i].For)
	}
	for i := range plan.Stock {
		h.tally(plan.Stock[i].For)
	}
	h.openHours()
	h.sitters = h.sitting()
	return h
}

// tally adds shares up by want.
func (h *hearing) tally(shares []schedule.Share) {
	for _, s := range shares {
		h.met[wantKey{s.Target, s.By, s.Want}] += s.Pieces
	}
}

// openHours writes out people's hours and the rounds for all days of the plan,
// with a margin for windows that run past midnight.
func (h *hearing) openHours() {
	h.span = resources.Span{From: h.from, Until: h.from}
	for _, l := range h.lots {
		for i := range l.batch.Stages {
			t := &l.batch.Stages[i]
			if l.planned(i) {
				h.span.From = min(h.span.From, t.Start)
				h.span.Until = max(h.span.Until, min(t.SlipUntil, h.from.Add(Reach)))
			}
			h.span.Until = max(h.span.Until, t.Start.Add(t.Work), t.Ends)
		}
	}
	first, last := dayIn(h.span.From, h.zone)-3, dayIn(h.span.Until, h.zone)+3
	for i := range h.kitchen.People {
		p := &h.kitchen.People[i]
		h.people = append(h.people, person{Person: p,
			free:   without(windows(h.zone, p.Hours, first, last), p.Away),
			rather: windows(h.zone, p.RatherNot, first, last)})
	}
	h.rounds = h.roundBlocks(first, last)
}

// personNamed finds a person's place in the kitchen's list; -1 when unknown.
func (h *hearing) personNamed(name string) int {
	for i := range h.people {
		if h.people[i].Name == name {
			return i
		}
	}
	return -1
}

// cold finds a cold place by name; nil when there is none.
func (h *hearing) cold(name string) *resources.ColdPlace {
	for i := range h.kitchen.Cold {
		if h.kitchen.Cold[i].Name == name {
			return &h.kitchen.Cold[i]
		}
	}
	return nil
}

// boxNamed finds a kind of box by name; nil when there is none.
func (h *hearing) boxNamed(name string) *resources.Box {
	for i := range h.kitchen.Boxes {
		if h.kitchen.Boxes[i].Name == name {
			return &h.kitchen.Boxes[i]
		}
	}
	return nil
}

// warned reports whether the plan has a warning of the code.
func (h *hearing) warned(code string) bool {
	for _, w := range h.plan.Warnings {
		if w.Code == code {
			return true
		}
	}
	return false
}

// fail records a violation of the plan as a whole or of one thing in it.
func (h *hearing) fail(rule, thing string, at resources.Moment, format string, args ...any) {
	h.found = append(h.found, Violation{Rule: rule, Thing: thing, At: at, Text: fmt.Sprintf(format, args...)})
}

// failLot records a violation of a batch.
func (h *hearing) failLot(rule string, l *lot, format string, args ...any) {
	h.found = append(h.found, Violation{Rule: rule, Batch: l.batch.ID, Text: fmt.Sprintf(format, args...)})
}

// failStage records a violation of stage i of a batch.
func (h *hearing) failStage(rule string, l *lot, i int, thing, format string, args ...any) {
	t := &l.batch.Stages[i]
	h.found = append(h.found, Violation{Rule: rule, Batch: l.batch.ID, Stage: t.Stage, Thing: thing,
		At: t.Start, Text: fmt.Sprintf(format, args...)})
}
