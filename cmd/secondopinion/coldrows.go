package main

import (
	"fmt"
	"slices"

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

// stockRow is an entry of stock that still keeps.
type stockRow struct {
	entry        int // in the problem's list
	thing, boxes int // thing -1: no boxes
	place        int // -1: in the room
	kind         int // of box, as in the kitchen's list
	keeps        resources.Moment
	may          []int // wants that it can serve
}

// setStock lists the stock that keeps at the planning start.
func (s *statement) setStock() error {
	for i, e := range s.p.Stock {
		r := s.p.Recipe(e.Cheese)
		if r == nil {
			return &refusal{"stock without a recipe", e.Cheese}
		}
		row := stockRow{entry: i, thing: -1, place: -1, kind: -1, boxes: e.Boxes, keeps: e.Packed.Add(r.Keeps)}
		if row.keeps < s.p.From {
			continue
		}
		for k := range r.Stages {
			if b := boxAt(r, k); b != nil {
				row.kind = slices.IndexFunc(s.p.Kitchen.Boxes, func(x resources.Box) bool { return x.Name == b.Name })
			}
		}
		if row.kind >= 0 && row.boxes > 0 {
			row.thing = len(s.p.Kitchen.Pots) + len(s.p.Kitchen.Stations) + len(s.p.Kitchen.Moulds) + row.kind
			row.place = slices.IndexFunc(s.p.Kitchen.Cold, func(c resources.ColdPlace) bool { return c.Name == e.At })
		}
		for w, want := range s.wants {
			t := &s.p.Targets[want.target]
			if s.p.Recipes[want.recipe].Name == e.Cheese && e.Packed.Add(t.Packed) <= t.By && t.By <= row.keeps {
				row.may = append(row.may, w)
			}
		}
		if err := s.stockStands(&row); err != nil {
			return err
		}
		s.end = max(s.end, row.keeps)
		s.stock = append(s.stock, row)
	}
	return nil
}

// stockStands refuses stock on shelves that are closed while it may stand there: what
// happens to it then is not the plan's to say.
func (s *statement) stockStands(row *stockRow) error {
	if row.place < 0 || !s.p.Kitchen.Cold[row.place].Measured() {
		return nil
	}
	c := &s.p.Kitchen.Cold[row.place]
	taken := slices.Clone(c.Taken)
	for _, shelf := range c.Shelves {
		taken = append(taken, shelf.Taken...)
	}
	for _, t := range taken {
		if t.Overlaps(resources.Span{From: s.p.From, Until: row.keeps + 1}) {
			return &refusal{"stock in a place that is taken", c.Name}
		}
	}
	return nil
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

// spaceRows are the shelves of all measured places, in whole measures of the boxes'
// sides, and the columns of boxes that may stand on them.
type spaceRows struct {
	side                   resources.Micrometres // the common measure
	shelfPlace, wide, deep []int
	layers                 [][]int // by kind of box and shelf
	boxWide, boxDeep       []int
	columnOf, columnBox    []int
	closings               []closing
}

// closing is a time in which a shelf, from 0, is taken.
type closing struct {
	shelf int
	span  resources.Span
}

// setSpace states the shelves. Boxes that are pushed left and front as far as they
// go stand at sums of their sides, so positions in the common measure of all sides
// are enough.
func (s *statement) setSpace() error {
	x, k := &s.space, &s.p.Kitchen
	side := resources.Micrometres(0)
	for _, b := range k.Boxes {
		side = gcd(gcd(side, b.Size.Width), b.Size.Depth)
	}
	side = max(side, 1)
	x.side = side
	for _, b := range k.Boxes {
		x.boxWide = append(x.boxWide, int(b.Size.Width/side))
		x.boxDeep = append(x.boxDeep, int(b.Size.Depth/side))
		x.layers = append(x.layers, nil)
	}
	for c, place := range k.Cold {
		for _, shelf := range place.Shelves {
			for _, t := range shelf.Taken {
				x.closings = append(x.closings, closing{len(x.wide), t})
			}
			x.shelfPlace = append(x.shelfPlace, c)
			x.wide = append(x.wide, int(shelf.Size.Width/side))
			x.deep = append(x.deep, int(shelf.Size.Depth/side))
			for b, box := range k.Boxes {
				n := 0
				if box.Size.Height > 0 {
					n = int(shelf.Size.Height / box.Size.Height)
				}
				x.layers[b] = append(x.layers[b], n)
			}
		}
	}
	return s.setColumns()
}

// setColumns gives every stay that may be on shelves a column a box: no stay has more.
func (s *statement) setColumns() error {
	x := &s.space
	add := func(stay, box, n int, places []int) {
		if slices.ContainsFunc(places, func(c int) bool { return s.p.Kitchen.Cold[c].Measured() }) {
			for range s.columnsFor(box, n, places) {
				x.columnOf, x.columnBox = append(x.columnOf, stay), append(x.columnBox, box)
			}
		}
	}
	for i, t := range s.stays {
		add(i, t.box, t.most, t.places)
	}
	for i, t := range s.stock {
		if t.place >= 0 {
			add(len(s.stays)+i, t.kind, t.boxes, []int{t.place})
		}
	}
	if n := len(x.columnOf); n > maxColumns {
		return &refusal{"many boxes on shelves", fmt.Sprintf("%d stacks, at most %d are stated", n, maxColumns)}
	}
	return nil
}

// columnsFor is the most columns that n boxes may need: where they can be stacked on
// every shelf that takes them at all, as many a column as the lowest allows.
func (s *statement) columnsFor(box, n int, places []int) int {
	lowest := 0
	for i, c := range s.space.shelfPlace {
		if l := s.space.layers[box][i]; slices.Contains(places, c) && l > 0 && (lowest == 0 || l < lowest) {
			lowest = l
		}
	}
	return up(n, lowest)
}
