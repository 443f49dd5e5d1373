package demo_test

import (
	"fmt"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/planner"
)

// hoursOf are the stages of the demo's recipes that may run, each with the best length of its hold.
var hoursOf = []struct {
	cheese, code, pot string
	litres            int
	stages            []string
	hours             []float64
}{
	{"Alder drum", "AD", "kettle", 12, []string{"make", "set", "ladle", "salt", "bloom", "wrap"}, []float64{1, 14, 22, 12, 192, 120}},
	{"Croft truckle", "CT", "copper", 18, []string{"make", "press", "salt", "ripen"}, []float64{1, 14, 24, 1344}},
	{"Spoon curd", "SC", "kettle", 6, []string{"make", "set", "drain", "spoon"}, []float64{1, 15, 9, 12}},
}

// begunBatches is a begun.yaml of the demo's kitchen with so many batches, six alike in turn, that have
// come to any of their stages: some of them just begun, some past their best.
func begunBatches(n int) string {
	from, err := time.Parse("2006-01-02 15:04", kitchens[0].from)
	if err != nil {
		panic(err)
	}
	var out strings.Builder
	out.WriteString("begun:\n")
	for i := range n {
		r := hoursOf[i%len(hoursOf)]
		kind := i / 6
		running := kind % len(r.stages)
		hours := func(h float64) time.Duration { return time.Duration(h * float64(time.Hour)).Truncate(time.Minute) }
		at := from.Add(-hours(r.hours[running] * float64(10+kind*13%110) / 100))
		var stages []string
		for k := running; k >= 0; k-- {
			stages = append([]string{fmt.Sprintf("%s: %s", r.stages[k], at.Format("2006-01-02 15:04"))}, stages...)
			if k > 0 {
				at = at.Add(-hours(r.hours[k-1] + 1))
			}
		}
		fmt.Fprintf(&out, "  - {id: %s-%s-%d, cheese: %s, litres: %d, stages: {%s}, has: {pot: %s}}\n",
			r.code, at.Format("060102"), i+1, r.cheese, r.litres, strings.Join(stages, ", "), r.pot)
	}
	return out.String()
}

// What hundreds of begun batches have in common is worked out once, and no further than it is of use: the
// model looks as far ahead as one of them may go on, not as far as all would one after another.
func TestManyBegunBatchesHaveMuchInCommon(t *testing.T) {
	p := withBegun(t, 500)
	m := planner.State(p, p.From).Model()
	if ahead := m.Horizon - m.From; ahead > int(400*resources.Day) {
		t.Errorf("got a model of %d days, want one of 400 at the most", ahead/int(resources.Day))
	}
	any := make([]int64, len(m.Begun))
	for b := range any {
		any[b] = problem.Infinite
	}
	for what, model := range map[string]*problem.Model{"in time": m, "however late": m.Within(any)} {
		costs, lags := map[*int32]bool{}, 0
		for b := range model.Begun {
			for i := max(len(model.Begun[b].Starts)-1, 0); i < len(model.Begun[b].Mode.Acts); i++ {
				if c := model.Begun[b].Mode.Acts[i].Lag.Cost; len(c) > 0 {
					costs[&c[0]], lags = true, lags+1
				}
			}
		}
		if lags < 1000 || len(costs) > 60 {
			t.Errorf("%s: got %d lags with %d tables of what they cost, want more than 1,000 with 60 at the most", what, lags, len(costs))
		}
	}
}

// withBegun is the demo's kitchen with so many begun batches.
func withBegun(t *testing.T, n int) *schedule.Problem {
	t.Helper()
	files := fstest.MapFS{"begun.yaml": {Data: []byte(begunBatches(n))}}
	for _, glob := range []string{"kitchen.yaml", "targets.yaml", "recipes/*.yaml"} {
		names, err := fs.Glob(kitchens[0].folder, glob)
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range names {
			text, err := fs.ReadFile(kitchens[0].folder, name)
			if err != nil {
				t.Fatal(err)
			}
			files[name] = &fstest.MapFile{Data: text}
		}
	}
	return loadFrom(t, files, kitchens[0].from)
}

// With hardly any work hundreds of begun batches are carried on within the floor of any plan; each that
// goes no further has no way on by the judge. Of 130 some have one only if all may be as late as they can.
func TestManyBegunBatchesAreCarriedOn(t *testing.T) {
	for _, n := range []int{130, 500} {
		p := withBegun(t, n)
		stated := planner.State(p, p.From)
		r := cp.Solve(t.Context(), stated.Model(), cp.Options{Budget: 10_000})
		if r.Spent > workFloor {
			t.Errorf("%d batches: got %d counted with 10,000 allowed, want at most %d", n, r.Spent, workFloor)
		}
		on := 0
		for _, j := range r.Jobs {
			if j.Begun >= 0 && !j.Stuck {
				on++
			}
		}
		if on < 60 {
			t.Errorf("%d batches: got %d carried on, want 60 at the least", n, on)
		}
		if faults := faultsOf(p, stated, r); len(faults) > 0 {
			t.Errorf("%d batches: got %d faults, the first %v; want a plan that holds", n, len(faults), faults[0])
		}
	}
}
