package planner

import (
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
)

// warnRoom says which batches have a hold that goes by the make room, and begins in one so cool or so warm
// that the rule says nothing of it: then what the recipe says holds as it is written.
func (pl *Stated) warnRoom(plan *schedule.Plan) {
	for i := range plan.Batches {
		b := &plan.Batches[i]
		r := pl.p.RecipeOf(b.ID, b.Cheese)
		for k := range b.Stages {
			t := &b.Stages[k]
			begins := t.Start.Add(t.Work)
			room := needs.RoomAt(&pl.p.Kitchen, begins)
			if !r.Stages[k].Hold.ByRoom() || t.Ends < pl.p.From || schedule.Follows(room) {
				continue
			}
			pl.note("room-outside", begins, "%s (%s): the room is %s when the hold of %s begins, which is not from %s to %s: the hold is planned as the recipe has it, whatever the room. Look early, and go by the cheese.",
				b.ID, b.Cheese, resources.FormatTemperature(room), t.Stage, resources.FormatTemperature(schedule.Coolest), resources.FormatTemperature(schedule.Warmest))
			break
		}
	}
}
