package problem

import (
	"slices"
)

// A lag may be another one by when it begins: a room grows warmer, and what waits in it is ready sooner.
// Such a lag has turns. What is said of it without asking when it begins is what any of its turns lets
// in, at the least that one of them costs: whoever bounds by that is right, and weaker.

// Turn is what a lag is that begins at From or later, and before the next turn. The first holds before
// its From, too.
type Turn struct {
	From int
	Lag  *Lag
}

// Turning is the lag of some turns, the earliest first; one that holds no length at all has its least
// above its most. Turns of which each is in time for all its lengths give a lag that is.
func Turning(turns []Turn) Lag {
	open := slices.DeleteFunc(slices.Clone(turns), func(t Turn) bool { return t.Lag.Least > t.Lag.Most })
	out := Lag{Least: 1, Turns: turns}
	if len(open) == 0 {
		return out
	}
	out.Least, out.Most = open[0].Lag.Least, open[0].Lag.Most
	late := false
	for _, t := range open {
		out.Least, out.Most = min(out.Least, t.Lag.Least), max(out.Most, t.Lag.Most)
		out.InTime = max(out.InTime, t.Lag.inTimeUntil())
		late = late || t.Lag.Late != nil
		if t.Lag.Past != nil {
			out.Past = t.Lag.Past
		}
	}
	out.Cost = slices.Repeat([]int32{Never}, out.Most-out.Least+1)
	if late {
		out.Late = slices.Repeat([]int32{Never}, len(out.Cost))
	}
	for _, t := range open {
		for l := t.Lag.Least; l <= t.Lag.Most; l++ {
			x := l - out.Least
			cost := t.Lag.costOf(l)
			if out.Cost[x] = min(out.Cost[x], cost); late && cost < Never {
				out.Late[x] = min(out.Late[x], int32(t.Lag.LateOf(l)))
			}
		}
	}
	for x := len(out.Late) - 2; x >= 0; x-- { // none is later than a longer one
		out.Late[x] = min(out.Late[x], out.Late[x+1])
	}
	return out
}

// costOf is what a lag of so many ticks, within its limits, costs; Never where it cannot be.
func (l *Lag) costOf(ticks int) int32 {
	switch x := ticks - l.Least; {
	case len(l.Cost) == 0:
		return 0
	case x >= len(l.Cost):
		return Never
	default:
		return l.Cost[x]
	}
}

// inTimeUntil is the longest lag that does not run past its time.
func (l *Lag) inTimeUntil() int {
	if l.Late != nil {
		return l.InTime
	}
	return l.Most
}

// At is the lag as it is when it begins at a tick.
func (l *Lag) At(begins int) *Lag {
	if len(l.Turns) == 0 {
		return l
	}
	k := len(l.Turns) - 1
	for k > 0 && begins < l.Turns[k].From {
		k--
	}
	return l.Turns[k].Lag
}

// Each is the lag with each of its turns made another; one without turns is made so itself.
func (l Lag) Each(other func(Lag) Lag) Lag {
	if len(l.Turns) == 0 {
		return other(l)
	}
	turns := make([]Turn, len(l.Turns))
	for k, t := range l.Turns {
		made := other(*t.Lag)
		turns[k] = Turn{t.From, &made}
	}
	return Turning(turns)
}

// InTimeOr is the lag that runs past its time no further than to so many ticks.
func (l Lag) InTimeOr(long int) Lag {
	if l.Late == nil {
		return l
	}
	l.Most = max(l.InTime, min(long, l.Most))
	n := l.Most - l.Least + 1
	l.Cost, l.Late = l.Cost[:n], nil
	return l
}

// MostLate is how late the lag is at the most.
func (l *Lag) MostLate() int64 {
	most := int64(0)
	for _, t := range l.Turns {
		most = max(most, t.Lag.MostLate())
	}
	if n := len(l.Late); n > 0 && len(l.Turns) == 0 {
		most = int64(l.Late[n-1]) // none is later than a longer one
	}
	return most
}
