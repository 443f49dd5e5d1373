package problem

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
