package usage

import (
	"testing"

	"ripeby/schedule/cp/problem"
)

// onePerFloor is a space of two floors for one box each, and one that is counted in two boxes.
func onePerFloor() *problem.Model {
	floor := problem.Floor{Size: problem.Rect{W: 3, D: 2}, Height: 1}
	return &problem.Model{Step: 1, From: 10, Horizon: 100, Kinds: []problem.Kind{{Size: problem.Rect{W: 3, D: 2}, Height: 1}},
		Spaces: []problem.Space{{Floors: []problem.Floor{floor, floor}}, {Capacity: 2}},
		FitFloor: func(_ problem.Rect, fixed []problem.Placed, boxes []problem.Rect) ([]problem.Placed, bool) {
			if len(fixed) > 0 || len(boxes) != 1 {
				return nil, false
			}
			return []problem.Placed{{W: boxes[0].W, D: boxes[0].D}}, true
		}}
}

// Room is found beside what was put, for as long as that is there, on floors that are open; and
// again where that was taken away.
func TestRoomBesideWhatStandsNow(t *testing.T) {
	m := onePerFloor()
	m.Spaces[0].Floors[1].Closed = []problem.Span{{From: 30, Until: 40}}
	m.Stocks = []problem.Stock{{Space: 0, Boxes: 1, Pool: -1, Keep: 50}}
	n := StandNow(m)
	if at := n.Stocks[0]; at.Homeless || len(at.Stacks) != 1 || at.Stacks[0].Floor != 0 {
		t.Fatalf("got the stock at %+v, want it on the floor that is open as long as it is there", at)
	}
	stock := Boxes{Boxes: 1, Span: problem.Span{From: 10, Until: 50}}
	n.Put(stock, n.Stocks[0])
	ask := func(space, boxes, from, until, openUntil int) bool {
		_, ok := n.Room(Boxes{Boxes: boxes, Span: problem.Span{From: from, Until: until}}, space, nil, problem.Span{From: from, Until: openUntil})
		return ok
	}
	for _, c := range []struct {
		what                                 string
		space, boxes, from, until, openUntil int
		want                                 bool
	}{
		{"the other floor, while it is open", 0, 1, 10, 30, 30, true},
		{"the other floor, over its closing", 0, 1, 10, 35, 35, false},
		{"the other floor, that need be open only when it comes", 0, 1, 10, 35, 11, true},
		{"both floors", 0, 2, 10, 20, 20, false},
		{"both floors, when the stock has left", 0, 2, 50, 60, 60, true},
		{"two that are counted", 1, 2, 10, 60, 60, true},
		{"three that are counted", 1, 3, 10, 60, 60, false},
	} {
		if got := ask(c.space, c.boxes, c.from, c.until, c.openUntil); got != c.want {
			t.Errorf("%s: got %v, want %v", c.what, got, c.want)
		}
	}
	if n.Take(stock, n.Stocks[0]); !ask(0, 2, 10, 20, 20) {
		t.Error("got no room for two once the stock is taken away")
	}
	spot := []problem.Standing{{Floor: 1, Place: problem.Placed{W: 3, D: 2}, Boxes: 1}}
	if at, ok := n.Room(Boxes{Boxes: 1, Span: problem.Span{From: 10, Until: 20}}, 0, spot, problem.Span{From: 10, Until: 20}); !ok || at.Stacks[0].Floor != 1 {
		t.Errorf("got %+v, want it where it is preferred", at)
	}
}

// Stock that is expected takes no room before, and all of it from then on.
func TestStockThatIsExpected(t *testing.T) {
	m := onePerFloor()
	m.Stocks = []problem.Stock{{Space: 1, Boxes: 2, Pool: -1, Ready: problem.Infinite, Since: 40, Keep: 60}}
	s := NewLedger(m, NewPackings(m))
	s.SettleHomes()
	s.KeepStock(0, nil)
	for at, want := range map[int]int{10: 40, 39: 40, 40: problem.Nowhere, 59: problem.Nowhere, 60: problem.Infinite} {
		cursor := 0
		if got := LimitAt(s.Reach(1, 0, 1, 10, 100), &cursor, at); got != want {
			t.Errorf("a box put at %d: got until %d, want %d", at, got, want)
		}
	}
}

// Where nothing is open as long as boxes are there, they are taken to stand where it is open the longest.
func TestBoxesStandWhereItIsOpenTheLongest(t *testing.T) {
	for _, x := range []struct {
		first, second, all problem.Span
		want               int
	}{
		{problem.Span{From: 15, Until: 20}, problem.Span{From: 60, Until: 70}, problem.Span{From: 30, Until: 80}, 1},
		{problem.Span{From: 60, Until: 70}, problem.Span{From: 15, Until: 20}, problem.Span{From: 30, Until: 80}, 0},
		{problem.Span{From: 25, Until: 28}, problem.Span{From: 20, Until: 22}, problem.Span{From: 30, Until: 80}, 0},
		{problem.Span{From: 20, Until: 22}, problem.Span{From: 25, Until: 28}, problem.Span{From: 30, Until: 80}, 1},
		{problem.Span{From: 5, Until: 22}, problem.Span{From: 12, Until: 28}, problem.Span{From: 30, Until: 80}, 1},
	} {
		m := onePerFloor()
		m.Spaces[0].Floors[0].Closed, m.Spaces[0].Floors[1].Closed = []problem.Span{x.first}, []problem.Span{x.second}
		m.Spaces[0].Closed = []problem.Span{x.all}
		m.Stocks = []problem.Stock{{Space: 0, Boxes: 1, Pool: -1, Keep: 50}}
		if at := StandNow(m).Stocks[0]; len(at.Stacks) != 1 || at.Stacks[0].Floor != x.want {
			t.Errorf("closed %v and %v, all of it %v: got the stock at %+v, want it on floor %d", x.first, x.second, x.all, at, x.want)
		}
	}
}

// What stands there keeps its place; what is still in hand, and of which nobody told a place, has what is
// left, though it began first.
func TestWhatIsInHandComesLast(t *testing.T) {
	begun := func(starts ...int) problem.Begun {
		acts := []problem.Activity{{Work: 5, Lag: problem.Lag{Most: 40}}, {Work: 5, Lag: problem.Lag{Most: 40}}, {Work: 5}}
		return problem.Begun{Mode: problem.Mode{Acts: acts, Stays: []problem.Stay{{First: 1, Last: 1, Boxes: 1}}}, Starts: starts, Homes: []int{0}}
	}
	for _, x := range []struct {
		what    string
		floors  int
		first   problem.Begun
		second  problem.Begun
		nowhere []bool
	}{
		{"one in hand, one there", 1, begun(0, 8), begun(0, 2), []bool{true, false}},
		{"one there, one in hand", 1, begun(0, 2), begun(0, 8), []bool{false, true}},
		{"both there", 1, begun(0, 2), begun(0, 3), []bool{false, true}},
		{"room for both", 2, begun(0, 8), begun(0, 2), []bool{false, false}},
	} {
		m := onePerFloor()
		m.Spaces[0].Floors = m.Spaces[0].Floors[:x.floors]
		m.Begun = []problem.Begun{x.first, x.second}
		s := NewLedger(m, NewPackings(m))
		s.SettleHomes()
		for i, want := range x.nowhere {
			if got := s.Homes[i].Homeless; got != want {
				t.Errorf("%s: got the boxes of %d homeless %v, want %v", x.what, i, got, want)
			}
		}
	}
}
