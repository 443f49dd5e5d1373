package main

import (
	"math"
	"slices"
	"strings"
)

// pictureCells is how wide a picture of a number is, its ends left aside.
const pictureCells = 31

// picture draws on one line where a number lies, between which most of it does, and what the recipe says, NaN for
// nothing:
//
//	|----[===o==]---^---------------|
//
// What lies outside of from to until stands at its end.
func picture(from, until, low, here, high, recipe float64) string {
	at := func(x float64) int {
		return min(max(int(math.Round((x-from)/(until-from)*(pictureCells-1))), 0), pictureCells-1)
	}
	cells := []byte(strings.Repeat("-", pictureCells))
	for i := at(low); i <= at(high); i++ {
		cells[i] = '='
	}
	cells[at(low)], cells[at(high)] = '[', ']'
	if !math.IsNaN(recipe) {
		cells[at(recipe)] = '^'
	}
	cells[at(here)] = 'o'
	return "|" + string(cells) + "|"
}

// scaleOf is from where to where a picture of numbers goes: a quarter of what they span on either side.
func scaleOf(all ...float64) (from, until float64) {
	from, until = slices.Min(all), slices.Max(all)
	room := (until - from) / 4
	if room == 0 {
		room = max(math.Abs(from)/4, 1)
	}
	return from - room, until + room
}
