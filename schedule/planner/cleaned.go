package planner

import (
	"ripeby/schedule/cp/problem"
)

// cleanedBetween sees that a batch that takes the same thing twice, letting go of
// it in between, waits for its cleaning: the one hold in between that can be longer
// is not too short. Where several holds can be, the engine has to find out by
// itself. Activities before from have begun. False when no hold is long enough.
func (pl *Stated) cleanedBetween(m *problem.Mode, from int) bool {
	for x := range m.Runs {
		for y := range m.Runs {
			a, b := &m.Runs[x], &m.Runs[y]
			if b.First < a.Last+2 || b.First <= from || len(a.Choices) != 1 || len(b.Choices) != 1 || a.Choices[0].Pool != b.Choices[0].Pool ||
				a.Amount+b.Amount <= pl.model.Pools[a.Choices[0].Pool].Capacity {
				continue
			}
			if !pl.waitBetween(m, a.Last+1, b.First, a.Choices[0].Clean) {
				return false
			}
		}
	}
	return true
}

// waitBetween lengthens the hold of one activity so that clean minutes lie between
// the work of activity i and the start of activity k.
func (pl *Stated) waitBetween(m *problem.Mode, i, k, clean int) bool {
	least, most := 0, 0
	var open []int
	for a := i; a < k; a++ {
		if a > i {
			least, most = least+m.Acts[a].Work, most+m.Acts[a].Work
		}
		lag := &m.Acts[a].Lag
		least, most = least+lag.Least, most+lag.Most
		if lag.Least < lag.Most {
			open = append(open, a)
		}
	}
	if most < clean {
		return false
	}
	if least >= clean || len(open) != 1 {
		return true
	}
	step := int(pl.clock.step)
	lag := &m.Acts[open[0]].Lag
	others := least - lag.Least
	*lag = lag.Each(func(l problem.Lag) problem.Lag {
		more := max(clean-others-l.Least+step-1, 0) / step * step
		l.Cost = l.Cost[min(more, len(l.Cost)):]
		l.Least += more
		return l
	})
	return lag.Least <= lag.Most
}
