package main

import (
	"fmt"

	"ripeby/cmd/internal/generalsolver"
	"ripeby/resources"
	"ripeby/schedule/needs"
)

// dzn writes the statement as values for kitchen.mzn. Lists count from 1 there; "none"
// is 0. The same problem gives the same bytes.
func (s *statement) dzn() string {
	w := &generalsolver.Values{}
	w.Note("Values for kitchen.mzn, written from a kitchen folder.")
	w.Note(fmt.Sprintf("Step 0 is minute %d of 1970-01-01T00:00Z; a step has %d min, a unit %d min.", s.zero, s.step, s.unit))
	if s.capped {
		w.Note(fmt.Sprintf("At most %d batches of a cheese are stated; a best plan may have more where something is short.", s.cap))
	}
	w.Number("q", s.perStep())
	w.Number("two_hours", s.units(2*resources.Hour))
	w.Number("last_step", s.steps)
	w.Number("last_unit", s.lastUnit())
	s.writeRecipes(w)
	s.writeSlots(w)
	s.writePeople(w)
	s.writeKit(w)
	s.writePlaces(w)
	s.writeStays(w)
	s.writeStock(w)
	s.writeSpace(w)
	s.writeMilk(w)
	s.writeWants(w)
	s.writeEnded(w)
	s.writeTold(w)
	return w.String()
}

// lastUnit is a unit after which nothing matters: the last batch to start its packing then
// has left, and everything has been said of stock.
func (s *statement) lastUnit() int {
	after := 1
	for _, r := range s.recipes {
		if n := len(r.r.Stages) - 1; r.begun != nil {
			f := s.forms[r.forms[len(r.forms)-1]]
			after = max(after, f.work[0]+int(needs.HoldOf(r.r, n, s.step).Least/s.step)+1)
		}
	}
	return max(s.at(max(s.last, s.end)), s.steps*s.perStep()) + after*s.perStep()
}

// from1 counts from 1.
func from1(list []int) []int {
	out := make([]int, len(list))
	for i, n := range list {
		out[i] = n + 1
	}
	return out
}

// wide fills a row up with zeros.
func wide(row []int, n int) []int {
	out := make([]int, n)
	copy(out, row)
	return out
}
