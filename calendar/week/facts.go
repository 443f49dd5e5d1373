package week

import (
	"ripeby/calendar/words"
	"ripeby/schedule"
)

// What a page shows is made here, in the words of the other forms, and laid out by
// whoever draws the page. Names are harmless (see [words.Printable]) but not escaped for
// any markup; a no-break space keeps each number and its unit together.

// Fact is a label and what it says.
type Fact struct{ Label, Text string }

// List is a titled list; an urgent one is to be seen without being asked for.
type List struct {
	Title  string
	Lines  []string
	Urgent bool
}

// wholeNames writes whole names for a page.
func wholeNames(p *schedule.Problem) (*cellPen, error) {
	zone, err := words.Zone(p)
	if err != nil {
		return nil, err
	}
	return &cellPen{words.Pen{Zone: zone}}, nil
}
