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

// What can stand is let in by every weighing of every kind of box, larger kinds standing there
// too; and what cannot is refused by some far more often than by the plain one.
func TestWeighingsAgainstPlaces(t *testing.T) {
	fits, plain, refused := 0, 0, 0
	tiny.CheckMany(t, 10, func(t *rapid.T) {
		number := func(lo, hi int, name string) int64 { return int64(rapid.IntRange(lo, hi).Draw(t, name)) }
		m := &problem.Model{Spaces: make([]problem.Space, 1)}
		for range number(1, 3, "floors") {
			m.Spaces[0].Floors = append(m.Spaces[0].Floors, problem.Floor{Size: problem.Rect{W: number(1, 3, "wide"), D: 1}, Height: number(1, 4, "high")})
		}
		for range number(1, 2, "kinds") {
			m.Kinds = append(m.Kinds, problem.Kind{Size: problem.Rect{W: number(1, 2, "w"), D: 1}, Height: number(1, 2, "h")})
		}
		var list []Stay
		for range number(2, 6, "stays") {
			list = append(list, Stay{Until: 1, Kind: int(number(0, len(m.Kinds)-1, "kind")), Boxes: int(number(1, 5, "boxes"))})
		}
		var first, some bool
		places, _, v, _ := Pack(m, 0, list)
		for kind := range m.Kinds {
			for i, w := range Weighings(m.Layers(0, kind), mostStacks(m, kind), 5) {
				no := w.refuses(m, kind, list, places)
				first, some = first || no && i == 0, some || no
			}
		}
		switch {
		case v == Fits && some:
			t.Fatalf("what stands at %v is refused", places)
		case v == Fits:
			fits++
		case some:
			refused++
			if first {
				plain++
			}
		}
	})
	if t.Logf("%d fit, %d refused, %d of them by the plain count", fits, refused, plain); fits < tiny.Few(40) || plain == 0 || refused < plain+tiny.Few(16) {
		t.Errorf("got %d that fit, %d refused, %d of them by the plain count: too few to mean much", fits, refused, plain)
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

// refuses reports whether a weighing of a kind refuses stays, or the places found for them.
func (w Weighing) refuses(m *problem.Model, kind int, list []Stay, places [][]problem.Standing) bool {
	box, room := m.Kinds[kind].Size, w.Sum(mostStacks(m, kind))
	sum, stand := int64(0), int64(0)
	for i, s := range list {
		if m.Kinds[s.Kind].Size.Covers(box) {
			sum += w.Of(m.Layers(0, s.Kind), s.Boxes)[s.Boxes]
		}
		if places != nil {
			stand += w.OfStacks(places[i], box)
		}
	}
	return sum > room || stand > room || places != nil && sum > stand
}
