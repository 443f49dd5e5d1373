package global_test

import (
	"context"
	"math/rand/v2"
	"testing"

	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/kernel"
)

// budget is far more than any model here needs.
const budget = 1 << 40

// bench is a model of many optional tasks of which a few are chosen, with every rule
// in it, and the choice.
func bench(r *rand.Rand, tasks, chosen int) (s *kernel.Solver, choice []kernel.Lit) {
	s = kernel.New()
	var all []global.Task
	var items []global.Item
	var terms []global.Term
	table := []int32{1, 2, 3, 4}
	lengths := global.Amount{Table: []int32{5, 7, 9, 11}}
	taken := []global.Taken{}
	for day := range int32(40) {
		taken = append(taken, global.Taken{From: 100*day + 60, Until: 100*day + 100, Units: 4 + day%2*2})
	}
	days := make([][]global.Range, 1)
	for day := range int32(40) {
		days[0] = append(days[0], global.Range{From: 100 * day, To: 100*day + 60})
	}
	for i := range tasks {
		is, size := s.NewVar(0, 1), s.NewVar(0, 3)
		from, until := s.NewVar(0, 3900), s.NewVar(0, 4000)
		t := global.Task{
			From: global.Moment{X: from}, Until: global.Moment{X: until}, Least: 5,
			Demand: global.Amount{By: size, Table: table}, If: []kernel.Lit{is.Ge(1)},
		}
		lengths.By = size
		global.AddOffset(s, from, lengths, until)
		global.AddAllowed(s, from, size, []global.Way{{If: is.Ge(1), Sets: days}}, is.Ge(1))
		items = append(items, global.Item{Weight: t.Demand, If: t.If, Start: from, Timed: true})
		terms = append(terms, global.Term{View: from.Up(), Times: 1})
		all = append(all, t)
		if i < chosen {
			start := int32(r.IntN(100 * chosen))
			choice = append(choice, is.Ge(1), from.Ge(start), from.Le(start+30))
		} else {
			choice = append(choice, is.Le(0))
		}
	}
	global.AddCumulative(s, all, 8, taken)
	global.AddLoad(s, items, 60, 500, 2500)
	global.AddLinear(s, terms, int64(4000*tasks))
	return s, choice
}

// reached is the first choice of some that needs no turning back and moves many
// bounds.
func reached(t testing.TB, tasks, chosen int) (*kernel.Solver, []kernel.Lit) {
	t.Helper()
	for seed := range uint64(500) {
		s, choice := bench(rand.New(rand.NewPCG(seed, 20)), tasks, chosen)
		bounds := s.Counted.Bounds
		st := s.Search(context.Background(), budget, choice...)
		if st == kernel.Solved && s.Counted.Conflicts == 0 && s.Counted.Bounds > bounds+int64(tasks) {
			return s, choice
		}
	}
	t.Fatal("got no choice that fits at once")
	return nil, nil
}

// TestNothingIsAllocated: the rules, run over and over with the same choices and
// reasons, allocate nothing.
func TestNothingIsAllocated(t *testing.T) {
	s, choice := reached(t, 40, 8)
	before := s.Counted.Bounds
	got := testing.AllocsPerRun(20, func() {
		if s.Search(context.Background(), budget, choice...) != kernel.Solved {
			t.Error("the choice fits no more")
		}
	})
	if got != 0 || s.Counted.Conflicts > 0 {
		t.Errorf("got %v allocations a run, %d conflicts; want none", got, s.Counted.Conflicts)
	}
	t.Logf("%d changes of bounds a run", (s.Counted.Bounds-before)/21)
}

// BenchmarkChoice: 200 tasks of which 30 are chosen, from the choice to a solution.
func BenchmarkChoice(b *testing.B) {
	s, choice := reached(b, 200, 30)
	wakes, bounds := s.Counted.Wakes, s.Counted.Bounds
	b.ReportAllocs()
	b.ResetTimer()
	for b.Loop() {
		s.Search(context.Background(), budget, choice...)
	}
	b.ReportMetric(float64(s.Counted.Wakes-wakes)/float64(b.N), "wakes/op")
	b.ReportMetric(float64(s.Counted.Bounds-bounds)/float64(b.N), "bounds/op")
}
