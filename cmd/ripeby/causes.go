package main

import (
	"fmt"
	"time"

	"ripeby/config/recordfile"
	"ripeby/resources"
	"ripeby/schedule/planner/whatif"
	"ripeby/schedule/record"
	"ripeby/schedule/record/since"
)

// causesOf are the things that are otherwise than when the earlier plan of a folder was made, as they
// are named to a person.
func causesOf(list []since.Difference, zone *time.Location) []whatif.Cause {
	var out []whatif.Cause
	for _, d := range list {
		c := whatif.Cause{Text: d.Text, Without: d.Without}
		if e := d.Entry; e != nil {
			c.Text = entryText(e) + " (" + resources.ShowMoment(e.At, zone)
			c.Text += ": " + shortened(recordfile.Said(*e, zone)) + ")"
		}
		out = append(out, c)
	}
	return out
}

// entryText names an entry of the record; one written by hand has no number.
func entryText(e *record.Entry) string {
	if e.Nr > 0 {
		return fmt.Sprintf("entry %d", e.Nr)
	}
	return fmt.Sprintf("%s, line %d", e.File, e.Line)
}

// mostSaid is how much of an entry is repeated.
const mostSaid = 70

// shortened is the beginning of what an entry says.
func shortened(text string) string {
	if letters := []rune(text); len(letters) > mostSaid {
		return string(letters[:mostSaid]) + "…"
	}
	return text
}
