package main

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"ripeby/cmd/cpbench/psplib"
	"ripeby/schedule/cp/kernel"
)

// without is a project of which only some facts hold, stated plainly.
func without(in *psplib.Instance, cal calendar, facts []fact) (*psplib.Instance, calendar) {
	out := &psplib.Instance{Lengths: in.Lengths, Demands: in.Demands}
	if !slices.ContainsFunc(facts, func(f fact) bool { return f.windows }) {
		cal.on = cal.period * (1 + slices.Max(in.Lengths)) // never shut; the horizon stays
	}
	for r, c := range in.Capacity {
		if !slices.ContainsFunc(facts, func(f fact) bool { return f.thing == r }) {
			c = 0
			for _, d := range in.Demands {
				c += d[r]
			}
		}
		out.Capacity = append(out.Capacity, c)
	}
	for k, l := range in.Lags {
		if l.Least >= 0 || slices.ContainsFunc(facts, func(f fact) bool { return f.lag == k }) {
			out.Lags = append(out.Lags, l)
		}
	}
	return out, cal
}

// checkReason solves the project with the facts of a reason alone, which must be
// impossible, and without each of them, which must not.
func checkReason(t *testing.T, name string, in *psplib.Instance, cal calendar, r reason) {
	t.Helper()
	const work = 50_000_000
	if a := status(in, cal, r.facts, work); a != kernel.Impossible {
		t.Errorf("%s: with %v alone: got %v, want impossible", name, r.say(in, cal), a)
	}
	for i := range r.facts {
		rest := slices.Delete(slices.Clone(r.facts), i, i+1)
		if a := status(in, cal, rest, work); a != kernel.Solved {
			t.Errorf("%s: %v, the %d. left out: got %v, want a plan", name, r.say(in, cal), i+1, a)
		}
	}
}

func status(in *psplib.Instance, cal calendar, facts []fact, work int64) kernel.Status {
	some, cal := without(in, cal, facts)
	s, _, ok := project(some, cal, false)
	if !ok {
		return kernel.Impossible
	}
	return s.Search(context.Background(), work)
}

func TestWhy(t *testing.T) {
	// Start, three tasks of 5 for one unit each, end. The third must start within 12
	// of the first, and the second within 3 of the first.
	in := func(capacity, from2, from3 int) *psplib.Instance {
		return &psplib.Instance{
			Lengths:  []int{0, 5, 5, 5, 0},
			Demands:  [][]int{{0, 0}, {1, 1}, {1, 0}, {1, 0}, {0, 0}},
			Capacity: []int{capacity, 1},
			Lags: []psplib.Lag{{From: 0, To: 1}, {From: 1, To: 2}, {From: 2, To: 3}, {From: 3, To: 4, Least: 5},
				{From: 2, To: 1, Least: -from2}, {From: 3, To: 1, Least: -from3}},
		}
	}
	tests := []struct {
		name string
		in   *psplib.Instance
		cal  calendar
		want string // empty for possible
	}{
		{"two at once on one unit", in(1, 3, 12), calendar{}, "impossible because of: 1 units of thing 1; lag 1 -> 2 at most 3"},
		{"just enough room", in(1, 5, 10), calendar{}, ""},
		{"two units will do", in(2, 3, 12), calendar{}, ""},
		{"the third comes in the next window", in(1, 5, 12), calendar{20, 14}, "impossible because of: windows 14 of 20; 1 units of thing 1; lag 1 -> 3 at most 12"},
		{"a window of three", in(1, 5, 12), calendar{20, 15}, ""},
		{"a window too short for one", in(3, 5, 12), calendar{20, 4}, "impossible because of: windows 4 of 20"},
		{"no units at all", in(0, 5, 12), calendar{}, "impossible because of: 0 units of thing 1"},
	}
	for _, tt := range tests {
		got := ""
		r, found := why(t.Context(), tt.in, tt.cal, 1_000_000)
		if found {
			got = r.say(tt.in, tt.cal)
			checkReason(t, tt.name, tt.in, tt.cal, r)
		}
		if got != tt.want || found && !r.minimal {
			t.Errorf("%s: got %q, minimal %v, want %q", tt.name, got, r.minimal, tt.want)
		}
	}
}

// TestWhyWithLittleWork: what is not shown to be needed is said to be perhaps too
// much.
func TestWhyWithLittleWork(t *testing.T) {
	r := reason{facts: []fact{{windows: true, thing: -1, lag: -1}}}
	got := r.say(&psplib.Instance{}, calendar{10, 7})
	if want := "impossible because of: windows 7 of 10 (perhaps fewer of them would do)"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if _, found := why(t.Context(), &psplib.Instance{Lengths: []int{0, 0}, Demands: [][]int{{0}, {0}}, Capacity: []int{1}}, calendar{}, 0); found {
		t.Errorf("no work at all: got a reason")
	}
}

// TestPublishedReasons checks the reason of each impossible row of the calendar,
// where the public sets are given.
func TestPublishedReasons(t *testing.T) {
	dir := os.Getenv("RIPEBY_RCPSP")
	if dir == "" {
		t.Skip("RIPEBY_RCPSP does not name a folder with the public sets")
	}
	trials, err := calendarTrials(dir)
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, one := range trials {
		if !one.known.impossible {
			continue
		}
		n++
		in, err := read(filepath.Join(dir, strings.Fields(one.name)[0]))
		if err != nil {
			t.Fatal(err)
		}
		r, found := why(t.Context(), &in.Instance, one.calendar, 100_000_000)
		if !found || !r.minimal {
			t.Errorf("%s: got %v, minimal %v, want a least reason", one.name, found, r.minimal)
			continue
		}
		t.Logf("%s: %s", one.name, r.say(&in.Instance, one.calendar))
		checkReason(t, one.name, &in.Instance, one.calendar, r)
	}
	if n == 0 {
		t.Error("no impossible rows")
	}
}
