package problem

func LastLag(mode *Mode) *Lag { return &mode.Acts[len(mode.Acts)-1].Lag }

func LastWork(mode *Mode) int { return mode.Acts[len(mode.Acts)-1].Work }

// LeastLength is the least time from the first start to the end of the last work.
func LeastLength(m *Mode) int {
	n := 0
	for i := range m.Acts {
		n += m.Acts[i].Work
		if i < len(m.Acts)-1 {
			n += m.Acts[i].Lag.Least
		}
	}
	return n
}

// Longest is the most time from the first start to the end of the last work.
func (m *Model) Longest(mode *Mode) int {
	n := 0
	for i := range mode.Acts {
		n += mode.Acts[i].Work
		if i < len(mode.Acts)-1 {
			n += min(mode.Acts[i].Lag.Most, m.Horizon-m.From)
		}
	}
	return n
}
