package schedule

import (
	"slices"

	"ripeby/resources"
)

// Change is a task that is otherwise than the earlier plan told: moved, given to somebody else,
// dropped, or new within the settled time.
type Change struct {
	Batch, Stage   string
	Was, Now       resources.Moment // its start; 0 where the earlier plan, or this one, has no such task
	WasWho, NowWho string           // who does it; "" likewise
	Because        string           // what made it so, or what is gained
}

// Before reports whether the task was to start before a moment, or does now: with the end of the settled
// time, whether a change is one of that.
func (c *Change) Before(m resources.Moment) bool {
	return c.Was != 0 && c.Was < m || c.Now != 0 && c.Now < m
}

// TakenOver reports whether a change is that somebody does work who has taken it on, and before another
// did: that counts as no move, but where its time is another too.
func (p *Problem) TakenOver(c *Change) bool {
	return c.NowWho != c.WasWho && slices.ContainsFunc(p.TakenOn, func(x TakenOn) bool { return x.Batch == c.Batch && x.Stage == c.Stage && x.Who == c.NowWho })
}

// OnlyTakenOver reports whether a change is that and nothing else.
func (p *Problem) OnlyTakenOver(c *Change) bool { return c.Was == c.Now && p.TakenOver(c) }

// Changes lists what is otherwise in a plan: what was told for the settled time or is in it now, and then
// the rest, each batch by batch and stage by stage, those of the earlier plan first. Lost batches, stages
// that have begun, and those that the earlier plan had before the planning start are left out.
func (p *Problem) Changes(plan *Plan) []Change {
	e, settled := p.Earlier, p.Settled()
	if e == nil {
		return nil
	}
	var soon, later []Change
	add := func(c Change) {
		if c.Before(settled.Until) {
			soon = append(soon, c)
		} else if c.Was != 0 {
			later = append(later, c)
		}
	}
	for i := range e.Batches {
		old := &e.Batches[i]
		if slices.Contains(p.Lost, old.ID) {
			continue
		}
		now := plan.Batch(old.ID)
		for k := range old.Stages {
			t := &old.Stages[k]
			is := now.Stage(t.Stage)
			switch {
			case t.Work == 0 || t.Start < p.From || is != nil && is.Begun:
			case is == nil || is.Work == 0:
				add(Change{Batch: old.ID, Stage: t.Stage, Was: t.Start, WasWho: t.Who})
			case is.Start != t.Start || is.Who != t.Who:
				add(Change{Batch: old.ID, Stage: t.Stage, Was: t.Start, WasWho: t.Who, Now: is.Start, NowWho: is.Who})
			}
		}
	}
	for i := range plan.Batches {
		b := &plan.Batches[i]
		old := e.Batch(b.ID)
		for k := range b.Stages {
			t := &b.Stages[k]
			was := old.Stage(t.Stage)
			if t.Work > 0 && !t.Begun && (was == nil || was.Start >= p.From && was.Work == 0) {
				add(Change{Batch: b.ID, Stage: t.Stage, Now: t.Start, NowWho: t.Who})
			}
		}
	}
	return append(soon, later...)
}
