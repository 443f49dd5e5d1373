package cp

import (
	"flag"
	"fmt"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// tiny says what random models may hold.
type tiny struct {
	families, demands int
	acts              int
	length            int // ticks from start to horizon
	days, avoid       bool
	floors, closed    bool
	intakes           bool
	uneven            bool // demands of one family differ in Ahead
	leastOverAhead    bool // the last lag's least may exceed Ahead
	worthless         bool // some units have no value
	odd               bool // amounts of modes grow unevenly
	clash             bool // runs of one job may meet in one pool in any way
	free              bool // pools and spaces without limit, workers who are always there and many
	stocks, begun     int
}

// checkMany is rapid.Check times over, with other draws each time: what it tries is
// cheap.
func checkMany(t *testing.T, times int, prop func(*rapid.T)) {
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

func drawInt(t *rapid.T, lo, hi int, name string) int { return rapid.IntRange(lo, hi).Draw(t, name) }

func oneIn(t *rapid.T, n int, name string) bool { return drawInt(t, 1, n, name) == 1 }

// drawModel makes a random model.
func drawModel(t *rapid.T, k tiny) *Model {
	step := drawInt(t, 1, 3, "step")
	m := &Model{Step: step, From: drawInt(t, -7, 7, "from"), Packing: linePacking}
	m.Horizon = m.From + k.length
	drawWorkers(t, m, k)
	for p := 0; p < 3; p++ {
		m.Pools = append(m.Pools, Pool{Capacity: drawInt(t, 1, 3, "capacity")})
	}
	m.Kinds = []Kind{{Size: Rect{1, 1}, Height: 2}, {Size: Rect{2, 1}, Height: 3}}
	for x := 0; x < 2; x++ {
		sp := Space{Capacity: drawInt(t, 1, 3, "room")}
		if k.floors && oneIn(t, 2, "measured") {
			for f := 0; f < drawInt(t, 1, 2, "floors"); f++ {
				fl := Floor{Size: Rect{int64(drawInt(t, 1, 4, "wide")), 1}, Height: int64(drawInt(t, 1, 6, "high"))}
				if k.closed && oneIn(t, 3, "floor closed") {
					fl.Closed = drawSpans(t, m, 1)
				}
				sp.Floors = append(sp.Floors, fl)
			}
		}
		if k.closed && oneIn(t, 2, "closed") {
			sp.Closed = drawSpans(t, m, 2)
		}
		m.Spaces = append(m.Spaces, sp)
	}
	for f := 0; f < k.families; f++ {
		drawFamily(t, m, k)
	}
	if k.intakes {
		for i := 0; i < drawInt(t, 1, 3, "intakes"); i++ {
			ready := m.From + drawInt(t, -3, k.length-6, "milk")
			m.Intakes = append(m.Intakes, Intake{Supply: 0, Ready: ready, Until: ready + drawInt(t, 0, 12, "fresh"), Amount: int64(drawInt(t, 1, 8, "litres"))})
		}
	}
	drawDemands(t, m, k)
	for i := 0; i < k.stocks; i++ {
		m.Stocks = append(m.Stocks, Stock{Family: drawInt(t, 0, k.families-1, "stock family"), Ready: m.From - drawInt(t, 0, 6, "packed"),
			Units: drawInt(t, 1, 2, "pieces"), Space: -1, Pool: -1, Keep: m.Horizon})
	}
	for i := 0; i < k.begun; i++ {
		drawBegun(t, m, k)
	}
	if k.free {
		loosen(m)
	}
	return m
}

func drawSpans(t *rapid.T, m *Model, n int) []Span {
	var out []Span
	at := m.From
	for i := 0; i < n; i++ {
		from := at + drawInt(t, 0, 20, "gap")
		at = from + drawInt(t, 1, 9, "long")
		out = append(out, Span{from, at})
		at++
	}
	return out
}

func drawWorkers(t *rapid.T, m *Model, k tiny) {
	length := m.Horizon - m.From
	for w := 0; w < 2; w++ {
		wk := Worker{Windows: []Span{{m.From, m.Horizon}}}
		if oneIn(t, 2, "away") {
			cut := m.From + drawInt(t, 3, length-6, "cut")
			wk.Windows = []Span{{m.From + drawInt(t, 0, 2, "late"), cut}, {cut + drawInt(t, 1, 5, "pause"), m.Horizon}}
		}
		if k.avoid && oneIn(t, 2, "avoids") {
			wk.Avoid = drawSpans(t, m, 2)
		}
		if k.days && oneIn(t, 2, "limits") {
			half := m.From + length/2
			wk.Days = []Day{{m.From, half, m.Step * drawInt(t, 1, 6, "first day")}, {half, m.Horizon, m.Step * drawInt(t, 1, 6, "second day")}}
		}
		m.Workers = append(m.Workers, wk)
	}
}

func drawLag(t *rapid.T, m *Model, least, wide int) Lag {
	l := Lag{Least: least * m.Step, Most: (least + wide) * m.Step}
	flat := oneIn(t, 3, "flat lag")
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
func drawActs(t *rapid.T, m *Model, k tiny, n int) []Activity {
	var acts []Activity
	for i := 0; i < n; i++ {
		a := Activity{Work: m.Step * drawInt(t, 0, 3, "work")}
		if k.avoid && i == 0 {
			a.Work = m.Step * drawInt(t, 0, 6, "long work")
		}
		for w := range m.Workers {
			if len(a.Workers) == 0 || oneIn(t, 2, "helps") {
				a.Workers = append(a.Workers, w)
			}
		}
		if oneIn(t, 4, "turned") {
			a.Workers = []int{len(m.Workers) - 1}
		}
		a.Lag = drawLag(t, m, drawInt(t, 0, 2, "least"), drawInt(t, 0, 4, "wide"))
		if i == n-1 {
			a.Lag = Lag{Least: 0, Most: 30}
			if k.leastOverAhead {
				a.Lag.Least = drawInt(t, 0, 9, "rest")
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

func drawFamily(t *rapid.T, m *Model, k tiny) {
	f := Family{Keeps: drawInt(t, 4, 16, "keeps"), Supply: -1, Serves: drawInt(t, 0, 2, "serves")}
	if k.intakes {
		f.Supply = 0
	}
	acts := drawActs(t, m, k, drawInt(t, 1, k.acts, "acts"))
	runs, stays := lasting(drawRuns(t, m, k, len(acts)), acts), drawStays(t, m, acts)
	modes := drawInt(t, 1, 2, "modes")
	amount := 0
	for x := 0; x < modes; x++ {
		amount++
		if k.odd {
			amount += drawInt(t, 0, 4, "more")
		}
		f.Modes = append(f.Modes, Mode{Amount: int64(amount), Units: x + 1, Acts: acts, Runs: runs, Stays: stays})
	}
	m.Families = append(m.Families, f)
}

// drawRuns makes runs that share no pool within the job, but for two that meet at
// one activity with nothing to clean between; with clash, anything goes.
func drawRuns(t *rapid.T, m *Model, k tiny, n int) []Run {
	var runs []Run
	if k.clash {
		for x := 0; x < drawInt(t, 0, 3, "runs"); x++ {
			first := drawInt(t, 0, n-1, "first")
			run := Run{First: first, Last: drawInt(t, first, n-1, "last"), Amount: drawInt(t, 1, 2, "amount")}
			for p := range m.Pools {
				if oneIn(t, 2, "may use") || p == 2 && len(run.Choices) == 0 {
					run.Choices = append(run.Choices, PoolChoice{p, drawInt(t, 0, 4, "clean")})
				}
			}
			runs = append(runs, run)
		}
		return runs
	}
	if oneIn(t, 2, "bridge") && n > 1 {
		at := drawInt(t, 1, n-1, "at")
		return []Run{
			{First: drawInt(t, 0, at-1, "bf"), Last: at - 1, Amount: 1, Choices: []PoolChoice{{0, 0}}},
			{First: at, Last: drawInt(t, at, n-1, "bl"), Amount: drawInt(t, 1, 2, "bb"), Choices: []PoolChoice{{0, drawInt(t, 0, 4, "clean")}}},
		}
	}
	first := drawInt(t, 0, n-1, "first")
	runs = append(runs, Run{First: first, Last: drawInt(t, first, n-1, "last"), Amount: drawInt(t, 1, 2, "amount"),
		Choices: []PoolChoice{{0, drawInt(t, 0, 4, "clean")}, {1, drawInt(t, 0, 4, "clean")}}})
	if oneIn(t, 2, "second run") {
		first = drawInt(t, 0, n-1, "first")
		runs = append(runs, Run{First: first, Last: drawInt(t, first, n-1, "last"), Amount: 1, Choices: []PoolChoice{{2, drawInt(t, 0, 4, "clean")}}})
	}
	return runs
}

// lasting drops runs that might have no length: the engine asks room for their
// moment, the naive reading nothing.
func lasting(runs []Run, acts []Activity) []Run {
	var out []Run
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
func drawStays(t *rapid.T, m *Model, acts []Activity) []Stay {
	var stays []Stay
	n := len(acts)
	draw := func(first, last int) {
		s := Stay{First: first, Last: last, Kind: drawInt(t, 0, 1, "kind"), Boxes: drawInt(t, 1, 2, "boxes")}
		for x := range m.Spaces {
			if oneIn(t, 2, "may stand") || x == 1 && len(s.Spaces) == 0 {
				s.Spaces = append(s.Spaces, x)
			}
		}
		stays = append(stays, s)
	}
	for i := 0; i < n; i++ {
		if !oneIn(t, 2, "stays") {
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

func drawDemands(t *rapid.T, m *Model, k tiny) {
	ahead := drawInt(t, 0, 3, "ahead")
	least := 1
	if k.worthless {
		least = 0
	}
	for d := 0; d < k.demands; d++ {
		if k.uneven {
			ahead = drawInt(t, 0, 6, "ahead")
		}
		m.Demands = append(m.Demands, Demand{Family: drawInt(t, 0, k.families-1, "family"), Due: m.From + drawInt(t, 6, k.length, "due"), Ahead: ahead,
			Units: drawInt(t, 1, 2, "units"), Value: int64(drawInt(t, least, 4, "value")), Promised: oneIn(t, 3, "promised")})
	}
}

// drawBegun takes a mode of a family that has begun its first activity.
func drawBegun(t *rapid.T, m *Model, k tiny) {
	f := drawInt(t, 0, k.families-1, "begun family")
	mode := m.Families[f].Modes[0]
	b := Begun{Family: f, Mode: mode}
	at := min(m.From-mode.Acts[0].Work-drawInt(t, -2, 4, "began"), m.From-1)
	worker := -1
	if mode.Acts[0].Work > 0 {
		worker = mode.Acts[0].Workers[0]
	}
	b.Starts, b.Workers = []int{at}, []int{worker}
	b.Choices, b.Homes = make([]int, len(mode.Runs)), make([]int, len(mode.Stays))
	for r := range mode.Runs {
		b.Choices[r] = drawInt(t, 0, len(mode.Runs[r].Choices)-1, "chosen")
	}
	for r, s := range mode.Stays {
		b.Homes[r] = -1
		if s.First == 0 {
			b.Homes[r] = s.Spaces[0]
		}
	}
	m.Begun = append(m.Begun, b)
}

// loosen takes away everything by which jobs could stand in each other's way.
func loosen(m *Model) {
	for p := range m.Pools {
		m.Pools[p].Capacity = Infinite
	}
	for x := range m.Spaces {
		m.Spaces[x].Floors, m.Spaces[x].Capacity = nil, Infinite
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
		m.Intakes[i].Amount = Infinite
	}
}

// modelText writes out a model for a failure.
func modelText(m *Model) string {
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
	line("intake", len(m.Intakes), func(i int) any { return m.Intakes[i] })
	line("family", len(m.Families), func(i int) any { return m.Families[i] })
	line("demand", len(m.Demands), func(i int) any { return m.Demands[i] })
	line("stock", len(m.Stocks), func(i int) any { return m.Stocks[i] })
	line("begun", len(m.Begun), func(i int) any { return m.Begun[i] })
	return b.String()
}
