package resources

import (
	"slices"
	"sort"
	"time"
)

// Wall-clock time and moments
//
// A zone is a row of stretches, each with one offset from UTC. The reading of
// the wall clock at a moment m is m + offset(m); it runs evenly within a stretch
// and jumps where two stretches meet:
//
//	reading
//	  │             ╱  ╱
//	w₂┼┄┄┄┄┄┄┄┄┄┄┄┄●┄┄╱    repeated: the first of the two
//	  │           ╱  ╱
//	  │          ╱
//	  │         ╱
//	w₁┼┄┄┄┄┄┄┄┄┄●          skipped: the moment of the change
//	  │        ╱
//	  │       ╱
//	  └───────────────── moment
//
// One question answers all of them: which is the first moment whose reading is
// w or later? For a reading that occurs once it is that moment; for a repeated
// one the first; for a skipped one the moment of the change. It is also monotone
// in w, so a window's edges never come out in the wrong order.
//
// The changes are found by comparing offsets, with a binary search down to the
// minute. time.Date does not say which side of a change it answers from, and the
// end that time.Time.ZoneBounds gives can lie in the past: beyond the changes
// that a zone file lists it takes every year for 365 days long (Go 1.26).

// probe is how far apart offsets are compared. A zone that changed twice in less
// could be misread: the shortest time between two changes in the tz database
// (2025b, from 1800 to 2100) is just short of 4 days, in Freetown in 1939, and
// just short of 7 days since 1970.
const probe = 2 * Day

// widestOffset is more than any zone is away from UTC, in minutes. RFC 9636
// section 3.2 wants offsets between -24:59:59 and 25:59:59; the database's own
// lie within 16 hours.
const widestOffset = 26 * 60

// dayMinutes is the length of a day on the wall clock, in minutes.
const dayMinutes = int64(Day)

// wallClock reads one zone's wall clock. It remembers the stretch that it looked
// at last, since questions come in order of time for the most part. Not for use
// by two goroutines at once.
type wallClock struct {
	zone        *time.Location
	known       Span  // of one offset, though not always all that has it
	offsetInSec int64 // during known
}

// turn makes known hold m.
func (w *wallClock) turn(m Moment) {
	if w.known.From <= m && m < w.known.Until {
		return
	}
	from, until, offset := m, m.Add(probe), w.offset(m)
	if w.offset(until) != offset {
		until = m.Add(Minutes(sort.Search(int(probe), func(i int) bool {
			return w.offset(m.Add(Minutes(i))) != offset
		})))
	}
	if m == w.known.Until && offset == w.offsetInSec {
		from = w.known.From
	}
	w.known, w.offsetInSec = Span{from, until}, offset
}

// offset is what the zone adds to UTC at m, in seconds; in old times it was
// seldom a whole minute.
func (w *wallClock) offset(m Moment) int64 {
	_, seconds := m.In(w.zone).Zone()
	return int64(seconds)
}

// reading is what the wall clock shows at m: minutes since 1970-01-01 00:00 on
// that clock, parts of a minute dropped.
func (w *wallClock) reading(m Moment) int64 {
	w.turn(m)
	return floorDiv(int64(m)*60+w.offsetInSec, 60)
}

// reach gives the first moment at which the clock shows the reading or more.
func (w *wallClock) reach(reading int64) Moment {
	m := Moment(reading - widestOffset)
	for {
		w.turn(m)
		first := max(m, Moment(ceilDiv(reading*60-w.offsetInSec, 60)))
		if first < w.known.Until {
			return first
		}
		m = w.known.Until
	}
}

// at is reach for a clock time of a date.
func (w *wallClock) at(d Date, c Clock) Moment { return w.reach(d.number()*dayMinutes + int64(c)) }

// days gives every date that the calendar on the wall shows within the span, in
// order. A date that the zone skips is not among them.
func (w *wallClock) days(within Span) []Date {
	var numbers []int64
	for m := within.From; m < within.Until; {
		first := floorDiv(w.reading(m), dayMinutes)
		end := min(within.Until, w.known.Until)
		last := floorDiv(w.reading(end-1), dayMinutes)
		for n := first; n <= last; n++ {
			numbers = append(numbers, n)
		}
		m = end
	}
	// A clock that goes back over midnight shows a date twice.
	slices.Sort(numbers)
	numbers = slices.Compact(numbers)
	dates := make([]Date, len(numbers))
	for i, n := range numbers {
		dates[i] = dateOf(n)
	}
	return dates
}
