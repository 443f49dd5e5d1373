package whatif

import (
	"context"
	"fmt"
	"slices"

	"ripeby/schedule"
	"ripeby/schedule/planner"
)

// Which of the things that are otherwise since the earlier plan made work move is not read off a plan:
// several may be needed together, or any of them be enough. So it is tried. The plan is made again
// without each of them, with as much work each, and once with all of them: a thing is named for work
// that moves with all of them, and stays without that one. Of anything else it is only said that the
// work moved after it.

// Cause is something that is otherwise than when the earlier plan of a problem was made.
type Cause struct {
	Text string
	// Without is the problem had it stayed as it was; nil where that is not known.
	Without func() *schedule.Problem
}

// How much of a plan's work may go to that, and how many causes are tried and named.
const (
	causesShare = 3
	causesMost  = 40_000_000
	causesTried = 6
	causesNamed = 2

	causesAtOnce = 64 // batches of plans that are made side by side
)

// NameCauses says of each change of a plan what made it so, as far as that was found out: after the part
// of the score for which it changed. More says that there are causes beside those listed.
func NameCauses(ctx context.Context, p *schedule.Problem, plan *schedule.Plan, list []Cause, more bool, work int64) {
	if len(list) == 0 || len(plan.Changes) == 0 || ctx.Err() != nil {
		return
	}
	var tried []Cause
	for _, c := range list {
		if c.Without != nil && len(tried) < causesTried {
			tried = append(tried, c)
		}
	}
	each := max(min(work/causesShare, causesMost)/int64(len(tried)+1), 1)
	plans := make([]*schedule.Plan, len(tried)+1) // the last with all of them
	again := func(i int) {
		of := p
		if i < len(tried) {
			of = tried[i].Without()
		}
		if made, err := planner.Plan(ctx, of, planner.Options{Budget: each, Plain: true}); err == nil {
			plans[i] = made
		}
	}
	if len(plan.Batches) <= causesAtOnce {
		sideBySide(len(plans), again)
	} else {
		for i := range plans { // several such plans at once take much memory
			again(i)
		}
	}
	if ctx.Err() != nil {
		return // what was made in a hurry shows nothing
	}
	all := plans[len(tried)]
	for i := range plan.Changes {
		c := &plan.Changes[i]
		var by []string
		cheese := ""
		if b := plan.Batch(c.Batch); b != nil {
			cheese = b.Cheese
		}
		for k := range tried {
			if all != nil && plans[k] != nil && !asItWas(c, cheese, all) && asItWas(c, cheese, plans[k]) {
				by = append(by, tried[k].Text)
			}
		}
		c.Because += " " + causeText(c, by, list, more)
	}
}

// asItWas reports whether a plan has work of a cheese as it was before a change: where it was new, not
// at all, under whatever id.
func asItWas(c *schedule.Change, cheese string, plan *schedule.Plan) bool {
	if c.Was == 0 {
		return !slices.ContainsFunc(plan.Batches, func(o schedule.Batch) bool {
			t := o.Stage(c.Stage)
			return o.Cheese == cheese && t != nil && t.Work > 0 && t.Start == c.Now
		})
	}
	t := plan.Batch(c.Batch).Stage(c.Stage)
	return t != nil && t.Start == c.Was && t.Who == c.WasWho
}

// causeText names what a change came of: by what was tried, or else after what it came.
func causeText(c *schedule.Change, by []string, list []Cause, more bool) string {
	if len(by) > 0 {
		left := by[:min(len(by), causesNamed)]
		if c.Was == 0 {
			return fmt.Sprintf("Without %s there is no such work.", anyOf(left))
		}
		return fmt.Sprintf("Without %s it stays as it was.", anyOf(left))
	}
	var names []string
	for _, x := range list[:min(len(list), causesNamed)] {
		names = append(names, x.Text)
	}
	switch n := len(list) - len(names); {
	case more:
		names = append(names, "more")
	case n > 0:
		names = append(names, fmt.Sprintf("%d more", n))
	}
	return "It came after " + schedule.Listed(names) + "."
}

// anyOf joins one or two names, of which each is enough.
func anyOf(names []string) string {
	if len(names) == 1 {
		return names[0]
	}
	return names[0] + ", or without " + names[1] + ","
}
