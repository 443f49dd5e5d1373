package tiny

import (
	"flag"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/problem"
)

// Shape says what random models may hold.
type Shape struct {
	Families, Demands int
	Acts              int
	Length            int // ticks from start to horizon
	Days, Avoid       bool
	Floors, Closed    bool
	Intakes           bool
	Uneven            bool // demands of one family differ in Ahead
	LeastOverAhead    bool // the last lag's least may exceed Ahead
	Worthless         bool // some units have no value
	Odd               bool // amounts of modes grow unevenly
	Clash             bool // runs of one job may meet in one pool in any way
	Free              bool // pools and spaces without limit, workers who are always there and many
	Stocks, Begun     int
}

// CheckMany is rapid.Check times over, with other draws each time: what it tries is
// cheap.
func CheckMany(t *testing.T, times int, prop func(*rapid.T)) {
	seed := flag.Lookup("rapid.seed").Value.String()
	first, err := strconv.ParseUint(seed, 10, 64)
	if err != nil {
		t.Fatal(err)
	}
	defer flag.Set("rapid.seed", seed)
	for i := 0; i < times && !t.Failed(); i++ {
		if err := flag.Set("rapid.seed", fmt.Sprint(first+uint64(i))); err != nil {
			t.Fatal(err)
		}
		rapid.Check(t, prop)
	}
}

// DrawInt is a number from lo to hi.
func DrawInt(t *rapid.T, lo, hi int, name string) int { return rapid.IntRange(lo, hi).Draw(t, name) }

// OneIn is true once in n times.
func OneIn(t *rapid.T, n int, name string) bool { return DrawInt(t, 1, n, name) == 1 }

// Draw makes a random model.
func Draw(t *rapid.T, k Shape) *problem.Model {
	step := DrawInt(t, 1, 3, "step")
	m := &problem.Model{Step: step, From: DrawInt(t, -7, 7, "from"), FitFloor: LinePacking}
	m.Horizon = m.From + k.Length
	drawWorkers(t, m, k)
	for p := 0; p < 3; p++ {
		m.Pools = append(m.Pools, problem.Pool{Capacity: DrawInt(t, 1, 3, "capacity")})
	}
	m.Kinds = []problem.Kind{{Size: problem.Rect{W: 1, D: 1}, Height: 2}, {Size: problem.Rect{W: 2, D: 1}, Height: 3}}
	for x := 0; x < 2; x++ {
		sp := problem.Space{Capacity: DrawInt(t, 1, 3, "room")}
		if k.Floors && OneIn(t, 2, "measured") {
			for f := 0; f < DrawInt(t, 1, 2, "floors"); f++ {
				fl := problem.Floor{Size: problem.Rect{W: int64(DrawInt(t, 1, 4, "wide")), D: 1}, Height: int64(DrawInt(t, 1, 6, "high"))}
				if k.Closed && OneIn(t, 3, "floor closed") {
					fl.Closed = DrawSpans(t, m, 1)
				}
				sp.Floors = append(sp.Floors, fl)
			}
		}
		if k.Closed && OneIn(t, 2, "closed") {
			sp.Closed = DrawSpans(t, m, 2)
		}
		m.Spaces = append(m.Spaces, sp)
	}
	for f := 0; f < k.Families; f++ {
		drawFamily(t, m, k)
	}
	if k.Intakes {
		for i := 0; i < DrawInt(t, 1, 3, "intakes"); i++ {
			ready := m.From + DrawInt(t, -3, k.Length-6, "milk")
			m.Intakes = append(m.Intakes, problem.Intake{Supply: 0, Ready: ready, Until: ready + DrawInt(t, 0, 12, "fresh"), Amount: int64(DrawInt(t, 1, 8, "litres"))})
		}
	}
	drawDemands(t, m, k)
	for i := 0; i < k.Stocks; i++ {
		m.Stocks = append(m.Stocks, problem.Stock{Family: DrawInt(t, 0, k.Families-1, "stock family"), Ready: m.From - DrawInt(t, 0, 6, "packed"),
			Units: DrawInt(t, 1, 2, "pieces"), Space: -1, Pool: -1, Keep: m.Horizon})
	}
	for i := 0; i < k.Begun; i++ {
		drawBegun(t, m, k)
	}
	if k.Free {
		loosen(m)
	}
	for i := range m.Kinds {
		if k.Floors && OneIn(t, 2, "not with its kind") {
			m.Kinds[i].Stack = problem.Stacking(DrawInt(t, 1, 2, "stacks"))
		}
	}
	if OneIn(t, 4, "any turns") {
		drawTurns(t, m)
	}
	return m
}

// DrawSpans is up to n spans of a model, sorted and apart.
func DrawSpans(t *rapid.T, m *problem.Model, n int) []problem.Span {
	var out []problem.Span
	at := m.From
	for i := 0; i < n; i++ {
		from := at + DrawInt(t, 0, 20, "gap")
		at = from + DrawInt(t, 1, 9, "long")
		out = append(out, problem.Span{From: from, Until: at})
		at++
	}
	return out
}

func drawWorkers(t *rapid.T, m *problem.Model, k Shape) {
	length := m.Horizon - m.From
	for w := 0; w < 2; w++ {
		wk := problem.Worker{Windows: []problem.Span{{From: m.From, Until: m.Horizon}}}
		if OneIn(t, 2, "away") {
			cut := m.From + DrawInt(t, 3, length-6, "cut")
			wk.Windows = []problem.Span{{From: m.From + DrawInt(t, 0, 2, "late"), Until: cut}, {From: cut + DrawInt(t, 1, 5, "pause"), Until: m.Horizon}}
		}
		if k.Avoid && OneIn(t, 2, "avoids") {
			wk.Avoid = DrawSpans(t, m, 2)
		}
		if k.Days && OneIn(t, 2, "limits") {
			half := m.From + length/2
			wk.Days = []problem.Day{{From: m.From, Until: half, Limit: m.Step * DrawInt(t, 1, 6, "first day")}, {From: half, Until: m.Horizon, Limit: m.Step * DrawInt(t, 1, 6, "second day")}}
		}
		m.Workers = append(m.Workers, wk)
	}
}

func drawLag(t *rapid.T, m *problem.Model, least, wide int) problem.Lag {
	l := problem.Lag{Least: least * m.Step, Most: (least + wide) * m.Step}
	flat := OneIn(t, 3, "flat lag")
	for x := 0; x <= l.Most-l.Least; x++ {
		c := 0
		if !flat {
			c = rapid.SampledFrom([]int{0, 0, 1, 5, 20, 40, 100, 170}).Draw(t, "lag cost")
		}
		l.Cost = append(l.Cost, int32(c))
	}
	return l
}

// drawActs makes the activities of a chain.
func drawActs(t *rapid.T, m *problem.Model, k Shape, n int) []problem.Activity {
	var acts []problem.Activity
	for i := 0; i < n; i++ {
		a := problem.Activity{Work: m.Step * DrawInt(t, 0, 3, "work")}
		if k.Avoid && i == 0 {
			a.Work = m.Step * DrawInt(t, 0, 6, "long work")
		}
		for w := range m.Workers {
			if len(a.Workers) == 0 || OneIn(t, 2, "helps") {
				a.Workers = append(a.Workers, w)
			}
		}
		if OneIn(t, 4, "turned") {
			a.Workers = []int{len(m.Workers) - 1}
		}
		a.Lag = drawLag(t, m, DrawInt(t, 0, 2, "least"), DrawInt(t, 0, 4, "wide"))
		if i == n-1 {
			a.Lag = problem.Lag{Least: 0, Most: 30}
			if k.LeastOverAhead {
				a.Lag.Least = DrawInt(t, 0, 9, "rest")
			}
		}
		// Never two activities at one moment: a hold between them has no length,
		// for which the engine asks room and the naive reading nothing.
		if i > 0 && a.Work == 0 && acts[i-1].Lag.Least == 0 {
			acts[i-1].Lag.Least += m.Step
			acts[i-1].Lag.Most += m.Step
		}
		acts = append(acts, a)
	}
	return acts
}

func drawFamily(t *rapid.T, m *problem.Model, k Shape) {
	f := problem.Family{Keeps: DrawInt(t, 4, 16, "keeps"), Supply: -1, Serves: DrawInt(t, 0, 2, "serves")}
	if k.Intakes {
		f.Supply = 0
	}
	acts := drawActs(t, m, k, DrawInt(t, 1, k.Acts, "acts"))
	runs, stays := lasting(drawRuns(t, m, k, len(acts)), acts), drawStays(t, m, acts)
	modes := DrawInt(t, 1, 2, "modes")
	amount := 0
	for x := 0; x < modes; x++ {
		amount++
		if k.Odd {
			amount += DrawInt(t, 0, 4, "more")
		}
		if x > 0 && f.Keeps%4 == 0 {
			acts = waitLonger(m, acts, f.Keeps/4%len(acts))
		}
		f.Modes = append(f.Modes, problem.Mode{Amount: int64(amount), Units: x + 1, Acts: acts, Runs: runs, Stays: stays})
	}
	m.Families = append(m.Families, f)
}

// waitLonger is activities of which the lag after the i-th, where it may, is a step longer at the least.
func waitLonger(m *problem.Model, acts []problem.Activity, i int) []problem.Activity {
	out := slices.Clone(acts)
	if l := &out[i].Lag; i < len(acts)-1 && l.Least+m.Step <= l.Most {
		l.Least, l.Cost = l.Least+m.Step, l.Cost[m.Step:]
	}
	return out
}

// drawRuns makes runs that share no pool within the job, but for two that meet at
// one activity with nothing to clean between; with clash, anything goes.
func drawRuns(t *rapid.T, m *problem.Model, k Shape, n int) []problem.Run {
	var runs []problem.Run
	if k.Clash {
		for x := 0; x < DrawInt(t, 0, 3, "runs"); x++ {
			first := DrawInt(t, 0, n-1, "first")
			run := problem.Run{First: first, Last: DrawInt(t, first, n-1, "last"), Amount: DrawInt(t, 1, 2, "amount")}
			for p := range m.Pools {
				if OneIn(t, 2, "may use") || p == 2 && len(run.Choices) == 0 {
					run.Choices = append(run.Choices, problem.PoolChoice{Pool: p, Clean: DrawInt(t, 0, 4, "clean")})
				}
			}
			runs = append(runs, run)
		}
		return runs
	}
	if OneIn(t, 2, "bridge") && n > 1 {
		at := DrawInt(t, 1, n-1, "at")
		return []problem.Run{
			{First: DrawInt(t, 0, at-1, "bf"), Last: at - 1, Amount: 1, Choices: []problem.PoolChoice{{Pool: 0, Clean: 0}}},
			{First: at, Last: DrawInt(t, at, n-1, "bl"), Amount: DrawInt(t, 1, 2, "bb"), Choices: []problem.PoolChoice{{Pool: 0, Clean: DrawInt(t, 0, 4, "clean")}}},
		}
	}
	first := DrawInt(t, 0, n-1, "first")
	runs = append(runs, problem.Run{First: first, Last: DrawInt(t, first, n-1, "last"), Amount: DrawInt(t, 1, 2, "amount"),
		Choices: []problem.PoolChoice{{Pool: 0, Clean: DrawInt(t, 0, 4, "clean")}, {Pool: 1, Clean: DrawInt(t, 0, 4, "clean")}}})
	if OneIn(t, 2, "second run") {
		first = DrawInt(t, 0, n-1, "first")
		runs = append(runs, problem.Run{First: first, Last: DrawInt(t, first, n-1, "last"), Amount: 1, Choices: []problem.PoolChoice{{Pool: 2, Clean: DrawInt(t, 0, 4, "clean")}}})
	}
	return runs
}

// lasting drops runs that might have no length: the engine asks room for their
// moment, the naive reading nothing.
func lasting(runs []problem.Run, acts []problem.Activity) []problem.Run {
	var out []problem.Run
	for _, r := range runs {
		n := 0
		for i := r.First; i <= r.Last+1 && i < len(acts); i++ {
			n += acts[i].Work
			if i <= r.Last && i < len(acts)-1 {
				n += acts[i].Lag.Least
			}
		}
		if n > 0 {
			out = append(out, r)
		}
	}
	return out
}

// drawStays puts the lags of some activities in spaces; the last activity, when
// it has no work, may carry on the stay before it.
func drawStays(t *rapid.T, m *problem.Model, acts []problem.Activity) []problem.Stay {
	var stays []problem.Stay
	n := len(acts)
	draw := func(first, last int) {
		s := problem.Stay{First: first, Last: last, Kind: DrawInt(t, 0, 1, "kind"), Boxes: DrawInt(t, 1, 2, "boxes")}
		for x := range m.Spaces {
			if OneIn(t, 2, "may stand") || x == 1 && len(s.Spaces) == 0 {
				s.Spaces = append(s.Spaces, x)
			}
		}
		stays = append(stays, s)
	}
	for i := 0; i < n; i++ {
		if !OneIn(t, 2, "stays") {
			continue
		}
		if i == n-2 && acts[n-1].Work == 0 {
			draw(i, i+1)
			break
		}
		draw(i, i)
	}
	return stays
}

func drawDemands(t *rapid.T, m *problem.Model, k Shape) {
	ahead := DrawInt(t, 0, 3, "ahead")
	least := 1
	if k.Worthless {
		least = 0
	}
	for d := 0; d < k.Demands; d++ {
		if k.Uneven {
			ahead = DrawInt(t, 0, 6, "ahead")
		}
		m.Demands = append(m.Demands, problem.Demand{Family: DrawInt(t, 0, k.Families-1, "family"), Due: m.From + DrawInt(t, 6, k.Length, "due"), Ahead: ahead,
			Units: DrawInt(t, 1, 2, "units"), Value: int64(DrawInt(t, least, 4, "value")), Promised: OneIn(t, 3, "promised")})
	}
}

// drawBegun takes a mode of a family that has begun its first activity.
func drawBegun(t *rapid.T, m *problem.Model, k Shape) {
	f := DrawInt(t, 0, k.Families-1, "begun family")
	mode := m.Families[f].Modes[0]
	b := problem.Begun{Family: f, Mode: mode}
	at := min(m.From-mode.Acts[0].Work-DrawInt(t, -2, 4, "began"), m.From-1)
	worker := -1
	if mode.Acts[0].Work > 0 {
		worker = mode.Acts[0].Workers[0]
	}
	b.Starts, b.Workers = []int{at}, []int{worker}
	if OneIn(t, 2, "may run late") {
		runLate(t, m, &b)
	}
	b.Choices, b.Homes = make([]int, len(mode.Runs)), make([]int, len(mode.Stays))
	for r := range mode.Runs {
		b.Choices[r] = DrawInt(t, 0, len(mode.Runs[r].Choices)-1, "chosen")
	}
	for r, s := range mode.Stays {
		b.Homes[r] = -1
		if s.First == 0 {
			b.Homes[r] = s.Spaces[0]
		}
	}
	m.Begun = append(m.Begun, b)
}

// runLate lets the lags of a job under way go on past their time: by a bit of lateness for every
// few ticks, at a cost that grows or not.
func runLate(t *rapid.T, m *problem.Model, b *problem.Begun) {
	b.Mode.Acts = slices.Clone(b.Mode.Acts)
	for i := 0; i < len(b.Mode.Acts)-1; i++ {
		lag := &b.Mode.Acts[i].Lag
		unit, rate, last := DrawInt(t, 1, 4, "late by"), DrawInt(t, 0, 3, "and costs"), int32(0)
		if n := len(lag.Cost); n > 0 {
			last = lag.Cost[n-1]
		}
		most := lag.Most
		lag.Past = &problem.Beyond{Of: func(l int) (late, cost int32) { return int32((l - most) / unit), last + int32((l-most)*rate) }}
	}
	if OneIn(t, 3, "waits so long") {
		b.Latest = make([]int, len(b.Mode.Acts))
		for i := range b.Latest {
			b.Latest[i] = m.From + DrawInt(t, 6, 12, "latest") + 6*i
		}
	}
}

// Within is a model in which what is under way may run late by some numbers.
func Within(t *rapid.T, m *problem.Model) *problem.Model {
	late := make([]int64, len(m.Begun))
	for b := range late {
		late[b] = int64(DrawInt(t, 0, 6, "so late"))
	}
	return m.Within(late)
}

// loosen takes away everything by which jobs could stand in each other's way.
func loosen(m *problem.Model) {
	for p := range m.Pools {
		m.Pools[p].Capacity = problem.Infinite
	}
	for x := range m.Spaces {
		m.Spaces[x].Floors, m.Spaces[x].Capacity = nil, problem.Infinite
	}
	for f := range m.Families {
		m.Families[f].Serves = 0
		for k := range m.Families[f].Modes {
			for i := range m.Families[f].Modes[k].Acts {
				m.Families[f].Modes[k].Acts[i].Work = 0
			}
		}
	}
	for i := range m.Intakes {
		m.Intakes[i].Amount = problem.Infinite
	}
}

// Text writes out a model for a failure.
func Text(m *problem.Model) string {
	var b strings.Builder
	fmt.Fprintf(&b, "step %d from %d horizon %d\n", m.Step, m.From, m.Horizon)
	line := func(name string, n int, at func(int) any) {
		for i := 0; i < n; i++ {
			fmt.Fprintf(&b, "%s %d %+v\n", name, i, at(i))
		}
	}
	line("worker", len(m.Workers), func(i int) any { return m.Workers[i] })
	line("pool", len(m.Pools), func(i int) any { return m.Pools[i] })
	line("space", len(m.Spaces), func(i int) any { return m.Spaces[i] })
	line("kind", len(m.Kinds), func(i int) any { return m.Kinds[i] })
	line("intake", len(m.Intakes), func(i int) any { return m.Intakes[i] })
	line("family", len(m.Families), func(i int) any { return m.Families[i] })
	line("demand", len(m.Demands), func(i int) any { return m.Demands[i] })
	line("stock", len(m.Stocks), func(i int) any { return m.Stocks[i] })
	line("begun", len(m.Begun), func(i int) any { return m.Begun[i] })
	return b.String()
}
