package note

import (
	"reflect"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// Revise numbers what a calendar says of a plan by comparing it with the earlier plan,
// nil for none; it is the last thing done to a new plan before it is put in force, when
// its cautions, shares and rounds stand.
//
// What is new gets the number 0 and the plan's From. What is unchanged keeps its
// numbers, whatever From is; so a plan made again with the same outcome changes
// nothing. What changed gets the next number.
//
// Task.Revision and RevisedText, Task.StaySequence and StayRevised, and the Sequence
// and Revised of stock, rounds, carries, targets and milk, follow everything that a calendar says
// ([Task], [Stay], [Round], [Carry], [Target], [Milk]). What milk is to be ordered and collected
// is listed in the plan first. Their moment always moves forward, by a minute
// at least, even when the new plan's From does not: a subscriber may look at nothing
// else. Task.Sequence and Task.Revised are not touched: they follow the plan file
// ([schedule.CountMoves]).
//
// Stages and stays are matched by batch id and stage, stock by cheese and packing,
// rounds by their local day in the kitchen's zone, targets by name, milk by supply and
// collection. What is missing from the
// earlier plan counts as new, even if a plan before that held it.
func Revise(p *schedule.Problem, plan, earlier *schedule.Plan) {
	if earlier == nil {
		earlier = &schedule.Plan{}
	}
	reviseTasks(plan, earlier, p.Kitchen.Zone)
	reviseStays(plan, earlier)
	reviseRounds(plan, earlier, p.Kitchen.Zone)
	reviseTargets(plan, earlier)
	reviseCarries(plan, earlier)
	reviseMilk(p, plan, earlier)
	reviseTitles(p, plan, earlier)
}

// reviseTitles has titles in the calendar for everything name who does the work, where there is more than one who could. They
// have a number of their own, since no other calendar moves when that changes: a plan from before titles had names
// changes each event of that calendar once.
func reviseTitles(p *schedule.Problem, plan, earlier *schedule.Plan) {
	named := len(p.Kitchen.People) > 1
	t := earlier.Titles
	if earlier.From != 0 && t.Named != named {
		next := edition{t.Sequence, t.Revised}.next(plan.From)
		t.Sequence, t.Revised = next.number, next.moment
	}
	t.Named = named
	plan.Titles = t
}

// edition is how often something changed and when it last did.
type edition struct {
	number int
	moment resources.Moment
}

// next is the edition after e in a plan from that moment.
func (e edition) next(from resources.Moment) edition {
	return edition{e.number + 1, max(from, e.moment+1)}
}

// stageKey names a stage for ever.
type stageKey struct{ batch, stage string }

// stageIn points at a stage of a plan.
type stageIn struct {
	batch *schedule.Batch
	stage int
}

func reviseTasks(plan, earlier *schedule.Plan, zone *time.Location) {
	cautions, had := CautionsOf(plan, zone), CautionsOf(earlier, zone)
	before := map[stageKey]stageIn{}
	for k := range earlier.Batches {
		b := &earlier.Batches[k]
		for i := range b.Stages {
			before[stageKey{b.ID, b.Stages[i].Stage}] = stageIn{b, i}
		}
	}
	for k := range plan.Batches {
		b := &plan.Batches[k]
		for i := range b.Stages {
			t := &b.Stages[i]
			old, known := before[stageKey{b.ID, t.Stage}]
			if !known {
				t.Revision, t.RevisedText = 0, plan.From
				continue
			}
			o := &old.batch.Stages[old.stage]
			// An earlier plan without the text's own numbers lends the others.
			text := edition{max(o.Revision, o.Sequence), max(o.RevisedText, o.Revised)}
			if !reflect.DeepEqual(OfTask(plan, b, i), OfTask(earlier, old.batch, old.stage)) || !had.same(&cautions, stageKey{b.ID, t.Stage}) {
				text = text.next(plan.From)
			}
			t.Revision, t.RevisedText = text.number, text.moment
		}
	}
}

func reviseRounds(plan, earlier *schedule.Plan, zone *time.Location) {
	before := map[resources.Date]int{}
	for i := range earlier.Rounds {
		before[earlier.Rounds[i].Start.DateIn(zone)] = i
	}
	for i := range plan.Rounds {
		r := &plan.Rounds[i]
		r.Sequence, r.Revised = 0, plan.From
		j, known := before[r.Start.DateIn(zone)]
		if !known {
			continue
		}
		e := edition{earlier.Rounds[j].Sequence, earlier.Rounds[j].Revised}
		if !reflect.DeepEqual(OfRound(plan, i), OfRound(earlier, j)) {
			e = e.next(plan.From)
		}
		r.Sequence, r.Revised = e.number, e.moment
	}
}

func reviseTargets(plan, earlier *schedule.Plan) {
	notes := map[string]Target{}
	for _, n := range OfTargets(earlier) {
		notes[n.Target] = n
	}
	before := map[string]edition{}
	for _, w := range earlier.Targets {
		e := before[w.Target]
		before[w.Target] = edition{max(e.number, w.Sequence), max(e.moment, w.Revised)}
	}
	now := map[targetKey]edition{}
	for _, n := range OfTargets(plan) {
		e, known := before[n.Target]
		switch {
		case !known:
			e = edition{0, plan.From}
		case !reflect.DeepEqual(n, notes[n.Target]):
			e = e.next(plan.From)
		}
		now[targetKey{n.Target, n.By}] = e
	}
	for i := range plan.Targets {
		w := &plan.Targets[i]
		e := now[targetKey{w.Target, w.By}]
		w.Sequence, w.Revised = e.number, e.moment
	}
}
