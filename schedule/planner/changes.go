package planner

import (
	"fmt"
	"strings"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp/problem"
)

// addChanges lists what is otherwise than the earlier plan told, each with what made it so: by which part
// of the score a plan is worse first that keeps it as it was.
func (pl *Stated) addChanges(plan *schedule.Plan, r *problem.Result) {
	plan.Changes = pl.p.Changes(plan)
	by := map[changedTask]int{}
	for _, c := range r.Changed {
		id, ch := "", (*chain)(nil)
		if c.Kept != nil {
			id, ch = pl.before.ids[c.Kept.Number], pl.chains[c.Kept.Family]
		} else {
			id, ch = pl.under[c.Begun].id, pl.under[c.Begun].chain
		}
		by[changedTask{id, ch.recipe.Stages[ch.acts[c.Activity].first].Name}] = c.By
	}
	for i := range plan.Changes {
		c := &plan.Changes[i]
		part, known := by[changedTask{c.Batch, c.Stage}]
		switch {
		case c.Was == 0:
			c.Because = servesText(plan.Batch(c.Batch))
		case pl.p.OnlyTakenOver(c):
			c.Because = c.NowWho + " has taken it on."
		case pl.p.TakenOver(c):
			c.Because = c.NowWho + " has taken it on, and it comes at another time."
		case known:
			c.Because = pl.changedBy(part)
		case pl.p.Settled().Empty():
			c.Because = "Nothing is settled: whatever makes the plan better moves."
		case r.Changed == nil:
			c.Because = pl.changedBy(problem.ByUnknown)
		default:
			c.Because = "There is no such work in the recipe any more."
		}
	}
	pl.warnLeftToOthers(plan, by)
}

// changedTask is work of a stage of a batch.
type changedTask struct{ batch, stage string }

// warnLeftToOthers tells of work that somebody has taken on and another does, and for which part of the score
// that is.
func (pl *Stated) warnLeftToOthers(plan *schedule.Plan, by map[changedTask]int) {
	for _, x := range pl.p.TakenOn {
		t := plan.Batch(x.Batch).Stage(x.Stage)
		if t == nil || t.Begun || t.Work == 0 || t.Who == x.Who {
			continue
		}
		text := fmt.Sprintf("%s has taken on the %s of %s, and it is planned for %s, %s.", x.Who, x.Stage, x.Batch, t.Who, resources.ShowMoment(t.Start, pl.p.Kitchen.Zone))
		if part, known := by[changedTask{x.Batch, x.Stage}]; known && part >= 0 {
			text += " " + pl.changedBy(part)
		}
		pl.note("taken-by-another", t.Start, "%s", text)
	}
}

// changedBy says why work is not as it was.
func (pl *Stated) changedBy(part int) string {
	const kept = "Kept as it was, "
	switch part {
	case problem.PartStuck, problem.PartLate:
		return kept + "something under way would be late."
	case problem.PartPromised:
		return kept + "a promised piece would be short."
	case problem.PartShort:
		return kept + "a piece would be short."
	case problem.PartJobs:
		return kept + "it would take one batch more."
	case problem.PartMoved:
		return kept + "more would have to move."
	case problem.PartAmount:
		return kept + "it would take more milk."
	case problem.PartPenalty:
		return kept + "there would be more bother."
	case problem.PartEarly:
		return kept + "something would be made earlier, and be less fresh."
	case problem.ByLittle:
		return "It gains in bother or in later makes, if anything."
	case problem.ByNothing:
		return "Nothing forced it: a plan as good keeps it as it was."
	case problem.ByItself:
		if len(pl.under) > 0 {
			return "It cannot be as it was, unless something under way is late."
		}
		return "It cannot be as it was."
	}
	return "What forced it was not found out in the work allowed."
}

// servesText says what a batch is for.
func servesText(b *schedule.Batch) string {
	var list []string
	for _, s := range b.For {
		list = append(list, fmt.Sprintf("%s for %s", schedule.Counted(s.Pieces, "piece"), s.Target))
	}
	if len(list) == 0 {
		return "It was not in the earlier plan."
	}
	return "New: " + strings.Join(list, ", ") + "."
}
