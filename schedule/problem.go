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

	// From is the planning start: nothing planned begins before it.
	From resources.Moment
	// Earlier is the plan that this one carries on, nil for none.
	Earlier *Plan
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
