package problem

func LastLag(mode *Mode) *Lag { return &mode.Acts[len(mode.Acts)-1].Lag }

func LastWork(mode *Mode) int { return mode.Acts[len(mode.Acts)-1].Work }

// LeastLength is the least time from the first start to the end of the last work.
func LeastLength(m *Mode) int { return m.Between(Mark{}, m.Ready(), LeastLag) }

// Longest is the most time from the first start to the end of the last work.
func (m *Model) Longest(mode *Mode) int {
	return mode.Between(Mark{}, mode.Ready(), func(l *Lag) int { return min(l.Most, m.Horizon-m.From) })
}
