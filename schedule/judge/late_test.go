package judge

import (
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
)

// turn moves the moment at which the first batch's chill is over and its rest begins.
func (m *mutant) turn(at string) {
	chill, rest := m.task(0, "chill"), m.task(0, "rest")
	chill.Ends, rest.Start, rest.SlipFrom, rest.SlipUntil = m.d(at), m.d(at), m.d(at), m.d(at)
	chill.Hold, rest.Hold = chill.Ends.Sub(chill.Start), rest.Ends.Sub(rest.Start)
}

// holds gives a stage of the hoops other limits, and no best.
func (m *mutant) holds(stage string, least, most resources.Minutes) {
	m.recipeStage(0, stage).Hold = &schedule.Hold{Least: least, Most: most}
}

// tellOverrun warns of the first batch.
func (m *mutant) tellOverrun() {
	m.plan.Warnings = append(m.plan.Warnings, schedule.Warning{Code: "hold-overrun", Text: "RH-270302-1 waits too long."})
}

// On 4 March at noon the first batch has been in its chill since 08:25; at its end the rest
// comes by itself, and on the 5th at 10:00 Nell turns the cheese over to ripen.
func TestLateHolds(t *testing.T) {
	tellBegun(t, told, []begunCase{
		{"past its most, and nobody is told", func(m *mutant) { m.holds("ripen", 0, 9*resources.Day) }, "first: warning-missing"},
		{"past its most, and another batch is told of", func(m *mutant) {
			m.holds("ripen", 0, 9*resources.Day)
			m.plan.Warnings = append(m.plan.Warnings, schedule.Warning{Code: "hold-overrun", Text: "RH-270305-1 waits."})
		}, "first: warning-missing"},
		{"a hold to come past its most", func(m *mutant) { m.holds("ripen", 0, 9*resources.Day); m.tellOverrun() }, "first:"},
		{"of a stage without a hold", func(m *mutant) { m.recipeStage(0, "ripen").Hold = nil; m.tellOverrun() }, "first:"},
		{"past its most by less than a tenth, and nobody is told", func(m *mutant) { m.holds("ripen", 0, 10*resources.Day-5) }, "first: warning-missing"},
		{"a rest past its most while the chill could last longer", func(m *mutant) { m.holds("rest", 0, 60); m.tellOverrun() }, "first: hold-late"},
		{"a rest past its most after a chill as long as may be", func(m *mutant) {
			m.holds("chill", 0, 24*hours)
			m.holds("rest", 0, 60)
			m.tellOverrun()
		}, "first:"},
		{"a chill past its most, ended in time to come", func(m *mutant) { m.holds("chill", 0, 24*hours-1); m.tellOverrun() }, "first: hold-long"},
		{"a chill that should be over, ended at once", func(m *mutant) {
			m.holds("chill", 0, 3*hours)
			m.holds("rest", 0, 22*hours)
			m.turn("03-04 12:00")
			m.tellOverrun()
		}, "first:"},
		{"a chill that should be over, ended at once, and the rest past its most", func(m *mutant) {
			m.holds("chill", 0, 3*hours)
			m.turn("03-04 12:00")
			m.tellOverrun()
		}, "first:"},
		{"a chill that should be over, ended a step later", func(m *mutant) {
			m.holds("chill", 0, 3*hours)
			m.holds("rest", 0, 22*hours)
			m.turn("03-04 12:05")
			m.tellOverrun()
		}, "first: hold-long"},
		{"begun off the grid, so that no step is within its limits", func(m *mutant) {
			m.p.Begun[0].Stages = append(m.p.Begun[0].Stages, schedule.BegunStage{Stage: "chill", Start: m.d("03-04 08:27")})
			m.task(0, "mould").Hold, m.task(0, "mould").Ends, m.task(0, "chill").Start = 2, m.d("03-04 08:27"), m.d("03-04 08:27")
			m.holds("chill", 4*hours, 4*hours)
			m.holds("rest", 0, 22*hours)
			m.turn("03-04 12:30")
			m.tellOverrun()
		}, "first:"},
		{"a new batch's", func(m *mutant) { m.holds("ripen", 0, 6*resources.Day); m.tellOverrun() }, "hold-long"},
	})
}

// What has begun is carried on within 60 days, or it is stuck; or when its hold is over at the
// latest.
func TestPatience(t *testing.T) {
	tellBegun(t, told, []begunCase{
		{"at the last moment", func(m *mutant) { m.putOff("05-03 13:00") }, "first:"}, // summer time by then
		{"a step later", func(m *mutant) { m.putOff("05-03 13:05") }, "first: patience"},
	})
	m := told(t)
	for _, most := range []resources.Minutes{36 * hours, 90 * resources.Day} {
		m.holds("chill", 0, most)
		h := newHearing(m.p, m.plan)
		latest := h.latestStarts(h.lots[0])
		rest := h.from.Add(60 * resources.Day)
		if most > 60*resources.Day {
			rest = m.d("03-04 08:25").Add(most)
		}
		for i, want := range map[int]resources.Moment{5: rest, 6: rest.Add(12 * hours), 7: rest.Add(12*hours + 30 + 15*resources.Day)} {
			if latest[i] != want {
				t.Errorf("a chill of at most %d min, stage %d: got %s, want %s", most, i, h.when(latest[i]), h.when(want))
			}
		}
	}
}

// putOff lets the first batch's chill last as long as it may, its rest past its most until
// the moment at which it goes on to ripen, and sells nothing of it.
func (m *mutant) putOff(at string) {
	m.holds("rest", 0, 0)
	m.p.Kitchen.People[0].Hours[1].Until = hm(24, 0)
	b, ripen := m.batch(0), m.task(0, "ripen")
	later := m.d(at).Sub(ripen.Start)
	m.turn("03-05 20:25")
	for _, stage := range []string{"ripen", "pack"} {
		s := m.task(0, stage)
		s.Start, s.Ends, s.SlipFrom, s.SlipUntil = s.Start.Add(later), s.Ends.Add(later), s.Start.Add(later), s.Start.Add(later)
	}
	pack, rest := m.task(0, "pack"), m.task(0, "rest")
	pack.Hold, pack.Ends, pack.BoxesAt = 0, pack.Start.Add(pack.Work), nil
	rest.Ends, rest.Hold = ripen.Start, ripen.Start.Sub(rest.Start)
	for i := range b.Stages {
		for k := range b.Stages[i].Uses {
			u := &b.Stages[i].Uses[k]
			if clean := u.CleanUntil.Sub(u.Until); u.Until > m.p.From {
				u.Until = u.Until.Add(later)
				if i == len(b.Stages)-1 {
					u.Until = pack.Ends
				}
				u.CleanUntil = u.Until.Add(clean)
			}
			if u.From > m.p.From {
				u.From = u.From.Add(later)
			}
		}
	}
	b.For = nil
	h := newHearing(m.p, m.plan)
	b.Care = h.careDays(h.lots[0])
	m.tellOverrun()
}

// After a hold that is past its most a stage goes neither sooner nor later.
func TestSlipsAfterLateHolds(t *testing.T) {
	late := func(m *mutant) { m.holds("ripen", 0, 10*resources.Day-5); m.tellOverrun() }
	tellBegun(t, told, []begunCase{
		{"as it is", late, "first:"},
		{"sooner", func(m *mutant) { late(m); m.task(0, "pack").SlipFrom -= 5 }, "first: slip"},
		{"later", func(m *mutant) { late(m); m.task(0, "pack").SlipUntil += 5 }, "first: slip"},
		{"the work before it, sooner by as much as it is late", func(m *mutant) {
			// The cheese keeps just until it is sold, so with a hold in time it would be too old.
			late(m)
			m.p.Recipes[0].Keeps = 4*resources.Day + 20*hours
			m.holds("rest", 0, 95) // at its most: it may have been shorter
			m.task(0, "ripen").SlipFrom -= 5
		}, "first: slip"},
	})
}
