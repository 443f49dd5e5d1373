package words

import (
	"fmt"
	"slices"
	"strings"

	"ripeby/schedule"
)

// Where is where a stage is, with how many boxes stand on each shelf; names are written by name.
func Where(t *schedule.Task, name func(string) string) string {
	type shelfOf struct{ place, shelf string }
	var order []shelfOf
	boxes := map[shelfOf]int{}
	for _, b := range t.BoxesAt {
		at := shelfOf{b.Place, b.Shelf}
		if !slices.Contains(order, at) {
			order = append(order, at)
		}
		boxes[at]++
	}
	text := name(t.At)
	for i, at := range order {
		text += []string{": ", ", "}[min(i, 1)] + Count(boxes[at], "box", "boxes")
		if at.place != t.At {
			text += " in " + name(at.place)
		}
		if at.shelf != "" {
			text += " on " + name(at.shelf)
		}
	}
	return text
}

// Kit is what is used, and how much of it; names are written by name.
func Kit(uses []schedule.Occupied, name func(string) string) string {
	names := make([]string, len(uses))
	for i, u := range uses {
		names[i] = name(u.Thing)
		if u.Count != 1 {
			names[i] = fmt.Sprintf("%d%sx%s%s", u.Count, Glue, Glue, names[i])
		}
	}
	return strings.Join(names, ", ")
}
