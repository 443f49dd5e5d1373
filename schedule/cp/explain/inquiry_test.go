package explain

import (
	"context"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/search"
	"ripeby/schedule/cp/statement"
	"ripeby/schedule/cp/tiny"
	"ripeby/schedule/testrun"
)

// drawAsked draws a model with a plan, and the same model with that plan in force and a
// last demand that it knew nothing of.
func drawAsked(t *rapid.T, k tiny.Shape, budget int64) (before, asked *problem.Model, r *problem.Result) {
	m := tiny.Draw(t, k)
	d := len(m.Demands) - 1
	units := m.Demands[d].Units
	m.Demands[d].Units, m.Demands[d].Promised = 0, true
	r = solved(context.Background(), m, search.Options{Budget: budget})
	return m, asking(m, r, d, units), r
}

// asking is the model with a result in force, and so many units wanted of a demand.
func asking(m *problem.Model, r *problem.Result, demand, units int) *problem.Model {
	with := tiny.InForce(m, r)
	with.Demands = slices.Clone(m.Demands)
	with.Demands[demand].Units = units
	return with
}

// TestALongPlanIsAskedAboutAsAShortOne: what is found beside frozen jobs is a plan; what is
// proved with the rest left out cannot be; and with everything stated the answer is one of
// the two.
func TestALongPlanIsAskedAboutAsAShortOne(t *testing.T) {
	testrun.Checks(t, 20)
	asked, fits, not, open := 0, 0, 0, 0
	tiny.CheckMany(t, testrun.Rounds(1, 4), func(t *rapid.T) {
		k := tiny.Small(t)
		k.Demands, k.Length, k.Begun = tiny.DrawInt(t, 2, 5, "demands"), 30, tiny.DrawInt(t, 0, 1, "begun")
		k.Floors = tiny.OneIn(t, 3, "floors")
		m, with, r := drawAsked(t, k, 500_000)
		d := len(m.Demands) - 1
		units := with.Demands[d].Units
		if slices.ContainsFunc(r.Jobs, func(j problem.Job) bool { return j.Stuck }) {
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
				if f := tiny.FaultOf(with, fit.Result); f != "" {
					t.Fatalf("the plan found: %s\n%+v\n%s", f, fit.Result.Jobs, tiny.Text(with))
				}
				if fit.Result.Short[d] > 0 {
					t.Fatalf("%d short of what was found\n%s", fit.Result.Short[d], tiny.Text(with))
				}
				for o := range r.Short {
					if fit.Result.Short[o] > r.Short[o] && o != d {
						t.Fatalf("demand %d is shorter than before\n%s", o, tiny.Text(with))
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
			t.Fatalf("at most %d; of a part %d, refused %d\n%s", a, b, refused, tiny.Text(with))
		}
	})
	t.Logf("%d asked twice: %d fit, %d do not, %d open", asked, fits, not, open)
	if asked < tiny.Few(testrun.Rounds(6, 40)) || fits < tiny.Few(testrun.Rounds(4, 20)) || not < tiny.Few(testrun.Rounds(2, 10)) {
		t.Errorf("got %d, %d, %d: too few to mean much", asked, fits, not)
	}
}

// A job of the plan in force that cannot be any more, not even alone, is a plan that does
// not stand: the recipe has become longer than the time that is left.
func TestAJobThatCannotBeAnyMoreDoesNotStand(t *testing.T) {
	lag := func(least int) problem.Lag { return problem.Lag{Least: least, Most: least, Cost: []int32{0}} }
	m := &problem.Model{Step: 1, Horizon: 40, FitFloor: tiny.LinePacking}
	family := func(least int) problem.Family {
		return problem.Family{Modes: []problem.Mode{{Amount: 1, Units: 1, Acts: []problem.Activity{{Lag: lag(least)}, {Lag: problem.Lag{Most: 30}}}}}, Keeps: 30, Supply: -1}
	}
	m.Families = []problem.Family{family(10)}
	m.Demands = []problem.Demand{{Due: 20, Units: 1, Value: 1}, {Due: 21, Units: 1, Value: 1, Promised: true}}
	m.Demands[1].Units = 0
	r := solved(context.Background(), m, search.Options{Budget: 100_000})
	if len(r.Jobs) != 1 {
		t.Fatalf("got %d jobs, want 1", len(r.Jobs))
	}
	with := asking(m, r, 1, 1)
	if q := Inquire(context.Background(), with, 1, -1, 1_000_000, nil); q == nil || !q.Stands() {
		t.Fatal("the plan in force does not stand")
	}
	with.Families = []problem.Family{family(35)}
	if q := Inquire(context.Background(), with, 1, -1, 1_000_000, nil); q != nil && q.Stands() {
		t.Error("a plan stands whose job takes longer than there is time")
	}
}

// A job of the plan in force that should have begun by now, and has not, cannot be put back as it was:
// what its work would cost in avoided time is not known of moments that are over.
func TestAJobThatShouldHaveBegunIsNotPutBack(t *testing.T) {
	m := &problem.Model{Step: 1, Horizon: 400, FitFloor: tiny.LinePacking}
	m.Workers = []problem.Worker{{Windows: []problem.Span{{From: 0, Until: 400}}, Avoid: []problem.Span{{From: 0, Until: 2}}}}
	m.Families = []problem.Family{{Modes: []problem.Mode{{Amount: 1, Units: 1, Acts: []problem.Activity{
		{Work: 1, Workers: []int{0}, Lag: problem.Lag{Least: 10, Most: 10, Cost: []int32{0}}}, {Lag: problem.Lag{Most: 30}}}}}, Keeps: 30, Supply: -1}}
	m.Demands = []problem.Demand{{Due: 220, Units: 1, Value: 1}, {Due: 221, Value: 1, Promised: true}}
	r := solved(context.Background(), m, search.Options{Budget: 100_000})
	if len(r.Jobs) != 1 {
		t.Fatalf("got %d jobs, want 1", len(r.Jobs))
	}
	with := asking(m, r, 1, 1)
	if q := Inquire(context.Background(), with, 1, -1, 1_000_000, nil); q == nil || !q.Stands() {
		t.Fatal("the plan in force does not stand")
	}
	for _, late := range []int{1, 5} {
		with.From = r.Jobs[0].Starts[0] + late
		if q := Inquire(context.Background(), with, 1, -1, 1_000_000, nil); q != nil {
			t.Errorf("%d after it should have begun the job is put back", late)
		}
	}
}

// What was worked out for one model answers for another with the same families, workers
// and intakes as if it were worked out anew, and is not taken for one with others.
func TestTablesAnswerAsIfWorkedOutAnew(t *testing.T) {
	asked, can, other := 0, 0, 0
	tiny.CheckMany(t, 2, func(t *rapid.T) {
		k := tiny.Small(t)
		k.Demands, k.Length, k.Begun = tiny.DrawInt(t, 2, 4, "demands"), 30, tiny.DrawInt(t, 0, 1, "begun")
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
		later.Demands[d].Due = min(later.Demands[d].Due+tiny.DrawInt(t, -6, 6, "days later"), m.Horizon)
		if tiny.DrawInt(t, 0, 3, "other workers") == 0 && len(later.Workers) > 0 {
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
				t.Fatalf("stands %v anew, %v lent\n%s", anew.Stands(), lent.Stands(), tiny.Text(&later))
			}
			return
		}
		asked++
		a, refusedA := anew.Most(units)
		b, refusedB := lent.Most(units)
		if a != b || refusedA != refusedB {
			t.Fatalf("%d (refused %d) anew, %d (refused %d) lent\n%s", a, refusedA, b, refusedB, tiny.Text(&later))
		}
		if a > 0 {
			can++
		}
	})
	t.Logf("%d asked, %d give more, %d with other workers", asked, can, other)
	if asked < tiny.Few(40) || can < tiny.Few(10) || other < tiny.Few(5) {
		t.Errorf("got %d, %d, %d: too few to mean much", asked, can, other)
	}
}

// A spare slot that is opened keeps the statement; when none is left, the next statement
// has more of them.
func TestSpareSlotsAreOpened(t *testing.T) {
	key := problem.Delivery{Family: 0, Due: 6}
	c := statement.NewCounts()
	c.Open[key], c.Spare[key] = 1, 1
	r := &statement.Room{Key: key, Closed: make([]kernel.Lit, 2)}
	if !c.Widen([]*statement.Room{r}) || c.Open[key] != 2 || r.Open != 1 || c.Spare[key] != 1 {
		t.Errorf("after one: %v, open %d", c, r.Open)
	}
	if c.Widen([]*statement.Room{r}) || c.Open[key] != 3 || c.Spare[key] != 3 {
		t.Errorf("after two: %v", c)
	}
}

// A plan in force that left a job where it was may be asked about when the job has a way: it does not
// stand then, unless that job may be left.
func TestAPlanThatLeftWhatNowGoesOnIsAskedAbout(t *testing.T) {
	testrun.Checks(t, 60)
	asked := 0
	rapid.Check(t, func(t *rapid.T) {
		k := tiny.Small(t)
		k.Begun = 1
		m, with, r := drawAsked(t, k, 300_000)
		if b := &m.Begun[0]; len(b.Starts) == len(b.Mode.Acts) || r.Jobs[0].Stuck {
			return
		}
		h := &with.Hints[0]
		h.Stuck, h.Shares, h.Exact, h.Starts = true, nil, nil, nil
		q := inquire(context.Background(), with, len(m.Demands)-1, -1, 1_000_000, nil, 64)
		if q == nil {
			return
		}
		if asked++; q.Stands() && !slices.ContainsFunc(q.jobs, func(j *problem.Job) bool { return j.Stuck }) {
			t.Fatalf("the job left stands as something else\n%s", tiny.Text(with))
		}
	})
	if asked < tiny.Few(5) {
		t.Errorf("got %d asked about: too few to mean much", asked)
	}
}
