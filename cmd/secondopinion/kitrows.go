package main

import (
	"cmp"
	"fmt"
	"slices"

	"ripeby/cmd/internal/generalsolver"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
)

// thingRow is one thing of the kitchen's that is counted. fits is the largest size,
// from 1, of each recipe that it takes; it matters for pots.
type thingRow struct {
	needs.Thing
	fits []int
}

// useRow is a run of stages of one slot that keeps the same kit: from the start of
// task from until the work of task to is done, or until the batch has left when to
// is -1.
type useRow struct {
	run      needs.Run
	slot     int
	from, to int
	count    int // row of counts
	things   []int
}

// busyRow is kit that is in hand or being cleaned after a use that is over.
type busyRow struct {
	thing, count int
	until        resources.Moment
}

// setThings lists pots, stations, moulds and boxes, in this order.
func (s *statement) setThings() error {
	for _, x := range needs.Things(&s.p.Kitchen) {
		t := thingRow{Thing: x}
		for _, r := range s.recipes {
			n := len(r.litres)
			for x.IsPot() && n > 0 && r.litres[n-1] > x.Holds {
				n--
			}
			t.fits = append(t.fits, n)
		}
		s.things = append(s.things, t)
	}
	return nil
}

// named are the things of some names, by their numbers; names of none are left out.
func (s *statement) named(names ...string) []int {
	var out []int
	for _, name := range names {
		if k := slices.IndexFunc(s.things, func(t thingRow) bool { return t.Name == name }); k >= 0 {
			out = append(out, k)
		}
	}
	return out
}

// setKit lists what each slot uses of the things.
func (s *statement) setKit() error {
	s.busyPacked()
	rows := make([][]useRow, len(s.recipes)) // tasks counted from the slot's first
	for r := range s.recipes {
		for _, x := range needs.Runs(s.recipes[r].r) {
			row, stated, err := s.useOf(r, x)
			if err != nil {
				return err
			}
			if stated {
				rows[r] = append(rows[r], row)
			}
		}
	}
	first := 0
	for b, r := range s.slots {
		for _, row := range rows[r] {
			row.slot = b
			if row.from >= 0 {
				row.from += first
			}
			if row.to >= 0 {
				row.to += first
			}
			s.uses = append(s.uses, row)
		}
		first += len(s.recipes[r].forms)
	}
	return nil
}

// useOf states a run of kit of a recipe, its tasks counted from 0; stated is false when
// the run of a batch under way is over.
func (s *statement) useOf(recipe int, x needs.Run) (u useRow, stated bool, err error) {
	row := &s.recipes[recipe]
	done := row.done()
	u = useRow{run: x, from: x.First - done, to: x.Last + 1 - done, things: s.named(x.Kit(&s.p.Kitchen, row.r, 0)...)}
	if u.to == len(row.forms) {
		u.to = -1
	}
	takes := []int{0}
	for z := range row.litres {
		takes = append(takes, x.Count(&s.p.Kitchen, row.size(z)))
	}
	if len(u.things) == 0 {
		return u, false, &refusal{"kit that the kitchen has none of", fmt.Sprintf("%s, stage %s", row.r.Name, row.r.Stages[x.First].Name)}
	}
	u.count = s.addCount(takes)
	if x.First < done {
		stated, err = s.over(row, x, &u)
		return u, stated, err
	}
	return u, true, nil
}

// over states a run of kit of a begun batch that began before the planning start; stated
// is false when the run is over, and what is left of it is busy until it is clean.
func (s *statement) over(row *recipeRow, x needs.Run, u *useRow) (stated bool, err error) {
	if u.things = s.inHand(row, x); len(u.things) == 0 {
		return false, &refusal{"a begun batch larger than every pot", row.r.Name}
	}
	if x.Last+1 >= row.begun.done {
		u.from = -1
		return true, nil
	}
	s.cleaned(row, x, u.things[0])
	return false, nil
}

// cleaned states a thing that a batch under way has had in a run that is over as busy until it is clean.
func (s *statement) cleaned(row *recipeRow, x needs.Run, thing int) {
	until := row.begun.ends[x.Last+1].Add(s.things[thing].Clean)
	if until > s.zero {
		s.busy = append(s.busy, busyRow{thing, x.Count(&s.p.Kitchen, row.size(0)), until})
	}
}

// inHand are the things that a run of a batch under way may have: of pots the one written, or
// else the first that is large enough.
func (s *statement) inHand(row *recipeRow, x needs.Run) []int {
	if x.Use.Kind != schedule.UsePot {
		return s.named(x.Kit(&s.p.Kitchen, row.r, 0)...)
	}
	e := &s.p.Begun[row.begun.entry]
	if name := cmp.Or(x.Use.Name, e.Pot); name != "" {
		return s.named(name)
	}
	large := x.Kit(&s.p.Kitchen, row.r, e.Litres)
	return s.named(large[:min(1, len(large))]...)
}

// addCount gives the row of counts that says the same, a new one if there is none.
func (s *statement) addCount(takes []int) int {
	for i, c := range s.counts {
		if slices.Equal(c, takes) {
			return i
		}
	}
	s.counts = append(s.counts, takes)
	return len(s.counts) - 1
}

// inTurn is how many batches a kind of thing can take one after another of which the last
// lets go of it within so many steps, when each keeps it busy for so many.
func (s *statement) inTurn(thing, busy, within int) int {
	t := &s.things[thing]
	clean := int(t.Clean / s.step)
	return *t.Count * ((within + clean) / (busy + clean))
}

func (s *statement) writeKit(w *generalsolver.Values) {
	w.Note("kit: pots, stations, moulds, boxes, and what a slot uses of them")
	var there, clean []int
	var fits [][]int
	for _, t := range s.things {
		there, clean, fits = append(there, *t.Count), append(clean, s.units(t.Clean)), append(fits, t.fits)
	}
	w.Number("things", len(s.things))
	w.List("there_are", there)
	w.List("clean", clean)
	w.Table("size_that_fits", "1..things, R", fits)
	most := 0
	for _, r := range s.recipes {
		most = max(most, len(r.litres))
	}
	var counts [][]int
	for _, c := range s.counts {
		counts = append(counts, wide(c, most+1))
	}
	w.Number("counts", len(counts))
	w.Table("takes", "1..counts, Z", counts)
	var slot, from, to, count []int
	var things [][]int
	for _, u := range s.uses {
		slot, from, to, count, things = append(slot, u.slot+1), append(from, u.from+1), append(to, u.to+1), append(count, u.count+1), append(things, from1(u.things))
	}
	w.Number("uses", len(s.uses))
	w.List("use_slot", slot)
	w.List("use_from", from)
	w.List("use_to", to)
	w.List("use_count", count)
	w.Sets("use_things", things)
	var thing, held, until []int
	for _, b := range s.busy {
		thing, held, until = append(thing, b.thing+1), append(held, b.count), append(until, s.at(b.until))
	}
	w.Number("busies", len(thing))
	w.List("busy_thing", thing)
	w.List("busy_count", held)
	w.List("busy_until", until)
}
