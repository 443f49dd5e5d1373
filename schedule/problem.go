package schedule

import "ripeby/resources"

// Problem is everything that a plan is made from. Two equal Problems give plans
// that are equal to the byte.
type Problem struct {
	Kitchen resources.Kitchen
	Recipes []Recipe
	Targets []Target // those not before From, in the order written
	Begun   []Begun
	Stock   []Stock
	Ordered []Ordered
	Came    []Came
	Lost    []string

	// Held are holds that looks found not to be over, one a batch at the most; Looks are those
	// still to come, by start, no two of one person at one moment.
	Held    []Held
	Looks   []Look
	TakenOn []TakenOn

	// Packets are all that were opened, by when; LotsUsed and Weighed what was said of batches. Only what goes
	// into the cheese goes by them.
	Packets  []Packet
	LotsUsed []LotUsed
	Weighed  []CurdWeight

	// PastStock are entries of stock that still keep and of which nothing is left.
	PastStock []StockUse

	// AsOf is as of when Begun and Stock stand as they say; nil where the folder does not tell.
	AsOf *resources.Moment
	// BegunAsOf says of each entry of Begun and Stock as of when it holds, those too that the
	// time since has used up. nil: all as of From.
	BegunAsOf []BegunAsOf

	// OffPlan are all batches that were ever made off the plan.
	OffPlan []MadeOffPlan

	// From is the planning start: nothing planned begins before it.
	From resources.Moment
	// Earlier is the plan that this one carries on, nil for none.
	Earlier *Plan
	// Lived is Earlier as it went, where the record tells: its batches that have begun, with the
	// starts, work and people that they really had, what they gave and what is left of them; the
	// stages that have not begun start at From at the earliest. nil: all went as planned.
	Lived *Plan
	// MadeOf is what its plan is to remember of what it was made from; nil for nothing.
	MadeOf *MadeOf
	// Warnings are what reading the folder had to say.
	Warnings []Warning
}

// RecipeNumber is the place of a cheese's recipe in Recipes, -1 for none.
func (p *Problem) RecipeNumber(cheese string) int {
	for i := range p.Recipes {
		if p.Recipes[i].Name == cheese {
			return i
		}
	}
	return -1
}

// Recipe finds a recipe by the name of its cheese; nil when there is none.
func (p *Problem) Recipe(cheese string) *Recipe {
	if i := p.RecipeNumber(cheese); i >= 0 {
		return &p.Recipes[i]
	}
	return nil
}

// Went is the earlier plan as it went: all that lies before From happened so. nil for none.
func (p *Problem) Went() *Plan {
	if p.Lived != nil {
		return p.Lived
	}
	return p.Carried(p.Earlier)
}

// HasBegun reports whether a batch of the earlier plan has begun.
func (p *Problem) HasBegun(id string) bool {
	if p.Went() == nil {
		return false
	}
	b := p.Went().Batch(id)
	return b != nil && len(b.Stages) > 0 && b.Stages[0].Start < p.From
}
