package main

import (
	"fmt"
	"slices"
	"strings"

	"ripeby/resources"
	"ripeby/schedule"
)

// emptied refuses a folder that wants nothing any more while the earlier plan still has targets
// to come. A file that an editor or a synced folder has cut short looks like one
// whose maker wants nothing, and the plan of it would empty every calendar that subscribes.
func emptied(problem *schedule.Problem) error {
	if len(problem.Targets) > 0 || problem.Earlier == nil {
		return nil
	}
	coming := slices.DeleteFunc(targetsOf(problem.Earlier), func(t target) bool { return t.by < problem.From })
	if len(coming) == 0 {
		return nil
	}
	next, zone := coming[0], problem.Kitchen.Zone
	return wrong("targets.yaml wants nothing from %s on, but the earlier plan still has %s to come, next %s; nothing was written\n"+
		"Put the targets back, as in\n%s\nor, if nothing is to be made any more, plan with --no-targets: then only what has begun stays in the plan.",
		moment(problem.From, zone), schedule.Counted(len(coming), "target"), next.name+", "+moment(next.by, zone), targetExample(problem, next))
}

// targetExample is a target of the earlier plan as targets.yaml would have it.
func targetExample(problem *schedule.Problem, of target) string {
	var wants []string
	for _, t := range problem.Earlier.Targets {
		if (target{t.Target, t.By}) != of {
			continue
		}
		text := fmt.Sprintf("{cheese: %q, pieces: %d, price: %s", t.Cheese, t.Wanted, money(t.Price))
		if t.Promised {
			text += ", promised: true"
		}
		wants = append(wants, text+"}")
	}
	return fmt.Sprintf("  targets: [{name: %q, by: %s, want: [%s]}]", of.name, resources.FormatMoment(of.by, problem.Kitchen.Zone), strings.Join(wants, ", "))
}
