package planner

import (
	"maps"
	"slices"

	"ripeby/resources"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/needs"
)

// A hold that goes by the room is another one by when it begins ([needs.Spell]). The engine hears of it
// as a lag that turns. A stage without work, which comes by itself after a hold, has none such (the
// reader of the folder sees to that), so of an activity's holds only the first turns.

// at is the chain with the hold of a stage as it is when it begins at a moment.
func (c *chain) at(stage int, begins resources.Moment) *chain {
	spells := c.spells[stage]
	if spells == nil {
		return c
	}
	k := len(spells) - 1
	for k > 0 && begins < spells[k].From {
		k--
	}
	return c.with(stage, spells[k].Hold)
}

// with is the chain with another hold of a stage, whenever that begins.
func (c *chain) with(stage int, h needs.Hold) *chain {
	out := *c
	out.holds, out.spells = slices.Clone(c.holds), maps.Clone(c.spells)
	out.holds[stage].Hold = h
	delete(out.spells, stage)
	return &out
}

// turning is the lag that a chain makes of holds of which the first is of a stage.
func (c *chain) turning(stage int, k clock, lag func(*chain) problem.Lag) problem.Lag {
	spells := c.spells[stage]
	if spells == nil {
		return lag(c)
	}
	var turns []problem.Turn
	for _, s := range spells {
		is := lag(c.with(stage, s.Hold))
		turns = append(turns, problem.Turn{From: k.tick(s.From), Lag: &is})
	}
	return problem.Turning(turns)
}
