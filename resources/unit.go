package resources

import "time"

// Moment is a point in time: whole minutes since 1970-01-01T00:00Z. It is given
// a type so that it is never mixed up with a length.
type Moment int64

// Minutes is an elapsed length of time in whole minutes. A day is 24 elapsed
// hours, also across a clock change.
type Minutes int64

// Lengths of time that are used by name.
const (
	Hour Minutes = 60
	Day  Minutes = 24 * Hour
)

// NoLimit marks a limit that the kitchen does not set (most_per_day, a supply's
// most).
const NoLimit = -1

// Rate is a length of work in thousandths of a minute, so that "0.4 min" a
// piece is exact. Fixed work is written in it too.
type Rate int64

// Millilitres is a volume. Volumes are read to the nearest millilitre.
type Millilitres int64

// Milligrams is a mass.
type Milligrams int64

// MilliCelsius is a temperature in thousandths of a degree Celsius.
type MilliCelsius int64

// Micrometres is a length in space: 1 cm is 10,000 and 1 in is 25,400, so that
// both are exact.
type Micrometres int64

// Lengths in space that are used by name.
const (
	Millimetre Micrometres = 1_000
	Centimetre Micrometres = 10_000
)

// Money is an amount in hundredths of the kitchen's unit.
type Money int64

// Size is a body's or a space's width, depth and height.
type Size struct {
	Width, Depth, Height Micrometres
}

// Area is a flat thing's width and height.
type Area struct {
	Width, Height Micrometres
}

// Clock is a local time of day in minutes after midnight, 0 to 1440.
type Clock int

// Date is a local calendar day.
type Date struct {
	Year  int
	Month time.Month
	Day   int
}

// Span is a half-open stretch of time: From is in it, Until is not.
type Span struct {
	From, Until Moment
}

// Length is the elapsed length of the span.
func (s Span) Length() Minutes { return Minutes(s.Until - s.From) }

// Empty reports whether the span holds no moment at all.
func (s Span) Empty() bool { return s.Until <= s.From }

// Overlaps reports whether the two spans share a moment.
func (s Span) Overlaps(o Span) bool { return s.From < o.Until && o.From < s.Until }

// Contains reports whether all of o lies within s.
func (s Span) Contains(o Span) bool { return s.From <= o.From && o.Until <= s.Until }

// Add moves the moment by an elapsed length.
func (m Moment) Add(d Minutes) Moment { return m + Moment(d) }

// Sub is the elapsed length from o to m.
func (m Moment) Sub(o Moment) Minutes { return Minutes(m - o) }

// In gives the moment as a [time.Time] in the zone.
func (m Moment) In(zone *time.Location) time.Time {
	return time.Unix(int64(m)*60, 0).In(zone)
}

// MomentOf gives the moment of t; parts of a minute are dropped.
func MomentOf(t time.Time) Moment {
	s := t.Unix()
	if s < 0 {
		s -= 59
	}
	return Moment(s / 60)
}

// DateIn gives the local day on which the moment falls.
func (m Moment) DateIn(zone *time.Location) Date {
	y, mo, d := m.In(zone).Date()
	return Date{y, mo, d}
}
