package main

import (
	"fmt"
	"slices"

	"ripeby/cmd/internal/generalsolver"
	"ripeby/resources"
	"ripeby/schedule"
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

// setStays lists the stays of every slot. A stage without work that follows a hold
// goes on with the stay before it: nobody is there to move anything.
func (s *statement) setStays() error {
	first := 0
	for b, r := range s.slots {
		row := &s.recipes[r]
		i := row.done()
		if row.begun != nil {
			stay, err := s.runningStay(row)
			if err != nil {
				return err
			}
			if stay != nil {
				if i, err = s.addStay(*stay, b, first, i-1); err != nil {
					return err
				}
				i++
			}
		}
		for ; i < len(row.r.Stages); i++ {
			if row.r.Stages[i].At.Kind == schedule.AtRoom {
				continue
			}
			stay, err := stayRow{from: first + i - row.done(), places: s.placesFor(row.r.Stages[i].At)}, error(nil)
			if i, err = s.addStay(stay, b, first, i); err != nil {
				return err
			}
		}
		first += len(row.forms)
	}
	return s.standsNow()
}

// addStay adds a stay of slot b that begins at stage i, and gives its last stage.
func (s *statement) addStay(stay stayRow, b, first, i int) (last int, err error) {
	row := &s.recipes[s.slots[b]]
	box := boxAt(row.r, i)
	if box == nil {
		return i, &refusal{"a cold stage without boxes", row.r.Stages[i].Name}
	}
	for i+1 < len(row.r.Stages) && s.goesOn(s.slots[b], i+1) {
		i++
		next := s.placesFor(row.r.Stages[i].At)
		stay.places = slices.DeleteFunc(stay.places, func(c int) bool { return !slices.Contains(next, c) })
	}
	stay.slot, stay.to = b, first+i+1-row.done()
	if i+1 == len(row.r.Stages) {
		stay.to = -1
	}
	takes := []int{0}
	for _, n := range row.pieces {
		takes = append(takes, up(n, box.Takes))
	}
	stay.count, stay.most = s.addCount(takes), takes[len(takes)-1]
	stay.box = slices.IndexFunc(s.p.Kitchen.Boxes, func(x resources.Box) bool { return x.Name == box.Name })
	if len(stay.places) == 0 || stay.box < 0 {
		return i, &refusal{"a cold stage that can be nowhere", fmt.Sprintf("%s, stage %s", row.r.Name, row.r.Stages[i].Name)}
	}
	s.stays = append(s.stays, stay)
	return i, nil
}

// goesOn reports whether stage i only prolongs the stay of the stage before.
func (s *statement) goesOn(recipe, i int) bool {
	row := &s.recipes[recipe]
	before := row.r.Stages[i-1].Hold
	return s.forms[row.forms[i-row.done()]].work[0] == 0 && before != nil && before.Most > 0
}

// placesFor lists the cold places that a stage may be at.
func (s *statement) placesFor(at schedule.At) []int {
	var out []int
	for i, c := range s.p.Kitchen.Cold {
		if at.Kind == schedule.AtPlace && at.Place == c.Name ||
			at.Kind == schedule.AtRange && at.Low <= c.Temperature && c.Temperature <= at.High {
			out = append(out, i)
		}
	}
	return out
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
