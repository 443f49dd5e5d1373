package needs

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// Stay is stages First to Last of a recipe in one cold place: from the end of the first
// one's work until the stage after the last begins, or until the batch has left.
type Stay struct {
	First, Last int
	Box         *schedule.Boxing // nil where the first stage uses none
	Places      []int            // where it may be, by the kitchen's numbers
}

// Stays lists a recipe's stays in the cold, those of stages without a hold among them. A
// stage that follows by itself goes on with the stay before it.
func Stays(r *schedule.Recipe, k *resources.Kitchen) []Stay {
	var out []Stay
	for i := range r.Stages {
		s := &r.Stages[i]
		if s.At.Kind == schedule.AtRoom {
			continue
		}
		places := Places(k, s.At)
		if x := len(out) - 1; x >= 0 && out[x].Last == i-1 && Follows(r, i, k.Step) {
			out[x].Last = i
			out[x].Places = slices.DeleteFunc(out[x].Places, func(c int) bool { return !slices.Contains(places, c) })
			continue
		}
		out = append(out, Stay{First: i, Last: i, Box: BoxOf(r, s), Places: places})
	}
	return out
}

// Follows reports whether stage i begins by itself when the hold before it ends: it has no
// work, so nobody is there to move anything.
func Follows(r *schedule.Recipe, i int, step resources.Minutes) bool {
	return i > 0 && !HasWork(&r.Stages[i]) && HoldOf(r, i-1, step).Most > 0
}

// Places are the cold places that a stage may be at, by their numbers in the kitchen's
// order; none for the room.
func Places(k *resources.Kitchen, at schedule.At) []int {
	var out []int
	for i := range k.Cold {
		c := &k.Cold[i]
		if at.Kind == schedule.AtPlace && at.Place == c.Name ||
			at.Kind == schedule.AtRange && at.Low <= c.Temperature && c.Temperature <= at.High {
			out = append(out, i)
		}
	}
	return out
}
