package judge

import (
	"sort"
	"time"

	"ripeby/resources"
)

// windows writes weekly hours out as spans for the days first to last, sorted;
// those that touch or overlap are one.
func windows(zone *time.Location, hours []resources.Hours, first, last day) []resources.Span {
	var spans []resources.Span
	for d := first; d <= last; d++ {
		for _, w := range hours {
			if !w.Days.Has(d.weekday()) {
				continue
			}
			closes := d
			if w.Until <= w.From {
				closes = d + 1
			}
			spans = append(spans, resources.Span{
				From:  wallClock(zone, d, w.From),
				Until: wallClock(zone, closes, w.Until),
			})
		}
	}
	return merged(spans)
}

// merged sorts spans, drops empty ones, and joins those that touch or overlap.
func merged(spans []resources.Span) []resources.Span {
	sort.Slice(spans, func(i, j int) bool { return spans[i].From < spans[j].From })
	var out []resources.Span
	for _, s := range spans {
		switch n := len(out); {
		case s.Until <= s.From:
		case n > 0 && s.From <= out[n-1].Until:
			out[n-1].Until = max(out[n-1].Until, s.Until)
		default:
			out = append(out, s)
		}
	}
	return out
}

// without takes the spans of away out of merged spans.
func without(spans, away []resources.Span) []resources.Span {
	away = merged(append([]resources.Span(nil), away...))
	var out []resources.Span
	for _, s := range spans {
		for _, a := range away {
			if !a.Overlaps(s) {
				continue
			}
			if s.From < a.From {
				out = append(out, resources.Span{From: s.From, Until: a.From})
			}
			s.From = a.Until
			if s.From >= s.Until {
				break
			}
		}
		if s.From < s.Until {
			out = append(out, s)
		}
	}
	return out
}

// covers reports whether one of the sorted spans holds all of s.
func covers(spans []resources.Span, s resources.Span) bool {
	i := sort.Search(len(spans), func(i int) bool { return spans[i].From > s.From })
	return i > 0 && s.Until <= spans[i-1].Until
}

// shared is how many minutes of s lie in the sorted spans.
func shared(spans []resources.Span, s resources.Span) resources.Minutes {
	var sum resources.Minutes
	i := sort.Search(len(spans), func(i int) bool { return spans[i].Until > s.From })
	for ; i < len(spans) && spans[i].From < s.Until; i++ {
		sum += resources.Minutes(min(spans[i].Until, s.Until) - max(spans[i].From, s.From))
	}
	return sum
}

// block is one day's round, kept free for one person.
type block struct {
	day    day
	span   resources.Span
	person int
}

// roundBlocks gives the round's block of each day on which somebody's hours cover it.
func (h *hearing) roundBlocks(first, last day) []block {
	r := h.kitchen.Round
	if r == nil || r.For <= 0 {
		return nil
	}
	var out []block
	for d := first; d <= last; d++ {
		opens := wallClock(h.zone, d, r.At)
		span := resources.Span{From: opens, Until: opens + resources.Moment(r.For)}
		for k := range h.people {
			if covers(h.people[k].free, span) {
				out = append(out, block{day: d, span: span, person: k})
				break
			}
		}
	}
	return out
}

// blockOn finds the round's block of a day; nil when there is none.
func (h *hearing) blockOn(d day) *block {
	i := sort.Search(len(h.rounds), func(i int) bool { return h.rounds[i].day >= d })
	if i < len(h.rounds) && h.rounds[i].day == d {
		return &h.rounds[i]
	}
	return nil
}
