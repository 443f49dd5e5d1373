package global

import (
	"math"

	"ripeby/schedule/cp/steps"
)

// Range is a range of steps; sets of them are sorted and apart.
type Range = steps.Range

// reaching is the first of sorted, apart ranges that ends at v or later.
func reaching(set []Range, v int32) int {
	lo, hi := 0, len(set)
	for lo < hi {
		mid := (lo + hi) / 2
		if set[mid].To < v {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	return lo
}

// atOrAfter is the least value of the set from v on.
func atOrAfter(set []Range, v int32) (int32, bool) {
	k := reaching(set, v)
	if k == len(set) {
		return 0, false
	}
	return max(v, set[k].From), true
}

// atOrBefore is the greatest value of the set up to v.
func atOrBefore(set []Range, v int32) (int32, bool) {
	k := reaching(set, v)
	if k < len(set) && set[k].From <= v {
		return v, true
	}
	if k == 0 {
		return 0, false
	}
	return set[k-1].To, true
}

// gap is the widest stretch around [lo, hi] with no value of the set; its ends are
// the bounds of int32 where the set ends. False when the set has a value in [lo, hi].
func gap(set []Range, lo, hi int32) (Range, bool) {
	k := reaching(set, lo)
	if k < len(set) && set[k].From <= hi {
		return Range{}, false
	}
	g := Range{From: math.MinInt32, To: math.MaxInt32}
	if k > 0 {
		g.From = set[k-1].To + 1
	}
	if k < len(set) {
		g.To = set[k].From - 1
	}
	return g, true
}
