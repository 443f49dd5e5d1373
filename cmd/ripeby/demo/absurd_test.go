package demo_test

import (
	"context"
	"fmt"
	"io/fs"
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"ripeby/calendar/note"
	"ripeby/config"
	"ripeby/schedule"
	"ripeby/schedule/cp"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/judge"
	"ripeby/schedule/planner"
	"ripeby/schedule/testrun"
)

// absurd are the demo's kitchen, the first demo's, and what becomes of them by slips of the finger, or by somebody
// who wants to know how much it takes.
func absurd(t *testing.T) map[string]*schedule.Problem {
	t.Helper()
	edit := func(which int, change map[string]func(string) string) *schedule.Problem {
		return edited(t, which, change)
	}
	change := func(file, old, new string) map[string]func(string) string {
		return map[string]func(string) string{file: func(text string) string {
			if !regexp.MustCompile(old).MatchString(text) {
				t.Fatalf("%s has no %s", file, old)
			}
			return regexp.MustCompile(old).ReplaceAllString(text, new)
		}}
	}
	var many strings.Builder
	many.WriteString("targets:\n")
	for i := range 20 {
		fmt.Fprintf(&many, "  - {name: Stall %d, by: 2027-03-%02d %02d:00, every: week, until: 2029-01-20, want: [{cheese: Alder drum, pieces: %d}, {cheese: Spoon curd, pieces: %d}]}\n",
			i, 1+i%7, 6+i%12, 3+i%5, 2+i%4)
	}
	return map[string]*schedule.Problem{
		"as it is":                edit(0, nil),
		"2,400 pieces":            edit(0, change("targets.yaml", `Alder drum, pieces: 18`, `Alder drum, pieces: 2400`)),
		"2,400 of the first demo": edit(1, change("targets.yaml", `White heart, pieces: 22`, `White heart, pieces: 2400`)),
		"100,000 of everything":   edit(0, change("targets.yaml", `pieces: \d+`, `pieces: 100000`)),
		"2,000 targets":           edit(0, map[string]func(string) string{"targets.yaml": func(string) string { return many.String() }}),
		"a hold of years":         edit(0, change("recipes/croft-truckle.yaml", `best: 56 d, most: 84 d`, `best: 300 d, most: 700 d`)),
		"500 begun batches":       edit(0, map[string]func(string) string{"begun.yaml": func(string) string { return begunBatches(500) }}),
		"six thousand lot sizes":  edit(0, change("recipes/spoon-curd.yaml", `step: 1 L`, `step: 0.001 L`)),
	}
}

// edited is one of the kitchens with some files changed.
func edited(t *testing.T, which int, change map[string]func(string) string) *schedule.Problem {
	t.Helper()
	folder := kitchens[which].folder
	files := fstest.MapFS{}
	err := fs.WalkDir(folder, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := fs.ReadFile(folder, name)
		if f := change[name]; f != nil {
			text = []byte(f(string(text)))
		}
		files[name] = &fstest.MapFile{Data: text}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	p, err := config.LoadFS(files, config.Options{From: kitchens[which].from})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// names are the kitchens in order.
func names(all map[string]*schedule.Problem) []string {
	return slices.Sorted(maps.Keys(all))
}

// faultsOf is what the judge finds in an answer, once it is numbered as plans are that are kept.
func faultsOf(p *schedule.Problem, stated *planner.Stated, r *problem.Result) []judge.Violation {
	plan := stated.Decode(r)
	schedule.CountMoves(plan, nil)
	note.Revise(p, plan, nil)
	return judge.Check(p, plan)
}

// What any plan takes is some part more than the work allowed, and a floor: that of reading the
// folder and making some plan of it.
const (
	workOver  = 2
	workFloor = 40_000_000
)

// The work allowed bounds all that is counted, however absurd the kitchen, and the plan holds.
func TestWorkBoundsAbsurdKitchens(t *testing.T) {
	all := absurd(t)
	for _, name := range names(all) {
		p := all[name]
		for _, work := range []int64{10_000, 1_000_000, 10_000_000, 100_000_000}[:testrun.Rounds(1, 4)] {
			stated := planner.State(p, p.From)
			r := cp.Solve(t.Context(), stated.Model(), cp.Options{Budget: work})
			if most := workOver*work + workFloor; r.Spent > most {
				t.Errorf("%s: got %d counted with %d allowed, want at most %d", name, r.Spent, work, most)
			}
			if faults := faultsOf(p, stated, r); len(faults) > 0 {
				t.Errorf("%s with %d: got %v, want a plan that holds", name, work, faults[0])
			}
		}
	}
}

// stopAfter is a context that somebody ends while it is asked for the so manieth time.
type stopAfter struct {
	context.Context
	left int
}

// Err counts down.
func (s *stopAfter) Err() error {
	if s.left--; s.left < 0 {
		return context.Canceled
	}
	return nil
}

// stopWork is the counted work, about a second of it, in which a plan that is called off must
// be given.
const stopWork = 8_000_000

// Whenever planning is called off, there is a plan that holds, and soon.
func TestPlanningIsCalledOff(t *testing.T) {
	all := absurd(t)
	for n, name := range names(all) {
		p := all[name]
		for i := range testrun.Rounds(1, 20) {
			ctx := &stopAfter{context.Background(), i * i * (1 + 97*n)}
			stated := planner.State(p, p.From)
			r := cp.Solve(ctx, stated.Model(), cp.Options{Budget: 10_000_000})
			if faults := faultsOf(p, stated, r); len(faults) > 0 {
				t.Errorf("%s called off at look %d: got %v, want a plan that holds", name, i*i*(1+97*n), faults[0])
			}
			if i == 0 && r.Spent > stopWork {
				t.Errorf("%s called off at once: got %d counted, want at most %d", name, r.Spent, stopWork)
			}
		}
		at := int64(0)
		ctx, stop := context.WithCancel(t.Context())
		stated := planner.State(p, p.From)
		r := cp.Solve(ctx, stated.Model(), cp.Options{Budget: 10_000_000, Progress: func(_, _ problem.Cost, spent int64) {
			if at == 0 {
				at = spent
				stop()
			}
		}})
		stop()
		if r.Spent > at+stopWork {
			t.Errorf("%s called off at %d: got %d counted, want at most %d more", name, at, r.Spent, stopWork)
		}
	}
}
