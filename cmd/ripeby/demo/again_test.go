package demo_test

import (
	"context"
	"testing"

	"ripeby/cmd/ripeby/demo"
	"ripeby/config"
	"ripeby/schedule/judge"
	"ripeby/schedule/planner"
)

// Three weeks on, with the folder as it was and so with begun.yaml out of date, the
// plan that carries on the first still keeps every rule.
func TestTheDemoPlannedAgain(t *testing.T) {
	first, err := planner.Plan(context.Background(), load(t), planner.Options{Budget: seasonBudget})
	if err != nil {
		t.Fatal(err)
	}
	p, err := config.LoadFS(demo.Files(), config.Options{From: "2027-03-22 05:00"})
	if err != nil {
		t.Fatal(err)
	}
	p.Earlier = first
	plan, err := planner.Plan(context.Background(), p, planner.Options{Budget: seasonBudget})
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range judge.Check(p, plan) {
		t.Errorf("judge: %v", v)
	}
}
