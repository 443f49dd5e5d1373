package tiny

import (
	"fmt"
	"slices"
	"sort"

	"ripeby/schedule/cp/problem"
)

// The naive reading of where boxes stand. Floors are one deep and cells of them one wide.

// highest is how many boxes of a kind stand on one another on a floor.
func highest(k *problem.Kind, f *problem.Floor) int {
	n := int(f.Height / k.Height)
	if k.Stack == problem.OnNone {
		n = min(n, 1)
	}
	return n
}

// StandingFault finds boxes that stand in one another or where they may not.
func (b *Board) StandingFault() string {
	sort.SliceStable(b.Measured, func(i, k int) bool { return b.Measured[i].From < b.Measured[k].From })
	for i, x := range b.Measured {
		if len(b.m.Spaces[x.Thing].Floors) == 0 {
			continue
		}
		n := 0
		for s, st := range x.Stacks {
			n += st.Boxes
			if fault := b.stackFault(&x, &st); fault != "" {
				return fault
			}
			for _, o := range x.Stacks[:s] {
				if meetOnFloor(&o, &st) {
					return "two stacks of one stay in one place"
				}
			}
			for _, y := range b.Measured[:i] {
				if y.Thing != x.Thing || max(x.From, y.From) >= min(x.Until, y.Until) {
					continue
				}
				for _, o := range y.Stacks {
					square := o.Place == st.Place && x.Kind == y.Kind && b.m.Kinds[x.Kind].Stack == problem.OnKind
					if meetOnFloor(&o, &st) && !square {
						return "two stacks in one place"
					}
				}
			}
		}
		if n != x.Amount {
			return fmt.Sprintf("%d boxes stand, not %d", n, x.Amount)
		}
	}
	return ""
}

func meetOnFloor(a, b *problem.Standing) bool {
	return a.Floor == b.Floor && a.Place.X < b.Place.X+b.Place.W && b.Place.X < a.Place.X+a.Place.W
}

// stackFault finds a stack that is over the edge, on a closed floor, or, with all that stands in its
// spot at some tick, too high.
func (b *Board) stackFault(x *taken, st *problem.Standing) string {
	f := &b.m.Spaces[x.Thing].Floors[st.Floor]
	if st.Place.X < 0 || st.Place.X+st.Place.W > f.Size.W {
		return "a stack hangs over"
	}
	for _, c := range f.Closed {
		if !x.Begun && max(c.From, x.From) < min(c.Until, x.Until) {
			return "a stack on a closed floor"
		}
	}
	for t := max(x.From, b.m.From); t < min(x.Until, b.hi); t++ {
		n := 0
		for _, y := range b.Measured {
			for _, o := range y.Stacks {
				if y.Thing == x.Thing && y.From <= t && t < y.Until && o.Floor == st.Floor && o.Place == st.Place {
					n += o.Boxes
				}
			}
		}
		if n > highest(&b.m.Kinds[x.Kind], f) {
			return fmt.Sprintf("%d boxes on one another at %d", n, t)
		}
	}
	return ""
}

// RoomOn is how many boxes of a kind still stand on a floor all through [from, until), where each of
// the others stands: on boxes of their kind, where they may, and beside all of them.
func (b *Board) RoomOn(space, floor, kind, from, until int) int {
	f, k := &b.m.Spaces[space].Floors[floor], &b.m.Kinds[kind]
	high := highest(k, f)
	var fixed []problem.Placed
	sum := 0
	for x := range f.Size.W {
		left, some := high, false
		for at := from; at < until; at++ {
			n := 0
			for _, y := range b.Measured {
				if y.Thing != space || at < y.From || y.Until <= at {
					continue
				}
				for _, st := range y.Stacks {
					switch {
					case st.Floor != floor || st.Place.X+st.Place.W <= x || x+k.Size.W <= st.Place.X:
					case st.Place.X == x && y.Kind == kind && k.Stack == problem.OnKind:
						n, some = n+st.Boxes, true
					default:
						n = high
					}
					if st.Floor == floor {
						fixed = append(fixed, st.Place)
					}
				}
			}
			left = min(left, high-n)
		}
		if some {
			sum += max(left, 0)
		}
	}
	return sum + NaiveRoom(f.Size.W, k.Size.W, fixed)*high
}

// BoxesAt is boxes that stand in one space from a tick to another; closings do not count for a
// begun.
type BoxesAt struct {
	From, Until int
	Kind, Boxes int
	Begun       bool
}

// CanStand reports whether the boxes of a plan stand on the floors of their spaces,
// cells of one by one, by trying all ways; homeless are jobs under way whose boxes stand nowhere.
func CanStand(m *problem.Model, p *ListedPlan, homeless func(begun int) bool) bool {
	for space := range m.Spaces {
		if len(m.Spaces[space].Floors) == 0 {
			continue
		}
		var list []BoxesAt
		for _, v := range p.Jobs {
			mode := modesOfWay(m, v)
			for r, x := range v.part.Stays {
				from := max(x.From, m.From)
				if x.Thing != space || x.Until <= from || x.Begun && homeless(v.Begun) {
					continue
				}
				list = append(list, BoxesAt{From: from, Until: x.Until, Kind: mode.Stays[r].Kind, Boxes: x.Amount, Begun: x.Begun})
			}
		}
		if !Stands(m, space, list) {
			return false
		}
	}
	return true
}

func modesOfWay(m *problem.Model, v *Way) *problem.Mode {
	if v.Begun >= 0 {
		return &m.Begun[v.Begun].Mode
	}
	return &m.Families[v.Family].Modes[v.Mode]
}

// naiveStand is the ways tried so far for boxes in one space: floors one after another in a row of
// cells, stacks by the cell of their left side.
type naiveStand struct {
	m     *problem.Model
	space int
	list  []BoxesAt
	has   []map[int]int // of each of the list: how many boxes from which cell on
}

// Stands tries all ways in which boxes may stand in a space.
func Stands(m *problem.Model, space int, list []BoxesAt) bool {
	s := naiveStand{m: m, space: space, list: list}
	for range list {
		s.has = append(s.has, map[int]int{})
	}
	return len(list) == 0 || s.put(0, 0, list[0].Boxes)
}

// put tries the cells from one on for what is left of the i-th of the list, and then all later ones.
func (s *naiveStand) put(i, cell, left int) bool {
	if left == 0 {
		return i+1 == len(s.list) || s.put(i+1, 0, s.list[i+1].Boxes)
	}
	first := 0
	for f := range s.m.Spaces[s.space].Floors {
		fl := &s.m.Spaces[s.space].Floors[f]
		for x := range int(fl.Size.W) {
			if first+x < cell {
				continue
			}
			for n := min(s.room(i, fl, first, x), left); n > 0; n-- {
				s.has[i][first+x] = n
				if s.put(i, first+x+1, left-n) {
					return true
				}
				delete(s.has[i], first+x)
			}
		}
		first += int(fl.Size.W)
	}
	return false
}

// room is how many boxes of the i-th of the list may stand from a cell of a floor on, all its time.
func (s *naiveStand) room(i int, fl *problem.Floor, first, x int) int {
	me, kind := &s.list[i], &s.m.Kinds[s.list[i].Kind]
	wide := int(kind.Size.W)
	if x+wide > int(fl.Size.W) || !me.Begun && slices.ContainsFunc(fl.Closed, func(c problem.Span) bool { return c.From < me.Until && me.From < c.Until }) {
		return 0
	}
	most := 0
	for t := me.From; t < min(me.Until, s.m.Horizon+60); t++ {
		n := 0
		for o := range s.list {
			its := &s.list[o]
			if t < its.From || its.Until <= t {
				continue
			}
			for cell, boxes := range s.has[o] {
				w := int(s.m.Kinds[its.Kind].Size.W)
				switch {
				case cell+w <= first+x || first+x+wide <= cell:
				case cell == first+x && o != i && its.Kind == me.Kind && kind.Stack == problem.OnKind:
					n += boxes
				default:
					return 0
				}
			}
		}
		most = max(most, n)
	}
	return highest(kind, fl) - most
}
