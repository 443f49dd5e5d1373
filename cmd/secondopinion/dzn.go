package main

import (
	"fmt"

	"ripeby/cmd/internal/generalsolver"
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
	w.Number("last_step", s.steps)
	w.Number("last_unit", max(s.at(max(s.last, s.end)), s.steps*s.perStep())+s.perStep())
	s.writeRecipes(w)
	s.writeSlots(w)
	s.writePeople(w)
	s.writeKit(w)
	s.writeCold(w)
	s.writeSpace(w)
	s.writeMilk(w)
	s.writeWants(w)
	return w.String()
}

func (s *statement) writeRecipes(w *generalsolver.Values) {
	most := 0
	for _, r := range s.recipes {
		most = max(most, len(r.litres))
	}
	w.Note("recipes: sizes of batches, smallest first; column 0 is an empty slot")
	w.Number("recipes", len(s.recipes))
	w.Number("sizes", most)
	var sizes, serves, endLeast, endMost, cheese []int
	var litres, sellable [][]int
	for _, r := range s.recipes {
		sizes, serves, cheese = append(sizes, len(r.litres)), append(serves, max(1, r.r.Batch.Serves)), append(cheese, r.cheese+1)
		v, n := []int{0}, []int{0}
		for z := range r.litres {
			v, n = append(v, int(r.litres[z]/s.measure)), append(n, max(0, r.pieces[z]-r.r.Spare))
		}
		if g := r.begun; g != nil { // it counts in no litres, and need not serve anything
			serves[len(serves)-1], v[1], n[1] = 0, 0, max(0, min(r.pieces[0], g.made-r.r.Spare))
		}
		litres, sellable = append(litres, wide(v, most+1)), append(sellable, wide(n, most+1))
		least, past := 0, s.at(max(s.last, s.end))+s.steps*s.perStep()+1
		if h := r.r.Stages[len(r.r.Stages)-1].Hold; h != nil {
			least = up(int(h.Least), int(s.step)) * s.perStep()
			past = int(h.Most/s.step) * s.perStep()
		}
		endLeast, endMost = append(endLeast, least), append(endMost, past)
	}
	w.List("sizes_of", sizes)
	w.List("cheese", cheese)
	w.Table("litres", "R, Z", litres)
	w.Table("sellable", "R, Z", sellable)
	w.List("serves", serves)
	w.List("end_least", endLeast)
	w.List("end_most", endMost)
	s.writeForms(w, most)
}

// writeForms writes the stages of the recipes.
func (s *statement) writeForms(w *generalsolver.Values, sizes int) {
	var work [][]int
	var works []bool
	var least, most, at, costs []int
	var may [][]int
	for _, f := range s.forms {
		work = append(work, wide(append([]int{0}, f.work...), sizes+1))
		works = append(works, f.work[0] > 0)
		least, most = append(least, f.least), append(most, f.most)
		at, costs = append(at, len(costs)), append(costs, f.cost...)
		may = append(may, from1(f.may))
	}
	w.Number("forms", len(s.forms))
	w.Table("work", "F, Z", work)
	w.List("works", works)
	w.List("least", least)
	w.List("most", most)
	w.List("off_best_at", at)
	w.List("off_best", costs)
	w.Sets("may", may)
}

func (s *statement) writeSlots(w *generalsolver.Values) {
	w.Note("slots: batches that may be made")
	var recipe, first, last, slot, form, costAt, cost []int
	var begun []bool
	var starts [][2]int
	for i, r := range s.slots {
		recipe = append(recipe, r+1)
		first = append(first, len(slot)+1)
		for _, f := range s.recipes[r].forms {
			slot, form = append(slot, i+1), append(form, f+1)
		}
		last = append(last, len(slot))
		g := s.recipes[r].begun
		begun, costAt = append(begun, g != nil), append(costAt, len(cost))
		if g != nil {
			starts, cost = append(starts, [2]int{g.first, g.last}), append(cost, g.cost...)
		} else {
			starts = append(starts, [2]int{0, s.steps})
		}
	}
	w.Number("slots", len(s.slots))
	w.Number("tasks", len(slot))
	w.List("recipe", recipe)
	w.List("begun", begun)
	w.Ranges("first_in", starts)
	w.List("start_cost_at", costAt)
	w.List("start_cost", cost)
	w.List("first_task", first)
	w.List("last_task", last)
	w.List("slot_of", slot)
	w.List("form_of", form)
}

func (s *statement) writePeople(w *generalsolver.Values) {
	w.Note("people: where work of a length may start, and what it costs there")
	people := s.p.Kitchen.People
	w.Number("people", len(people))
	w.Number("lengths", len(s.lengths))
	w.List("span", s.lengths)
	var begin [][]int
	var avoid [][]int
	rather := make([]bool, len(people))
	for i := range people {
		for _, n := range s.lengths {
			row := s.hoursOf(i, n)
			begin = append(begin, row.begin)
			rather[i] = rather[i] || row.avoid != nil
			avoid = append(avoid, wide(row.avoid, s.steps+1))
		}
	}
	w.Grid("begin", "PP, L", begin)
	w.List("rather", rather)
	w.Table("avoid", "PP, L, 0..last_step", avoid)
	var who, most []int
	var days [][2]int
	for _, c := range s.caps() {
		who, most = append(who, c.person+1), append(most, c.most)
		days = append(days, [2]int{c.first, c.past - 1})
	}
	w.Number("caps", len(who))
	w.List("cap_of", who)
	w.Ranges("cap_day", days)
	w.List("cap", most)
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

func (s *statement) writeCold(w *generalsolver.Values) {
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
	var pieces, thing, boxes, place, keeps []int
	var may [][]int
	for _, t := range s.stock {
		pieces, thing, boxes = append(pieces, s.p.Stock[t.entry].Pieces), append(thing, t.thing+1), append(boxes, t.boxes)
		place, keeps, may = append(place, t.place+1), append(keeps, max(0, s.at(t.keeps))), append(may, from1(t.may))
	}
	w.Number("stocks", len(s.stock))
	w.List("stock_pieces", pieces)
	w.List("stock_thing", thing)
	w.List("stock_boxes", boxes)
	w.List("stock_place", place)
	w.List("stock_keeps", keeps)
	w.Sets("stock_may", may)
}

func (s *statement) writeSpace(w *generalsolver.Values) {
	w.Note("shelves, in the common measure of the boxes' sides, and columns of boxes")
	x := &s.space
	w.Number("shelves", len(x.wide))
	w.Number("kinds", len(x.boxWide))
	w.Number("columns", len(x.columnOf))
	w.List("shelf_place", from1(x.shelfPlace))
	w.List("shelf_wide", x.wide)
	w.List("shelf_deep", x.deep)
	w.Table("layers", "1..kinds, 1..shelves", x.layers)
	w.List("box_wide", x.boxWide)
	w.List("box_deep", x.boxDeep)
	w.List("column_of", from1(x.columnOf))
	w.List("column_box", from1(x.columnBox))
	var shelf, from, until []int
	for _, c := range x.closings {
		shelf, from, until = append(shelf, c.shelf+1), append(from, s.at(c.span.From)), append(until, s.at(c.span.Until))
	}
	w.Number("shelf_closings", len(shelf))
	w.List("shelf_closed", shelf)
	w.List("shelf_closed_from", from)
	w.List("shelf_closed_until", until)
}

func (s *statement) writeMilk(w *generalsolver.Values) {
	w.Note("milk: the steps at which a make may draw on a collection")
	var most []int
	var starts [][2]int
	bySupply := map[string][]int{}
	for i, c := range s.supply {
		starts = append(starts, [2]int{c.first, c.last})
		if c.most < 0 {
			most = append(most, -1)
		} else {
			most = append(most, int(c.most/s.measure))
		}
		name := s.p.Kitchen.Milk[c.supply].Name
		bySupply[name] = append(bySupply[name], i+1)
	}
	var of [][]int
	var needs []bool
	for _, r := range s.recipes {
		if r.begun != nil {
			of, needs = append(of, nil), append(needs, false)
			continue
		}
		of, needs = append(of, bySupply[r.r.Milk]), append(needs, r.r.Milk != "")
	}
	w.Number("collections", len(most))
	w.Sets("collections_of", of)
	w.List("needs_milk", needs)
	w.Ranges("milk_starts", starts)
	w.List("milk_most", most)
}

func (s *statement) writeWants(w *generalsolver.Values) {
	w.Note("wants: what is packed for them from one step to another, and when it leaves")
	var recipe, pieces, price, after, before, by []int
	var promised []bool
	for _, v := range s.wants {
		recipe, pieces, price = append(recipe, v.recipe+1), append(pieces, v.pieces), append(price, v.price)
		after, before, by = append(after, v.after), append(before, v.before), append(by, max(0, s.at(v.by)))
		promised = append(promised, v.promised)
	}
	w.Number("wants", len(recipe))
	w.List("want_recipe", recipe)
	w.List("want_pieces", pieces)
	w.List("want_price", price)
	w.List("promised", promised)
	w.List("want_after", after)
	w.List("want_before", before)
	w.List("want_by", by)
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
