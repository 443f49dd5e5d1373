package words

import (
	"fmt"

	"ripeby/schedule/coldroom"
)

// Fill is what a cold place holds at a step, against what it can.
func Fill(f *coldroom.Fill, s coldroom.FillStep) string {
	var text string
	switch {
	case s.Boxes == 0 && s.Open == 0:
		return "closed"
	case s.Boxes == 0:
		return "empty"
	case f.Place.Measured():
		text = Count(s.Boxes, "box", "boxes")
		if s.Open > 0 {
			text += fmt.Sprintf(", %d%s%% of floor", f.Percent(s), Glue)
		}
	default:
		text = fmt.Sprintf("%d of%s%d%sboxes", s.Boxes, Glue, s.Open, Glue)
	}
	if f.Over(s) {
		text += ", " + TooFull
	}
	return text
}
