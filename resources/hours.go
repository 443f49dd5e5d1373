package resources

import "time"

// longestReach is how long before a span a local day may end that still has a
// say in it. A window is open for at most 24 hours on the clock; that is 25
// elapsed hours over the usual change and 47 where a zone lived a day twice.
const longestReach = 3 * Day

// Windows gives the person's hours less what they are away, within the span:
// sorted, windows that touch or overlap united, clipped. A window that runs past
// midnight belongs to the day on which it opens. Nil when there are none.
func (p Person) Windows(within Span, zone *time.Location) []Span {
	return Subtract(dated(p.Hours, within, zone), p.Away)
}

// Avoids gives the times within the span that the person would rather not work:
// sorted, united, clipped. They may lie outside the person's hours.
func (p Person) Avoids(within Span, zone *time.Location) []Span {
	return dated(p.RatherNot, within, zone)
}

// dated writes weekly hours out as spans, merged and clipped. A date that the
// zone skips opens none.
func dated(hours []Hours, within Span, zone *time.Location) []Span {
	if len(hours) == 0 || within.Empty() {
		return nil
	}
	w := wallClock{zone: zone}
	var windows []Span
	for _, d := range w.days(reaching(within)) {
		next := d.AddDays(1)
		for _, h := range hours {
			if !h.Days.Has(d.Weekday()) {
				continue
			}
			closes := d
			if h.Until <= h.From {
				closes = next
			}
			windows = append(windows, Span{w.at(d, h.From), w.at(closes, h.Until)})
		}
	}
	return Intersect(windows, []Span{within})
}

// reaching widens a span to the local days whose times may fall into it.
func reaching(within Span) Span { return Span{within.From.Add(-longestReach), within.Until} }
