package calendar

import (
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// What a page shows is made here, in the words of the other forms, and laid out by
// whoever draws the page. Names are harmless (see [Printable]) but not escaped for
// any markup; a no-break space keeps each number and its unit together.

// Fact is a label and what it says.
type Fact struct{ Label, Text string }

// ListShown is a titled list.
type ListShown struct {
	Title string
	Lines []string
}

// TableShown is a table; the first cell of each row is its name.
type TableShown struct {
	Heads []string
	Rows  [][]string
}

// Printable makes a name harmless to show: what would change the direction of
// writing, or could not be seen, is replaced by something that can.
func Printable(s string) string { return printable(s) }

// StampText is a moment's day and local time in the kitchen's zone, as in
// "Tue 16 Mar 07:30", with the zone's name in an hour that a clock change repeats; in
// UTC where there is no such zone.
func StampText(p *schedule.Problem, m resources.Moment) string {
	zone, err := weekZone(p)
	if err != nil {
		zone = time.UTC
	}
	return stampText(m, zone)
}

// shownPen writes whole names for a page.
func shownPen(p *schedule.Problem) (*weekPen, error) {
	zone, err := weekZone(p)
	if err != nil {
		return nil, err
	}
	return &weekPen{zone: zone}, nil
}
