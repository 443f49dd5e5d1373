package resources

import (
	"slices"
	"time"
)

// Person is somebody who does hands-on work, one piece at a time.
type Person struct {
	Name       string
	Hours      []Hours
	RatherNot  []Hours // allowed, but avoided
	MostPerDay Minutes // hands-on work by the local date it starts on; NoLimit for none
	Away       []Span
}

// PersonNumber is the place of somebody in People, -1 for a name that is none of theirs.
func (k *Kitchen) PersonNumber(name string) int {
	return slices.IndexFunc(k.People, func(p Person) bool { return p.Name == name })
}

// Hours is a weekly window of local wall-clock time: on each of Days it opens at
// From and closes at Until. When Until is not after From it closes on the next
// day ("22:00-02:00").
type Hours struct {
	Days        Weekdays
	From, Until Clock
}

// Weekdays is a set of days of the week, one bit a [time.Weekday].
type Weekdays uint8

// Daily is every day of the week.
const Daily Weekdays = 0x7f

// With gives the set with one more day in it.
func (w Weekdays) With(d time.Weekday) Weekdays { return w | 1<<uint(d) }

// Has reports whether the day is in the set.
func (w Weekdays) Has(d time.Weekday) bool { return w&(1<<uint(d)) != 0 }

// Round is the daily look at what is ripening: a block of For minutes that opens
// at At on each day on which somebody's hours cover it.
type Round struct {
	At  Clock
	For Minutes
}
