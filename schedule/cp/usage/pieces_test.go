package usage

import (
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/tiny"
)

func TestFreeIsWhatEveryTickSays(t *testing.T) {
	tiny.CheckMany(t, 20, func(t *rapid.T) {
		m := &problem.Model{Step: 1, From: -3, Pools: []problem.Pool{{Capacity: tiny.DrawInt(t, 1, 4, "capacity")}}}
		s := NewLedger(m, NewPackings(m))
		for x := 0; x < tiny.DrawInt(t, 0, 6, "holds"); x++ {
			from := tiny.DrawInt(t, -10, 20, "from")
			s.addOccupation(0, Occupation{from, from + tiny.DrawInt(t, 0, 9, "long"), tiny.DrawInt(t, 1, 2, "amount"), nil, tiny.OneIn(t, 3, "begun")})
		}
		amount, begun := tiny.DrawInt(t, 1, 3, "more"), tiny.OneIn(t, 2, "is begun")
		lo := tiny.DrawInt(t, -8, 5, "lo")
		clash := func(at int) bool {
			all, planned := amount, 0
			for _, o := range s.Pools[0] {
				if o.From <= at && at < o.Until {
					all += o.Amount
					if !o.Begun {
						planned += o.Amount
					}
				}
			}
			return all > m.Pools[0].Capacity && (!begun || planned > 0)
		}
		pieces := s.Free(0, amount, begun, lo, problem.Infinite)
		cursor := 0
		for at := lo; at < 45; at++ {
			want := problem.Nowhere
			if !clash(at) {
				want = problem.Infinite
				for u := at; u < 60; u++ {
					if clash(u) {
						want = u
						break
					}
				}
			}
			if got := LimitAt(pieces, &cursor, at); got != want {
				t.Fatalf("at %d: limit %d, want %d; %d more (begun %v) in %+v, capacity %d", at, got, want, amount, begun, s.Pools[0], m.Pools[0].Capacity)
			}
		}
	})
}

func TestReachIsWhatEveryTickSays(t *testing.T) {
	tiny.CheckMany(t, 20, func(t *rapid.T) {
		m := &problem.Model{Step: 1, From: -3, FitFloor: tiny.LinePacking, Kinds: []problem.Kind{{Size: problem.Rect{W: 1, D: 1}, Height: 2}, {Size: problem.Rect{W: 2, D: 1}, Height: 3}}}
		for k := range m.Kinds {
			m.Kinds[k].Stack = problem.Stacking(tiny.DrawInt(t, 0, 2, "stacks"))
		}
		sp := problem.Space{Capacity: tiny.DrawInt(t, 1, 4, "room"), Closed: tiny.DrawSpans(t, m, tiny.DrawInt(t, 0, 2, "closings"))}
		for f := 0; f < tiny.DrawInt(t, 0, 2, "floors"); f++ {
			sp.Floors = append(sp.Floors, problem.Floor{Size: problem.Rect{W: int64(tiny.DrawInt(t, 1, 5, "wide")), D: 1}, Height: int64(tiny.DrawInt(t, 1, 7, "high")), Closed: tiny.DrawSpans(t, m, tiny.DrawInt(t, 0, 1, "shut"))})
		}
		m.Spaces = []problem.Space{sp}
		s := NewLedger(m, NewPackings(m))
		for x := 0; x < tiny.DrawInt(t, 0, 4, "stays"); x++ {
			from := tiny.DrawInt(t, -5, 20, "from")
			until := from + tiny.DrawInt(t, 1, 9, "long")
			kind, boxes := tiny.DrawInt(t, 0, 1, "kind"), tiny.DrawInt(t, 1, 2, "boxes")
			if stacks, ok := s.Settle(0, kind, boxes, from, until); ok {
				s.addVisit(0, Visit{From: from, Until: until, Kind: kind, Boxes: boxes, Stacks: stacks})
			}
		}
		kind, boxes := tiny.DrawInt(t, 0, 1, "my kind"), tiny.DrawInt(t, 1, 3, "my boxes")
		stands := func(from, until int) bool { return naiveRoomFor(m, &s, kind, boxes, from, until) }
		lo, hi := tiny.DrawInt(t, -5, 8, "lo"), 50
		pieces := s.Reach(0, kind, boxes, lo, hi)
		cursor := 0
		for at := lo; at < 45; at++ {
			want := problem.Nowhere
			for u := at + 1; u <= hi && stands(at, u); u++ {
				want = u
			}
			if want == hi {
				want = problem.Infinite
			}
			if got := LimitAt(pieces, &cursor, at); got != want {
				t.Fatalf("at %d: limit %d, want %d\nspace %+v\n%+v", at, got, want, sp, s.Spaces[0])
			}
		}
	})
}

// naiveRoomFor asks every tick of [from, until) of a counted space, or every cell
// of a floor.
func naiveRoomFor(m *problem.Model, s *Ledger, kind, boxes, from, until int) bool {
	sp := &m.Spaces[0]
	shut := func(spans []problem.Span) bool {
		for u := from; u < until; u++ {
			for _, c := range spans {
				if c.From <= u && u < c.Until {
					return true
				}
			}
		}
		return false
	}
	if shut(sp.Closed) {
		return false
	}
	if len(sp.Floors) == 0 {
		for u := from; u < until; u++ {
			n := boxes
			for _, v := range s.Spaces[0] {
				if v.From <= u && u < v.Until {
					n += v.Boxes
				}
			}
			if n > sp.Capacity {
				return false
			}
		}
		return true
	}
	room := 0
	b := tiny.NewBoard(m)
	for _, v := range s.Spaces[0] {
		b.Stand(v.From, v.Until, v.Kind, v.Boxes, v.Stacks)
	}
	for f, fl := range sp.Floors {
		if !shut(fl.Closed) {
			room += b.RoomOn(0, f, kind, from, until)
		}
	}
	return room >= boxes
}

func TestOpeningsAreWhatEveryTickSays(t *testing.T) {
	tiny.CheckMany(t, 20, func(t *rapid.T) {
		m := &problem.Model{Step: tiny.DrawInt(t, 1, 5, "step"), From: -8}
		wk := problem.Worker{Windows: tiny.DrawSpans(t, m, tiny.DrawInt(t, 0, 4, "windows"))}
		m.Workers = []problem.Worker{wk}
		s := NewLedger(m, NewPackings(m))
		at := -12
		for x := 0; x < tiny.DrawInt(t, 0, 5, "busy"); x++ {
			at += tiny.DrawInt(t, 0, 9, "gap")
			until := at + tiny.DrawInt(t, 1, 7, "long")
			s.addWork(0, Shift{at, until, nil})
			at = until
		}
		w := tiny.DrawInt(t, 1, 9, "work")
		lo := tiny.DrawInt(t, -10, 20, "lo")
		hi := lo + tiny.DrawInt(t, 0, 60, "range")
		got := map[int]bool{}
		last := -problem.Infinite
		s.Openings(0, w, lo, hi, func(from, to int) {
			for u := from; u <= to; u += m.Step {
				if u <= last {
					t.Fatalf("%d after %d", u, last)
				}
				last = u
				got[u] = true
			}
		})
		for u := lo; u <= hi; u++ {
			want := ((u%m.Step)+m.Step)%m.Step == 0
			inside := false
			for _, win := range wk.Windows {
				inside = inside || win.From <= u && u+w <= win.Until
			}
			for _, b := range s.Busy[0] {
				want = want && (u+w <= b.From || b.Until <= u)
			}
			if want = want && inside; got[u] != want {
				t.Fatalf("start at %d: %v, want %v; windows %v busy %v work %d step %d", u, got[u], want, wk.Windows, s.Busy[0], w, m.Step)
			}
		}
	})
}
