package resources

import "time"

// endOfDay is 24:00.
const endOfDay Clock = 24 * 60

// Collection is one day's milk of one supply.
type Collection struct {
	Day     Date
	Ready   Moment
	OrderBy Moment // it must be ordered at this moment or before
}

// Collections gives the supply's collections whose milk is ready within the
// span, in order. Closed days and dates that the zone skips have none. Whether
// there is still time to order is the caller's to say.
func (m Milk) Collections(within Span, zone *time.Location) []Collection {
	if within.Empty() {
		return nil
	}
	w := wallClock{zone: zone}
	var found []Collection
	for _, d := range w.days(reaching(within)) {
		if !m.Days.Has(d.Weekday()) {
			continue
		}
		ready := w.at(d, m.Ready)
		if ready < within.From || ready >= within.Until {
			continue
		}
		// Milk that is ready at 24:00 is still the old day's.
		if m.closedAt(min(ready, w.at(d, endOfDay)-1)) {
			continue
		}
		found = append(found, Collection{d, ready, ready.Add(-m.Order)})
	}
	return found
}

// closedAt reports whether the moment lies in a time without collections.
func (m Milk) closedAt(at Moment) bool {
	for _, s := range m.Closed {
		if s.From <= at && at < s.Until {
			return true
		}
	}
	return false
}
