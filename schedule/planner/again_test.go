package planner_test

import (
	"bytes"
	"testing"

	"pgregory.net/rapid"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/planfile"
	"ripeby/schedule/testrun"
)

// written is a plan as plan.json has it, and read again.
func written(t interface {
	Helper()
	Fatalf(string, ...any)
}, p *schedule.Problem, plan *schedule.Plan) (*schedule.Plan, []byte) {
	t.Helper()
	text, err := planfile.Encode(plan, p.Kitchen.Zone)
	if err != nil {
		t.Fatalf("writing the plan: %v", err)
	}
	back, err := planfile.Decode(text)
	if err != nil {
		t.Fatalf("reading the plan: %v", err)
	}
	return back, text
}

// later is the same folder some time on: what the plan began is under way by the
// plan alone, targets that have left are gone, and stock is short of what left.
func later(p *schedule.Problem, plan *schedule.Plan, from resources.Moment) *schedule.Problem {
	next := *p
	next.From, next.Earlier, next.Begun, next.Targets, next.Stock = from, plan, nil, nil, nil
	for _, t := range p.Targets {
		if t.By >= from {
			next.Targets = append(next.Targets, t)
		}
	}
	for i, s := range p.Stock {
		for _, sh := range plan.Stock[i].For {
			if sh.By < from {
				s.Pieces -= sh.Pieces
			}
		}
		if s.Pieces > 0 {
			next.Stock = append(next.Stock, s)
		}
	}
	return &next
}

// A plan that carries on an earlier one keeps every rule, wherever between its
// stages the start falls; and what has begun stays as it was.
func TestEveryNextPlanHolds(t *testing.T) {
	testrun.Checks(t, 30)
	rapid.Check(t, func(t *rapid.T) {
		p := kitchens().Draw(t, "kitchen")
		plan, _ := written(t, p, planFor(t, p, smallBudget))
		for range 2 {
			from := p.From.Add(minutes(rapid.IntRange(1, 6*24*60).Draw(t, "moved on")))
			if rapid.Bool().Draw(t, "on the grid") {
				from = resources.FloorTo(from, p.Kitchen.Step)
			}
			p = later(p, plan, from)
			next := planFor(t, p, smallBudget)
			mustHold(t, p, next)
			stayAsTheyWere(t, p, next)
			plan, _ = written(t, p, next)
		}
	})
}

// stayAsTheyWere fails when a begun stage is not where the earlier plan had it.
func stayAsTheyWere(t interface {
	Helper()
	Errorf(string, ...any)
}, p *schedule.Problem, plan *schedule.Plan) {
	t.Helper()
	was := map[[2]string]*schedule.Task{}
	for i := range p.Earlier.Batches {
		b := &p.Earlier.Batches[i]
		for k := range b.Stages {
			was[[2]string{b.ID, b.Stages[k].Stage}] = &b.Stages[k]
		}
	}
	for i := range plan.Batches {
		b := &plan.Batches[i]
		for k := range b.Stages {
			s := &b.Stages[k]
			o := was[[2]string{b.ID, s.Stage}]
			if s.Begun && o != nil && o.Start < p.From && (s.Start != o.Start || s.Work != o.Work || s.Who != o.Who || s.At != o.At) {
				t.Errorf("%s %s: got %d + %d by %q at %s, want %d + %d by %q at %s as it was",
					b.ID, s.Stage, s.Start, s.Work, s.Who, s.At, o.Start, o.Work, o.Who, o.At)
			}
		}
	}
}

// The same folder gives the same bytes.
func TestPlansRepeatThemselves(t *testing.T) {
	testrun.Checks(t, 30)
	rapid.Check(t, func(t *rapid.T) {
		p := kitchens().Draw(t, "kitchen")
		_, once := written(t, p, planFor(t, p, smallBudget))
		_, again := written(t, p, planFor(t, p, smallBudget))
		if !bytes.Equal(once, again) {
			t.Errorf("two plans of one folder differ:\n%s\n%s", once, again)
		}
	})
}

// A folder moved by whole weeks, far from any clock change, gives the same plan
// moved by as much: ids and written dates apart, nothing in it knows the date.
func TestPlansMoveWithTheFolder(t *testing.T) {
	testrun.Checks(t, 30)
	rapid.Check(t, func(t *rapid.T) {
		p := kitchens().Draw(t, "kitchen")
		p.Kitchen.TimeZone, p.Kitchen.Zone = "UTC", zoneNamed(t, "UTC")
		weeks := rapid.IntRange(1, 60).Draw(t, "weeks")
		moved := moveBy(p, weeks)
		mustMove(t, planFor(t, p, smallBudget), planFor(t, moved, smallBudget), minutes(weeks)*7*resources.Day)
	})
}

// moveBy moves everything dated in a problem by whole weeks.
func moveBy(p *schedule.Problem, weeks int) *schedule.Problem {
	by := minutes(weeks) * 7 * resources.Day
	spans := func(list []resources.Span) []resources.Span {
		var out []resources.Span
		for _, s := range list {
			out = append(out, resources.Span{From: s.From.Add(by), Until: s.Until.Add(by)})
		}
		return out
	}
	m := *p
	m.From = p.From.Add(by)
	m.Kitchen.People = append([]resources.Person(nil), p.Kitchen.People...)
	for i := range m.Kitchen.People {
		m.Kitchen.People[i].Away = spans(p.Kitchen.People[i].Away)
	}
	m.Kitchen.Cold = append([]resources.ColdPlace(nil), p.Kitchen.Cold...)
	for i := range m.Kitchen.Cold {
		c := &m.Kitchen.Cold[i]
		c.Taken, c.Shelves = spans(c.Taken), append([]resources.Shelf(nil), c.Shelves...)
		for k := range c.Shelves {
			c.Shelves[k].Taken = spans(c.Shelves[k].Taken)
		}
	}
	m.Kitchen.Milk = append([]resources.Milk(nil), p.Kitchen.Milk...)
	for i := range m.Kitchen.Milk {
		m.Kitchen.Milk[i].Closed = spans(p.Kitchen.Milk[i].Closed)
	}
	m.Targets = append([]schedule.Target(nil), p.Targets...)
	for i := range m.Targets {
		m.Targets[i].By = m.Targets[i].By.Add(by)
	}
	m.Stock = append([]schedule.Stock(nil), p.Stock...)
	for i := range m.Stock {
		m.Stock[i].Packed = m.Stock[i].Packed.Add(by)
	}
	m.Begun = append([]schedule.Begun(nil), p.Begun...)
	for i := range m.Begun {
		m.Begun[i].Stages = append([]schedule.BegunStage(nil), p.Begun[i].Stages...)
		for k := range m.Begun[i].Stages {
			m.Begun[i].Stages[k].Start = m.Begun[i].Stages[k].Start.Add(by)
		}
	}
	m.Ordered = append([]schedule.Ordered(nil), p.Ordered...)
	for i := range m.Ordered {
		m.Ordered[i].Day = m.Ordered[i].Day.AddDays(7 * weeks)
	}
	return &m
}

// mustMove fails where one plan is not the other moved.
func mustMove(t interface {
	Helper()
	Errorf(string, ...any)
}, a, b *schedule.Plan, by resources.Minutes) {
	t.Helper()
	if a.Score != b.Score || a.Proof != b.Proof {
		t.Errorf("moved by %d: got %+v %+v, want %+v %+v", by, b.Score, b.Proof, a.Score, a.Proof)
	}
	if len(a.Batches) != len(b.Batches) || len(a.Rounds) != len(b.Rounds) || len(a.Warnings) != len(b.Warnings) {
		t.Errorf("moved by %d: got %d batches, %d rounds, %d warnings, want %d, %d, %d", by,
			len(b.Batches), len(b.Rounds), len(b.Warnings), len(a.Batches), len(a.Rounds), len(a.Warnings))
		return
	}
	for i := range a.Batches {
		x, y := &a.Batches[i], &b.Batches[i]
		if x.Cheese != y.Cheese || x.Litres != y.Litres || len(x.Stages) != len(y.Stages) {
			t.Errorf("moved by %d: got %s of %d mL, want %s of %d mL", by, y.ID, y.Litres, x.ID, x.Litres)
			continue
		}
		for k := range x.Stages {
			s, m := &x.Stages[k], &y.Stages[k]
			if s.Start.Add(by) != m.Start || s.Ends.Add(by) != m.Ends || s.Who != m.Who || s.At != m.At || s.SlipUntil.Add(by) != m.SlipUntil {
				t.Errorf("moved by %d: %s %s: got %d to %d by %q at %s, want %d to %d by %q at %s later by that", by, x.ID, s.Stage,
					m.Start, m.Ends, m.Who, m.At, s.Start, s.Ends, s.Who, s.At)
			}
		}
	}
}
