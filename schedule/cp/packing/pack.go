package packing

import (
	"context"
	"maps"
	"slices"

	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
)

// Where boxes stand over time, exactly. Boxes never move while they stand; so
// stays that share a moment must not share floor. Every stack is pushed toward the
// origin until it meets a wall or another stack; so it is enough to try, in each
// direction, the sums of sides (the normal patterns of Christofides and Whitlock,
// "An algorithm for two-dimensional cutting problems", 1977).

// Stay is boxes that stand in one space from a tick to another.
type Stay struct {
	From, Until int
	Kind, Boxes int
	Known       []problem.Standing // where they stand already, nil for anywhere
	Given       bool               // closings do not count for it
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

// standSearch looks for places of all of a list: every stack that a stay may have
// is a literal, and of those that cover one point of a floor at one moment at most
// one is true. An assumption for each stay asks that it stands.
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

// stackAt is one stack that may be.
type stackAt struct {
	at  problem.Standing
	lit kernel.Lit
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

// packAs is [Pack] with closings counting as the list says.
func packAs(m *problem.Model, space int, list []Stay) (places [][]problem.Standing, core []int, v Verdict, work int64) {
	f := &standSearch{m: m, space: space, list: list, k: kernel.New(), stacks: make([][]stackAt, len(list))}
	f.patterns()
	f.state()
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
		for _, s := range f.stacks[i] {
			if left > 0 && f.k.Value(s.lit.B.Var()) == 1 {
				s.at.Boxes = min(s.at.Boxes, left)
				left -= s.at.Boxes
				out[i] = append(out[i], s.at)
			}
		}
	}
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
		for _, st := range f.stacks[i] {
			sum = append(sum, global.Term{View: st.lit.B.Opposite(), Times: int64(st.at.Boxes)})
		}
		global.AddLinear(f.k, sum, -int64(s.Boxes), f.asks[i])
	}
	for i := range f.list {
		f.apart(i)
	}
}

// onFloor makes the stacks that a stay may have on a floor.
func (f *standSearch) onFloor(i, floor int) {
	s := &f.list[i]
	kind := &f.m.Kinds[s.Kind]
	fl := &f.m.Spaces[f.space].Floors[floor]
	if kind.Height <= 0 || kind.Height > fl.Height || kind.Size.W <= 0 || kind.Size.D <= 0 || (!s.Given && problem.AnyOverlap(fl.Closed, s.From, s.Until)) {
		return
	}
	n := int(fl.Height / kind.Height)
	for _, y := range f.ys[floor] {
		for _, x := range f.xs[floor] {
			for _, p := range []problem.Placed{{X: x, Y: y, W: kind.Size.W, D: kind.Size.D}, {X: x, Y: y, W: kind.Size.D, D: kind.Size.W}} {
				if p.X+p.W > fl.Size.W || p.Y+p.D > fl.Size.D || (p.W == p.D && p.W != kind.Size.W) || f.blocked(s, floor, p) {
					continue
				}
				if k := len(f.stacks[i]); k > 0 && f.stacks[i][k-1].at.Place == p && f.stacks[i][k-1].at.Floor == floor {
					continue // a square one turned
				}
				f.stacks[i] = append(f.stacks[i], stackAt{problem.Standing{Space: f.space, Floor: floor, Place: p, Boxes: n}, f.k.NewVar(0, 1).Ge(1)})
			}
		}
	}
}

// blocked reports whether something whose place is known is in the way.
func (f *standSearch) blocked(s *Stay, floor int, p problem.Placed) bool {
	for o := range f.list {
		t := &f.list[o]
		if t.From >= s.Until || s.From >= t.Until {
			continue
		}
		for _, st := range t.Known {
			if st.Floor == floor && problem.Overlap(st.Place, p) {
				return true
			}
		}
	}
	return false
}

// apart keeps stacks off one another at the moment at which the i-th of the list
// begins to stand: of those that cover a point at most one is there. The points at
// which some stack has its corner are enough.
func (f *standSearch) apart(i int) {
	now := f.list[i].From
	for fl := range f.m.Spaces[f.space].Floors {
		for _, y := range f.ys[fl] {
			for _, x := range f.xs[fl] {
				var sum []global.Term
				for o := range f.list {
					if f.list[o].From > now || now >= f.list[o].Until {
						continue
					}
					for _, st := range f.stacks[o] {
						p := st.at.Place
						if st.at.Floor == fl && p.X <= x && x < p.X+p.W && p.Y <= y && y < p.Y+p.D {
							sum = append(sum, global.Term{View: st.lit.B, Times: 1})
						}
					}
				}
				if len(sum) > 1 {
					global.AddLinear(f.k, sum, 1)
				}
			}
		}
	}
}
