package cp

import (
	"context"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/kernel"
)

// inForce makes the jobs of a result the hints of its model.
func inForce(m *Model, r *Result) *Model {
	out := *m
	out.Hints = nil
	for i := range r.Jobs {
		j := &r.Jobs[i]
		h := Hint{Family: j.Family, Begun: j.Begun, Stock: -1, Shares: j.Shares, Starts: j.Starts,
			Exact: &Exact{Mode: j.Mode, Workers: j.Workers, Choices: j.Choices, Intake: j.Intake}}
		for _, p := range j.Stays {
			h.Exact.Spaces = append(h.Exact.Spaces, p.Space)
			h.Stood = append(h.Stood, p.Stacks)
		}
		out.Hints = append(out.Hints, h)
	}
	for i := range r.Stocks {
		out.Hints = append(out.Hints, Hint{Family: m.Stocks[i].Family, Begun: -1, Stock: i, Shares: r.Stocks[i].Shares})
	}
	return &out
}

// drawAsked draws a model with a plan, and the same model with that plan in force and a
// last demand that it knew nothing of.
func drawAsked(t *rapid.T, k tiny, budget int64) (before, asked *Model, r *Result) {
	m := drawModel(t, k)
	d := len(m.Demands) - 1
	units := m.Demands[d].Units
	m.Demands[d].Units, m.Demands[d].Promised = 0, true
	r = solved(context.Background(), m, Options{Budget: budget})
	return m, asking(m, r, d, units), r
}

// asking is the model with a result in force, and so many units wanted of a demand.
func asking(m *Model, r *Result, demand, units int) *Model {
	with := inForce(m, r)
	with.Demands = slices.Clone(m.Demands)
	with.Demands[demand].Units = units
	return with
}

// TestALongPlanIsAskedAboutAsAShortOne: what is found beside frozen jobs is a plan; what is
// proved with the rest left out cannot be; and with everything stated the answer is one of
// the two.
func TestALongPlanIsAskedAboutAsAShortOne(t *testing.T) {
	asked, fits, not, open := 0, 0, 0, 0
	checkMany(t, 4, func(t *rapid.T) {
		k := small(t)
		k.demands, k.length, k.begun = drawInt(t, 2, 5, "demands"), 30, drawInt(t, 0, 1, "begun")
		k.floors = oneIn(t, 3, "floors")
		m, with, r := drawAsked(t, k, 500_000)
		d := len(m.Demands) - 1
		units := with.Demands[d].Units
		if slices.ContainsFunc(r.Jobs, func(j Job) bool { return j.Stuck || j.Late > 0 }) {
			return
		}
		all, part := inquire(context.Background(), with, d, -1, 4_000_000, nil, 64), inquire(context.Background(), with, d, -1, 4_000_000, nil, 1)
		if all == nil || part == nil || !all.Stands() || !part.Stands() {
			return
		}
		asked++
		for _, q := range []*Inquiry{all, part} {
			fit, known := q.Fits(units)
			switch {
			case fit != nil:
				fits++
				if f := faultOf(with, fit.Result); f != "" {
					t.Fatalf("the plan found: %s\n%+v\n%s", f, fit.Result.Jobs, modelText(with))
				}
				if fit.Result.Short[d] > 0 {
					t.Fatalf("%d short of what was found\n%s", fit.Result.Short[d], modelText(with))
				}
				for o := range r.Short {
					if fit.Result.Short[o] > r.Short[o] && o != d {
						t.Fatalf("demand %d is shorter than before\n%s", o, modelText(with))
					}
				}
			case known:
				not++
			default:
				open++
			}
		}
		a, _ := all.Most(units)
		b, refused := part.Most(units)
		if b > a || refused > 0 && refused <= a {
			t.Fatalf("at most %d; of a part %d, refused %d\n%s", a, b, refused, modelText(with))
		}
	})
	t.Logf("%d asked twice: %d fit, %d do not, %d open", asked, fits, not, open)
	if asked < few(40) || fits < few(20) || not < few(10) {
		t.Errorf("got %d, %d, %d: too few to mean much", asked, fits, not)
	}
}

// A job of the plan in force that cannot be any more, not even alone, is a plan that does
// not stand: the recipe has become longer than the time that is left.
func TestAJobThatCannotBeAnyMoreDoesNotStand(t *testing.T) {
	lag := func(least int) Lag { return Lag{Least: least, Most: least, Cost: []int32{0}} }
	m := &Model{Step: 1, Horizon: 40, Packing: linePacking}
	family := func(least int) Family {
		return Family{Modes: []Mode{{Amount: 1, Units: 1, Acts: []Activity{{Lag: lag(least)}, {Lag: Lag{Most: 30}}}}}, Keeps: 30, Supply: -1}
	}
	m.Families = []Family{family(10)}
	m.Demands = []Demand{{Due: 20, Units: 1, Value: 1}, {Due: 21, Units: 1, Value: 1, Promised: true}}
	m.Demands[1].Units = 0
	r := solved(context.Background(), m, Options{Budget: 100_000})
	if len(r.Jobs) != 1 {
		t.Fatalf("got %d jobs, want 1", len(r.Jobs))
	}
	with := asking(m, r, 1, 1)
	if q := Inquire(context.Background(), with, 1, -1, 1_000_000, nil); q == nil || !q.Stands() {
		t.Fatal("the plan in force does not stand")
	}
	with.Families = []Family{family(35)}
	if q := Inquire(context.Background(), with, 1, -1, 1_000_000, nil); q != nil && q.Stands() {
		t.Error("a plan stands whose job takes longer than there is time")
	}
}

// What was worked out for one model answers for another with the same families, workers
// and intakes as if it were worked out anew, and is not taken for one with others.
func TestTablesAnswerAsIfWorkedOutAnew(t *testing.T) {
	asked, can, other := 0, 0, 0
	checkMany(t, 2, func(t *rapid.T) {
		k := small(t)
		k.demands, k.length, k.begun = drawInt(t, 2, 4, "demands"), 30, drawInt(t, 0, 1, "begun")
		m, with, _ := drawAsked(t, k, 300_000)
		d := len(m.Demands) - 1
		units := with.Demands[d].Units
		q := Inquire(context.Background(), with, d, -1, 2_000_000, nil)
		if q == nil || !q.Stands() {
			return
		}
		q.Most(units)
		later := *with
		later.Demands = slices.Clone(with.Demands)
		later.Demands[d].Due = min(later.Demands[d].Due+drawInt(t, -6, 6, "days later"), m.Horizon)
		if drawInt(t, 0, 3, "other workers") == 0 && len(later.Workers) > 0 {
			later.Workers = slices.Clone(later.Workers)
			later.Workers[0].Windows = nil
			if q.Tables().holdFor(&later) != (len(with.Workers[0].Windows) == 0) {
				t.Fatal("tables of other workers are lent")
			}
			other++
		}
		anew, lent := Inquire(context.Background(), &later, d, -1, 2_000_000, nil), Inquire(context.Background(), &later, d, -1, 2_000_000, q.Tables())
		if (anew == nil) != (lent == nil) || anew == nil || anew.Stands() != lent.Stands() || !anew.Stands() {
			if anew != nil && lent != nil && anew.Stands() != lent.Stands() {
				t.Fatalf("stands %v anew, %v lent\n%s", anew.Stands(), lent.Stands(), modelText(&later))
			}
			return
		}
		asked++
		a, refusedA := anew.Most(units)
		b, refusedB := lent.Most(units)
		if a != b || refusedA != refusedB {
			t.Fatalf("%d (refused %d) anew, %d (refused %d) lent\n%s", a, refusedA, b, refusedB, modelText(&later))
		}
		if a > 0 {
			can++
		}
	})
	t.Logf("%d asked, %d give more, %d with other workers", asked, can, other)
	if asked < few(40) || can < few(10) || other < few(5) {
		t.Errorf("got %d, %d, %d: too few to mean much", asked, can, other)
	}
}

// A spare slot that is opened keeps the statement; when none is left, the next statement
// has more of them.
func TestSpareSlotsAreOpened(t *testing.T) {
	key := slotKey{0, 6}
	c := newSlotCounts()
	c.open[key], c.spare[key] = 1, 1
	r := &room{key: key, closed: make([]kernel.Lit, 2)}
	if !c.widen([]*room{r}) || c.open[key] != 2 || r.open != 1 || c.spare[key] != 1 {
		t.Errorf("after one: %v, open %d", c, r.open)
	}
	if c.widen([]*room{r}) || c.open[key] != 3 || c.spare[key] != 3 {
		t.Errorf("after two: %v", c)
	}
}
