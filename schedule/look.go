package schedule

import (
	"slices"

	"ripeby/resources"
)

// Look is a look at a batch that somebody asked for: the hold before Stage was not over, and it is
// looked at again. It keeps Minutes of Who free from Start on.
type Look struct {
	Batch, Stage string
	Start        resources.Moment
	Minutes      resources.Minutes
	Who          string
	Asked        resources.Moment // when somebody found that it was not over
}

// Held is a hold of a batch under way that a look found not to be over: its limits from then on.
type Held struct {
	Batch string
	Stage int  // whose hold it is
	Hold  Hold // AsIs
}

// TakenOn is work that somebody has taken on. Of a batch under way nobody else does it. One that has
// not begun is no more than planned, and the plan may make another in its place: there it counts as moved
// where another does it, whenever it is ([Problem.ToldTo]).
type TakenOn struct {
	Batch, Stage, Who string
	Begun             bool // the batch is under way
}

// RecipeOf is the recipe of a batch of a cheese, as looks have bent its hold and with the work that
// somebody has taken on; nil when there is none.
func (p *Problem) RecipeOf(batch, cheese string) *Recipe {
	r := p.Recipe(cheese)
	if r == nil {
		return nil
	}
	bent := *r
	bent.Stages = slices.Clone(r.Stages)
	changed := false
	for _, x := range p.Held {
		if x.Batch == batch && x.Stage < len(r.Stages) {
			bent.Stages[x.Stage].Hold, changed = &x.Hold, true
		}
	}
	for _, x := range p.TakenOn {
		for i := range bent.Stages {
			if x.Begun && x.Batch == batch && bent.Stages[i].Name == x.Stage {
				bent.Stages[i].Who, changed = []string{x.Who}, true
			}
		}
	}
	if !changed {
		return r
	}
	return &bent
}

// LooksOf are the looks that are still made in a plan: there is none where the stage itself begins at
// that moment, by whomever.
func (p *Problem) LooksOf(plan *Plan) []Look {
	return slices.DeleteFunc(slices.Clone(p.Looks), func(l Look) bool {
		t := plan.Batch(l.Batch).Stage(l.Stage)
		return t != nil && t.Start == l.Start
	})
}
