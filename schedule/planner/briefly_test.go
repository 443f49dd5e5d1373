package planner

import (
	"fmt"
	"testing"

	"ripeby/schedule/cp/problem"
)

// The one sentence of a plan names facts where few words can, and else what the proof says: of
// the kitchen, or of the kitchen with what other deliveries get.
func TestOneSentenceSaysAReason(t *testing.T) {
	pl, plan := fullKitchen(t, "the big old copper-bottomed ")
	var many []problem.Fact
	for i := range 3 {
		many = append(many, problem.Fact{Kind: problem.FactPool, Index: i}, problem.Fact{Kind: problem.FactSpace, Index: i},
			problem.Fact{Kind: problem.FactSupply, Index: i}, problem.Fact{Kind: problem.FactDemand, Index: 1 + i})
	}
	reason := func(kind problem.ReasonKind, facts ...problem.Fact) problem.Reason {
		return problem.Reason{Kind: kind, Sets: []problem.FactSet{{Facts: facts}}}
	}
	const others = "More is proved impossible unless others get less; ripeby why looks for what stands in the way."
	const alone = "More is proved impossible with what the kitchen has; ripeby why looks for what stands in the way."
	for _, c := range []struct {
		name  string
		r     problem.Reason
		alone bool // all wants are of one delivery
		want  string
	}{
		{"few facts", reason(problem.ReasonFacts, many[0]), false, "More is ruled out by 2 x the big old copper-bottomed pot 0."},
		{"facts that need many words", reason(problem.ReasonFacts, many...), false, others},
		{"the proof", reason(problem.ReasonProved), false, others},
		{"the proof, of one delivery", reason(problem.ReasonProved), true, alone},
		{"no price", reason(problem.ReasonUnpriced), false, Unpriced},
	} {
		for i := range plan.Targets {
			plan.Targets[i].Target = fmt.Sprint("Stall ", i)
			if c.alone {
				plan.Targets[i].Target = "Stall"
			}
		}
		if got := pl.briefly(&c.r, plan); got != c.want {
			t.Errorf("%s: got %s", c.name, got)
		}
	}
}
