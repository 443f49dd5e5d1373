package judge

import (
	"slices"
	"testing"

	"ripeby/schedule"
)

// remembering is a plan made again after its first batch was packed, of which all was sold since: the
// plan has it no more, but remembers it.
func remembering(t *testing.T) *mutant {
	t.Helper()
	m := followed(t)
	sold := m.plan.Batches[0]
	sold.ID, sold.Lot, sold.Milk, sold.Care, sold.Gone, sold.Begun = "RH-270220-1", "RH-270220-1", nil, nil, 0, true
	sold.Stages = slices.Clone(sold.Stages)
	for i := range sold.Stages {
		s := &sold.Stages[i]
		s.Start, s.Ends, s.Work, s.Begun, s.Uses, s.BoxesAt = m.p.From.Add(-400), m.p.From.Add(-300), 0, true, nil, nil
	}
	r := m.p.Recipe(sold.Cheese)
	all := sellable(r, sold.Litres, sold.Pieces)
	sold.For = []schedule.Share{{Target: "Old stall", By: m.p.From.Add(-60), Pieces: all}}
	m.p.Earlier.Batches = append(m.p.Earlier.Batches, sold)
	past := sold
	past.For, past.Gone, past.Left = nil, all, []schedule.LeftShare{{Target: "Old stall", By: m.p.From.Add(-60), Planned: all, Pieces: all}}
	m.plan.Past = []schedule.Batch{past}
	m.p.MadeOf = &schedule.MadeOf{Entry: 3}
	m.plan.MadeOf = m.p.MadeOf
	return m
}

func TestWhatIsSoldOutIsRemembered(t *testing.T) {
	m := remembering(t)
	expect(t, m.p, m.plan, "")
	for name, spoil := range map[string]func(m *mutant){
		"not at all":          func(m *mutant) { m.plan.Past = nil },
		"twice":               func(m *mutant) { m.plan.Past = append(m.plan.Past, m.plan.Past[0]) },
		"with fewer gone":     func(m *mutant) { m.plan.Past[0].Gone-- },
		"as another had it":   func(m *mutant) { m.plan.Past[0].Left[0].Target = "Other stall" },
		"as still to leave":   func(m *mutant) { m.plan.Past[0].For = m.p.Earlier.Batches[len(m.p.Earlier.Batches)-1].For },
		"at another moment":   func(m *mutant) { m.plan.Past[0].Stages[0].Start-- },
		"stock of nobody":     func(m *mutant) { m.plan.PastStock = []schedule.StockUse{{Cheese: "Reed hoop"}} },
		"made of other lines": func(m *mutant) { m.plan.MadeOf = &schedule.MadeOf{Entry: 2} },
	} {
		t.Run(name, func(t *testing.T) {
			m := remembering(t)
			m.plan.Past[0].Stages = slices.Clone(m.plan.Past[0].Stages)
			spoil(m)
			expect(t, m.p, m.plan, "remembered")
		})
	}
}
