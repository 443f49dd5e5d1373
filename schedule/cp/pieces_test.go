package cp

import (
	"testing"

	"pgregory.net/rapid"
)

func TestFreeIsWhatEveryTickSays(t *testing.T) {
	checkMany(t, 20, func(t *rapid.T) {
		m := &Model{Step: 1, From: -3, Pools: []Pool{{Capacity: drawInt(t, 1, 4, "capacity")}}}
		s := newLedger(m, newPacked(m))
		for x := 0; x < drawInt(t, 0, 6, "holds"); x++ {
			from := drawInt(t, -10, 20, "from")
			s.addOccupation(0, occupation{from, from + drawInt(t, 0, 9, "long"), drawInt(t, 1, 2, "amount"), nil, oneIn(t, 3, "fact")})
		}
		amount, fact := drawInt(t, 1, 3, "more"), oneIn(t, 2, "is fact")
		lo := drawInt(t, -8, 5, "lo")
		clash := func(at int) bool {
			all, planned := amount, 0
			for _, o := range s.pools[0] {
				if o.from <= at && at < o.until {
					all += o.amount
					if !o.fact {
						planned += o.amount
					}
				}
			}
			return all > m.Pools[0].Capacity && (!fact || planned > 0)
		}
		pieces := s.free(0, amount, fact, lo, Infinite)
		cursor := 0
		for at := lo; at < 45; at++ {
			want := nowhere
			if !clash(at) {
				want = Infinite
				for u := at; u < 60; u++ {
					if clash(u) {
						want = u
						break
					}
				}
			}
			if got := limitAt(pieces, &cursor, at); got != want {
				t.Fatalf("at %d: limit %d, want %d; %d more (fact %v) in %+v, capacity %d", at, got, want, amount, fact, s.pools[0], m.Pools[0].Capacity)
			}
		}
	})
}

func TestReachIsWhatEveryTickSays(t *testing.T) {
	checkMany(t, 20, func(t *rapid.T) {
		m := &Model{Step: 1, From: -3, Packing: linePacking, Kinds: []Kind{{Rect{1, 1}, 2}, {Rect{2, 1}, 3}}}
		sp := Space{Capacity: drawInt(t, 1, 4, "room"), Closed: drawSpans(t, m, drawInt(t, 0, 2, "closings"))}
		for f := 0; f < drawInt(t, 0, 2, "floors"); f++ {
			sp.Floors = append(sp.Floors, Floor{Rect{int64(drawInt(t, 1, 5, "wide")), 1}, int64(drawInt(t, 1, 7, "high")), drawSpans(t, m, drawInt(t, 0, 1, "shut"))})
		}
		m.Spaces = []Space{sp}
		s := newLedger(m, newPacked(m))
		for x := 0; x < drawInt(t, 0, 4, "stays"); x++ {
			from := drawInt(t, -5, 20, "from")
			until := from + drawInt(t, 1, 9, "long")
			kind, boxes := drawInt(t, 0, 1, "kind"), drawInt(t, 1, 2, "boxes")
			if stacks, ok := s.settle(0, kind, boxes, from, until); ok {
				s.addVisit(0, visit{from: from, until: until, boxes: boxes, stacks: stacks})
			}
		}
		kind, boxes := drawInt(t, 0, 1, "my kind"), drawInt(t, 1, 3, "my boxes")
		stands := func(from, until int) bool { return naiveRoomFor(m, &s, kind, boxes, from, until) }
		lo, hi := drawInt(t, -5, 8, "lo"), 50
		pieces := s.reach(0, kind, boxes, lo, hi)
		cursor := 0
		for at := lo; at < 45; at++ {
			want := nowhere
			for u := at + 1; u <= hi && stands(at, u); u++ {
				want = u
			}
			if want == hi {
				want = Infinite
			}
			if got := limitAt(pieces, &cursor, at); got != want {
				t.Fatalf("at %d: limit %d, want %d\nspace %+v\n%+v", at, got, want, sp, s.spaces[0])
			}
		}
	})
}

// naiveRoomFor asks every tick of [from, until) of a counted space, or every cell
// of a floor.
func naiveRoomFor(m *Model, s *ledger, kind, boxes, from, until int) bool {
	sp := &m.Spaces[0]
	shut := func(spans []Span) bool {
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
			for _, v := range s.spaces[0] {
				if v.from <= u && u < v.until {
					n += v.boxes
				}
			}
			if n > sp.Capacity {
				return false
			}
		}
		return true
	}
	room := 0
	for f, fl := range sp.Floors {
		if shut(fl.Closed) {
			continue
		}
		var fixed []Placed
		for _, v := range s.spaces[0] {
			for _, st := range v.stacks {
				if st.Floor == f && max(v.from, from) < min(v.until, until) {
					fixed = append(fixed, st.Place)
				}
			}
		}
		room += naiveRoom(fl.Size.W, m.Kinds[kind].Size.W, fixed) * int(fl.Height/m.Kinds[kind].Height)
	}
	return room >= boxes
}

func TestLeastTableIsLeast(t *testing.T) {
	var table leastTable // one for all, as in the engine: rows get longer and shorter
	checkMany(t, 20, func(t *rapid.T) {
		row := rapid.SliceOfN(rapid.Int32Range(-5, 1<<30), 1, 70).Draw(t, "row")
		table.fill(row)
		a := drawInt(t, 0, len(row)-1, "a")
		b := drawInt(t, a, len(row)-1, "b")
		want := row[a]
		for _, v := range row[a : b+1] {
			want = min(want, v)
		}
		if got := table.of(a, b); got != want {
			t.Fatalf("least of %v[%d..%d] is %d, want %d", row, a, b, got, want)
		}
	})
}

func TestOpeningsAreWhatEveryTickSays(t *testing.T) {
	checkMany(t, 20, func(t *rapid.T) {
		m := &Model{Step: drawInt(t, 1, 5, "step"), From: -8}
		wk := Worker{Windows: drawSpans(t, m, drawInt(t, 0, 4, "windows"))}
		m.Workers = []Worker{wk}
		s := newLedger(m, newPacked(m))
		at := -12
		for x := 0; x < drawInt(t, 0, 5, "busy"); x++ {
			at += drawInt(t, 0, 9, "gap")
			until := at + drawInt(t, 1, 7, "long")
			s.addWork(0, shift{at, until, nil})
			at = until
		}
		w := drawInt(t, 1, 9, "work")
		lo := drawInt(t, -10, 20, "lo")
		hi := lo + drawInt(t, 0, 60, "range")
		got := map[int]bool{}
		last := -Infinite
		s.openings(0, w, lo, hi, func(from, to int) {
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
			for _, b := range s.busy[0] {
				want = want && (u+w <= b.from || b.until <= u)
			}
			if want = want && inside; got[u] != want {
				t.Fatalf("start at %d: %v, want %v; windows %v busy %v work %d step %d", u, got[u], want, wk.Windows, s.busy[0], w, m.Step)
			}
		}
	})
}

func TestAvoidCostCountsTicks(t *testing.T) {
	checkMany(t, 20, func(t *rapid.T) {
		m := &Model{Step: drawInt(t, 1, 5, "step"), From: drawInt(t, -9, 9, "from")}
		m.Horizon = m.From + 60
		m.Workers = []Worker{{Avoid: drawSpans(t, m, drawInt(t, 1, 4, "avoid"))}}
		p := prepare(m)
		at := ceilTo(m.From, m.Step) + m.Step*drawInt(t, 0, 50/m.Step, "start")
		w := m.Step * drawInt(t, 0, (m.Horizon-at)/m.Step, "work")
		ticks := 0
		for u := at; u < at+w; u++ {
			for _, a := range m.Workers[0].Avoid {
				if a.From <= u && u < a.Until {
					ticks++
				}
			}
		}
		if got := p.avoidCost(p.avoid[0], at, w); int(got) != ticks/5 {
			t.Fatalf("%d points for %d avoided ticks, [%d, %d) avoid %v", got, ticks, at, at+w, m.Workers[0].Avoid)
		}
	})
}
