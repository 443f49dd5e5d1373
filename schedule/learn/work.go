package learn

import (
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record/trace"
)

// Work is how long the work of a stage really takes, where both was said: when it began, and when it was
// done.
type Work struct {
	Stage  string
	Passed []Passed
	Times  int // that it was said
	// Took is what it took half of the time and, of all times, the shortest and the longest; Recipe what the
	// recipe says for the same batches, half of the time. All are 0 where it was said under [Fewest] times.
	Took   Range
	Recipe resources.Minutes
}

// Range is the least, the median and the most of some lengths.
type Range struct{ Least, Median, Most resources.Minutes }

// longestWork is from how long on somebody is taken to have forgotten to say that the work was done.
const longestWork = 12 * resources.Hour

// worksOf learns the work of every stage of a recipe of which something was said.
func worksOf(k *resources.Kitchen, r *schedule.Recipe, made []trace.Made) (out []Work) {
	for i := range r.Stages {
		if r.Stages[i].Hands == nil {
			continue
		}
		w := Work{Stage: r.Stages[i].Name}
		var took, recipe []resources.Minutes
		for j := range made {
			m := &made[j]
			began, _ := m.Said.Began(w.Stage).First()
			did, _ := m.Said.Did(w.Stage).First()
			if began == nil || did == nil {
				continue
			}
			switch long := did.At.Sub(began.At); {
			case long <= 0:
				w.Passed = append(w.Passed, Passed{called(m), "it was said to be done when it was begun, or before"})
			case long > longestWork:
				w.Passed = append(w.Passed, Passed{called(m), "it would have taken over " + resources.FormatMinutes(longestWork)})
			default:
				took = append(took, long)
				recipe = append(recipe, sight{k, r, m}.work(i))
			}
		}
		if w.Times = len(took); w.Times >= Fewest {
			w.Took, w.Recipe = rangeOf(took), rangeOf(recipe).Median
		}
		if w.Times > 0 || len(w.Passed) > 0 {
			out = append(out, w)
		}
	}
	return out
}
