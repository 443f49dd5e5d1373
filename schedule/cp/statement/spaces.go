package statement

import (
	"maps"
	"slices"

	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/packing"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/usage"
)

// addSpaces gives every stay a space and keeps what stands in a space within what
// it holds: boxes where they are counted; where there are floors, their area and
// how many stacks of each kind they take, which is less than geometry asks.
func (k *Statement) addSpaces() {
	for i := range k.Slots {
		for r := range k.Slots[i].Modes[0].Stays {
			k.addStay(k.Slots[i], r)
		}
	}
	for i := range k.Model.Stocks {
		st := &k.Model.Stocks[i]
		if st.Space >= 0 && st.Boxes > 0 && !k.Schedule.Stocks[i].Place.Homeless {
			t := global.Task{From: k.now(), Until: k.until(k.Stock[i].leave, 0)}
			if st.Since > k.Model.From { // as closings: what that lets in off the grid is seen when the boxes are put
				t.From.Add = k.Grid.Up(st.Since)
			}
			k.boxes = append(k.boxes, boxStay{space: st.Space, kind: st.Kind, boxes: always(int32(st.Boxes)), task: t, stock: i, begun: true})
		}
	}
	for space := range k.Model.Spaces {
		k.addSpace(space)
	}
}

// boxStay is boxes of a kind that may stand in a space: of a stay of a slot, or of
// a stock.
type boxStay struct {
	space, kind int
	boxes       global.Amount
	task        global.Task
	slot        *Slot // nil for stock
	r           int
	stock       int
	begun       bool // stands there at the planning start
}

func (k *Statement) addStay(sl *Slot, r int) {
	stay := &sl.Modes[0].Stays[r]
	h := stay.Occupied()
	t := global.Task{From: k.moment(sl, h.From, 0), Until: k.moment(sl, h.Until, 0)}
	if h.Until.Act < sl.Acts() {
		t.Least = k.between(sl, h)
	}
	b := boxStay{kind: stay.Kind, slot: sl, r: r, boxes: sl.table(func(m *problem.Mode) int32 { return int32(m.Stays[r].Boxes) })}
	if sl.Begun >= 0 && stay.First < sl.Fixed {
		sl.Spaces = append(sl.Spaces, nil)
		b.space = k.Model.Begun[sl.Begun].Homes[r]
		if next := stay.Last + 1; b.space < 0 || next < sl.Fixed && k.Model.Begun[sl.Begun].Starts[next] <= k.Model.From {
			return
		}
		if r == k.Model.Begun[sl.Begun].RunningStay() && k.Schedule.Homes[sl.Begun].Homeless {
			return
		}
		if end := k.Model.Begun[sl.Begun].Starts[stay.First] + sl.Modes[0].Acts[stay.First].Work; end <= k.Model.From {
			t.From = k.now() // else it comes when its work is done
		}
		t.Least, t.If = 0, ifs(sl.Present(), k.Yes, k.Yes)
		b.task, b.begun = t, true
		k.boxes = append(k.boxes, b)
		if sl.left != k.Zero {
			b.task.Until, b.task.If = global.Moment{X: k.Zero, Add: k.last}, []kernel.Lit{sl.Present().Not()}
			k.boxes = append(k.boxes, b)
		}
		return
	}
	lits := k.oneOf(len(stay.Spaces))
	sl.Spaces = append(sl.Spaces, lits)
	for i, space := range stay.Spaces {
		b.task, b.space = t, space
		b.task.If = ifs(sl.Present(), lits[i], k.Yes)
		k.boxes = append(k.boxes, b)
	}
}

// addSpace keeps one space within what it holds. What stands there at the planning
// start stays even where the place closes: closings are for what is planned.
func (k *Statement) addSpace(space int) {
	var list, planned []boxStay
	for _, b := range k.boxes {
		if b.space == space {
			list = append(list, b)
			if !b.begun {
				planned = append(planned, b)
			}
		}
	}
	closes := len(k.closings(space)) > 0
	for i := range k.Model.Spaces[space].Floors {
		closes = closes || len(k.Model.Spaces[space].Floors[i].Closed) > 0
	}
	anyBegun := len(planned) < len(list) || k.frozenBegun(space)
	if closes && anyBegun {
		k.fill(space, planned, true)
	}
	if len(list) > 0 {
		k.fill(space, list, closes && !anyBegun)
		k.addTogether(space, list)
	}
}

// addTogether keeps what stands at one moment within what geometry lets in, where boxes of several
// kinds share spots: half a stack of one leaves no more floor to the other than a whole one.
func (k *Statement) addTogether(space int, list []boxStay) {
	t, ok := packing.NewTable(k.Model, space, kindsOf(list), k.Schedule.Kept, func(work int64) { k.Schedule.Spent += work / kernelWork })
	if !ok || len(k.Model.Spaces[space].Floors) == 0 {
		return
	}
	var tasks []global.Task
	var class []int
	put := func(task global.Task, kind int) {
		if c := t.Class(kind); c >= 0 {
			tasks, class = append(tasks, task), append(class, c)
		}
	}
	for _, st := range list {
		st.task.Demand = st.boxes
		put(st.task, st.kind)
	}
	if k.frozen != nil {
		for _, v := range k.frozen.Spaces[space] {
			g := k.taken(v.From, v.Until, int64(v.Boxes))
			put(global.Task{From: global.Moment{X: k.Zero, Add: g.From}, Until: global.Moment{X: k.Zero, Add: g.Until}, Demand: always(g.Units)}, v.Kind)
		}
	}
	global.AddTogether(k.Kernel, tasks, class, t.Classes(), t)
}

// closings are when a whole space is closed, rounded inward: what that lets in off
// the grid is seen when the boxes are put.
func (k *Statement) closings(space int) []global.Taken {
	var out []global.Taken
	for _, c := range k.Model.Spaces[space].Closed {
		out = append(out, global.Taken{From: k.Grid.Up(c.From), Until: k.Grid.Down(c.Until)})
	}
	return out
}

// fill keeps the boxes of the list within a space, heeding closings or not.
func (k *Statement) fill(space int, list []boxStay, heed bool) {
	sp := &k.Model.Spaces[space]
	closed := func(units int32) []global.Taken {
		if !heed {
			return nil
		}
		out := k.closings(space)
		for i := range out {
			out[i].Units = units
		}
		return out
	}
	if len(sp.Floors) > 0 {
		k.addArea(space, list, heed, closed)
		for _, kind := range kindsOf(list) {
			k.addStacks(space, kind, list, heed, closed)
		}
		return
	}
	var tasks []global.Task
	for _, b := range list {
		b.task.Demand = b.boxes
		tasks = append(tasks, b.task)
	}
	c := int32(min(sp.Capacity, 1<<20))
	taken := append(closed(c), k.frozenVisits(space, heed, func(v *usage.Visit) int64 { return int64(v.Boxes) })...)
	global.AddCumulative(k.Kernel, k.addBegunAside(tasks, c), c, taken)
}

// kindsOf lists the kinds of box that may stand.
func kindsOf(list []boxStay) []int {
	set := map[int]bool{}
	for _, st := range list {
		set[st.kind] = true
	}
	return slices.Sorted(maps.Keys(set))
}

// addArea keeps the footprints of stacks within the floors' area.
func (k *Statement) addArea(space int, list []boxStay, heed bool, closed func(int32) []global.Taken) {
	if l, ok := packing.Area(k.Model, space, kindsOf(list)); ok { // else the stacks must do
		k.addLoad(space, &l, list, heed, closed)
	}
}

// addStacks keeps stacks of a kind, and of kinds at least as large, within how many
// of the kind the floors take.
func (k *Statement) addStacks(space, kind int, list []boxStay, heed bool, closed func(int32) []global.Taken) {
	floors, box := k.Model.Spaces[space].Floors, k.Model.Kinds[kind].Size
	if k.Model.Kinds[kind].Height <= 0 || box.W <= 0 || box.D <= 0 {
		return
	}
	stacks, most := make([]int64, len(floors)), int32(0)
	for i := range floors {
		stacks[i] = int64(len(k.Schedule.MostStacks(floors[i].Size, nil, box, 1<<20)))
	}
	list = slices.DeleteFunc(slices.Clone(list), func(st boxStay) bool {
		return !k.Model.Kinds[st.kind].Size.Covers(box) || slices.Max(k.Model.Layers(space, st.kind)) == 0
	})
	for _, st := range list {
		most = max(most, slices.Max(st.boxes.Table))
	}
	if len(list) == 0 {
		return
	}
	for _, l := range packing.Stacks(k.Model, space, kind, kindsOf(list), stacks, int(most)) {
		k.addLoad(space, &l, list, heed, closed)
	}
}

// addLoad keeps what stands in a space at one time within what its floors have, by one way to count.
func (k *Statement) addLoad(space int, l *packing.Load, list []boxStay, heed bool, closed func(int32) []global.Taken) {
	sp := &k.Model.Spaces[space]
	room := int32(l.Room())
	taken := append(closed(room), k.frozenVisits(space, heed, func(v *usage.Visit) int64 { return l.OfStacks(v.Kind, v.Stacks) })...)
	for i := range sp.Floors {
		for _, c := range sp.Floors[i].Closed { // floors that are closed while the space is not
			if heed && l.Floors[i] > 0 && !problem.AnyOverlap(sp.Closed, c.From, c.Until) {
				taken = append(taken, global.Taken{From: k.Grid.Up(c.From), Until: k.Grid.Down(c.Until), Units: int32(l.Floors[i])})
			}
		}
	}
	var tasks []global.Task
	for _, st := range list {
		of := l.Of(st.kind, int(slices.Max(st.boxes.Table)))
		st.task.Demand = global.Amount{By: st.boxes.By}
		for _, n := range st.boxes.Table {
			st.task.Demand.Table = append(st.task.Demand.Table, int32(of[n]))
		}
		tasks = append(tasks, st.task)
	}
	global.AddCumulative(k.Kernel, tasks, room, taken)
}
