package whatif

import (
	"fmt"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/planner"
)

// laterWant has the missing pieces of a want leave some days later.
func laterWant(p *schedule.Problem, at planner.WantAt, short, days int) Change {
	with := copied(p)
	t := with.Targets[at.Target]
	w := t.Wants[at.Want]
	by := dayLater(p, t.By, days)
	wants := slices.Clone(t.Wants)
	wants[at.Want].Pieces -= short
	t.Wants = wants
	with.Targets[at.Target] = t
	w.Pieces = short
	with.Targets = append(with.Targets, schedule.Target{Name: t.Name + ", later", By: by, Packed: t.Packed, Wants: []schedule.Want{w}})
	c := changed(ChangeDate, with, fmt.Sprintf("the missing %s by %s", w.Cheese, resources.ShowMoment(by, p.Kitchen.Zone)))
	c.Later = true
	return c
}

// otherLater has what another want gets leave a day later; it must still be met in full.
func otherLater(st *planner.Stated, other, met int) []Change {
	p, at := st.Problem(), st.Wants()[other]
	with := copied(p)
	t := with.Targets[at.Target]
	w := t.Wants[at.Want]
	if met < w.Pieces {
		return nil // it is short itself
	}
	by := dayLater(p, t.By, 1)
	wants := slices.Clone(t.Wants)
	wants[at.Want].Pieces = 0
	t.Wants = wants
	with.Targets[at.Target] = t
	with.Targets = append(with.Targets, schedule.Target{Name: t.Name + ", later", By: by, Packed: t.Packed, Wants: []schedule.Want{w}})
	return []Change{{Kind: ChangeDate, Also: len(st.Wants()), With: with,
		Text: fmt.Sprintf("the %d %s for %s a day later, by %s", w.Pieces, w.Cheese, t.Name, resources.ShowMoment(by, p.Kitchen.Zone))}}
}

// dayLater is the same time of day some days later.
func dayLater(p *schedule.Problem, m resources.Moment, days int) resources.Moment {
	t := m.In(p.Kitchen.Zone)
	return m.DateIn(p.Kitchen.Zone).AddDays(days).At(resources.Clock(t.Hour()*60+t.Minute()), p.Kitchen.Zone)
}
