package main

import (
	"fmt"
	"strconv"
	"strings"
)

// dzn writes the statement as values for kitchen.mzn. Lists count from 1 there; "none"
// is 0. The same problem gives the same bytes.
func (s *statement) dzn() string {
	w := &values{}
	w.note("Values for kitchen.mzn, written from a kitchen folder.")
	w.note(fmt.Sprintf("Step 0 is minute %d of 1970-01-01T00:00Z; a step has %d min, a unit %d min.", s.zero, s.step, s.unit))
	if s.capped {
		w.note(fmt.Sprintf("At most %d batches of a cheese are stated; a best plan may have more where something is short.", s.cap))
	}
	w.number("q", s.perStep())
	w.number("last_step", s.steps)
	w.number("last_unit", max(s.at(max(s.last, s.end)), s.steps*s.perStep())+s.perStep())
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

func (s *statement) writeRecipes(w *values) {
	most := 0
	for _, r := range s.recipes {
		most = max(most, len(r.litres))
	}
	w.note("recipes: sizes of batches, smallest first; column 0 is an empty slot")
	w.number("recipes", len(s.recipes))
	w.number("sizes", most)
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
	w.list("sizes_of", sizes)
	w.list("cheese", cheese)
	w.table("litres", "R, Z", litres)
	w.table("sellable", "R, Z", sellable)
	w.list("serves", serves)
	w.list("end_least", endLeast)
	w.list("end_most", endMost)
	s.writeForms(w, most)
}

// writeForms writes the stages of the recipes.
func (s *statement) writeForms(w *values, sizes int) {
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
	w.number("forms", len(s.forms))
	w.table("work", "F, Z", work)
	w.list("works", works)
	w.list("least", least)
	w.list("most", most)
	w.list("off_best_at", at)
	w.list("off_best", costs)
	w.sets("may", may)
}

func (s *statement) writeSlots(w *values) {
	w.note("slots: batches that may be made")
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
	w.number("slots", len(s.slots))
	w.number("tasks", len(slot))
	w.list("recipe", recipe)
	w.list("begun", begun)
	w.ranges("first_in", starts)
	w.list("start_cost_at", costAt)
	w.list("start_cost", cost)
	w.list("first_task", first)
	w.list("last_task", last)
	w.list("slot_of", slot)
	w.list("form_of", form)
}

func (s *statement) writePeople(w *values) {
	w.note("people: where work of a length may start, and what it costs there")
	people := s.p.Kitchen.People
	w.number("people", len(people))
	w.number("lengths", len(s.lengths))
	w.list("span", s.lengths)
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
	w.grid("begin", "PP, L", begin)
	w.list("rather", rather)
	w.table("avoid", "PP, L, 0..last_step", avoid)
	var who, most []int
	var days [][2]int
	for _, c := range s.caps() {
		who, most = append(who, c.person+1), append(most, c.most)
		days = append(days, [2]int{c.first, c.past - 1})
	}
	w.number("caps", len(who))
	w.list("cap_of", who)
	w.ranges("cap_day", days)
	w.list("cap", most)
}

func (s *statement) writeKit(w *values) {
	w.note("kit: pots, stations, moulds, boxes, and what a slot uses of them")
	var there, clean []int
	var fits [][]int
	for _, t := range s.things {
		there, clean, fits = append(there, t.there), append(clean, s.units(t.clean)), append(fits, t.fits)
	}
	w.number("things", len(s.things))
	w.list("there_are", there)
	w.list("clean", clean)
	w.table("size_that_fits", "1..things, R", fits)
	most := 0
	for _, r := range s.recipes {
		most = max(most, len(r.litres))
	}
	var counts [][]int
	for _, c := range s.counts {
		counts = append(counts, wide(c, most+1))
	}
	w.number("counts", len(counts))
	w.table("takes", "1..counts, Z", counts)
	var slot, from, to, count []int
	var things [][]int
	for _, u := range s.uses {
		slot, from, to, count, things = append(slot, u.slot+1), append(from, u.from+1), append(to, u.to+1), append(count, u.count+1), append(things, from1(u.things))
	}
	w.number("uses", len(s.uses))
	w.list("use_slot", slot)
	w.list("use_from", from)
	w.list("use_to", to)
	w.list("use_count", count)
	w.sets("use_things", things)
	var thing, held, until []int
	for _, b := range s.busy {
		thing, held, until = append(thing, b.thing+1), append(held, b.count), append(until, s.at(b.until))
	}
	w.number("busies", len(thing))
	w.list("busy_thing", thing)
	w.list("busy_count", held)
	w.list("busy_until", until)
}

func (s *statement) writeCold(w *values) {
	w.note("cold places, stays and stock")
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
	w.number("places", len(room))
	w.list("room_for", room)
	w.number("closings", len(at))
	w.list("closed_place", at)
	w.list("closed_from", from)
	w.list("closed_until", until)
	var slot, stayFrom, put, to, count, box []int
	var places [][]int
	for _, t := range s.stays {
		slot, put = append(slot, t.slot+1), append(put, max(0, s.at(max(t.put, s.zero))))
		stayFrom, to, count, box = append(stayFrom, t.from+1), append(to, t.to+1), append(count, t.count+1), append(box, t.box+1)
		places = append(places, from1(t.places))
	}
	w.number("stays", len(s.stays))
	w.list("stay_slot", slot)
	w.list("stay_from", stayFrom)
	w.list("stay_put", put)
	w.list("stay_to", to)
	w.list("stay_count", count)
	w.list("stay_box", box)
	w.sets("stay_places", places)
	var pieces, thing, boxes, place, keeps []int
	var may [][]int
	for _, t := range s.stock {
		pieces, thing, boxes = append(pieces, s.p.Stock[t.entry].Pieces), append(thing, t.thing+1), append(boxes, t.boxes)
		place, keeps, may = append(place, t.place+1), append(keeps, max(0, s.at(t.keeps))), append(may, from1(t.may))
	}
	w.number("stocks", len(s.stock))
	w.list("stock_pieces", pieces)
	w.list("stock_thing", thing)
	w.list("stock_boxes", boxes)
	w.list("stock_place", place)
	w.list("stock_keeps", keeps)
	w.sets("stock_may", may)
}

func (s *statement) writeSpace(w *values) {
	w.note("shelves, in the common measure of the boxes' sides, and columns of boxes")
	x := &s.space
	w.number("shelves", len(x.wide))
	w.number("kinds", len(x.boxWide))
	w.number("columns", len(x.columnOf))
	w.list("shelf_place", from1(x.shelfPlace))
	w.list("shelf_wide", x.wide)
	w.list("shelf_deep", x.deep)
	w.table("layers", "1..kinds, 1..shelves", x.layers)
	w.list("box_wide", x.boxWide)
	w.list("box_deep", x.boxDeep)
	w.list("column_of", from1(x.columnOf))
	w.list("column_box", from1(x.columnBox))
	var shelf, from, until []int
	for _, c := range x.closings {
		shelf, from, until = append(shelf, c.shelf+1), append(from, s.at(c.span.From)), append(until, s.at(c.span.Until))
	}
	w.number("shelf_closings", len(shelf))
	w.list("shelf_closed", shelf)
	w.list("shelf_closed_from", from)
	w.list("shelf_closed_until", until)
}

func (s *statement) writeMilk(w *values) {
	w.note("milk: the steps at which a make may draw on a collection")
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
	w.number("collections", len(most))
	w.sets("collections_of", of)
	w.list("needs_milk", needs)
	w.ranges("milk_starts", starts)
	w.list("milk_most", most)
}

func (s *statement) writeWants(w *values) {
	w.note("wants: what is packed for them from one step to another, and when it leaves")
	var recipe, pieces, price, after, before, by []int
	var promised []bool
	for _, v := range s.wants {
		recipe, pieces, price = append(recipe, v.recipe+1), append(pieces, v.pieces), append(price, v.price)
		after, before, by = append(after, v.after), append(before, v.before), append(by, max(0, s.at(v.by)))
		promised = append(promised, v.promised)
	}
	w.number("wants", len(recipe))
	w.list("want_recipe", recipe)
	w.list("want_pieces", pieces)
	w.list("want_price", price)
	w.list("promised", promised)
	w.list("want_after", after)
	w.list("want_before", before)
	w.list("want_by", by)
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

// values writes named values, one a line.
type values struct{ strings.Builder }

func (w *values) note(text string) { fmt.Fprintf(w, "%% %s\n", text) }

func (w *values) number(name string, n int) { fmt.Fprintf(w, "%s = %d;\n", name, n) }

// list writes numbers or truths.
func (w *values) list(name string, list any) {
	text := strings.ReplaceAll(strings.Trim(fmt.Sprint(list), "[]"), " ", ", ")
	fmt.Fprintf(w, "%s = [%s];\n", name, text)
}

// table writes rows of numbers, one after another, for the given index sets.
func (w *values) table(name, index string, rows [][]int) {
	dims := strings.Count(strings.ReplaceAll(index, "..", ""), ",") + 1
	fmt.Fprintf(w, "%s = array%dd(%s, [", name, dims, index)
	for _, row := range rows {
		for _, n := range row {
			w.WriteString(strconv.Itoa(n) + ",")
		}
	}
	w.WriteString("]);\n")
}

// sets writes a list of sets.
func (w *values) sets(name string, rows [][]int) {
	fmt.Fprintf(w, "%s = [%s];\n", name, setTexts(rows))
}

// grid writes sets for two index sets.
func (w *values) grid(name, index string, rows [][]int) {
	fmt.Fprintf(w, "%s = array2d(%s, [%s]);\n", name, index, setTexts(rows))
}

// ranges writes a list of sets from one number to another.
func (w *values) ranges(name string, rows [][2]int) {
	var texts []string
	for _, r := range rows {
		texts = append(texts, fmt.Sprintf("%d..%d", r[0], r[1]))
	}
	fmt.Fprintf(w, "%s = [%s];\n", name, strings.Join(texts, ", "))
}

func setTexts(rows [][]int) string {
	var texts []string
	for _, row := range rows {
		texts = append(texts, strings.ReplaceAll(strings.Trim(fmt.Sprint(row), "[]"), " ", ","))
	}
	if len(texts) == 0 {
		return ""
	}
	return "{" + strings.Join(texts, "}, {") + "}"
}
