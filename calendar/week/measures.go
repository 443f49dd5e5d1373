package week

import (
	"strings"

	"ripeby/schedule"
	"ripeby/schedule/measured"
)

// measures are what is to be looked at and written down at a piece of work, with the recipe's limits; "" for nothing.
func (n *cellPen) measures(all []schedule.Measure) string {
	var parts []string
	for i := range all {
		text := n.Name(all[i].What)
		if limits := measured.Limits(&all[i]); limits != "" {
			text += " " + n.much(limits)
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, ", ")
}

// toMeasure is the same with the word for it, where it stands among other things.
func (n *cellPen) toMeasure(all []schedule.Measure) string {
	if text := n.measures(all); text != "" {
		return "measure: " + text
	}
	return ""
}
