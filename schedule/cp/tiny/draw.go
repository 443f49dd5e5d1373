package tiny

import (
	"slices"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/problem"
)

// AddThirdWorker adds one who may do some of the work, so that "none of these"
// leaves more than one.
func AddThirdWorker(t *rapid.T, m *problem.Model, k Shape) {
	drawWorkers(t, m, k)
	m.Workers = m.Workers[:3]
	for f := range m.Families {
		for i := range m.Families[f].Modes[0].Acts { // the sizes share them
			if a := &m.Families[f].Modes[0].Acts[i]; OneIn(t, 2, "third helps") {
				a.Workers = append(a.Workers, 2)
			}
		}
	}
}

// Lengthen has larger sizes take longer over their work, so that what bounds one
// size need not bound the next.
func Lengthen(t *rapid.T, m *problem.Model) {
	for f := range m.Families {
		modes := m.Families[f].Modes
		for k := 1; k < len(modes); k++ {
			modes[k].Acts = slices.Clone(modes[k-1].Acts)
			for i := range modes[k].Acts {
				if a := &modes[k].Acts[i]; a.Work > 0 {
					a.Work += m.Step * DrawInt(t, 0, 2, "longer work")
				}
			}
		}
	}
}

// Small is what models may hold of which every plan can be listed.
func Small(t *rapid.T) Shape {
	return Shape{Families: DrawInt(t, 1, 2, "families"), Demands: DrawInt(t, 1, 3, "demands"), Acts: 2, Length: 16,
		Avoid: OneIn(t, 3, "any avoid"), Days: OneIn(t, 3, "any days"), Closed: OneIn(t, 3, "any closed"), Intakes: OneIn(t, 3, "any milk"),
		Uneven: OneIn(t, 3, "uneven"), LeastOverAhead: OneIn(t, 3, "rests"), Stocks: DrawInt(t, 0, 1, "stocks"), Begun: DrawInt(t, 0, 2, "begun")}
}

// PlainFamily is a chain of one activity without work, in pairs of units.
func PlainFamily(least, keeps int) problem.Family {
	acts := []problem.Activity{{Lag: problem.Lag{Least: least, Most: 40}}}
	return problem.Family{Keeps: keeps, Supply: -1, Modes: []problem.Mode{{Amount: 1, Units: 1, Acts: acts}, {Amount: 2, Units: 2, Acts: acts}}}
}

// Crowded is models with more jobs than can be listed.
func Crowded(t *rapid.T) Shape {
	k := Small(t)
	k.Floors = OneIn(t, 2, "floors")
	k.Demands, k.Length = DrawInt(t, 3, 7, "demands"), 40
	return k
}
