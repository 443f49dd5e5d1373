package judge

import (
	"sort"

	"ripeby/resources"
)

// claim is one occupation of something that is counted.
type claim struct {
	span    resources.Span
	count   int
	planned bool
	batch   string
	stage   string
}

// overload is a planned claim at whose start more is taken than there is.
type overload struct {
	claim
	taken int
}

// overloads sweeps over claims on one thing and gives the planned ones that start
// when, with them, more than the limit is taken. What is planned starts after what
// has begun, so an overload in which something planned takes part always shows at
// a planned start; one of begun claims alone is not the plan's.
func overloads(claims []claim, limit int) []overload {
	var byStart []claim
	for _, c := range claims {
		if c.count > 0 && c.span.From < c.span.Until {
			byStart = append(byStart, c)
		}
	}
	sort.SliceStable(byStart, func(i, j int) bool {
		a, b := byStart[i], byStart[j]
		if a.span.From != b.span.From {
			return a.span.From < b.span.From
		}
		return !a.planned && b.planned
	})
	byEnd := append([]claim(nil), byStart...)
	sort.SliceStable(byEnd, func(i, j int) bool { return byEnd[i].span.Until < byEnd[j].span.Until })

	var out []overload
	taken, ended := 0, 0
	for _, c := range byStart {
		for ended < len(byEnd) && byEnd[ended].span.Until <= c.span.From {
			taken -= byEnd[ended].count
			ended++
		}
		taken += c.count
		if taken > limit && c.planned {
			out = append(out, overload{c, taken})
		}
	}
	return out
}
