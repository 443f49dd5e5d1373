package planner_test

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// everyBegun is one batch under way: as begun.yaml has it, or as the earlier plan began it.
type everyBegun struct {
	schedule.Begun
	earlier *schedule.Batch // the same batch in the earlier plan; nil for none
	carried bool            // nothing but the earlier plan tells of it
	gone    int             // pieces of it that have left already
	left    []schedule.LeftShare
}

// allBegun lists what is under way: begun.yaml's batches, then those of the earlier plan
// that began before the planning start, of which nothing else is known.
func (e *everyWorld) allBegun() {
	for _, b := range e.p.Begun {
		e.under = append(e.under, everyBegun{Begun: b, earlier: e.stood(b.ID)})
	}
	went := e.p.Carried(e.p.Earlier)
	if e.p.Lived != nil { // as the record tells that it went
		went = e.p.Lived
	}
	if went == nil {
		return
	}
	for i := range went.Batches {
		b := &went.Batches[i]
		told := slices.ContainsFunc(e.p.Begun, func(o schedule.Begun) bool { return o.ID == b.ID })
		if told || slices.Contains(e.p.Lost, b.ID) || b.Stages[0].Start >= e.from {
			continue
		}
		u := everyBegun{Begun: schedule.Begun{ID: b.ID, Cheese: b.Cheese, Litres: b.Litres, Pieces: b.Pieces}, earlier: b, carried: true, gone: b.Gone, left: slices.Clone(b.Left)}
		for _, s := range b.Stages {
			if s.Start < e.from {
				u.Stages = append(u.Stages, schedule.BegunStage{Stage: s.Stage, Start: s.Start})
			}
		}
		for _, s := range b.For {
			if s.By < e.from {
				u.gone += s.Pieces
				u.left = append(u.left, schedule.LeftShare{Target: s.Target, By: s.By, Want: s.Want, Planned: s.Pieces, Pieces: s.Pieces})
			}
		}
		switch over, sold := e.isOver(&u); {
		case !over:
			e.under = append(e.under, u)
		case sold:
			past := *b
			past.Begun, past.Gone, past.Left, past.For, past.Care = true, u.gone, u.left, nil, nil
			past.Stages = nil
			for _, s := range b.Stages {
				s.Uses, s.BoxesAt = nil, nil
				past.Stages = append(past.Stages, s)
			}
			e.past = append(e.past, past)
		}
	}
}

// inPlanBefore is a batch as the earlier plan had it; nil when there is none.
func (e *everyWorld) inPlanBefore(id string) *schedule.Batch {
	if e.p.Earlier == nil {
		return nil
	}
	return e.p.Earlier.Batch(id)
}

// stood is a batch of the earlier plan, as it went where that is told and its cheese where it stands now;
// nil when there is none.
func (e *everyWorld) stood(id string) *schedule.Batch {
	if e.p.Lived != nil {
		if b := e.p.Lived.Batch(id); b != nil {
			return b
		}
	}
	return e.p.Carried(e.p.Earlier).Batch(id)
}

// isOver reports whether a carried batch is packed and nothing of it can be sold any more,
// or an entry of stock stands for it; and whether it is only sold, and keeps.
func (e *everyWorld) isOver(b *everyBegun) (over, sold bool) {
	l := e.begunLister(b)
	n := len(l.r.Stages)
	if len(l.fixed) < n {
		return false, false
	}
	packed := l.fixed[n-1].Add(l.workOf(n - 1))
	keeps := l.r.Keeps
	if h := l.r.Stages[n-1].Hold; h != nil {
		_, most := l.limits(h)
		keeps = min(keeps, most)
	}
	zone := e.p.Kitchen.Zone
	stands := slices.ContainsFunc(e.p.Stock, func(s schedule.Stock) bool {
		return s.Cheese == b.Cheese && packed <= e.from && s.Packed.DateIn(zone) == packed.DateIn(zone)
	})
	gone := packed.Add(keeps) < e.from || stands
	return l.sell == 0 || gone, l.sell == 0 && !gone
}

// begunLister is a lister of what has begun, with nothing listed yet.
func (e *everyWorld) begunLister(b *everyBegun) *lister {
	r := e.asFound(b)
	l := &lister{everyWorld: e, r: r, litres: b.Litres, begun: b, runs: everyRuns(r)}
	made := int(int64(b.Litres) * int64(r.Yield.Pieces) / int64(r.Yield.From))
	l.pieces = made
	if b.Pieces >= 0 {
		l.pieces = b.Pieces
	}
	l.sell = max(0, min(l.pieces, made-r.Spare)-b.gone)
	for _, s := range b.Stages {
		l.fixed = append(l.fixed, s.Start)
	}
	l.followAtOnce()
	l.latest = l.latestOf()
	return l
}

// underWay lists all ways of carrying on what has begun, so late at the most; where that is
// -1, however late, and that of leaving it where it is.
func (e *everyWorld) underWay(b *everyBegun, most int64) *lister {
	l := e.begunLister(b)
	l.most = most
	l.stage(0, l.fixed[0], spent{}, true)
	if most < 0 && len(l.fixed) < len(l.r.Stages) {
		l.leave()
	}
	return l
}

// whoDid is who did a begun stage by the earlier plan; -1 where that does not say.
func (b *everyBegun) whoDid(p *schedule.Problem, stage int) int {
	if b.earlier == nil || stage >= len(b.earlier.Stages) {
		return -1
	}
	return slices.IndexFunc(p.Kitchen.People, func(x resources.Person) bool { return x.Name == b.earlier.Stages[stage].Who })
}

// potOf is the pot that a run of what has begun is in, where that is known.
func (b *everyBegun) potOf(p *schedule.Problem, first int) string {
	if b.Pot != "" || b.earlier == nil {
		return b.Pot
	}
	for _, u := range b.earlier.Stages[first].Uses {
		if slices.ContainsFunc(p.Kitchen.Pots, func(x resources.Pot) bool { return x.Name == u.Thing }) {
			return u.Thing
		}
	}
	return ""
}

// earlierAt is where the earlier plan had a stage; "" where it does not say.
func (b *everyBegun) earlierAt(stage int) string {
	if b.earlier == nil {
		return ""
	}
	return b.earlier.Stages[stage].At
}

// stoodAt is the one place where a begun stage is, of those that it may be at: as written
// of the running one, else as the earlier plan had it, else the first.
func (b *everyBegun) stoodAt(stage int, running bool, fit []string) []string {
	if running && b.At != "" {
		return []string{b.At}
	}
	if b.earlier != nil && slices.Contains(fit, b.earlier.Stages[stage].At) {
		return []string{b.earlier.Stages[stage].At}
	}
	return fit[:min(1, len(fit))]
}
