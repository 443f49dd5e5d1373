package week

import (
	"fmt"
	"time"

	"ripeby/calendar/words"
	"ripeby/resources"
)

// isoWeek writes the ISO 8601 week of a date, as in "2026-W53".
func isoWeek(d resources.Date) string {
	y, w := d.ISOWeek()
	return fmt.Sprintf("%04d-W%02d", y, w)
}

// clockChange is a moment at which the clocks are put forward or back.
type clockChange struct {
	at     resources.Moment
	before int // offset from UTC in seconds before the change
	after  int
}

// changesWithin lists the clock changes of a span. A change of a zone's name
// alone is none.
func changesWithin(span resources.Span, zone *time.Location) []clockChange {
	var changes []clockChange
	t := span.From.Add(-1).In(zone)
	for {
		_, end := t.ZoneBounds()
		if end.IsZero() || resources.MomentOf(end) >= span.Until {
			return changes
		}
		_, before := t.Zone()
		_, after := end.Zone()
		if before != after {
			changes = append(changes, clockChange{resources.MomentOf(end), before, after})
		}
		t = end
	}
}

// text says what happens at the change, in the clock's own times.
func (c clockChange) text() string {
	wall := func(off int) string {
		return c.at.In(time.FixedZone("", off)).Format("15:04")
	}
	if c.after > c.before {
		return fmt.Sprintf("Clocks go forward %s at %s.",
			words.Length(resources.Minutes((c.after-c.before)/60)), wall(c.before))
	}
	return fmt.Sprintf("Clocks go back %s at %s: %s to %s comes twice.",
		words.Length(resources.Minutes((c.before-c.after)/60)), wall(c.before), wall(c.after), wall(c.before))
}
