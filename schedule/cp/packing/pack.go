package packing

import (
	"context"
	"maps"
	"slices"

	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
)

// Where boxes stand over time, exactly. Boxes keep their spot while they stand; so spots that are in
// use at one moment must not share floor. Every spot, with all that stands in it one after another,
// is pushed toward the origin until it meets a wall or another spot; so it is enough to try, in each
// direction, the sums of sides (the normal patterns of Christofides and Whitlock,
// "An algorithm for two-dimensional cutting problems", 1977), and the spots that are known.

// Stay is boxes that stand in one space from a tick to another.
type Stay struct {
	From, Until int
	Kind, Boxes int
	Known       []problem.Standing // where they stand already, nil for anywhere
	Given       bool               // closings do not count for it
	Fixed       bool               // stands there in every plan: no reason for anything
}

// Verdict is the answer of the search for places.
type Verdict int

// The answers.
const (
	Fits Verdict = iota
	FitsNot
	Unknown // too much to try
)

// packWork is how much counted work of the kernel one search for places may take.
const packWork = 4_000_000

// standSearch looks for places of all of a list: every spot that a stay may have boxes in
// is a literal, with a number of boxes; of the spots in use that cover one point of a floor at one
// moment at most one is true (apart.go). An assumption for each stay asks that it stands.
type standSearch struct {
	m      *problem.Model
	space  int
	list   []Stay
	xs     [][]int64 // of each floor: where a left side may be
	ys     [][]int64
	k      *kernel.Solver
	asks   []kernel.Lit
	stacks [][]stackAt // of each of the list
}

// stackAt is boxes of a stay that may be in a spot: as many as its floor takes on one another, or,
// where the spot is shared, a number of them.
type stackAt struct {
	at   problem.Standing // Boxes is the most
	lit  kernel.Lit       // some are there
	many kernel.Var       // how many, where it is shared
}

// shared reports whether boxes of other stays may stand in a stack's spot.
func (f *standSearch) shared(i int, s *stackAt) bool {
	return f.m.Kinds[f.list[i].Kind].Shares(&f.m.Spaces[f.space].Floors[s.at.Floor])
}

// Pack finds places for the boxes of a list in one space; with FitsNot it
// gives those of the list that already cannot. Boxes for which closings do not count, and of
// which nobody knows where they stand, are taken to stand where it is not closed, if they can.
func Pack(m *problem.Model, space int, list []Stay) (places [][]problem.Standing, core []int, v Verdict, work int64) {
	if open, differs := heeding(m, space, list); differs {
		if places, _, v, work = packAs(m, space, open); v == Fits {
			return places, nil, v, work
		}
	}
	places, core, v, more := packAs(m, space, list)
	return places, core, v, work + more
}

// heeding is the list with closings counting for all whose boxes may stand anywhere, and whether
// that makes a difference.
func heeding(m *problem.Model, space int, list []Stay) (open []Stay, differs bool) {
	open = slices.Clone(list)
	for i := range open {
		s := &open[i]
		if !s.Given || s.Known != nil {
			continue
		}
		s.Given = false
		for _, f := range m.Spaces[space].Floors {
			differs = differs || problem.AnyOverlap(f.Closed, s.From, s.Until)
		}
	}
	return open, differs
}

// newSearch states the boxes of a list in one space.
func newSearch(m *problem.Model, space int, list []Stay) *standSearch {
	f := &standSearch{m: m, space: space, list: list, k: kernel.New(), stacks: make([][]stackAt, len(list))}
	f.patterns()
	f.state()
	return f
}

// packAs is [Pack] with closings counting as the list says.
func packAs(m *problem.Model, space int, list []Stay) (places [][]problem.Standing, core []int, v Verdict, work int64) {
	f := newSearch(m, space, list)
	st := f.k.Search(context.Background(), packWork, f.asks...)
	switch st {
	case kernel.Solved:
		return f.places(), nil, Fits, f.k.Work()
	case kernel.Unknown:
		return nil, nil, Unknown, f.k.Work()
	}
	core = f.named(f.k.Core())
	core, _ = kernel.Shrink(core, core, func(rest []int) (kernel.Status, []int) {
		var asks []kernel.Lit
		for _, x := range rest {
			asks = append(asks, f.asks[x])
		}
		st := f.k.Search(context.Background(), packWork/8, asks...)
		if st == kernel.Impossible {
			rest = f.named(f.k.Core())
		}
		return st, rest
	})
	return nil, core, FitsNot, f.k.Work()
}

// named turns assumptions back into members of the list, in order.
func (f *standSearch) named(core []kernel.Lit) []int {
	var out []int
	for i, a := range f.asks {
		if slices.Contains(core, a) {
			out = append(out, i)
		}
	}
	return out
}

// places reads the solution.
func (f *standSearch) places() [][]problem.Standing {
	out := make([][]problem.Standing, len(f.list))
	for i := range f.list {
		out[i] = f.list[i].Known
		left := f.list[i].Boxes
		if f.list[i].Known != nil {
			continue
		}
		for k := range f.stacks[i] {
			s := &f.stacks[i][k]
			if left == 0 || f.k.Value(s.lit.B.Var()) == 0 {
				continue
			}
			at, n := s.at, s.at.Boxes
			if f.shared(i, s) {
				n = int(f.k.Value(s.many))
			}
			if at.Boxes = min(n, left); at.Boxes > 0 {
				left -= at.Boxes
				out[i] = append(out[i], at)
			}
		}
	}
	f.gather(out)
	return out
}

// patterns lists where sides may be.
func (f *standSearch) patterns() {
	sides := map[int64]bool{}
	for i := range f.list {
		k := &f.m.Kinds[f.list[i].Kind]
		sides[k.Size.W], sides[k.Size.D] = true, true
	}
	for i := range f.m.Spaces[f.space].Floors {
		floor := &f.m.Spaces[f.space].Floors[i]
		fromX, fromY := map[int64]bool{0: true}, map[int64]bool{0: true}
		for _, s := range f.list {
			for _, st := range s.Known {
				if st.Floor == i {
					fromX[st.Place.X+st.Place.W], fromY[st.Place.Y+st.Place.D] = true, true
					if f.m.Kinds[s.Kind].Shares(floor) {
						fromX[st.Place.X], fromY[st.Place.Y] = true, true
					}
				}
			}
		}
		f.xs = append(f.xs, sums(fromX, sides, floor.Size.W))
		f.ys = append(f.ys, sums(fromY, sides, floor.Size.D))
	}
}

// sums lists, in order, what is reached from the starts by adding sides, below a
// limit.
func sums(from, sides map[int64]bool, limit int64) []int64 {
	seen := maps.Clone(from)
	open := slices.Sorted(maps.Keys(from))
	for len(open) > 0 {
		v := open[len(open)-1]
		open = open[:len(open)-1]
		for w := range sides {
			if w > 0 && v+w < limit && !seen[v+w] {
				seen[v+w] = true
				open = append(open, v+w)
			}
		}
	}
	return slices.DeleteFunc(slices.Sorted(maps.Keys(seen)), func(v int64) bool { return v >= limit })
}

// state makes the literals and the constraints.
func (f *standSearch) state() {
	for i := range f.list {
		s := &f.list[i]
		f.asks = append(f.asks, f.k.NewVar(0, 1).Ge(1))
		if s.Known != nil || s.Boxes == 0 {
			continue
		}
		var sum []global.Term
		for fl := range f.m.Spaces[f.space].Floors {
			f.onFloor(i, fl)
		}
		for k := range f.stacks[i] {
			st := &f.stacks[i][k]
			if f.shared(i, st) {
				sum = append(sum, global.Term{View: st.many.Down(), Times: 1})
			} else {
				sum = append(sum, global.Term{View: st.lit.B.Opposite(), Times: int64(st.at.Boxes)})
			}
		}
		global.AddLinear(f.k, sum, -int64(s.Boxes), f.asks[i])
	}
	f.aside()
	for _, now := range f.moments() {
		f.apart(now)
	}
}

// onFloor makes the stacks that a stay may have on a floor.
func (f *standSearch) onFloor(i, floor int) {
	s := &f.list[i]
	kind := &f.m.Kinds[s.Kind]
	fl := &f.m.Spaces[f.space].Floors[floor]
	if kind.High(fl) == 0 || kind.Size.W <= 0 || kind.Size.D <= 0 || (!s.Given && problem.AnyOverlap(fl.Closed, s.From, s.Until)) {
		return
	}
	for _, y := range f.ys[floor] {
		for _, x := range f.xs[floor] {
			for _, p := range []problem.Placed{{X: x, Y: y, W: kind.Size.W, D: kind.Size.D}, {X: x, Y: y, W: kind.Size.D, D: kind.Size.W}} {
				if p.X+p.W > fl.Size.W || p.Y+p.D > fl.Size.D {
					continue
				}
				if k := len(f.stacks[i]); k > 0 && f.stacks[i][k-1].at.Place == p && f.stacks[i][k-1].at.Floor == floor {
					continue // a square one turned
				}
				n := min(int(kind.High(fl)), f.roomIn(s, floor, p))
				if n <= 0 {
					continue
				}
				f.addStack(i, problem.Standing{Space: f.space, Floor: floor, Place: p, Boxes: n})
			}
		}
	}
}

// addStack makes a stack that a stay may have.
func (f *standSearch) addStack(i int, at problem.Standing) {
	st := stackAt{at: at, lit: f.k.NewVar(0, 1).Ge(1)}
	if f.shared(i, &st) {
		st.at.Boxes = min(at.Boxes, f.list[i].Boxes)
		st.many = f.k.NewVar(0, int32(st.at.Boxes))
		f.k.AddClause(st.many.Le(0), st.lit)
		f.k.AddClause(st.many.Ge(1), st.lit.Not())
	}
	f.stacks[i] = append(f.stacks[i], st)
}

// roomIn is how many boxes of a stay what stands fixed leaves room for in a spot.
func (f *standSearch) roomIn(s *Stay, floor int, p problem.Placed) int {
	kind, fl := &f.m.Kinds[s.Kind], &f.m.Spaces[f.space].Floors[floor]
	room := int(kind.High(fl))
	for o := range f.list {
		t := &f.list[o]
		if !t.Fixed || t.From >= s.Until || s.From >= t.Until {
			continue
		}
		for _, st := range t.Known {
			if st.Floor != floor || !problem.Overlap(st.Place, p) {
				continue
			}
			if t.Kind != s.Kind || st.Place != p || !kind.Shares(fl) {
				return 0
			}
			most := 0 // at once, when this one comes or while it is there
			for _, u := range f.list {
				if at := max(t.From, s.From); u.Fixed && u.From <= at && at < u.Until {
					most += boxesIn(u.Known, floor, p)
				}
			}
			room = min(room, int(kind.High(fl))-most)
		}
	}
	return room
}

// boxesIn is how many of the boxes stand in a spot.
func boxesIn(stacks []problem.Standing, floor int, p problem.Placed) int {
	n := 0
	for _, st := range stacks {
		if st.Floor == floor && st.Place == p {
			n += st.Boxes
		}
	}
	return n
}
