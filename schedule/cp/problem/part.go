package problem

import "slices"

// A part of a model is cut out by these, each of which leaves the model as it is.

// Owed is the model with so many units owed of each demand.
func (m *Model) Owed(units []int) *Model {
	out := *m
	out.Demands = slices.Clone(m.Demands)
	for d := range out.Demands {
		out.Demands[d].Units = units[d]
	}
	return &out
}

// Only is the model with some of its demands, numbered anew in the order given, in which nothing counts
// but what is short of them.
func (m *Model) Only(demands []int) *Model {
	out := *m
	out.Hints, out.Demands, out.Kept, out.Settled = nil, nil, nil, 0
	for _, d := range demands {
		out.Demands = append(out.Demands, m.Demands[d])
	}
	return &out
}

// Apart is the model with nothing under way, in stock or known of an earlier plan: all that is
// frozen beside what is left.
func (m *Model) Apart() *Model {
	out := *m
	out.Begun, out.Stocks, out.Hints = nil, nil, nil
	return &out
}

// Loosened is the model asked for no more than what is left of every plan gives when some of
// the demands are left out: a job or stock may then serve less, and leave sooner.
func (m *Model) Loosened() *Model {
	out := *m
	out.Families = slices.Clone(m.Families)
	for f := range out.Families {
		fam := &out.Families[f]
		fam.Serves = min(fam.Serves, 1)
		fam.Modes = slices.Clone(fam.Modes)
		for k := range fam.Modes {
			fam.Modes[k] = fam.Modes[k].leavingAtOnce()
		}
	}
	out.Begun = slices.Clone(m.Begun)
	for b := range out.Begun {
		mode := out.Begun[b].Mode.leavingAtOnce()
		for i := range mode.Acts {
			mode.Acts[i].Lag = mode.Acts[i].Lag.Each(func(l Lag) Lag {
				l.Late = nil // how late it is may go with what is left out
				return l
			})
		}
		out.Begun[b].Mode = mode
	}
	out.Stocks = slices.Clone(m.Stocks)
	for i := range out.Stocks {
		if out.Stocks[i].Since <= m.From { // what is expected keeps its place free whatever is left out
			out.Stocks[i].Keep = m.From
		}
	}
	return &out
}

// leavingAtOnce is the mode with nothing asked of how long the last lag is.
func (mode Mode) leavingAtOnce() Mode {
	mode.Acts = slices.Clone(mode.Acts)
	last := &mode.Acts[len(mode.Acts)-1].Lag
	last.Least, last.Cost = 0, nil
	return mode
}
