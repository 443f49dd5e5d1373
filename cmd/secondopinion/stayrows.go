package main

import (
	"fmt"
	"slices"

	"ripeby/cmd/internal/generalsolver"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
)

// stayRow is a time in a cold place: from the end of the work of task from to the
// start of task to, or until the batch has left when to is -1.
type stayRow struct {
	slot     int
	from, to int // from -1: since before the planning start, or put
	put      resources.Moment
	count    int // row of counts
	box      int // kind of box, as in the kitchen's list
	places   []int
	most     int // boxes of the largest size
}

// kindOf is a kind of box, as in the kitchen's list; -1 for none of the kitchen's.
func (s *statement) kindOf(b *schedule.Boxing) int {
	return slices.IndexFunc(s.p.Kitchen.Boxes, func(x resources.Box) bool { return x.Name == b.Name })
}

// setStays lists the stays of every slot.
func (s *statement) setStays() error {
	first := 0
	for b, r := range s.slots {
		for _, x := range needs.Stays(s.recipes[r].r, &s.p.Kitchen) {
			if err := s.addStay(x, b, first); err != nil {
				return err
			}
		}
		first += len(s.recipes[r].forms)
	}
	return s.standsNow()
}

// addStay adds a stay of slot b, whose tasks count from first; one that is over is not.
func (s *statement) addStay(x needs.Stay, b, first int) error {
	row := &s.recipes[s.slots[b]]
	done := row.done()
	if x.Last < done-1 {
		return nil
	}
	if x.Box == nil {
		return &refusal{"a cold stage without boxes", row.r.Stages[x.First].Name}
	}
	stay := stayRow{slot: b, from: first + x.First - done, to: first + x.Last + 1 - done, box: s.kindOf(x.Box), places: x.Places}
	if x.Last+1 == len(row.r.Stages) {
		stay.to = -1
	}
	if x.First < done {
		if err := s.running(row, &stay); err != nil {
			return err
		}
	}
	takes := []int{0}
	for _, n := range row.pieces {
		takes = append(takes, needs.Boxes(x.Box, n))
	}
	stay.count, stay.most = s.addCount(takes), takes[len(takes)-1]
	if len(stay.places) == 0 || stay.box < 0 {
		return &refusal{"a cold stage that can be nowhere", fmt.Sprintf("%s, stage %s", row.r.Name, row.r.Stages[x.Last].Name)}
	}
	s.stays = append(s.stays, stay)
	return nil
}

func (s *statement) writePlaces(w *generalsolver.Values) {
	w.Note("cold places, stays and stock")
	var room, at, from, until []int
	for i, c := range s.p.Kitchen.Cold {
		if c.Measured() {
			room = append(room, -1)
		} else {
			room = append(room, c.Boxes)
		}
		for _, t := range c.Taken {
			at, from, until = append(at, i+1), append(from, s.at(t.From)), append(until, s.at(t.Until))
		}
	}
	w.Number("places", len(room))
	w.List("room_for", room)
	w.Number("closings", len(at))
	w.List("closed_place", at)
	w.List("closed_from", from)
	w.List("closed_until", until)
}

func (s *statement) writeStays(w *generalsolver.Values) {
	var slot, stayFrom, put, to, count, box []int
	var places [][]int
	for _, t := range s.stays {
		slot, put = append(slot, t.slot+1), append(put, max(0, s.at(max(t.put, s.zero))))
		stayFrom, to, count, box = append(stayFrom, t.from+1), append(to, t.to+1), append(count, t.count+1), append(box, t.box+1)
		places = append(places, from1(t.places))
	}
	w.Number("stays", len(s.stays))
	w.List("stay_slot", slot)
	w.List("stay_from", stayFrom)
	w.List("stay_put", put)
	w.List("stay_to", to)
	w.List("stay_count", count)
	w.List("stay_box", box)
	w.Sets("stay_places", places)
}
