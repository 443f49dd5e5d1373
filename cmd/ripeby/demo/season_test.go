package demo_test

import (
	"context"
	"fmt"
	"slices"
	"testing"
	"time"

	"ripeby/calendar/note"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/judge"
	"ripeby/schedule/planfile"
	"ripeby/schedule/planner"
	"ripeby/schedule/testrun"
)

// seasonWeeks is how often the season plans anew, a week apart; by the seventh all
// that goes wrong has.
var seasonWeeks = testrun.Rounds(7, 12)

// seasonBudget is the counted work of one of the season's plans.
const seasonBudget = 2_000_000

// season is the demo's kitchen lived through week by week. Every Monday the plan
// is made again, carrying on the one before it; what it ordered is ordered, what it
// began goes on, what it served has left.
type season struct {
	t     *testing.T
	p     *schedule.Problem
	plan  *schedule.Plan
	lost  []string
	given map[string]int  // pieces that left, by batch
	wants map[string]int  // pieces that arrived, by want
	ids   map[string]bool // ids seen so far: whether the batch may still be there
}

func TestSeason(t *testing.T) {
	s := &season{t: t, p: load(t), given: map[string]int{}, wants: map[string]int{}, ids: map[string]bool{}}
	for week := range seasonWeeks {
		disturbed := false
		if week > 0 {
			disturbed = s.moveOn(week)
		}
		before := s.plan
		s.makePlan(week)
		if before != nil {
			s.checkBegun(before)
			s.checkIDs(before)
			s.checkUIDs(before)
			if !disturbed {
				s.checkPromises(before)
			}
		}
		s.checkGiven()
	}
}

// makePlan plans, holds the plan against the judge, and reads it back from its file.
func (s *season) makePlan(week int) {
	s.t.Helper()
	plan, err := planner.Plan(context.Background(), s.p, planner.Options{Budget: seasonBudget})
	if err != nil {
		s.t.Fatalf("week %d: %v", week, err)
	}
	note.Revise(s.p, plan, s.p.Earlier)
	for _, v := range judge.Check(s.p, plan) {
		s.t.Errorf("week %d: judge: %v", week, v)
	}
	text, err := planfile.Encode(plan, s.p.Kitchen.Zone)
	if err != nil {
		s.t.Fatalf("week %d: %v", week, err)
	}
	if s.plan, err = planfile.Decode(text); err != nil {
		s.t.Fatalf("week %d: %v", week, err)
	}
	begun := 0
	for _, b := range plan.Batches {
		if b.Begun {
			begun++
		}
	}
	s.t.Logf("week %2d: %d under way, %+v, proved %s", week, begun, plan.Score, plan.Proof.Level)
}

// moveOn lives through the week: what was planned comes about, but for what goes
// wrong in it. It reports whether something did.
func (s *season) moveOn(week int) (disturbed bool) {
	old, plan := s.p, s.plan
	next := *old
	next.From = old.From.Add(7 * resources.Day)
	next.Earlier, next.Begun, next.Warnings = plan, nil, nil
	s.handOver(plan, old.From, next.From)
	next.Stock = nil
	for i, st := range old.Stock {
		for _, sh := range plan.Stock[i].For {
			if sh.By < next.From {
				st.Pieces -= sh.Pieces
			}
		}
		if st.Pieces > 0 {
			next.Stock = append(next.Stock, st)
		}
	}
	next.Ordered = ordered(&next, plan)
	next.Targets = s.targets(&next, week)
	switch week {
	case 3:
		next.Begun = append(next.Begun, s.lateSet(&next))
		disturbed = true
	case 5:
		s.lost = append(s.lost, s.someBegun(&next).ID)
		disturbed = true
	case 6:
		disturbed = true // a promised order comes in
	}
	next.Lost = slices.Clone(s.lost)
	s.p = &next
	return disturbed
}

// handOver counts what leaves in the week.
func (s *season) handOver(plan *schedule.Plan, from, until resources.Moment) {
	count := func(batch string, shares []schedule.Share) {
		for _, sh := range shares {
			if from <= sh.By && sh.By < until {
				s.given[batch] += sh.Pieces
				s.wants[fmt.Sprintf("%s/%d", sh.Target, sh.Want)] += sh.Pieces
			}
		}
	}
	for _, b := range plan.Batches {
		count(b.ID, b.For)
	}
	for _, st := range plan.Stock {
		count("stock", st.For)
	}
}

// targets are those that are still to come, with new ones each week: the stall goes
// on into summer, a promised order comes in, the May fair is called off.
func (s *season) targets(p *schedule.Problem, week int) []schedule.Target {
	var out []schedule.Target
	for _, t := range s.p.Targets {
		if t.By >= p.From && !(week >= 4 && t.Name == "May fair") {
			out = append(out, t)
		}
	}
	day := p.From.DateIn(p.Kitchen.Zone).AddDays(3 + 4*7)
	if day.DaysUntil(resources.Date{Year: 2027, Month: time.April, Day: 8}) < 0 {
		out = append(out, schedule.Target{Name: "Thursday stall " + day.String(), By: day.At(8*60, p.Kitchen.Zone), Wants: []schedule.Want{
			{Cheese: "Alder drum", Pieces: 9, Price: 580}, {Cheese: "Spoon curd", Pieces: 7, Price: 390}}})
	}
	if week == 6 {
		out = append(out, schedule.Target{Name: "Wedding", By: p.From.DateIn(p.Kitchen.Zone).AddDays(26).At(15*60, p.Kitchen.Zone),
			Wants: []schedule.Want{{Cheese: "Alder drum", Pieces: 12, Price: 620, Promised: true}}})
	}
	return out
}

// ordered is the milk that has been ordered by now: what the plan draws on.
func ordered(p *schedule.Problem, plan *schedule.Plan) []schedule.Ordered {
	sum := map[schedule.Draw]resources.Millilitres{}
	var draws []schedule.Draw
	for _, b := range plan.Batches {
		if b.Milk == nil {
			continue
		}
		if _, known := sum[*b.Milk]; !known {
			draws = append(draws, *b.Milk)
		}
		sum[*b.Milk] += b.Litres
	}
	var out []schedule.Ordered
	for _, d := range draws {
		for _, m := range p.Kitchen.Milk {
			if m.Name == d.Supply && d.Collect.Add(-m.Order) < p.From {
				out = append(out, schedule.Ordered{Milk: m.Name, Day: d.Collect.DateIn(p.Kitchen.Zone), Litres: sum[d]})
			}
		}
	}
	return out
}

// someBegun is a batch of the plan that has begun by the start and is not packed.
func (s *season) someBegun(p *schedule.Problem) *schedule.Batch {
	for i := range s.plan.Batches {
		b := &s.plan.Batches[i]
		if b.Stages[0].Start < p.From && b.Stages[len(b.Stages)-1].Start >= p.From && len(b.For) > 0 {
			return b
		}
	}
	s.t.Fatal("no batch is under way")
	return nil
}

// lateSet is a batch under way as begun.yaml would tell it, with its second stage
// begun two hours after it was planned, and so everything after it.
func (s *season) lateSet(p *schedule.Problem) schedule.Begun {
	b := s.someBegun(p)
	e := schedule.Begun{ID: b.ID, Cheese: b.Cheese, Litres: b.Litres, Pieces: -1}
	for i, st := range b.Stages {
		at := st.Start
		if i > 0 {
			at = at.Add(2 * resources.Hour)
		}
		if at > p.From {
			break
		}
		e.Stages = append(e.Stages, schedule.BegunStage{Stage: st.Stage, Start: at})
	}
	return e
}
