package keep

import (
	"strings"

	"ripeby/resources"
	"ripeby/schedule"
)

// recipe is the recipe as it was when the batch was first kept: what is changed in it later is for
// batches to come.
func (k *keeping) recipe() *schedule.KeptRecipe {
	if k.before != nil && k.before.Recipe != nil {
		return k.before.Recipe
	}
	r := k.p.Recipe(k.b.Cheese)
	if r == nil {
		return nil
	}
	out := &schedule.KeptRecipe{Name: r.Name, Code: r.Code, Milk: r.Milk, Yield: r.Yield, Piece: r.Piece, Spare: r.Spare, Keeps: r.Keeps}
	for i := range r.Stages {
		s := &r.Stages[i]
		out.Stages = append(out.Stages, schedule.KeptLimits{Stage: s.Name, Hold: s.Hold, At: where(s.At)})
	}
	return out
}

// where is the place of a stage as a recipe writes it.
func where(at schedule.At) string {
	switch at.Kind {
	case schedule.AtPlace:
		return at.Place
	case schedule.AtRange:
		return strings.TrimSuffix(resources.FormatTemperature(at.Low), " °C") + "-" + resources.FormatTemperature(at.High)
	}
	return "room"
}
