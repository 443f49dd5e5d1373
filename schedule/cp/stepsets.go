package cp

import (
	"sort"

	"ripeby/schedule/cp/global"
)

// Sets of steps of the grid are sorted ranges, apart from one another. None is changed
// once it is made, so that many can have it in common.

// reachableOf lists the places of a row that can be.
func reachableOf(row []int32) []global.Range {
	var out []global.Range
	for x, v := range row {
		t := int32(x)
		switch n := len(out) - 1; {
		case v >= unreachable:
		case n >= 0 && out[n].To == t-1:
			out[n].To = t
		default:
			out = append(out, global.Range{From: t, To: t})
		}
	}
	return out
}

// stepsOf lists what is in the ranges of a set.
func stepsOf(set []global.Range) []int32 {
	n := 0
	for _, r := range set {
		n += int(r.To-r.From) + 1
	}
	out := make([]int32, 0, n)
	for _, r := range set {
		for t := r.From; t <= r.To; t++ {
			out = append(out, t)
		}
	}
	return out
}

// clip is the part of a set from one step to another, both included.
func clip(set []global.Range, from, to int32) []global.Range {
	a := sort.Search(len(set), func(k int) bool { return set[k].To >= from })
	b := a + sort.Search(len(set)-a, func(k int) bool { return set[a+k].From > to })
	if set = set[a:b:b]; len(set) == 0 || from > to {
		return nil
	}
	if last := len(set) - 1; set[0].From < from || set[last].To > to {
		set = append([]global.Range(nil), set...)
		set[0].From, set[last].To = max(set[0].From, from), min(set[last].To, to)
	}
	return set
}

// union is what is in either of two sets.
func union(a, b []global.Range) []global.Range {
	switch {
	case holds(a, b):
		return a
	case holds(b, a):
		return b
	}
	out := make([]global.Range, 0, len(a)+len(b))
	for len(a)+len(b) > 0 {
		if len(a) == 0 || len(b) > 0 && b[0].From < a[0].From {
			a, b = b, a
		}
		if n := len(out) - 1; n >= 0 && a[0].From <= out[n].To+1 {
			out[n].To = max(out[n].To, a[0].To)
		} else {
			out = append(out, a[0])
		}
		a = a[1:]
	}
	return out
}

// holds reports whether all of a set is in another one.
func holds(whole, part []global.Range) bool {
	x := 0
	for _, r := range part {
		for x < len(whole) && whole[x].To < r.From {
			x++
		}
		if x == len(whole) || r.From < whole[x].From || r.To > whole[x].To {
			return false
		}
	}
	return true
}

// meet is what is in both of two sets.
func meet(a, b []global.Range) []global.Range {
	switch {
	case holds(b, a):
		return a
	case holds(a, b):
		return b
	}
	var out []global.Range
	for len(a) > 0 && len(b) > 0 {
		if r := (global.Range{From: max(a[0].From, b[0].From), To: min(a[0].To, b[0].To)}); r.From <= r.To {
			out = append(out, r)
		}
		if a[0].To < b[0].To {
			a = a[1:]
		} else {
			b = b[1:]
		}
	}
	return out
}

// shifted is every step of a set moved by all from least to most.
func shifted(set []global.Range, least, most int32) []global.Range {
	out := make([]global.Range, 0, len(set))
	for _, r := range set {
		r.From, r.To = r.From+least, r.To+most
		if n := len(out) - 1; n >= 0 && r.From <= out[n].To+1 {
			out[n].To = r.To
		} else {
			out = append(out, r)
		}
	}
	return out
}
