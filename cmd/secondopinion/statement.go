package main

import (
	"fmt"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/planner"
)

// Limits of a statement. Beyond these the export refuses and names the limit; a general
// solver has long come to its own.
const (
	maxSteps   = 120_000 // grid steps from the planning start to the last target: a year of 5 min
	maxSlots   = 400     // batches that a plan may need, over all recipes
	maxColumns = 400     // stacks of boxes of one stay that may stand on shelves
)

// refusal says which part of a kitchen a statement cannot tell, and why.
type refusal struct{ what, why string }

// Error names the feature first.
func (r *refusal) Error() string { return r.what + ": " + r.why }

// statement is a problem in whole numbers, as kitchen.mzn reads it. Moments are
// counted from zero, the first grid moment not before the planning start: in steps
// where only the grid matters, in units of a fraction of a step elsewhere.
type statement struct {
	p     *schedule.Problem
	step  resources.Minutes
	zero  resources.Moment
	unit  resources.Minutes // divides the step and everything that may lie off the grid
	last  resources.Moment  // no target leaves later
	end   resources.Moment  // nothing matters later
	steps int               // no stage starts later than this step

	recipes []recipeRow
	packed  []recipeRow // batches under way whose stages have all begun
	forms   []formRow
	slots   []int // recipe of each slot
	cap     int   // most slots of a recipe, 0 for no such limit
	capped  bool  // a best plan might need more slots
	lengths []int // different lengths of work, in steps
	wants   []wantRow
	supply  []collectionRow

	things []thingRow
	counts [][]int // by size, column 0 an empty slot
	uses   []useRow
	busy   []busyRow
	stays  []stayRow
	stock  []stockRow
	space  spaceRows
	told   toldRows

	measure resources.Millilitres // litres are counted in it
}

// newStatement states a problem, with at most cap batches of each recipe; 0 for as many
// as a best plan can need. The error is a [*refusal] when the problem has something in
// it that a statement cannot tell.
func newStatement(p *schedule.Problem, cap int) (*statement, error) {
	s := &statement{p: p, cap: cap, step: p.Kitchen.Step, zero: resources.CeilTo(p.From, p.Kitchen.Step)}
	for _, part := range []func() error{s.nothingCarried, s.nothingByRoom, s.setWants, s.setRecipes, s.setBegun, s.setThings, s.setUnit, s.setStock, s.setTold, s.setSlots,
		s.setKit, s.setStays, s.setSpace, s.setMilk} {
		if err := part(); err != nil {
			return nil, err
		}
	}
	return s, nil
}

// nothingCarried refuses a kitchen in which cheese stands where it is closed, or will be, and is
// carried elsewhere: the models have it where it stands.
func (s *statement) nothingCarried() error {
	ends := func(t resources.Span) bool { return t.Until > s.p.From }
	if !slices.ContainsFunc(s.p.Kitchen.Cold, func(c resources.ColdPlace) bool { return taken(&c, ends) }) {
		return nil
	}
	for _, c := range planner.State(s.p, s.p.From).Carries() {
		return &refusal{"cheese that is carried out of a closed place", fmt.Sprintf("from the %s to the %s", c.From, c.To)}
	}
	return nil
}

// nothingByRoom refuses a recipe whose hold goes by how warm the make room is: the models have the same
// limits on every day.
func (s *statement) nothingByRoom() error {
	for i := range s.p.Recipes {
		for _, g := range s.p.Recipes[i].Stages {
			if g.Hold.ByRoom() {
				return &refusal{"a hold that goes by the make room", fmt.Sprintf("the %s of %s has goes_by", g.Name, s.p.Recipes[i].Name)}
			}
		}
	}
	return nil
}

// at gives a moment in units from zero.
func (s *statement) at(m resources.Moment) int { return int(int64(m-s.zero) / int64(s.unit)) }

// stepFrom is the first step not before a moment, stepUntil the last one not after it.
func (s *statement) stepFrom(m resources.Moment) int {
	return int(resources.CeilTo(m, s.step)-s.zero) / int(s.step)
}

func (s *statement) stepUntil(m resources.Moment) int {
	return int(resources.FloorTo(m, s.step)-s.zero) / int(s.step)
}

// moment is the moment of a step.
func (s *statement) moment(step int) resources.Moment {
	return s.zero.Add(resources.Minutes(step) * s.step)
}

// units gives a length in units.
func (s *statement) units(d resources.Minutes) int { return int(d / s.unit) }

// perStep is how many units a grid step has.
func (s *statement) perStep() int { return int(s.step / s.unit) }

// setUnit finds the largest unit in which everything is whole that is compared or counted off
// the grid: targets, closed times, cleaning, what has begun with the bests of its holds, stock's
// ends, and how long packed cheese with a store of its own keeps.
func (s *statement) setUnit() error {
	u := s.step
	off := func(m resources.Moment) { u = gcd(u, resources.Minutes(m-s.zero)) }
	for _, t := range s.p.Targets {
		off(t.By)
	}
	k := &s.p.Kitchen
	for _, c := range k.Cold {
		for _, span := range c.Taken {
			off(span.From)
			off(span.Until)
		}
		for _, shelf := range c.Shelves {
			for _, span := range shelf.Taken {
				off(span.From)
				off(span.Until)
			}
		}
	}
	for _, row := range s.underWay() {
		for _, end := range row.begun.ends {
			off(end)
		}
		for _, g := range row.r.Stages { // the costs of holds that run late are counted in units
			if g.Hold != nil && g.Hold.HasBest {
				u = gcd(u, g.Hold.Best)
			}
		}
	}
	for _, t := range s.things {
		u = gcd(u, t.Clean)
	}
	for _, st := range s.p.Stock {
		if r := s.p.Recipe(st.Cheese); r != nil {
			off(st.Packed.Add(r.Keeps))
		}
	}
	for _, r := range s.p.Recipes {
		if h := r.Stages[len(r.Stages)-1].Hold; h != nil {
			u = gcd(u, r.Keeps)
		}
	}
	s.unit = u
	return nil
}

// gcd is the greatest common divisor of two lengths, a sign left out of account.
func gcd[N ~int | ~int64](a, b N) N {
	for b != 0 {
		a, b = b, a%b
	}
	return max(a, -a)
}
