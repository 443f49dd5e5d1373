package global

import (
	"cmp"
	"slices"
)

// Taken is units that are gone from From until Until whatever happens.
type Taken struct{ From, Until, Units int32 }

// taken is what is gone in one direction of time: stretches in order, apart, each of
// one height from 1 up to the capacity.
type taken []Taken

// rise is a change of how much is gone.
type rise struct{ at, by int32 }

// gone sums up what is taken, no more than the capacity at any moment: where more is
// gone than there is, nothing is left, and what holds nothing is still right there.
func gone(list []Taken, capacity int32) taken {
	var steps []rise
	for _, t := range list {
		if t.From < t.Until && t.Units > 0 {
			steps = append(steps, rise{t.From, t.Units}, rise{t.Until, -t.Units})
		}
	}
	slices.SortStableFunc(steps, func(a, b rise) int { return cmp.Compare(a.at, b.at) })
	var out taken
	height := int64(0)
	for i := 0; i < len(steps); {
		at := steps[i].at
		for ; i < len(steps) && steps[i].at == at; i++ {
			height += int64(steps[i].by)
		}
		units := int32(min(height, int64(capacity)))
		n := len(out)
		switch {
		case units <= 0:
		case n > 0 && out[n-1].Until == at && out[n-1].Units == units:
			out[n-1].Until = steps[i].at
		default:
			out = append(out, Taken{at, steps[i].at, units}) // a stretch ends where the next step is
		}
	}
	return out
}

// mirror is the same with time turned round.
func (t taken) mirror() taken {
	out := make(taken, len(t))
	for i, g := range t {
		out[len(t)-1-i] = Taken{-g.Until, -g.From, g.Units}
	}
	return out
}

// highest is the most that is gone at once.
func (t taken) highest() int32 {
	most := int32(0)
	for _, g := range t {
		most = max(most, g.Units)
	}
	return most
}

// within is what is gone in a stretch.
func (t taken) within(w stretch) taken {
	lo, _ := slices.BinarySearchFunc(t, w.from, func(g Taken, at int32) int { return cmp.Compare(g.Until, at+1) })
	hi, _ := slices.BinarySearchFunc(t, w.until, func(g Taken, at int32) int { return cmp.Compare(g.From, at) })
	return t[lo:max(lo, hi)]
}

// run is the widest stretch around a moment in which more than room is gone, and the
// least that is gone in it; more than that is gone at the moment itself.
func (t taken) run(moment, room int32) Taken {
	k, _ := slices.BinarySearchFunc(t, moment, func(g Taken, moment int32) int {
		switch {
		case g.Until <= moment:
			return -1
		case g.From > moment:
			return 1
		}
		return 0
	})
	out := t[k]
	for i := k - 1; i >= 0 && t[i].Until == out.From && t[i].Units > room; i-- {
		out.From, out.Units = t[i].From, min(out.Units, t[i].Units)
	}
	for i := k + 1; i < len(t) && t[i].From == out.Until && t[i].Units > room; i++ {
		out.Until, out.Units = t[i].Until, min(out.Units, t[i].Units)
	}
	return out
}
