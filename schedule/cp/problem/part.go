package problem

import (
	"slices"
)

// Loosen asks for no more than what is left of every plan gives when some of the demands
// are left out: a job or stock may then serve less.
func (m *Model) Loosen() {
	m.Families = slices.Clone(m.Families)
	for f := range m.Families {
		fam := &m.Families[f]
		fam.Serves = min(fam.Serves, 1)
		fam.Modes = slices.Clone(fam.Modes)
		for k := range fam.Modes {
			fam.Modes[k] = fam.Modes[k].leavingAtOnce()
		}
	}
	m.Begun = slices.Clone(m.Begun)
	for b := range m.Begun {
		m.Begun[b].Mode = m.Begun[b].Mode.leavingAtOnce()
	}
	m.Stocks = slices.Clone(m.Stocks)
	for i := range m.Stocks {
		m.Stocks[i].Keep = m.From
	}
}

// leavingAtOnce is the mode with nothing asked of how long the last lag is.
func (mode Mode) leavingAtOnce() Mode {
	mode.Acts = slices.Clone(mode.Acts)
	last := &mode.Acts[len(mode.Acts)-1].Lag
	last.Least, last.Cost = 0, nil
	return mode
}
