package packing

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/tiny"
)

func TestWeighingsOfTwoHeights(t *testing.T) {
	layers, stacks := []int64{3, 2}, []int64{2, 4}
	got := Weighings(layers, stacks, 3)
	want := []Weighing{{1, 1}, {2, 1}, {3, 2}}
	if !slices.EqualFunc(got, want, slices.Equal) {
		t.Fatalf("got %v, want %v", got, want)
	}
	for i, c := range []struct {
		of   []int64
		room int64
	}{{[]int64{0, 1, 1, 1}, 6}, {[]int64{0, 1, 1, 2}, 8}, {[]int64{0, 2, 2, 3}, 14}} {
		if of, room := got[i].Of(layers, 3), got[i].Sum(stacks); !slices.Equal(of, c.of) || room != c.room {
			t.Errorf("%v: got %v of %d, want %v of %d", got[i], of, room, c.of, c.room)
		}
	}
	// Of single boxes all say the same, and of floors alike; one that is too low is as good as none.
	for _, c := range []struct {
		layers []int64
		most   int
		want   int
	}{{[]int64{3, 2}, 1, 1}, {[]int64{2, 2}, 9, 1}, {[]int64{0, 4}, 9, 2}, {[]int64{0, 0}, 9, 1}, {[]int64{40, 1}, 40, weighingsMost}} {
		if got := Weighings(c.layers, stacks, c.most); len(got) != c.want {
			t.Errorf("%v layers, %d boxes: got %v, want %d", c.layers, c.most, got, c.want)
		}
	}
}

// What can stand is let in by every way to count it, of area and of every kind of box, larger kinds
// standing there too, whatever they stand on; and what cannot is refused by some far more often than
// by the first. What stands there counts no less than it is taken to at the least.
func TestLoadsAgainstPlaces(t *testing.T) {
	fits, first, refused, shared := 0, 0, 0, 0
	tiny.CheckMany(t, 10, func(t *rapid.T) {
		number := func(lo, hi int, name string) int64 { return int64(rapid.IntRange(lo, hi).Draw(t, name)) }
		m := &problem.Model{Spaces: make([]problem.Space, 1)}
		for range number(1, 3, "floors") {
			m.Spaces[0].Floors = append(m.Spaces[0].Floors, problem.Floor{Size: problem.Rect{W: number(1, 3, "wide") + 1, D: 1}, Height: number(1, 5, "high")})
		}
		var kinds []int
		for k := range number(1, 2, "kinds") {
			m.Kinds = append(m.Kinds, problem.Kind{Size: problem.Rect{W: number(1, 2, "w"), D: 1}, Height: number(1, 2, "h"), Stack: problem.Stacking(number(0, 2, "stacks"))})
			kinds = append(kinds, int(k))
		}
		var list []Stay
		for range number(2, 5, "stays") {
			list = append(list, Stay{Until: 1, Kind: int(number(0, len(m.Kinds)-1, "kind")), Boxes: int(number(1, 4, "boxes"))})
		}
		places, _, v, _ := Pack(m, 0, list)
		var loads []Load
		if l, ok := Area(m, 0, kinds); ok {
			loads = append(loads, l)
		}
		for kind := range m.Kinds {
			if slices.Max(m.Layers(0, kind)) > 0 {
				loads = append(loads, Stacks(m, 0, kind, kinds, mostStacks(m, kind), 5)...)
			}
		}
		some := false
		for i, l := range loads {
			no := l.refuses(list, places)
			if some = some || no; no && i == 0 {
				first++
			}
		}
		switch {
		case v == Fits && some:
			t.Fatalf("what stands at %v is refused", places)
		case v == Fits:
			if fits++; shareSpots(places) {
				shared++
			}
		case some:
			refused++
		}
	})
	t.Logf("%d fit, %d of them in spots that are shared, %d refused, %d of them by the area", fits, shared, refused, first)
	if fits < tiny.Few(40) || shared < tiny.Few(10) || first == 0 || refused < first+tiny.Few(16) {
		t.Error("too few to mean much")
	}
}

// shareSpots reports whether two stays stand in one spot.
func shareSpots(places [][]problem.Standing) bool {
	for i, a := range places {
		for _, b := range places[:i] {
			for _, st := range a {
				if boxesIn(b, st.Floor, st.Place) > 0 {
					return true
				}
			}
		}
	}
	return false
}

// Of boxes of one kind that share spots the counts say all: what is refused by none stands.
func TestBoxesOfOneKindAreCountedExactly(t *testing.T) {
	stand, not := 0, 0
	tiny.CheckMany(t, 4, func(t *rapid.T) {
		number := func(lo, hi int, name string) int { return rapid.IntRange(lo, hi).Draw(t, name) }
		m := &problem.Model{Spaces: make([]problem.Space, 1), Kinds: []problem.Kind{{Size: problem.Rect{W: 2, D: 1}, Height: 2}}}
		for range number(1, 2, "floors") {
			m.Spaces[0].Floors = append(m.Spaces[0].Floors, problem.Floor{Size: problem.Rect{W: int64(number(2, 5, "wide")), D: 1}, Height: int64(number(2, 6, "high"))})
		}
		var list []Stay
		for range number(1, 6, "stays") {
			from := number(0, 9, "from")
			list = append(list, Stay{From: from, Until: from + number(1, 9, "long"), Boxes: number(1, 3, "boxes")})
		}
		over := false
		for at := range 20 {
			for _, l := range Stacks(m, 0, 0, []int{0}, mostStacks(m, 0), 3) {
				over = over || l.refuses(During(list, at), nil)
			}
		}
		if _, _, v, _ := Pack(m, 0, list); (v == Fits) == over {
			t.Fatalf("%+v on %+v: verdict %d, counted as too much: %v", list, m.Spaces[0].Floors, v, over)
		}
		if over {
			not++
		} else {
			stand++
		}
	})
	if t.Logf("%d stand, %d do not", stand, not); stand < tiny.Few(10) || not < tiny.Few(10) {
		t.Error("too few to mean much")
	}
}

// mostStacks is how many stacks of a kind each floor takes: found by putting one more.
func mostStacks(m *problem.Model, kind int) []int64 {
	var out []int64
	for _, f := range m.Spaces[0].Floors {
		f.Height = m.Kinds[kind].Height // one box to a stack
		alone := &problem.Model{Kinds: m.Kinds, Spaces: []problem.Space{{Floors: []problem.Floor{f}}}}
		n := 0
		for {
			if _, _, v, _ := Pack(alone, 0, []Stay{{Until: 1, Kind: kind, Boxes: n + 1}}); v != Fits {
				break
			}
			n++
		}
		out = append(out, int64(n))
	}
	return out
}

// refuses reports whether a load is too much for stays, or for the places found for them.
func (l *Load) refuses(list []Stay, places [][]problem.Standing) bool {
	sum, stand := int64(0), int64(0)
	for i, s := range list {
		sum += l.Of(s.Kind, s.Boxes)[s.Boxes]
		if places != nil {
			stand += l.OfStacks(s.Kind, places[i])
		}
	}
	return sum > l.Room() || stand > l.Room() || places != nil && sum > stand
}
