package demo_test

import (
	"context"
	"io/fs"
	"os"
	"slices"
	"testing"

	"ripeby/cmd/ripeby/demo"
	"ripeby/config"
	"ripeby/schedule"
	"ripeby/schedule/judge"
	"ripeby/schedule/planner"
)

// kitchens are the demo and the one that was it first, kept whole: what is told of one is
// told of both. batches is how many are new in its plan.
var kitchens = []struct {
	name, from string
	folder     fs.FS
	batches    int
}{
	{"demo", demo.From, demo.Files(), 12},
	{"first demo", "2027-02-22 06:00", os.DirFS("../../../testdata/kitchens/first-demo"), 13},
}

// The kinds of limit that the paper plan must break for the demo to be worth
// planning. The paper plan may break more.
var mustBreak = []string{"cold", "hours", "milk", "moulds", "pots"}

// Counting each batch back alone must not be good enough: were it, the demo would
// show nothing.
func TestCountingEachBatchBackAloneBreaksTheKitchen(t *testing.T) {
	for _, k := range kitchens {
		t.Run(k.name, func(t *testing.T) {
			p := loadFrom(t, k.folder, k.from)
			all := countBack(p)
			if len(all) < 10 {
				t.Fatalf("the paper plan has %d batches, want at least 10", len(all))
			}
			first := map[string]string{}
			for _, b := range breaches(p, all) {
				if first[b.kind] == "" {
					first[b.kind] = b.text
				}
			}
			for _, kind := range mustBreak {
				if first[kind] == "" {
					t.Errorf("the paper plan keeps to the %s, want a breach", kind)
					continue
				}
				t.Logf("%s: %s", kind, first[kind])
			}
		})
	}
}

// What the paper cannot do, the planner does: every target met, every rule kept.
func TestThePlannerMeetsEveryTarget(t *testing.T) {
	for _, k := range kitchens {
		t.Run(k.name, func(t *testing.T) {
			p := loadFrom(t, k.folder, k.from)
			plan, err := planner.Plan(context.Background(), p, planner.Options{})
			if err != nil {
				t.Fatalf("planning it: %v", err)
			}
			for _, v := range judge.Check(p, plan) {
				t.Errorf("judge: %v", v)
			}
			for _, w := range plan.Targets {
				if w.Short > 0 {
					t.Errorf("%s, %s: got %d of %d: %s", w.Target, w.Cheese, w.Met, w.Wanted, w.Because)
				}
			}
			if plan.Outcome != schedule.Met {
				t.Errorf("outcome: got %q, want %q", plan.Outcome, schedule.Met)
			}
			if !plan.Proof.Best {
				t.Errorf("proof: got best up to %s, want the whole plan proved best", plan.Proof.Level)
			}
			if len(plan.Warnings) > 0 {
				t.Errorf("got warnings %v, want none in its first plan", plan.Warnings)
			}
			if n := plan.Score.Batches; n != k.batches {
				t.Errorf("new batches: got %d, want %d", n, k.batches)
			}
			crossesTheClockChange(t, p, plan)
		})
	}
}

// The demo is there to show a hold that runs through the night in which the
// clocks change, 28 March 2027 at 01:00 UTC.
func crossesTheClockChange(t *testing.T, p *schedule.Problem, plan *schedule.Plan) {
	t.Helper()
	for _, b := range plan.Batches {
		for _, s := range b.Stages[:len(b.Stages)-1] {
			_, before := s.Start.In(p.Kitchen.Zone).Zone()
			_, after := s.Ends.In(p.Kitchen.Zone).Zone()
			if !b.Begun && before != after {
				return
			}
		}
	}
	t.Error("no hold of a new batch crosses the clock change")
}

// The demo's cheeses, people and kit are what the README says they are.
func TestTheDemoIsTheKitchenDescribed(t *testing.T) {
	p := load(t)
	var cheeses []string
	for _, r := range p.Recipes {
		cheeses = append(cheeses, r.Name)
	}
	slices.Sort(cheeses)
	if want := []string{"Alder drum", "Croft truckle", "Spoon curd"}; !slices.Equal(cheeses, want) {
		t.Errorf("cheeses: got %v, want %v", cheeses, want)
	}
	if len(p.Kitchen.People) != 2 || len(p.Begun) != 2 {
		t.Errorf("got %d people and %d batches begun, want 2 and 2", len(p.Kitchen.People), len(p.Begun))
	}
	if len(p.Warnings) != 0 {
		t.Errorf("reading the demo warns: %v", p.Warnings)
	}
}

func load(t *testing.T) *schedule.Problem {
	t.Helper()
	return loadFrom(t, demo.Files(), demo.From)
}

func loadFrom(t *testing.T, folder fs.FS, from string) *schedule.Problem {
	t.Helper()
	p, err := config.LoadFS(folder, config.Options{From: from})
	if err != nil {
		t.Fatalf("the kitchen folder: %v", err)
	}
	return p
}
