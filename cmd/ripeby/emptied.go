package main

import (
	"fmt"
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
	type target struct {
		name string
		by   resources.Moment
	}
	var next target
	coming := map[target]bool{}
	for _, t := range problem.Earlier.Targets {
		if t.By < problem.From {
			continue
		}
		if len(coming) == 0 || t.By < next.by {
			next = target{t.Target, t.By}
		}
		coming[target{t.Target, t.By}] = true
	}
	if len(coming) == 0 {
		return nil
	}
	zone := problem.Kitchen.Zone
	return wrong("targets.yaml wants nothing from %s on, but the earlier plan still has %s to come, next %s; nothing was written\n"+
		"Put the targets back, as in\n%s\nor, if nothing is to be made any more, plan with --no-targets: then only what has begun stays in the plan.",
		moment(problem.From, zone), schedule.Counted(len(coming), "target"), next.name+", "+moment(next.by, zone), targetExample(problem, next.name, next.by))
}

// targetExample is a target of the earlier plan as targets.yaml would have it.
func targetExample(problem *schedule.Problem, name string, by resources.Moment) string {
	var wants []string
	for _, t := range problem.Earlier.Targets {
		if t.Target != name || t.By != by {
			continue
		}
		text := fmt.Sprintf("{cheese: %q, pieces: %d, price: %s", t.Cheese, t.Wanted, money(t.Price))
		if t.Promised {
			text += ", promised: true"
		}
		wants = append(wants, text+"}")
	}
	return fmt.Sprintf("  targets: [{name: %q, by: %s, want: [%s]}]", name, resources.FormatMoment(by, problem.Kitchen.Zone), strings.Join(wants, ", "))
}
