package steps

import "sort"

// Range is From..To, both in it.
type Range struct{ From, To int32 }

// StepsOf lists what is in the ranges of a set.
func StepsOf(set []Range) []int32 {
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

// Clip is the part of a set from one step to another, both included.
func Clip(set []Range, from, to int32) []Range {
	a := sort.Search(len(set), func(k int) bool { return set[k].To >= from })
	b := a + sort.Search(len(set)-a, func(k int) bool { return set[a+k].From > to })
	if set = set[a:b:b]; len(set) == 0 || from > to {
		return nil
	}
	if last := len(set) - 1; set[0].From < from || set[last].To > to {
		set = append([]Range(nil), set...)
		set[0].From, set[last].To = max(set[0].From, from), min(set[last].To, to)
	}
	return set
}

// Union is what is in either of two sets.
func Union(a, b []Range) []Range {
	switch {
	case Holds(a, b):
		return a
	case Holds(b, a):
		return b
	}
	out := make([]Range, 0, len(a)+len(b))
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

// Holds reports whether all of a set is in another one.
func Holds(whole, part []Range) bool {
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

// Meet is what is in both of two sets.
func Meet(a, b []Range) []Range {
	switch {
	case Holds(b, a):
		return a
	case Holds(a, b):
		return b
	}
	var out []Range
	for len(a) > 0 && len(b) > 0 {
		if r := (Range{From: max(a[0].From, b[0].From), To: min(a[0].To, b[0].To)}); r.From <= r.To {
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

// Shifted is every step of a set moved by all from least to most.
func Shifted(set []Range, least, most int32) []Range {
	out := make([]Range, 0, len(set))
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
