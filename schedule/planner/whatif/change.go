package whatif

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/planner"
)

// ChangeKind orders changes by what they ask of the maker.
type ChangeKind int

// The kinds, the least asked first.
const (
	ChangePlan  ChangeKind = iota // nothing is bought and nobody is asked
	ChangeKit                     // more of something
	ChangeHours                   // somebody is there for longer
	ChangeDate                    // somebody waits
)

// Change is one thing that could be otherwise in a kitchen.
type Change struct {
	Kind ChangeKind
	Text string            // "one more ring mould"
	With *schedule.Problem // the problem with it; its last want is the asked one where Later
	// Later is set where the missing pieces have become a want of their own, the last.
	Later bool
	// Also is another want that was moved and must be met in full, -1 for none.
	Also int
	// unless is the text of a smaller change of the same thing, which is left out where that
	// gives as much.
	unless string
}

// changed is a change that leaves every want as it is.
func changed(kind ChangeKind, with *schedule.Problem, text string) Change {
	return Change{Kind: kind, Text: text, With: with, Also: -1}
}

// copied is a problem whose kitchen, recipes and targets may be changed.
func copied(p *schedule.Problem) *schedule.Problem {
	out := *p
	out.Kitchen = p.Kitchen.Clone()
	out.Recipes = slices.Clone(p.Recipes)
	out.Targets = slices.Clone(p.Targets)
	return &out
}

// changesFor are the changes that could do away with one of some facts, for a want that is
// short of so many pieces.
func changesFor(st *planner.Stated, facts []problem.Fact, plan *schedule.Plan, wanted, missing int) []Change {
	p, w := st.Problem(), &plan.Targets[wanted]
	family, within := st.Family(w.Cheese), resources.Span{From: p.From, Until: w.By}
	var out []Change
	limited := map[int]bool{}
	for _, f := range facts {
		switch f.Kind {
		case problem.FactServes:
			out = append(out, servesFewer(p, f.Index))
		case problem.FactPool:
			out = append(out, moreOf(p, st.Thing(f.Index).Name))
			out = append(out, asMany(st, f, family, missing)...)
		case problem.FactSpace:
			out = append(out, moreRoom(p, f.Index))
			out = append(out, asMany(st, f, family, missing)...)
			out = append(out, freed(p, f.Index, within)...)
		case problem.FactSupply:
			out = append(out, moreMilk(p, f.Index)...)
			out = append(out, collectedToo(p, f.Index, within)...)
		case problem.FactWorker:
			day := st.Moment(f.From).DateIn(p.Kitchen.Zone)
			out = append(out, longerDay(p, f.Index, day)...)
			out = append(out, thereAfterAll(p, f.Index, day)...)
			if !limited[f.Index] {
				limited[f.Index] = true
				out = append(out, worksLonger(p, f.Index)...)
			}
		case problem.FactDemand:
			out = append(out, otherLater(st, f.Index, plan.Targets[f.Index].Met)...)
		}
	}
	return out
}
