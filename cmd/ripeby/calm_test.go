package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"ripeby/cmd/ripeby/demo"
	"ripeby/config"
	"ripeby/schedule"
	"ripeby/schedule/judge"
	"ripeby/schedule/planfile"
	"ripeby/schedule/planner"
	"ripeby/schedule/planner/whatif"
	"ripeby/schedule/record/follows"
)

// A plan that is asked for again with nothing changed is the same to the byte; a step later nothing
// is told to move.
func TestAskedForAgainNothingMoves(t *testing.T) {
	demoProblem := func() (*schedule.Problem, error) { return config.LoadFS(demo.Files(), config.Options{From: demo.From}) }
	kitchen := func(name string) func() (*schedule.Problem, error) {
		return func() (*schedule.Problem, error) {
			dir := filepath.Join("..", "..", "testdata", "kitchens", name)
			text, err := os.ReadFile(filepath.Join(dir, "kitchen.yaml"))
			if err != nil {
				return nil, err
			}
			from := regexp.MustCompile(`^# --from "([^"]+)": `).FindSubmatch(text)
			return config.Load(dir, config.Options{From: string(from[1])})
		}
	}
	for name, load := range map[string]func() (*schedule.Problem, error){"demo": demoProblem, "two-pots": kitchen("two-pots"),
		"by-the-piece": kitchen("by-the-piece"), "night-shift": kitchen("night-shift")} {
		t.Run(name, func(t *testing.T) {
			p, err := load()
			if err != nil {
				t.Fatal(err)
			}
			plan := func() (*schedule.Plan, []byte) {
				made, err := newPlan(context.Background(), standsAlone(p), planner.Options{})
				if err != nil {
					t.Fatal(err)
				}
				if faults := judge.Check(p, made); len(faults) > 0 {
					t.Fatal(faults)
				}
				text, err := planfile.Encode(made, p.Kitchen.Zone)
				if err != nil {
					t.Fatal(err)
				}
				back, err := planfile.Decode(text)
				if err != nil {
					t.Fatal(err)
				}
				return back, text
			}
			first, _ := plan()
			p.Earlier = first
			second, once := plan()
			p.Earlier = second
			third, again := plan()
			if !bytes.Equal(once, again) {
				t.Errorf("asked for again, it is another plan:\n%s\n%s", once, again)
			}
			if second.Score != first.Score || len(second.Changes) > 0 {
				t.Errorf("got %+v with changes %+v, want %+v as before", second.Score, second.Changes, first.Score)
			}
			if p.Kitchen.Settled == 0 || !third.Proof.Best {
				t.Errorf("got %d settled and a proof of %s, want some and all", p.Kitchen.Settled, third.Proof.Level)
			}
			p.From, p.Earlier = p.From.Add(p.Kitchen.Step), third
			next, _ := plan()
			if next.Score.Moved > 0 || len(next.Changes) > 0 {
				t.Errorf("a step later: got %+v with changes %+v, want none", next.Score, next.Changes)
			}
		})
	}
}

// standsAlone is where a problem stands of which there is no record.
func standsAlone(p *schedule.Problem) *position {
	return &position{&follows.Position{Problem: p}, func() ([]whatif.Cause, bool) { return nil, false }}
}
