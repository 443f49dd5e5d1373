package packing

import (
	"slices"

	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
)

// What keeps boxes apart at one moment, and what they may share.
//
//	each spot      its boxes, of all stays that are there, are no more than stand on one another
//	each point     of the spots in use that cover it at most one is
//	each floor     the spots in use of a kind are enough for its boxes, and have room on the floor
//
// The last follows from the others, but not by looking at one of them at a time: that so many boxes
// need so many spots, more than there are, is seen at once where it is stated.

// aside keeps the stacks of stays out of the way of what stands where it is known to, as long as
// that is asked for.
func (f *standSearch) aside() {
	for o := range f.list {
		t := &f.list[o]
		if t.Fixed {
			continue // [standSearch.roomIn] has seen to it
		}
		for _, known := range t.Known {
			for i := range f.list {
				s := &f.list[i]
				if t.From >= s.Until || s.From >= t.Until {
					continue
				}
				for k := range f.stacks[i] {
					st := &f.stacks[i][k]
					square := s.Kind == t.Kind && st.at.Place == known.Place && f.shared(i, st)
					if st.at.Floor == known.Floor && problem.Overlap(st.at.Place, known.Place) && !square {
						f.k.AddClause(st.lit.Not(), f.asks[o].Not())
					}
				}
			}
		}
	}
}

// moments are those at which more stays stand than just before and than just after: what goes
// together then goes together always.
func (f *standSearch) moments() []int {
	var at []int
	for i := range f.list {
		at = append(at, f.list[i].From)
	}
	slices.Sort(at)
	at = slices.Compact(at)
	var out []int
	for n, t := range at {
		leaves := func(s Stay) bool { return t < s.Until && (n+1 == len(at) || s.Until <= at[n+1]) && s.From <= t }
		if slices.ContainsFunc(f.list, leaves) {
			out = append(out, t)
		}
	}
	return out
}

// use is the stacks that may be in one spot at one moment.
type use struct {
	at     problem.Standing
	kind   int
	stacks []stackAt
	lit    kernel.Lit // some are there
	shared bool
}

// apart keeps boxes apart at a moment.
func (f *standSearch) apart(now int) {
	uses := f.usesAt(now)
	for u := range uses {
		if uses[u].shared {
			f.fill(&uses[u], now)
		}
	}
	for fl := range f.m.Spaces[f.space].Floors {
		f.cover(fl, uses)
	}
	f.enough(now, uses)
}

// usesAt lists the spots in which something may stand at a moment: a shared one once, the others
// once for each stay.
func (f *standSearch) usesAt(now int) []use {
	type key struct {
		kind, floor int
		place       problem.Placed
	}
	var out []use
	known := map[key]int{}
	for i := range f.list {
		if f.list[i].From > now || now >= f.list[i].Until {
			continue
		}
		for k := range f.stacks[i] {
			st := &f.stacks[i][k]
			name, shared := key{f.list[i].Kind, st.at.Floor, st.at.Place}, f.shared(i, st)
			u, again := known[name]
			if !again || !shared {
				u = len(out)
				known[name] = u
				out = append(out, use{at: st.at, kind: f.list[i].Kind, shared: shared})
			}
			out[u].stacks = append(out[u].stacks, *st)
		}
	}
	for u := range out {
		if out[u].lit = out[u].stacks[0].lit; len(out[u].stacks) > 1 {
			out[u].lit = f.k.NewVar(0, 1).Ge(1)
			for _, st := range out[u].stacks {
				f.k.AddClause(st.lit.Not(), out[u].lit)
			}
		}
	}
	return out
}

// fill keeps the boxes in a shared spot at a moment to what it takes, less what is known to stand
// there.
func (f *standSearch) fill(u *use, now int) {
	floor := &f.m.Spaces[f.space].Floors[u.at.Floor]
	room := f.m.Kinds[u.kind].High(floor)
	var sum []global.Term
	var there []kernel.Lit
	held := int64(0)
	for i := range f.list {
		s := &f.list[i]
		if s.From > now || now >= s.Until || s.Kind != u.kind {
			continue
		}
		n := int64(boxesIn(s.Known, u.at.Floor, u.at.Place))
		switch {
		case n == 0:
		case s.Fixed:
			room -= n
		default:
			held += n
			there = append(there, f.asks[i].Not())
			sum = append(sum, global.Term{View: f.asks[i].B, Times: n})
		}
	}
	if held > room { // it is full, or more than that, as it was when the plan was made
		f.k.AddClause(append(there, u.lit.Not())...)
		return
	}
	for _, st := range u.stacks {
		sum = append(sum, global.Term{View: st.many.Up(), Times: 1})
	}
	if len(sum) > 1 {
		global.AddLinear(f.k, sum, room)
	}
}

// cover lets at most one of the spots in use cover a point of a floor. The points at which some
// spot may have its corner are enough.
func (f *standSearch) cover(floor int, uses []use) {
	for _, y := range f.ys[floor] {
		for _, x := range f.xs[floor] {
			var sum []global.Term
			for u := range uses {
				p := uses[u].at.Place
				if uses[u].at.Floor == floor && p.X <= x && x < p.X+p.W && p.Y <= y && y < p.Y+p.D {
					sum = append(sum, global.Term{View: uses[u].lit.B, Times: 1})
				}
			}
			if len(sum) > 1 {
				global.AddLinear(f.k, sum, 1)
			}
		}
	}
}

// enough states that the spots in use at a moment hold the boxes of the kinds that share them, and
// have no more area than their floors.
func (f *standSearch) enough(now int, uses []use) {
	boxes := map[int][]global.Term{} // of each kind that shares spots: those that stand, and spots for them
	for i := range f.list {
		s := &f.list[i]
		if s.From <= now && now < s.Until && s.Known == nil && f.m.Kinds[s.Kind].Stack == problem.OnKind {
			boxes[s.Kind] = append(boxes[s.Kind], global.Term{View: f.asks[i].B, Times: int64(s.Boxes)})
		}
	}
	if len(boxes) == 0 {
		return
	}
	for fl := range f.m.Spaces[f.space].Floors {
		floor := &f.m.Spaces[f.space].Floors[fl]
		var area []global.Term
		for kind := range f.m.Kinds {
			k := &f.m.Kinds[kind]
			if k.High(floor) == 0 || k.Size.W <= 0 || k.Size.D <= 0 {
				continue
			}
			var inUse []global.Term
			for u := range uses {
				if uses[u].kind == kind && uses[u].at.Floor == fl {
					inUse = append(inUse, global.Term{View: uses[u].lit.B, Times: 1})
				}
			}
			if len(inUse) == 0 {
				continue
			}
			most := min(int64(len(inUse)), floor.Size.W*floor.Size.D/(k.Size.W*k.Size.D))
			n := f.k.NewVar(0, int32(most))
			global.AddLinear(f.k, append(inUse, global.Term{View: n.Down(), Times: 1}), 0)
			area = append(area, global.Term{View: n.Up(), Times: k.Size.W * k.Size.D})
			if boxes[kind] != nil {
				boxes[kind] = append(boxes[kind], global.Term{View: n.Down(), Times: k.High(floor)})
			}
		}
		if len(area) > 1 {
			global.AddLinear(f.k, area, floor.Size.W*floor.Size.D)
		}
	}
	for kind := range f.m.Kinds {
		if len(boxes[kind]) > 0 {
			global.AddLinear(f.k, boxes[kind], 0)
		}
	}
}
