package calendar

import (
	"ripeby/calendar/words"
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

// shownPen writes whole names for a page.
func shownPen(p *schedule.Problem) (*weekPen, error) {
	zone, err := words.Zone(p)
	if err != nil {
		return nil, err
	}
	return &weekPen{words.Pen{Zone: zone}}, nil
}
