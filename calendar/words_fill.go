package calendar

import (
	"fmt"

	"ripeby/schedule/coldroom"
)

// fillText is what a place holds, against what it can.
func fillText(f *coldroom.Fill, s coldroom.FillStep) string {
	var text string
	switch {
	case s.Boxes == 0 && s.Open == 0:
		return "closed"
	case s.Boxes == 0:
		return "empty"
	case f.Place.Measured():
		text = countText(s.Boxes, "box", "boxes")
		if s.Open > 0 {
			text += fmt.Sprintf(", %d%s%% of floor", f.Percent(s), glue)
		}
	default:
		text = fmt.Sprintf("%d of%s%d%sboxes", s.Boxes, glue, s.Open, glue)
	}
	if f.Over(s) {
		text += ", " + tooFullWord
	}
	return text
}
