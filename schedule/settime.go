package schedule

import (
	"slices"

	"ripeby/resources"
)

// Within which bounds a hold goes by the make room, and a kitchen may be slower or faster than what its
// recipe says: the rule is fitted to points between them. Common practice, no source.
const (
	Coolest resources.MilliCelsius = 15_000
	Warmest resources.MilliCelsius = 30_000

	LeastTimes resources.Factor = 500
	MostTimes  resources.Factor = 2_500
)

// UsualVaries is how much one batch scatters about its ready where the recipe does not say: the standard
// deviation of the logarithm. Common practice, from the range of
// published set times.
const UsualVaries resources.Factor = 150

// Scatters reports whether any hold is ready at a moment that varies.
func (p *Problem) Scatters() bool {
	return slices.ContainsFunc(p.Recipes, func(r Recipe) bool {
		return slices.ContainsFunc(r.Stages, func(s Stage) bool { return s.Hold != nil && s.Hold.Ready > 0 && s.Hold.Varies > 0 })
	})
}
