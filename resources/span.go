package resources

import (
	"cmp"
	"slices"
)

// Merge unites spans that touch or overlap and sorts what comes out, so that no
// two spans of the result share or border on a moment. Empty spans are dropped;
// nil is given when nothing is left. The input is not modified.
//
// Cost: O(n log n).
func Merge(spans []Span) []Span {
	var sorted []Span
	for _, s := range spans {
		if !s.Empty() {
			sorted = append(sorted, s)
		}
	}
	slices.SortFunc(sorted, func(a, b Span) int { return cmp.Compare(a.From, b.From) })

	// sorted[:n] is the result so far; it never overtakes the reading index.
	n := 0
	for _, s := range sorted {
		if n > 0 && s.From <= sorted[n-1].Until {
			sorted[n-1].Until = max(sorted[n-1].Until, s.Until)
			continue
		}
		sorted[n] = s
		n++
	}
	return sorted[:n]
}

// Subtract gives the moments of a that are not in b, as [Merge] would write
// them; nil when there are none. Neither input is modified.
//
//	a        ████████   ████
//	b           ██        ████
//	result   ███  ███   ██
func Subtract(a, b []Span) []Span {
	var left []Span
	taken := Merge(b)
	for _, s := range Merge(a) {
		for len(taken) > 0 && taken[0].Until <= s.From {
			taken = taken[1:]
		}
		// A taken span may reach into the next s too, so it is not dropped here.
		for _, t := range taken {
			if t.From >= s.Until {
				break
			}
			if s.From < t.From {
				left = append(left, Span{s.From, t.From})
			}
			s.From = t.Until
		}
		if !s.Empty() {
			left = append(left, s)
		}
	}
	return left
}

// Intersect gives the moments that a and b share, as [Merge] would write them;
// nil when there are none. Neither input is modified.
func Intersect(a, b []Span) []Span {
	var both []Span
	a, b = Merge(a), Merge(b)
	for len(a) > 0 && len(b) > 0 {
		s := Span{max(a[0].From, b[0].From), min(a[0].Until, b[0].Until)}
		if !s.Empty() {
			both = append(both, s)
		}
		// The one that ends first can meet nothing more.
		if a[0].Until < b[0].Until {
			a = a[1:]
		} else {
			b = b[1:]
		}
	}
	return both
}
