package chain

import (
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/tiny"
)

func TestAvoidCostCountsTicks(t *testing.T) {
	tiny.CheckMany(t, 20, func(t *rapid.T) {
		m := &problem.Model{Step: tiny.DrawInt(t, 1, 5, "step"), From: tiny.DrawInt(t, -9, 9, "from")}
		m.Horizon = m.From + 60
		m.Workers = []problem.Worker{{Avoid: tiny.DrawSpans(t, m, tiny.DrawInt(t, 1, 4, "avoid"))}}
		p := prepare(m)
		at := problem.CeilTo(m.From, m.Step) + m.Step*tiny.DrawInt(t, 0, 50/m.Step, "start")
		w := m.Step * tiny.DrawInt(t, 0, (m.Horizon-at)/m.Step, "work")
		ticks := 0
		for u := at; u < at+w; u++ {
			for _, a := range m.Workers[0].Avoid {
				if a.From <= u && u < a.Until {
					ticks++
				}
			}
		}
		if got := p.avoidCost(p.avoid[0], at, w); int(got) != ticks/5 {
			t.Fatalf("%d points for %d avoided ticks, [%d, %d) avoid %v", got, ticks, at, at+w, m.Workers[0].Avoid)
		}
	})
}
