package needs

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// Who are the people who may do a stage's work, by their numbers in the kitchen's order.
func Who(s *schedule.Stage, k *resources.Kitchen) []int {
	var out []int
	for i := range k.People {
		if len(s.Who) == 0 || slices.Contains(s.Who, k.People[i].Name) {
			out = append(out, i)
		}
	}
	return out
}
