package problem

// LastLag is the lag after the last activity.
func LastLag(mode *Mode) *Lag { return &mode.Acts[len(mode.Acts)-1].Lag }

// LastWork is the work of the last activity.
func LastWork(mode *Mode) int { return mode.Acts[len(mode.Acts)-1].Work }

// LeastLength is the least time from the first start to the end of the last work.
func LeastLength(m *Mode) int { return m.Between(Mark{}, m.Ready(), LeastLag) }

// Longest is the most time from the first start to the end of the last work.
func (m *Model) Longest(mode *Mode) int {
	return mode.Between(Mark{}, mode.Ready(), func(l *Lag) int { return min(l.Most, m.Horizon-m.From) })
}

// LateOf is how late a lag of so many ticks is; 0 for one in time.
func (l *Lag) LateOf(ticks int) int64 {
	if x := ticks - l.Least; l.Late != nil && x >= 0 && x < len(l.Late) {
		return int64(l.Late[x])
	}
	return 0
}

// Overruns reports whether a lag of so many ticks runs past its time.
func (l *Lag) Overruns(ticks int) bool { return l.Late != nil && ticks > l.InTime }
