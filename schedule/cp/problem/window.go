package problem

// Window is what a set of demands asks of one job that serves them all: its last
// work ends in [readyMin, readyMax] and its last delivery is at end.
type Window struct {
	ReadyMin, ReadyMax, End int
}

// WindowOf joins the demands; the last lag's limits are those of the mode.
func (m *Model) WindowOf(family int, shares []Share) Window {
	w := Window{ReadyMin: -Infinite, ReadyMax: Infinite, End: -Infinite}
	for _, sh := range shares {
		d := &m.Demands[sh.Demand]
		w.ReadyMin = max(w.ReadyMin, d.Due-m.Families[family].Keeps)
		w.ReadyMax = min(w.ReadyMax, d.Due-d.Ahead)
		w.End = max(w.End, d.Due)
	}
	return w
}

// Limited narrows the window by the last lag of a mode.
func (w Window) Limited(mode *Mode) Window {
	lag := LastLag(mode)
	w.ReadyMax = min(w.ReadyMax, w.End-lag.Least)
	w.ReadyMin = max(w.ReadyMin, w.End-lag.Most)
	return w
}
