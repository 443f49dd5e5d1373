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
	Lost    []string

	// From is the planning start: nothing planned begins before it.
	From resources.Moment
	// Earlier is the plan that this one carries on, nil for none.
	Earlier *Plan
	// Warnings are what reading the folder had to say.
	Warnings []Warning
}

// Recipe finds a recipe by the name of its cheese; nil when there is none.
func (p *Problem) Recipe(cheese string) *Recipe {
	for i := range p.Recipes {
		if p.Recipes[i].Name == cheese {
			return &p.Recipes[i]
		}
	}
	return nil
}
