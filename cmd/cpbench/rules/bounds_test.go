package rules_test

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"ripeby/cmd/cpbench/rules"
	"ripeby/schedule/cp/kernel"
)

// What one propagation does to the bounds is held against trying all starts. That
// every step of whole searches is right is for steps_test.go.

// job is a task with its window of starts.
type job struct{ low, high, length, demand int32 }

// fits tries every way to start the jobs and gives the least and greatest start of
// each over all that keep within the capacity; ok is false when none does.
func fits(jobs []job, capacity int32) (least, most []int32, ok bool) {
	starts := make([]int32, len(jobs))
	var place func(i int)
	place = func(i int) {
		if i < len(jobs) {
			for v := jobs[i].low; v <= jobs[i].high; v++ {
				starts[i] = v
				place(i + 1)
			}
			return
		}
		for moment := int32(-20); moment < 20; moment++ {
			sum := int32(0)
			for k, j := range jobs {
				if starts[k] <= moment && moment < starts[k]+j.length {
					sum += j.demand
				}
			}
			if sum > capacity {
				return
			}
		}
		if !ok {
			least, most, ok = slices.Clone(starts), slices.Clone(starts), true
		}
		for k, v := range starts {
			least[k], most[k] = min(least[k], v), max(most[k], v)
		}
	}
	place(0)
	return least, most, ok
}

// narrow gives the bounds after propagation alone, false when it found a conflict.
func narrow(jobs []job, capacity int32, edge bool) (low, high []int32, ok bool) {
	s := kernel.New()
	var list []rules.Interval
	for _, j := range jobs {
		list = append(list, rules.Interval{Start: s.NewVar(j.low, j.high), Length: j.length, Demand: j.demand})
	}
	rules.AddTimetable(s, list, capacity)
	if edge {
		rules.AddEdgeFind(s, list, capacity)
	}
	if s.Search(context.Background(), 0) == kernel.Impossible {
		return nil, nil, false
	}
	for _, v := range list {
		low, high = append(low, s.Min(v.Start)), append(high, s.Max(v.Start))
	}
	return low, high, true
}

func someJobs(r *rand.Rand) ([]job, int32) {
	capacity := int32(1 + r.IntN(4))
	var jobs []job
	for range 2 + r.IntN(3) {
		low := int32(r.IntN(5) - 2)
		jobs = append(jobs, job{low, low + int32(r.IntN(5)), int32(r.IntN(5)), int32(r.IntN(int(capacity) + 2))})
	}
	return jobs, capacity
}

// mirror turns time round: a start s of length n becomes -(s+n).
func mirror(jobs []job) []job {
	out := make([]job, len(jobs))
	for i, j := range jobs {
		out[i] = job{-(j.high + j.length), -(j.low + j.length), j.length, j.demand}
	}
	return out
}

// TestNoSolutionIsLost: bounds keep every solution, a conflict has none, fixed jobs
// are decided, and turning time round turns the timetable's bounds round.
func TestNoSolutionIsLost(t *testing.T) {
	narrowed, refused := 0, 0
	for seed := range uint64(3000) {
		r := rand.New(rand.NewPCG(seed, 1))
		jobs, capacity := someJobs(r)
		edge := seed%2 == 0
		least, most, possible := fits(jobs, capacity)
		low, high, ok := narrow(jobs, capacity, edge)
		if !ok {
			refused++
			if possible {
				t.Fatalf("seed %d: refused %v of capacity %d, which fit from %v to %v", seed, jobs, capacity, least, most)
			}
		}
		for i := range low {
			if possible && (low[i] > least[i] || high[i] < most[i]) {
				t.Fatalf("seed %d: job %d of %v, capacity %d: got [%d, %d], want all of [%d, %d]", seed, i, jobs, capacity, low[i], high[i], least[i], most[i])
			}
			if low[i] > jobs[i].low || high[i] < jobs[i].high {
				narrowed++
			}
		}
		if edge {
			continue // of the tasks to move it looks at one a stretch: which, depends on the order
		}
		mlow, mhigh, mok := narrow(mirror(jobs), capacity, edge)
		if mok != ok {
			t.Fatalf("seed %d: %v: got %v forward and %v backward", seed, jobs, ok, mok)
		}
		for i, j := range jobs {
			if ok && (mlow[i] != -(high[i]+j.length) || mhigh[i] != -(low[i]+j.length)) {
				t.Fatalf("seed %d: job %d of %v: got [%d, %d] forward, [%d, %d] backward", seed, i, jobs, low[i], high[i], mlow[i], mhigh[i])
			}
		}
	}
	if narrowed < 300 || refused < 300 {
		t.Errorf("got %d bounds narrowed and %d conflicts: too few to mean much", narrowed, refused)
	}
}

// TestFixedJobsAreDecided: with one start left to each, propagation alone answers.
func TestFixedJobsAreDecided(t *testing.T) {
	count := [2]int{}
	for seed := range uint64(2000) {
		jobs, capacity := someJobs(rand.New(rand.NewPCG(seed, 2)))
		for i := range jobs {
			jobs[i].high = jobs[i].low
		}
		_, _, want := fits(jobs, capacity)
		for _, edge := range []bool{false, true} {
			if _, _, got := narrow(jobs, capacity, edge); got != want {
				t.Fatalf("seed %d: %v of capacity %d: got %v, want %v", seed, jobs, capacity, got, want)
			}
		}
		if want {
			count[1]++
		} else {
			count[0]++
		}
	}
	if min(count[0], count[1]) < 200 {
		t.Errorf("got %v that do not fit and fit: too few of one kind", count)
	}
}

// TestWhatEachRuleSees shows what the timetable moves, and what only energy does.
func TestWhatEachRuleSees(t *testing.T) {
	tests := []struct {
		name     string
		jobs     []job
		capacity int32
		edge     bool
		low      []int32 // nil for a conflict
	}{
		// a must run in [2,3); b, from 1 on, is pushed behind it.
		//    0 1 2 3 4 5
		//  a [1,2] len 2: ▒ at 2
		//  b [1,6] len 2:       goes to 3
		{"pushed behind what must run", []job{{1, 2, 2, 1}, {1, 6, 2, 1}}, 1, false, []int32{1, 3}},
		{"two fit beside each other", []job{{1, 2, 2, 1}, {1, 6, 2, 1}}, 2, false, []int32{1, 1}},
		// Three jobs of 2 in [0,5): nothing must run, yet 6 > 5.
		{"the timetable sees no energy", []job{{0, 3, 2, 1}, {0, 3, 2, 1}, {0, 3, 2, 1}}, 1, false, []int32{0, 0, 0}},
		{"too much energy", []job{{0, 3, 2, 1}, {0, 3, 2, 1}, {0, 3, 2, 1}}, 1, true, nil},
		// Two jobs of 2 fill [0,4) of capacity 1; the third, free to 9, must wait.
		{"energy pushes the third", []job{{0, 2, 2, 1}, {0, 2, 2, 1}, {0, 9, 2, 1}}, 1, true, []int32{0, 0, 4}},
		{"one moment more and it may come first", []job{{0, 4, 2, 1}, {0, 4, 2, 1}, {0, 9, 2, 1}}, 1, true, []int32{0, 0, 0}},
		{"more than there ever is", []job{{0, 3, 1, 3}, {0, 3, 0, 3}}, 2, true, []int32{0, 0}},
	}
	for _, tt := range tests {
		low, _, ok := narrow(tt.jobs, tt.capacity, tt.edge)
		if ok != (tt.low != nil) || !slices.Equal(low, tt.low) {
			t.Errorf("%s: got %v %v, want %v", tt.name, low, ok, tt.low)
		}
	}
}

// TestHolesGiveTheHull: after propagation the bounds are the least and greatest
// values outside every hole, and there is a conflict when there is none.
func TestHolesGiveTheHull(t *testing.T) {
	empty := 0
	for seed := range uint64(3000) {
		r := rand.New(rand.NewPCG(seed, 3))
		low := int32(r.IntN(10) - 5)
		high := low + int32(r.IntN(8))
		var holes []rules.Hole
		for range r.IntN(6) {
			from := int32(r.IntN(16) - 8)
			holes = append(holes, rules.Hole{From: from, Until: from + int32(r.IntN(6)-1)})
		}
		var left []int32
		for v := low; v <= high; v++ {
			if !slices.ContainsFunc(holes, func(h rules.Hole) bool { return h.From <= v && v < h.Until }) {
				left = append(left, v)
			}
		}
		s := kernel.New()
		x, y := s.NewVar(low, high), s.NewVar(low, high)
		before := slices.Clone(holes)
		rules.AddHoles(s, []kernel.Var{x, y}, holes)
		if !slices.Equal(before, holes) {
			t.Fatalf("seed %d: the holes given were changed to %v", seed, holes)
		}
		st := s.Search(context.Background(), 0)
		if (st == kernel.Impossible) != (len(left) == 0) {
			t.Fatalf("seed %d: [%d, %d] less %v: got %v, want one of %v", seed, low, high, holes, st, left)
		}
		if len(left) == 0 {
			empty++
			continue
		}
		for _, v := range []kernel.Var{x, y} {
			if s.Min(v) != left[0] || s.Max(v) != left[len(left)-1] {
				t.Fatalf("seed %d: [%d, %d] less %v: got [%d, %d], want hull of %v", seed, low, high, holes, s.Min(v), s.Max(v), left)
			}
		}
	}
	if empty < 100 {
		t.Errorf("got %d without a value: too few", empty)
	}
}
