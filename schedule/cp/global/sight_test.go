package global_test

import (
	"context"
	"math/rand/v2"
	"reflect"
	"testing"

	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/kernel/oracle"
)

// sight is what one propagation should see: bounds of variables before and after, nil
// for a contradiction.
type sight struct {
	name string
	in   [][2]int32
	add  func(s *kernel.Solver)
	want [][2]int32
}

func (c *sight) check(t *testing.T) *kernel.Solver {
	t.Helper()
	s := kernel.New()
	for _, b := range c.in {
		s.NewVar(b[0], b[1])
	}
	c.add(s)
	var got [][2]int32
	if s.Search(context.Background(), 0) != kernel.Impossible {
		for i := range c.in {
			got = append(got, [2]int32{s.Min(kernel.Var(i)), s.Max(kernel.Var(i))})
		}
	}
	if !reflect.DeepEqual(got, c.want) {
		t.Errorf("%s: from %v got %v, want %v", c.name, c.in, got, c.want)
	}
	return s
}

// fixed is a task of a fixed length.
func fixed(x kernel.Var, length, demand int32, ifs ...kernel.Lit) global.Task {
	return global.Task{From: global.Moment{X: x}, Until: global.Moment{X: x, Add: length}, Least: length, Demand: constant(demand), If: ifs}
}

// found is a task whose length is found.
func found(from, until kernel.Var, least, demand int32, ifs ...kernel.Lit) global.Task {
	return global.Task{From: global.Moment{X: from}, Until: global.Moment{X: until}, Least: least, Demand: constant(demand), If: ifs}
}

func constant(units int32) global.Amount { return global.Amount{Table: []int32{units}} }

func sized(by kernel.Var, t global.Task, table ...int32) global.Task {
	t.Demand = global.Amount{By: by, Table: table}
	return t
}

func within(capacity int32, taken []global.Taken, tasks ...global.Task) func(s *kernel.Solver) {
	return func(s *kernel.Solver) { global.AddCumulative(s, tasks, capacity, taken) }
}

// TestWhatCumulativeSees: variables in order are those of the tasks, then literals.
func TestWhatCumulativeSees(t *testing.T) {
	is := kernel.Var(2).Ge(1)
	for _, c := range []sight{
		{"past what must run", [][2]int32{{1, 2}, {0, 10}},
			within(1, nil, fixed(0, 4, 1), fixed(1, 3, 1)), [][2]int32{{1, 2}, {5, 10}}},
		{"before what must run", [][2]int32{{4, 5}, {0, 6}},
			within(1, nil, fixed(0, 4, 1), fixed(1, 3, 1)), [][2]int32{{4, 5}, {0, 2}}},
		{"past what is taken, bit by bit more", [][2]int32{{0, 20}},
			within(3, []global.Taken{{2, 5, 2}, {5, 9, 3}, {9, 11, 2}, {11, 30, 1}}, fixed(0, 3, 2)), [][2]int32{{11, 20}}},
		{"a length that is found ends before what is taken", [][2]int32{{0, 2}, {3, 10}},
			within(1, []global.Taken{{5, 7, 1}}, found(0, 1, 1, 1)), [][2]int32{{0, 2}, {3, 5}}},
		{"what must go on past it cannot begin before it", [][2]int32{{0, 9}, {6, 10}},
			within(1, []global.Taken{{3, 4, 1}}, found(0, 1, 0, 1)), [][2]int32{{4, 9}, {6, 10}}},
		{"no length, no room needed", [][2]int32{{3, 3}, {3, 3}},
			within(1, []global.Taken{{0, 9, 1}}, found(0, 1, 0, 1)), [][2]int32{{3, 3}, {3, 3}}},
		{"too much at once", [][2]int32{{0, 2}, {1, 2}}, within(3, nil, fixed(0, 3, 2), fixed(1, 3, 2)), nil},
		{"an optional task that must run there is out", [][2]int32{{0, 2}, {1, 2}, {0, 1}},
			within(3, nil, fixed(0, 3, 2), fixed(1, 3, 2, is)), [][2]int32{{0, 2}, {1, 2}, {0, 0}}},
		{"an optional task that fits nowhere is out", [][2]int32{{3, 3}, {0, 6}, {0, 1}},
			within(1, []global.Taken{{5, 20, 1}}, fixed(0, 1, 1), fixed(1, 4, 1, is)), [][2]int32{{3, 3}, {0, 6}, {0, 0}}},
		{"one that fits somewhere is let be", [][2]int32{{4, 4}, {0, 6}, {0, 1}},
			within(1, []global.Taken{{5, 20, 1}}, fixed(0, 1, 1), fixed(1, 4, 1, is)), [][2]int32{{4, 4}, {0, 6}, {0, 1}}},
		{"one that is more than there is at all is out", [][2]int32{{4, 4}, {0, 6}, {0, 1}},
			within(3, nil, fixed(0, 1, 1), fixed(1, 4, 4, is)), [][2]int32{{4, 4}, {0, 6}, {0, 0}}},
		{"a smaller size where it must run", [][2]int32{{0, 1}, {0, 0}, {0, 3}},
			within(4, nil, fixed(0, 2, 2), sized(2, fixed(1, 2, 0), 0, 1, 2, 3)), [][2]int32{{0, 1}, {0, 0}, {0, 2}}},
		{"a smaller size than all there is", [][2]int32{{0, 9}, {0, 3}},
			within(4, nil, sized(1, fixed(0, 2, 0), 3, 4, 5, 6)), [][2]int32{{0, 9}, {0, 1}}},
		{"an optional task's size is let be", [][2]int32{{0, 9}, {0, 3}, {0, 1}},
			within(4, nil, sized(1, fixed(0, 2, 0, is), 3, 4, 5, 6)), [][2]int32{{0, 9}, {0, 3}, {0, 1}}},
		{"more taken than there is asks no more", [][2]int32{{0, 9}},
			within(2, []global.Taken{{0, 3, 2}, {2, 5, 9}}, fixed(0, 2, 1)), [][2]int32{{5, 9}}},
	} {
		c.check(t)
	}
}

// TestPastLongStretches: a task is moved past a stretch that is far longer than it in
// few steps, whether that is taken or run by others.
func TestPastLongStretches(t *testing.T) {
	for _, c := range []sight{
		{"taken", [][2]int32{{0, 0}, {0, 2000}}, within(1, []global.Taken{{0, 900, 1}}, fixed(1, 2, 1)), [][2]int32{{0, 0}, {900, 2000}}},
		{"run", [][2]int32{{0, 0}, {0, 2000}}, within(1, nil, fixed(0, 900, 1), fixed(1, 2, 1)), [][2]int32{{0, 0}, {900, 2000}}},
		{"back", [][2]int32{{99, 99}, {98, 900}}, within(1, nil, fixed(0, 900, 1), fixed(1, 2, 1)), nil},
	} {
		if s := c.check(t); s.Counted.Bounds > 10 {
			t.Errorf("%s: got %d changes of bounds, want few", c.name, s.Counted.Bounds)
		}
	}
}

// TestLongReasonsAreLeft: a task that fits nowhere for a short reason is out; with a
// reason of more than 40 literals it is let be until more is known.
func TestLongReasonsAreLeft(t *testing.T) {
	for _, c := range []struct {
		blocks int32
		want   int32
	}{{3, 0}, {12, 0}, {14, 1}, {30, 1}} {
		s := kernel.New()
		is, x := s.NewVar(0, 1), s.NewVar(0, 4*c.blocks-2)
		tasks := []global.Task{fixed(x, 2, 1, is.Ge(1))}
		for k := range c.blocks {
			in := s.NewVar(1, 1)
			tasks = append(tasks, fixed(s.NewVar(4*k+1, 4*k+1), 3, 1, in.Ge(1)))
		}
		global.AddCumulative(s, tasks, 1, nil)
		if s.Search(context.Background(), 0); s.Max(is) != c.want || s.Min(is) != 0 {
			t.Errorf("%d stretches in the way: got the literal in [%d, %d], want [0, %d]", c.blocks, s.Min(is), s.Max(is), c.want)
		}
	}
}

// TestNowhereByALateLevel: what is in the way may begin only after the last begin.
// The task that ends before it must not be taken for a part of it.
func TestNowhereByALateLevel(t *testing.T) {
	var seen oracle.Tally
	for seed := range uint64(300) {
		r := rand.New(rand.NewPCG(seed, 19))
		m := &tiny{}
		from, until := m.Variable(0, 1), m.Variable(0, 6)
		two, one := m.Variable(2, 2), m.Variable(1, 1)
		var in [4]kernel.Lit
		for k := range in {
			in[k] = m.Variable(0, 1).Ge(1)
		}
		tasks := []global.Task{
			found(from, until, 3, 2, in[0]), fixed(two, 3, 2, in[1]), fixed(two, 3, 1, in[2]), fixed(one, 1, 2, in[3]),
		}
		(&thing{tiny: m}).longEnough(tasks[0])
		m.Add(oracle.Rule{Text: "late", Add: within(4, nil, tasks...), Holds: func(v []int32) bool { return keeps(tasks, 4, nil, v) }})
		m.Check(t, seed, r, &seen)
	}
}

// TestWhatTheSumsSee: one case for each way that a sum says something.
func TestWhatTheSumsSee(t *testing.T) {
	is := kernel.Var(2).Ge(1)
	load := func(atMost int32, items ...global.Item) func(s *kernel.Solver) {
		return func(s *kernel.Solver) { global.AddLoad(s, items, atMost, 10, 20) }
	}
	heavy := global.Item{Weight: constant(5)}
	timed := func(x kernel.Var, w global.Amount, ifs ...kernel.Lit) global.Item {
		return global.Item{Weight: w, If: ifs, Start: x, Timed: true}
	}
	for _, c := range []sight{
		{"starts after", [][2]int32{{12, 30}}, load(6, heavy, timed(0, constant(2))), [][2]int32{{20, 30}}},
		{"starts before", [][2]int32{{2, 18}}, load(6, heavy, timed(0, constant(2))), [][2]int32{{2, 9}}},
		{"starts before or after", [][2]int32{{2, 28}}, load(6, heavy, timed(0, constant(2))), [][2]int32{{2, 28}}},
		{"fits", [][2]int32{{12, 30}}, load(7, heavy, timed(0, constant(2))), [][2]int32{{12, 30}}},
		{"out", [][2]int32{{12, 18}, {0, 0}, {0, 1}}, load(6, heavy, timed(0, constant(2), is)), [][2]int32{{12, 18}, {0, 0}, {0, 0}}},
		{"smaller", [][2]int32{{12, 18}, {0, 3}}, load(7, heavy, timed(0, global.Amount{By: 1, Table: []int32{0, 2, 2, 3}})), [][2]int32{{12, 18}, {0, 2}}},
		{"too much", [][2]int32{{12, 18}}, load(6, heavy, timed(0, constant(2))), nil},
		{"sum", [][2]int32{{0, 9}, {2, 9}}, func(s *kernel.Solver) {
			global.AddLinear(s, []global.Term{{View: kernel.Var(0).Up(), Times: 3}, {View: kernel.Var(1).Up(), Times: 2}}, 12)
		}, [][2]int32{{0, 2}, {2, 6}}},
		{"difference", [][2]int32{{0, 9}, {2, 5}}, func(s *kernel.Solver) {
			global.AddLinear(s, []global.Term{{View: kernel.Var(0).Up(), Times: 1}, {View: kernel.Var(1).Down(), Times: 1}}, -2)
		}, [][2]int32{{0, 3}, {2, 5}}},
		{"length by size", [][2]int32{{0, 3}, {4, 20}, {0, 3}}, func(s *kernel.Solver) {
			global.AddOffset(s, 0, global.Amount{By: 2, Table: []int32{0, 2, 5, 9}}, 1)
		}, [][2]int32{{0, 3}, {4, 12}, {1, 3}}},
	} {
		c.check(t)
	}
}

// TestWhatAllowedSees: x is variable 0, the size 1, ways 2 and 3, the condition 4.
func TestWhatAllowedSees(t *testing.T) {
	day := func(ranges ...global.Range) []global.Range { return ranges }
	ways := []global.Way{
		{If: kernel.Var(2).Ge(1), Sets: [][]global.Range{day(global.Range{From: 3, To: 6}, global.Range{From: 20, To: 24}), day(global.Range{From: 20, To: 22})}},
		{If: kernel.Var(3).Ge(1), Sets: [][]global.Range{day(global.Range{From: 8, To: 9}), nil}},
	}
	add := func(s *kernel.Solver) { global.AddAllowed(s, 0, 1, ways, kernel.Var(4).Ge(1)) }
	for _, c := range []sight{
		{"both open", [][2]int32{{0, 30}, {0, 1}, {0, 1}, {0, 1}, {1, 1}}, add, [][2]int32{{3, 24}, {0, 1}, {0, 1}, {0, 1}, {1, 1}}},
		{"one taken", [][2]int32{{7, 30}, {0, 1}, {1, 1}, {0, 1}, {1, 1}}, add, [][2]int32{{20, 24}, {0, 1}, {1, 1}, {0, 0}, {1, 1}}},
		{"one out", [][2]int32{{7, 19}, {0, 1}, {0, 1}, {0, 1}, {1, 1}}, add, [][2]int32{{8, 9}, {0, 0}, {0, 0}, {0, 1}, {1, 1}}},
		{"size one", [][2]int32{{0, 30}, {1, 1}, {0, 1}, {0, 1}, {1, 1}}, add, [][2]int32{{20, 22}, {1, 1}, {0, 1}, {0, 0}, {1, 1}}},
		{"smaller", [][2]int32{{0, 19}, {0, 1}, {0, 1}, {0, 1}, {1, 1}}, add, [][2]int32{{3, 9}, {0, 0}, {0, 1}, {0, 1}, {1, 1}}},
		{"none left", [][2]int32{{10, 19}, {0, 1}, {0, 1}, {0, 1}, {0, 1}}, add, [][2]int32{{10, 19}, {0, 1}, {0, 1}, {0, 1}, {0, 0}}},
		{"none left of the one taken", [][2]int32{{7, 19}, {0, 1}, {1, 1}, {0, 1}, {0, 1}}, add, [][2]int32{{7, 19}, {0, 1}, {1, 1}, {0, 1}, {0, 0}}},
		{"not asked", [][2]int32{{0, 30}, {0, 1}, {0, 1}, {0, 1}, {0, 1}}, add, [][2]int32{{0, 30}, {0, 1}, {0, 1}, {0, 1}, {0, 1}}},
	} {
		c.check(t)
	}
}
