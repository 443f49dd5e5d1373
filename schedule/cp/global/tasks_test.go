package global_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/kernel/oracle"
	"ripeby/schedule/testrun"
)

// These tests try optional tasks with moments of their own, fixed lengths and lengths
// that are found, demands by size, and conditions that may be about anything.

// thing is a tiny model's tasks with the variables that they share.
type thing struct {
	*tiny
	size    kernel.Var
	times   []kernel.Var
	bools   []kernel.Var
	longest int // length of a task
}

func someThing(r *rand.Rand, times, wide int) *thing {
	m := &thing{tiny: &tiny{}, longest: 3}
	m.size = m.Variable(int32(-r.IntN(2)), int32(1+r.IntN(2)))
	for range 2 + r.IntN(2) {
		m.bools = append(m.bools, m.Variable(0, int32(min(1, r.IntN(5)))))
	}
	for range times {
		low := int32(r.IntN(4) - 1)
		m.times = append(m.times, m.Variable(low, low+int32(r.IntN(wide))))
	}
	return m
}

func (m *thing) time(r *rand.Rand) kernel.Var { return m.times[r.IntN(len(m.times))] }

// task is some task; that it has its least length is added as a rule of its own,
// which holds no more than while the task counts.
func (m *thing) task(r *rand.Rand) global.Task {
	x := m.time(r)
	t := global.Task{From: global.Moment{X: x, Add: int32(r.IntN(3) - 1)}}
	t.Demand = global.Amount{By: m.size, Table: table(r, int32(r.IntN(3)), 2)}
	for range r.IntN(3) {
		if r.IntN(4) == 0 {
			t.If = append(t.If, m.Literal(r))
		} else {
			b := m.bools[r.IntN(len(m.bools))]
			t.If = append(t.If, []kernel.Lit{b.Ge(1), b.Le(0)}[r.IntN(2)])
		}
	}
	if r.IntN(2) == 0 {
		length := int32(r.IntN(m.longest+2) - 1)
		t.Until = global.Moment{X: x, Add: t.From.Add + length}
		if r.IntN(4) > 0 {
			t.Least = length
		}
		return t
	}
	t.Until = global.Moment{X: m.time(r), Add: int32(r.IntN(3) - 1)}
	t.Least = int32(r.IntN(4) - 1)
	if t.Least > 0 {
		m.longEnough(t)
	}
	return t
}

// longEnough states that the task has its least length while it counts.
func (m *thing) longEnough(t global.Task) {
	terms := []global.Term{{View: t.From.X.Up(), Times: 1}, {View: t.Until.X.Down(), Times: 1}}
	m.Add(oracle.Rule{
		Text: fmt.Sprintf("%+v is long enough", t),
		Add:  func(s *kernel.Solver) { global.AddLinear(s, terms, int64(t.Until.Add-t.From.Add-t.Least), t.If...) },
		Holds: func(v []int32) bool {
			return !oracle.AllTrue(t.If, v) || moment(t.Until, v)-moment(t.From, v) >= t.Least
		},
	})
}

func moment(m global.Moment, v []int32) int32 { return v[m.X] + m.Add }

// on reports whether a task counts and is on at a moment.
func on(t global.Task, v []int32, at int32) bool {
	return oracle.AllTrue(t.If, v) && moment(t.From, v) <= at && at < moment(t.Until, v)
}

// earliest and latest are moments before and after all that happens.
const earliest, latest = -9, 32

func (m *thing) cumulative(r *rand.Rand, n int) {
	var tasks []global.Task
	for range n {
		tasks = append(tasks, m.task(r))
	}
	var taken []global.Taken
	for range r.IntN(4) {
		from := int32(r.IntN(8) - 2)
		taken = append(taken, global.Taken{From: from, Until: from + int32(r.IntN(m.longest+2)-1), Units: int32(r.IntN(4))})
	}
	capacity := int32(r.IntN(6) - r.IntN(2))
	m.Add(oracle.Rule{
		Text:  fmt.Sprintf("tasks %+v within %d less %+v", tasks, capacity, taken),
		Add:   func(s *kernel.Solver) { global.AddCumulative(s, tasks, capacity, taken) },
		Holds: func(v []int32) bool { return keeps(tasks, capacity, taken, v) },
	})
}

// keeps adds up moment by moment.
func keeps(tasks []global.Task, capacity int32, taken []global.Taken, v []int32) bool {
	for at := int32(earliest); at < latest; at++ {
		left, sum := capacity, int32(0)
		for _, g := range taken {
			if g.From <= at && at < g.Until {
				left -= g.Units
			}
		}
		for _, t := range tasks {
			if on(t, v, at) {
				sum += entry(t.Demand.Table, v[t.Demand.By])
			}
		}
		if sum > max(0, left) {
			return false
		}
	}
	return true
}

// TestCumulative: optional tasks of a thing that is partly taken.
func TestCumulative(t *testing.T) {
	var seen oracle.Tally
	for seed := range uint64(testrun.Rounds(2000, 6000)) {
		r := rand.New(rand.NewPCG(seed, 15))
		m := someThing(r, 2+r.IntN(2), 6)
		m.cumulative(r, 2+r.IntN(3))
		m.Clauses(r, 3)
		m.Check(t, seed, r, &seen)
	}
	seen.Enough(t, testrun.Rounds(334, 1000))
}

// TestCumulativeWide: fewer tasks that are long beside others that are short, so that
// a task is moved past a whole stretch at once.
func TestCumulativeWide(t *testing.T) {
	var seen oracle.Tally
	for seed := range uint64(testrun.Rounds(1000, 3000)) {
		r := rand.New(rand.NewPCG(seed, 18))
		m := someThing(r, 2, 16)
		m.longest = 10
		m.cumulative(r, 2+r.IntN(4))
		m.Clauses(r, 2)
		m.Check(t, seed, r, &seen)
	}
	seen.Enough(t, testrun.Rounds(167, 500))
}

// TestAllTogether: every rule in one model, so that they wake each other.
func TestAllTogether(t *testing.T) {
	var seen oracle.Tally
	for seed := range uint64(2000) {
		r := rand.New(rand.NewPCG(seed, 17))
		m := someThing(r, 3, 5)
		m.cumulative(r, 3)
		m.load(r)
		m.linear(r)
		m.allowed(r, m.time(r), m.size)
		m.Clauses(r, 2)
		m.Check(t, seed, r, &seen)
	}
	seen.Enough(t, 300)
}
