package problem

import "slices"

// ModesOf is the modes of a family, the smallest first.
func ModesOf(f *Family) []*Mode {
	var out []*Mode
	for k := range f.Modes {
		out = append(out, &f.Modes[k])
	}
	return out
}

// Alike reports whether the modes of a family differ only in ways that grow with
// the size, the least of their lags too: the statement counts on it.
func Alike(modes []*Mode) bool {
	for k := 1; k < len(modes); k++ {
		a, b := modes[k-1], modes[k]
		if a.Amount > b.Amount || a.Units > b.Units || len(a.Acts) != len(b.Acts) || len(a.Runs) != len(b.Runs) || len(a.Stays) != len(b.Stays) {
			return false
		}
		for i := range a.Acts {
			x, y := &a.Acts[i], &b.Acts[i]
			if x.Work > y.Work || (x.Work == 0) != (y.Work == 0) || x.Lag.Least > y.Lag.Least || x.Lag.Most != y.Lag.Most || !slices.Equal(x.Workers, y.Workers) {
				return false
			}
			if len(x.Lag.Turns) != len(y.Lag.Turns) {
				return false
			}
			if len(x.Lag.Turns) > 0 {
				continue // what is cheapest by any turn may be out of a larger size's reach
			}
			longer := y.Lag.Least - x.Lag.Least // a larger size may have to wait for cleaning
			for l := range y.Lag.Cost {
				if x.Lag.Cost[longer+l] != y.Lag.Cost[l] {
					return false
				}
				if &x.Lag.Cost[longer] == &y.Lag.Cost[0] {
					break
				}
			}
		}
		for r := range a.Runs {
			x, y := &a.Runs[r], &b.Runs[r]
			if x.First != y.First || x.Last != y.Last || x.Amount > y.Amount || !allOf(y.Choices, x.Choices) {
				return false
			}
		}
		for r := range a.Stays {
			x, y := &a.Stays[r], &b.Stays[r]
			if x.First != y.First || x.Last != y.Last || x.Kind != y.Kind || x.Boxes > y.Boxes || !slices.Equal(x.Spaces, y.Spaces) {
				return false
			}
		}
	}
	return true
}

// allOf reports whether every choice of part is one of whole.
func allOf(part, whole []PoolChoice) bool {
	return !slices.ContainsFunc(part, func(c PoolChoice) bool { return !slices.Contains(whole, c) })
}
