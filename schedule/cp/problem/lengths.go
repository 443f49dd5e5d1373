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

// CostOf is the cost of a lag, and whether it is allowed.
func (l *Lag) CostOf(ticks int, late bool) (int32, bool) {
	if ticks < l.Least {
		return 0, false
	}
	if ticks > l.Most {
		if !late || l.Late == nil {
			return 0, false
		}
		return l.Late(ticks), true
	}
	if x := ticks - l.Least; x < len(l.Cost) {
		return l.Cost[x], l.Cost[x] < Never
	}
	return 0, true
}
