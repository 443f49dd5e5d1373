package main

import (
	"fmt"
	"slices"

	"ripeby/cmd/internal/generalsolver"
	"ripeby/resources"
	"ripeby/schedule"
)

// thingRow is one thing of the kitchen's that is counted. fits is the largest size,
// from 1, of each recipe that it takes; it matters for pots.
type thingRow struct {
	name  string
	there int
	clean resources.Minutes
	fits  []int
}

// useRow is a run of stages of one slot that keeps the same kit: from the start of
// task from until the work of task to is done, or until the batch has left when to
// is -1.
type useRow struct {
	slot     int
	from, to int
	count    int // row of counts
	things   []int
}

// kitRun is consecutive stages, first to last, of a recipe that use the same.
type kitRun struct {
	first, last int
	use         schedule.Use
	box         schedule.Boxing
}

// setKit lists the things and what each slot uses of them.
func (s *statement) setKit() error {
	s.listThings()
	rows := make([][]useRow, len(s.recipes)) // tasks counted from the slot's first
	for r := range s.recipes {
		for _, x := range runsOf(s.recipes[r].r) {
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

// listThings lists pots, stations, moulds and boxes, in this order.
func (s *statement) listThings() {
	k := &s.p.Kitchen
	add := func(name string, there int, clean resources.Minutes, holds resources.Millilitres) {
		t := thingRow{name: name, there: there, clean: clean}
		for _, r := range s.recipes {
			n := len(r.litres)
			for holds >= 0 && n > 0 && r.litres[n-1] > holds {
				n--
			}
			t.fits = append(t.fits, n)
		}
		s.things = append(s.things, t)
	}
	for _, x := range k.Pots {
		add(x.Name, x.Count, x.Clean, x.Holds)
	}
	for _, x := range k.Stations {
		add(x.Name, x.Count, x.Clean, -1)
	}
	for _, x := range k.Moulds {
		add(x.Name, x.Count, x.Clean, -1)
	}
	for _, x := range k.Boxes {
		add(x.Name, x.Count, x.Clean, -1)
	}
}

// thing finds a thing by name; -1 when there is none.
func (s *statement) thing(name string) int {
	return slices.IndexFunc(s.things, func(t thingRow) bool { return t.name == name })
}

// runsOf lists the runs of kit of a recipe: a stage goes on with what the stage
// before it used, unless it asks for it fresh or for another kind of box.
func runsOf(r *schedule.Recipe) []kitRun {
	var out []kitRun
	for i := range r.Stages {
		for _, u := range r.Stages[i].Uses {
			x := kitRun{first: i, last: i, use: u}
			if b := boxAt(r, i); u.Kind == schedule.UseBox && b != nil {
				x.box = *b
			}
			on := slices.IndexFunc(out, func(o kitRun) bool {
				return o.last == i-1 && o.use == x.use && o.box == x.box && !slices.Contains(r.Stages[i].Fresh, u.Kind)
			})
			if on >= 0 {
				out[on].last = i
				continue
			}
			out = append(out, x)
		}
	}
	return out
}

// boxAt is what the cheese is boxed in at stage i; nil for nothing.
func boxAt(r *schedule.Recipe, i int) *schedule.Boxing {
	for _, u := range r.Stages[i].Uses {
		if u.Kind == schedule.UseBox && r.Stages[i].Box != nil {
			return r.Stages[i].Box
		}
		if u.Kind == schedule.UseBox {
			return r.Box
		}
	}
	return nil
}

// useOf states a run of kit of a recipe, its tasks counted from 0; stated is false when
// the run of a batch under way is over.
func (s *statement) useOf(recipe int, x kitRun) (u useRow, stated bool, err error) {
	row := &s.recipes[recipe]
	done := row.done()
	u = useRow{from: x.first - done, to: x.last + 1 - done}
	if u.to == len(row.forms) {
		u.to = -1
	}
	takes := make([]int, len(row.litres)+1)
	per := func(n func(z int) int) {
		for z := range row.litres {
			takes[z+1] = n(z)
		}
	}
	switch x.use.Kind {
	case schedule.UsePot:
		per(func(int) int { return 1 })
		for i, p := range s.p.Kitchen.Pots {
			if x.use.Name == "" || x.use.Name == p.Name {
				u.things = append(u.things, i)
			}
		}
	case schedule.UseMould:
		per(func(z int) int { return row.pieces[z] })
		u.things = s.named(row.r.Mould)
	case schedule.UseBox:
		per(func(z int) int { return up(row.pieces[z], x.box.Takes) })
		u.things = s.named(x.box.Name)
	case schedule.UseStation:
		u.things = s.named(x.use.Name)
		for _, st := range s.p.Kitchen.Stations {
			if st.Name == x.use.Name {
				per(func(z int) int { return stationTakes(st, row.litres[z], row.pieces[z]) })
			}
		}
	}
	if len(u.things) == 0 {
		return u, false, &refusal{"kit that the kitchen has none of", fmt.Sprintf("%s, stage %s", row.r.Name, row.r.Stages[x.first].Name)}
	}
	u.count = s.addCount(takes)
	if x.first < done {
		stated, err = s.over(row, x, &u)
		return u, stated, err
	}
	return u, true, nil
}

// stationTakes is how many of a station a batch occupies.
func stationTakes(st resources.Station, v resources.Millilitres, pieces int) int {
	switch {
	case st.TakesVolume > 0:
		return up(int(v), int(st.TakesVolume))
	case st.TakesPieces > 0:
		return up(pieces, st.TakesPieces)
	}
	return 1
}

func (s *statement) named(thing string) []int {
	if k := s.thing(thing); k >= 0 {
		return []int{k}
	}
	return nil
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

// potsFor lists the pots that a use of one has to choose from; nil when it is no pot.
func (s *statement) potsFor(u schedule.Use, least resources.Millilitres) []resources.Pot {
	if u.Kind != schedule.UsePot {
		return nil
	}
	pots := []resources.Pot{}
	for _, p := range s.p.Kitchen.Pots {
		if (u.Name == "" || u.Name == p.Name) && p.Holds >= least {
			pots = append(pots, p)
		}
	}
	return pots
}

// up is a/b rounded up; 0 where b is none.
func up(a, b int) int {
	if b <= 0 {
		return 0
	}
	return (a + b - 1) / b
}

func (s *statement) writeKit(w *generalsolver.Values) {
	w.Note("kit: pots, stations, moulds, boxes, and what a slot uses of them")
	var there, clean []int
	var fits [][]int
	for _, t := range s.things {
		there, clean, fits = append(there, t.there), append(clean, s.units(t.clean)), append(fits, t.fits)
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
