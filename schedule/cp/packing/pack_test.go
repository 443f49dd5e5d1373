package packing

import (
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/tiny"
)

// drawnFloors is a space of one or two floors one deep, and two kinds of box, that stack in any way.
func drawnFloors(t *rapid.T) *problem.Model {
	m := &problem.Model{Horizon: 16, FitFloor: tiny.LinePacking, Spaces: make([]problem.Space, 1)}
	for range tiny.DrawInt(t, 1, 2, "floors") {
		fl := problem.Floor{Size: problem.Rect{W: int64(tiny.DrawInt(t, 2, 5, "wide")), D: 1}, Height: int64(tiny.DrawInt(t, 2, 7, "high"))}
		if tiny.OneIn(t, 4, "closes") {
			fl.Closed = tiny.DrawSpans(t, m, 1)
		}
		m.Spaces[0].Floors = append(m.Spaces[0].Floors, fl)
	}
	m.Kinds = []problem.Kind{{Size: problem.Rect{W: 1, D: 1}, Height: 2}, {Size: problem.Rect{W: 2, D: 1}, Height: 3}}
	for k := range m.Kinds {
		if tiny.OneIn(t, 3, "not with its kind") {
			m.Kinds[k].Stack = problem.Stacking(tiny.DrawInt(t, 1, 2, "stacks"))
		}
	}
	return m
}

// Boxes stand exactly where trying all ways finds a way; what cannot stand is told by stays that
// cannot, and what is told to stand does.
func TestPackAgainstAllWays(t *testing.T) {
	stand, not, shared := 0, 0, 0
	tiny.CheckMany(t, 10, func(t *rapid.T) {
		m := drawnFloors(t)
		var list []Stay
		var all []tiny.BoxesAt
		for range tiny.DrawInt(t, 2, 5, "stays") {
			from := tiny.DrawInt(t, 0, 11, "from")
			s := Stay{From: from, Until: from + tiny.DrawInt(t, 1, 6, "long"), Kind: tiny.DrawInt(t, 0, 1, "kind"), Boxes: tiny.DrawInt(t, 1, 3, "boxes")}
			list = append(list, s)
			all = append(all, tiny.BoxesAt{From: s.From, Until: s.Until, Kind: s.Kind, Boxes: s.Boxes})
		}
		places, core, v, _ := Pack(m, 0, list)
		if want := tiny.Stands(m, 0, all); v == Unknown || (v == Fits) != want {
			t.Fatalf("verdict %d, want %v\n%+v\n%+v", v, want, list, m)
		}
		if v == FitsNot {
			not++
			var some []tiny.BoxesAt
			for _, i := range core {
				some = append(some, all[i])
			}
			if tiny.Stands(m, 0, some) {
				t.Fatalf("%v of them can stand\n%+v\n%+v", core, list, m)
			}
			return
		}
		if stand++; sharedAtOnce(list, places) {
			shared++
		}
		if fault := standing(m, list, places); fault != "" {
			t.Fatalf("%s: %+v\n%+v\n%+v", fault, places, list, m)
		}
	})
	if t.Logf("%d stand, %d of them in spots that are shared, %d do not", stand, shared, not); shared < tiny.Few(20) || not < tiny.Few(40) {
		t.Error("too few to mean much")
	}
}

// standing finds what is wrong with places.
func standing(m *problem.Model, list []Stay, places [][]problem.Standing) string {
	b := tiny.NewBoard(m)
	for i, s := range list {
		b.Stand(s.From, s.Until, s.Kind, s.Boxes, places[i])
	}
	return b.StandingFault()
}

// sharedAtOnce reports whether two stays that meet stand in one spot.
func sharedAtOnce(list []Stay, places [][]problem.Standing) bool {
	for i := range places {
		for k := range i {
			if list[i].From < list[k].Until && list[k].From < list[i].Until && shareSpots([][]problem.Standing{places[i], places[k]}) {
				return true
			}
		}
	}
	return false
}

// What stands where it is known to is a reason like any other, unless it is fixed: the clause that is
// learned must not forbid a stay for boxes that may have left.
func TestWhatIsKnownToStandIsAReason(t *testing.T) {
	floor := problem.Floor{Size: problem.Rect{W: 2, D: 1}, Height: 4}
	m := &problem.Model{Spaces: []problem.Space{{Floors: []problem.Floor{floor}}}, Kinds: []problem.Kind{{Size: problem.Rect{W: 1, D: 1}, Height: 2}, {Size: problem.Rect{W: 2, D: 1}, Height: 2}}}
	at := func(x int64, n int) []problem.Standing {
		return []problem.Standing{{Place: problem.Placed{X: x, W: 1, D: 1}, Boxes: n}}
	}
	for _, c := range []struct {
		name string
		list []Stay
		v    Verdict
		core int
	}{
		{"another kind in the way", []Stay{{Until: 9, Boxes: 1, Known: at(0, 1), Given: true}, {From: 3, Until: 5, Kind: 1, Boxes: 1}}, FitsNot, 2},
		{"another kind that has left", []Stay{{Until: 3, Boxes: 1, Known: at(0, 1), Given: true}, {From: 3, Until: 5, Kind: 1, Boxes: 1}}, Fits, 0},
		{"fixed", []Stay{{Until: 9, Boxes: 1, Known: at(0, 1), Given: true, Fixed: true}, {From: 3, Until: 5, Kind: 1, Boxes: 1}}, FitsNot, 1},
		{"its kind, with room on top", []Stay{{Until: 9, Boxes: 1, Known: at(0, 1), Given: true}, {From: 3, Until: 5, Boxes: 3}}, Fits, 0},
		{"its kind, without", []Stay{{Until: 9, Boxes: 1, Known: at(0, 1), Given: true}, {From: 3, Until: 5, Boxes: 4}}, FitsNot, 2},
		{"its kind, fixed", []Stay{{Until: 9, Boxes: 1, Known: at(0, 1), Given: true, Fixed: true}, {From: 3, Until: 5, Boxes: 3}}, Fits, 0},
		{"its kind, fixed, without room", []Stay{{Until: 9, Boxes: 1, Known: at(0, 1), Given: true, Fixed: true}, {From: 3, Until: 5, Boxes: 4}}, FitsNot, 1},
		{"two in one spot", []Stay{{Until: 9, Boxes: 1, Known: at(0, 1), Given: true}, {Until: 4, Boxes: 1, Known: at(0, 1), Given: true}, {From: 3, Until: 5, Boxes: 3}}, FitsNot, 3},
		{"beside them", []Stay{{Until: 9, Boxes: 1, Known: at(0, 1), Given: true}, {Until: 4, Boxes: 1, Known: at(0, 1), Given: true}, {From: 3, Until: 5, Boxes: 2}}, Fits, 0},
		{"an overfull spot", []Stay{{Until: 9, Boxes: 3, Known: at(0, 3), Given: true}, {From: 3, Until: 5, Boxes: 2}}, Fits, 0},
		{"no room but in an overfull spot", []Stay{{Until: 9, Boxes: 3, Known: at(0, 3), Given: true}, {From: 3, Until: 5, Boxes: 3}}, FitsNot, 2},
	} {
		places, core, v, _ := Pack(m, 0, c.list)
		if v != c.v || len(core) != c.core {
			t.Errorf("%s: verdict %d, core %v at %v, want %d, %d", c.name, v, core, places, c.v, c.core)
		}
	}
}

// Boxes that share are gathered into as few spots as can be.
func TestBoxesAreGathered(t *testing.T) {
	m := &problem.Model{Spaces: []problem.Space{{Floors: []problem.Floor{{Size: problem.Rect{W: 8, D: 1}, Height: 6}}}}, Kinds: []problem.Kind{{Size: problem.Rect{W: 1, D: 1}, Height: 2}}}
	places, _, v, _ := Pack(m, 0, []Stay{{Until: 5, Boxes: 5}, {From: 2, Until: 7, Boxes: 1}, {From: 7, Until: 9, Boxes: 3}})
	if v != Fits || len(places[0]) != 2 || len(places[1]) != 1 || len(places[2]) != 1 {
		t.Errorf("got verdict %d, %v, want two spots, one and one", v, places)
	}
}
