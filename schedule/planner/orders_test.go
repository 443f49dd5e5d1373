package planner_test

import (
	"fmt"

	"ripeby/resources"
	"ripeby/schedule"
)

func (m *maker) cheese() *schedule.Recipe {
	return &m.p.Recipes[m.n("cheese", 0, len(m.p.Recipes)-1)]
}

func (m *maker) targets() {
	for i := range m.n("targets", 1, 6-m.plenty) {
		t := schedule.Target{Name: fmt.Sprintf("Target %d", i+1), By: m.p.From.Add(minutes(m.n("by", 1+8*m.plenty, 24) * 24 * 60)),
			Packed: minutes(pick(m, "packed", 0, 0, 0, 60, 12*60, 13))}
		if m.chance("by off grid", 40) {
			t.By = t.By.Add(minutes(m.n("by minutes", 1, 1439)))
		}
		seen := map[schedule.Want]bool{}
		for range m.n("wants", 1, 3-m.plenty/2) {
			w := schedule.Want{Cheese: m.cheese().Name, Price: resources.Money(pick(m, "price", 100, 650, 420, 0)), Promised: m.chance("promised", 30)}
			if !seen[w] {
				seen[w] = true
				w.Pieces = m.n("pieces", 1, 20-9*m.plenty)
				t.Wants = append(t.Wants, w)
			}
		}
		m.p.Targets = append(m.p.Targets, t)
	}
}

func (m *maker) stock() {
	for range m.n("stock", 1, 2) {
		r := m.cheese()
		s := schedule.Stock{Cheese: r.Name, Pieces: m.n("stock pieces", 1, 16), At: "room",
			Packed: m.p.From.Add(-minutes(m.n("packed ago", 0, int(r.Keeps)*5/4)))}
		last := &r.Stages[len(r.Stages)-1]
		if last.At.Kind != schedule.AtRoom || m.chance("moved to the cold", 10) {
			s.At = m.p.Kitchen.Cold[m.n("stock at", 0, len(m.p.Kitchen.Cold)-1)].Name
		}
		for i := range r.Stages {
			if usesKind(&r.Stages[i], schedule.UseBox) {
				s.Boxes = m.n("stock boxes", 0, 3)
				break
			}
		}
		m.p.Stock = append(m.p.Stock, s)
	}
}

// begun draws batches under way: as planned, off the grid, late, or with facts that
// no plan could have had.
func (m *maker) begun() {
	for i := range m.n("begun", 1, 2) {
		r := m.cheese()
		b := schedule.Begun{ID: fmt.Sprintf("%s-270%d01-%d", r.Code, m.n("id month", 1, 3), i+1), Cheese: r.Name, Pieces: -1}
		b.Litres = r.Batch.Least + r.Batch.Step*resources.Millilitres(m.n("begun size", 0, int((r.Batch.Most-r.Batch.Least)/r.Batch.Step)))
		made := int(int64(b.Litres) * int64(r.Yield.Pieces) / int64(r.Yield.From))
		if made < 1 {
			continue
		}
		if m.chance("pieces left", 25) {
			b.Pieces = m.n("left", 0, made)
		}
		b.Stages = m.begunStages(r, b.Litres, made)
		if m.chance("has pot", 30) {
			b.Pot = m.p.Kitchen.Pots[m.n("begun pot", 0, len(m.p.Kitchen.Pots)-1)].Name
		}
		if m.chance("has at", 30) {
			b.At = m.p.Kitchen.Cold[m.n("begun at", 0, len(m.p.Kitchen.Cold)-1)].Name
		}
		m.p.Begun = append(m.p.Begun, b)
	}
}

// begunStages walks back from the planning start through the stages that have begun.
func (m *maker) begunStages(r *schedule.Recipe, milk resources.Millilitres, made int) []schedule.BegunStage {
	n := m.n("begun stages", 1, len(r.Stages))
	out := make([]schedule.BegunStage, n)
	at := m.p.From.Add(-minutes(m.n("running for", 0, 40*60)))
	grid := !m.chance("off grid", 30)
	if grid {
		at = resources.FloorTo(at, m.p.Kitchen.Step)
	}
	for i := n - 1; i >= 0; i-- {
		out[i] = schedule.BegunStage{Stage: r.Stages[i].Name, Start: at}
		if i == 0 {
			break
		}
		before := &r.Stages[i-1]
		if h := before.Hold; h != nil {
			at = at.Add(-h.Least - minutes(m.n("held", 0, int(h.Most-h.Least))))
			if m.chance("held wrongly", 10) {
				at = at.Add(h.Least / 2)
			}
		}
		work := workMinutes(before, milk, made, m.p.Kitchen.Step)
		if m.chance("hurried", 5) {
			work = work / 2
		}
		at = at.Add(-work)
		if grid {
			at = resources.FloorTo(at, m.p.Kitchen.Step)
		}
	}
	return out
}

// workMinutes is fixed + per litre x litres + per piece x pieces, up to the grid.
func workMinutes(s *schedule.Stage, milk resources.Millilitres, pieces int, step resources.Minutes) resources.Minutes {
	if s.Hands == nil {
		return 0
	}
	exact := int64(s.Hands.Fixed)*1000 + int64(s.Hands.PerLitre)*int64(milk) + int64(s.Hands.PerPiece)*int64(pieces)*1000
	return resources.CeilLength(resources.Minutes((exact+999_999)/1_000_000), step)
}

// ordered draws milk that has been ordered for a day on which it is collected.
func (m *maker) ordered() {
	zone := m.p.Kitchen.Zone
	for i := range m.p.Kitchen.Milk {
		s := &m.p.Kitchen.Milk[i]
		within := resources.Span{From: m.p.From.Add(-s.Keeps), Until: m.p.From.Add(5 * resources.Day)}
		list := s.Collections(within, zone)
		if len(list) == 0 || !m.chance("ordered?", 40) {
			continue
		}
		c := list[m.n("ordered for", 0, len(list)-1)]
		m.p.Ordered = append(m.p.Ordered, schedule.Ordered{Milk: s.Name, Day: c.Day, Litres: litres(m.n("ordered", 2, 20))})
	}
}
