package explain

import (
	"testing"

	"ripeby/schedule/cp/problem"
)

// One more is ruled out where the parts up to the demand's own are proved, whatever comes after
// them, and never of what is worth nothing.
func TestWhatTheProofRulesOut(t *testing.T) {
	cost := problem.Cost{PromisedShort: 4, Short: 6, Jobs: 3}
	bound := func(change func(*problem.Cost)) problem.Cost {
		b := cost
		change(&b)
		return b
	}
	all := bound(func(*problem.Cost) {})
	short := bound(func(b *problem.Cost) { b.Short = 5 })
	promised := bound(func(b *problem.Cost) { b.PromisedShort = 3 })
	jobs := bound(func(b *problem.Cost) { b.Jobs = 2 })
	one, some, nothing := problem.Demand{Value: 2, Promised: true}, problem.Demand{Value: 2}, problem.Demand{}
	for _, c := range []struct {
		name  string
		d     problem.Demand
		bound problem.Cost
		want  bool
	}{
		{"promised, all proved", one, all, true}, {"promised, what is short open", one, short, true},
		{"promised, open", one, promised, false}, {"all proved", some, all, true}, {"jobs open", some, jobs, true},
		{"open", some, short, false}, {"what is promised open", some, promised, false}, {"worth nothing", nothing, all, false},
	} {
		if got := provedMost(cost, c.bound, &c.d); got != c.want {
			t.Errorf("%s: got %v", c.name, got)
		}
	}
}

// Units of one demand can go to another of the same family and moments, unless it matters how
// much of a job is promised.
func TestWhichWantsAreAlike(t *testing.T) {
	m := &problem.Model{Families: []problem.Family{{Serves: 1}, {Serves: 3}}}
	of := problem.Demand{Due: 9, Ahead: 2, Units: 1, Value: 1}
	for name, c := range map[string]struct {
		a, b func(*problem.Demand)
		want bool
	}{
		"worth more":                {b: func(d *problem.Demand) { d.Value, d.Units = 5, 7 }, want: true},
		"promised":                  {b: func(d *problem.Demand) { d.Promised = true }, want: true},
		"later":                     {b: func(d *problem.Demand) { d.Due = 10 }},
		"ready later":               {b: func(d *problem.Demand) { d.Ahead = 1 }},
		"another family":            {b: func(d *problem.Demand) { d.Family = 1 }},
		"a least, both promised":    {func(d *problem.Demand) { d.Family, d.Promised = 1, true }, func(d *problem.Demand) { d.Family, d.Promised = 1, true }, true},
		"a least, and one promised": {func(d *problem.Demand) { d.Family = 1 }, func(d *problem.Demand) { d.Family, d.Promised = 1, true }, false},
	} {
		a, b := of, of
		if c.a != nil {
			c.a(&a)
		}
		c.b(&b)
		m.Demands = []problem.Demand{a, b}
		if likeWants(m, 0, 1) != c.want || likeWants(m, 1, 0) != c.want {
			t.Errorf("%s: want %v", name, c.want)
		}
	}
}
