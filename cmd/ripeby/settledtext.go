package main

import "ripeby/schedule"

// What an answer would change of what was told for the settled time is said in one line, also where that
// is nothing.

// settledCount is how many tasks of the settled time a plan moves or drops, and how many in it are new.
func settledCount(problem *schedule.Problem, plan *schedule.Plan) (moved, added int) {
	until := problem.Settled().Until
	for _, c := range plan.Changes {
		switch {
		case problem.OnlyTakenOver(&c):
		case c.Was == 0:
			added++
		case c.Before(until):
			moved++
		}
	}
	return moved, added
}

// settledText says in one line what a plan would change of what was told for the settled time; "" where
// nothing is settled.
func settledText(problem *schedule.Problem, plan *schedule.Plan) string {
	if problem.Settled().Empty() {
		return ""
	}
	until := "Until " + moment(problem.Settled().Until, problem.Kitchen.Zone)
	moved, added := settledCount(problem, plan)
	news := schedule.Counted(added, "task") + " " + plural(added, "is", "are") + " new"
	moves := schedule.Counted(moved, "settled task") + " " + plural(moved, "moves", "move")
	switch {
	case moved == 0 && added == 0:
		return until + " nothing changes of what was planned."
	case moved == 0:
		return until + " nothing that was planned moves; " + news + "."
	case added == 0:
		return until + " " + moves + "."
	}
	return until + " " + moves + ", and " + news + "."
}

// plural chooses the word for one or for several.
func plural(n int, one, several string) string {
	if n == 1 {
		return one
	}
	return several
}

// calmText says that no change moves anything settled, where that is so; "" where nothing is settled.
func (a *whyAnswer) calmText() string {
	if a.problem.Settled().Empty() {
		return ""
	}
	for _, y := range a.whys {
		for i := range y.Fixes {
			if n, _ := settledCount(y.Fixes[i].With, y.Fixes[i].Plan); n > 0 {
				return ""
			}
		}
	}
	return " None of it moves what is planned until " + moment(a.problem.Settled().Until, a.problem.Kitchen.Zone) + "."
}
