package demo_test

import (
	"context"
	"slices"
	"strings"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/planner"
)

// Nothing that was told for the settled days moves but where something comes before that in the score:
// each change of a lived season is counted by the part that its reason names. Of work that comes next in a
// batch under way the plan is made once more with it pinned to its old start and person, by the limits of
// the hold before it and by who takes it: that plan is worse first in the part that was named, or the
// work is not as it was there either.

const late = "something under way would be late"

// forced are the parts of the score before litres by which settled work may move, as reasons name them;
// gained are those after.
var (
	forced = []string{late, "a promised piece would be short", "a piece would be short", "one batch more", "more would have to move",
		"It cannot be as it was"}
	gained = []string{"it would take more milk", "more bother", "made earlier", "gains in bother", "Nothing forced it"}
)

// calm counts what a plan moves of what was settled, and pins some of it.
func (l *life) calm(p *schedule.Problem, plan *schedule.Plan) {
	if p.Earlier == nil {
		return
	}
	until := p.Settled().Until
	pins := 0
	for i := range plan.Changes {
		c := &plan.Changes[i]
		if c.Was == 0 && c.Now < until {
			l.counts["settled: new"]++
		}
		if c.Was == 0 || c.Was >= until {
			continue
		}
		named := slices.IndexFunc(forced, func(text string) bool { return strings.Contains(c.Because, text) })
		switch {
		case p.TakenOver(c):
			l.counts["settled: taken on"]++
			continue
		case named >= 0:
			l.counts["settled: "+forced[named]]++
		case slices.ContainsFunc(gained, func(text string) bool { return strings.Contains(c.Because, text) }):
			if l.counts["settled: for a gain"]++; provedTo(plan, schedule.LevelMoved) {
				l.instead(p, plan, c)
			}
		default:
			l.counts["settled: not found out"]++
		}
		switch {
		case named < 0:
		case pins < pinnedAPlan && l.pinned(p, plan, c):
			pins++
		default:
			l.counts["not pinned"]++
		}
	}
}

// pinnedAPlan is how many changes of one plan are tried with the work as it was.
const pinnedAPlan = 2

// provedTo reports whether a plan is proved in a part and all before it.
func provedTo(plan *schedule.Plan, level schedule.Level) bool {
	order := schedule.Levels()
	return slices.Index(order, plan.Proof.Level) >= slices.Index(order, level) && plan.Proof.Level != schedule.LevelNone
}

// instead fails where settled work moves for a gain though nothing would have to move in its stead: of plans
// that move as little, one may be better that moves this and not that.
func (l *life) instead(p *schedule.Problem, plan *schedule.Plan, c *schedule.Change) {
	other, ok := l.asItWas(p, plan, c)
	if !ok {
		l.counts["for a gain, not pinned"]++
		return
	}
	a, s := other.Score, plan.Score
	a.Litres, a.Bother, a.MakeStarts = s.Litres, s.Bother, s.MakeStarts
	if a.Compare(s) < 0 {
		l.t.Errorf("%s %s moves though no part before litres needs it: %s", c.Batch, c.Stage, c.Because)
	}
	l.counts["for a gain, and something would move instead"]++
}

// pinned makes the plan once more with work as it was, and looks at what is worse; false where it cannot
// be pinned.
func (l *life) pinned(p *schedule.Problem, plan *schedule.Plan, c *schedule.Change) bool {
	other, ok := l.asItWas(p, plan, c)
	if ok {
		l.worseAsNamed(p, plan, other, c)
	}
	return ok
}

// asItWas is the plan with work as it was; false where it cannot be pinned.
func (l *life) asItWas(p *schedule.Problem, plan *schedule.Plan, c *schedule.Change) (*schedule.Plan, bool) {
	b := plan.Batch(c.Batch)
	if b == nil || !b.Begun {
		return nil, false
	}
	k := slices.IndexFunc(b.Stages, func(t schedule.Task) bool { return t.Stage == c.Stage })
	if k < 1 || b.Stages[k].Begun || !b.Stages[k-1].Begun {
		return nil, false
	}
	running := &b.Stages[k-1]
	held := c.Was.Sub(running.Start.Add(running.Work))
	if held < 0 || c.WasWho == "" || c.Was < p.From {
		return nil, false
	}
	with := *p
	with.Held = slices.DeleteFunc(slices.Clone(p.Held), func(h schedule.Held) bool { return h.Batch == c.Batch })
	with.Held = append(with.Held, schedule.Held{Batch: c.Batch, Stage: k - 1, Hold: schedule.Hold{Least: held, Most: resources.CeilLength(held, p.Kitchen.Step), AsIs: true}})
	with.TakenOn = slices.DeleteFunc(slices.Clone(p.TakenOn), func(o schedule.TakenOn) bool { return o.Batch == c.Batch && o.Stage == c.Stage })
	with.TakenOn = append(with.TakenOn, schedule.TakenOn{Batch: c.Batch, Stage: c.Stage, Who: c.WasWho, Begun: true})
	other, err := planner.Plan(context.Background(), &with, planner.Options{Budget: livedWork, Plain: true})
	if err != nil {
		l.t.Fatal(err)
	}
	return other, true
}

// worseAsNamed holds the plan with work as it was against the part that was named.
func (l *life) worseAsNamed(p *schedule.Problem, plan, other *schedule.Plan, c *schedule.Change) {
	t := other.Batch(c.Batch).Stage(c.Stage)
	if t == nil || t.Start != c.Was || t.Who != c.WasWho {
		l.counts["pinned: it cannot be"]++
		return
	}
	if !provedTo(other, schedule.LevelMoved) || !provedTo(plan, schedule.LevelMoved) {
		l.counts["pinned: not proved"]++
		return
	}
	worse := ""
	a, s := other.Score, plan.Score
	for _, part := range []struct {
		text     string
		is, free int64
	}{
		{"a promised piece would be short", int64(a.PromisedShort), int64(s.PromisedShort)}, {late, a.Late, s.Late},
		{"a piece would be short", int64(a.Short), int64(s.Short)}, {"one batch more", int64(a.Batches), int64(s.Batches)}, {"more would have to move", int64(a.Moved), int64(s.Moved)},
	} {
		if worse == "" && part.is > part.free {
			worse = part.text
		}
	}
	if worse == "" || !strings.Contains(c.Because, worse) && !(worse == late && strings.Contains(c.Because, "unless something under way is late")) {
		l.t.Errorf("from %s: %s %s pinned to %s by %s is worse by %q first, and this was said: %s\n%+v against %+v", resources.ShowMoment(l.from, p.Kitchen.Zone), c.Batch, c.Stage,
			resources.ShowMoment(c.Was, p.Kitchen.Zone), c.WasWho, worse, c.Because, a, s)
	} else {
		l.counts["pinned: worse as named"]++
	}
}
