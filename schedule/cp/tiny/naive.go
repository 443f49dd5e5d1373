package tiny

import (
	"fmt"

	"ripeby/schedule/cp/problem"
)

// The naive reading of a model, tick by tick. It shares nothing with the engine
// but the types, and it is slow on purpose.

// Part is what one job occupies: work, runs and stays.
type Part struct {
	works []taken // thing is the worker
	runs  []taken // thing is the pool
	Stays []taken // thing is the space
}

type taken struct {
	Thing, Amount, From, Until int
	Begun                      bool
	Kind                       int // of boxes
	Stacks                     []problem.Standing
}

// PartOf lays out a job's occupations; activities before begun have begun.
func PartOf(mode *problem.Mode, begun int, starts, workers, choices, spaces []int, end int) Part {
	var p Part
	n := len(mode.Acts)
	for i := range mode.Acts {
		if workers[i] >= 0 && mode.Acts[i].Work > 0 {
			p.works = append(p.works, taken{workers[i], 1, starts[i], starts[i] + mode.Acts[i].Work, i < begun, 0, nil})
		}
	}
	for r, run := range mode.Runs {
		until := end
		if run.Last+1 < n {
			until = starts[run.Last+1] + mode.Acts[run.Last+1].Work
		}
		c := run.Choices[choices[r]]
		p.runs = append(p.runs, taken{c.Pool, run.Amount, starts[run.First], until + c.Clean, run.First < begun, 0, nil})
	}
	for r, stay := range mode.Stays {
		until := end
		if stay.Last+1 < n {
			until = starts[stay.Last+1]
		}
		p.Stays = append(p.Stays, taken{spaces[r], stay.Boxes, starts[stay.First] + mode.Acts[stay.First].Work, until, stay.First < begun, stay.Kind, nil})
	}
	return p
}

// Board counts what is held at every tick.
type Board struct {
	m                   *problem.Model
	lo, hi              int
	pool, space, busy   [][]int
	load                [][]int
	Measured            []taken // stays in spaces with floors
	poolPlan, spacePlan [][]int // of it planned
}

// NewBoard is a board with nothing on it.
func NewBoard(m *problem.Model) *Board {
	b := &Board{m: m, lo: m.From - 60, hi: m.Horizon + 60}
	table := func(n int) [][]int {
		t := make([][]int, n)
		for i := range t {
			t[i] = make([]int, b.hi-b.lo)
		}
		return t
	}
	b.pool, b.space, b.busy = table(len(m.Pools)), table(len(m.Spaces)), table(len(m.Workers))
	b.poolPlan, b.spacePlan = table(len(m.Pools)), table(len(m.Spaces))
	for w := range m.Workers {
		b.load = append(b.load, make([]int, len(m.Workers[w].Days)))
	}
	return b
}

// Stand notes boxes that stand in the first space.
func (b *Board) Stand(from, until, kind, boxes int, stacks []problem.Standing) {
	b.Measured = append(b.Measured, taken{Amount: boxes, From: from, Until: until, Kind: kind, Stacks: stacks})
}

// Put adds a part, sign 1, or takes it out, sign -1.
func (b *Board) Put(p Part, sign int) {
	mark := func(row []int, x taken, n int) {
		for t := max(x.From, b.lo); t < min(x.Until, b.hi); t++ {
			row[t-b.lo] += sign * n
		}
	}
	for _, x := range p.runs {
		mark(b.pool[x.Thing], x, x.Amount)
		if !x.Begun {
			mark(b.poolPlan[x.Thing], x, x.Amount)
		}
	}
	for _, x := range p.Stays {
		mark(b.space[x.Thing], x, x.Amount)
		if !x.Begun {
			mark(b.spacePlan[x.Thing], x, x.Amount)
		}
	}
	for _, x := range p.works {
		mark(b.busy[x.Thing], x, 1)
		for d, day := range b.m.Workers[x.Thing].Days {
			if day.From <= x.From && x.From < day.Until {
				b.load[x.Thing][d] += sign * (x.Until - x.From)
			}
		}
	}
}

// Fault names the first thing that p, which is on the board, overdoes.
func (b *Board) Fault(p Part) string {
	now := b.m.From
	for _, x := range p.works {
		for t := max(x.From, now); t < x.Until; t++ {
			if t >= b.lo && t < b.hi && b.busy[x.Thing][t-b.lo] > 1 && !b.m.Workers[x.Thing].Many {
				return fmt.Sprintf("worker %d twice at %d", x.Thing, t)
			}
		}
		if x.Begun {
			continue
		}
		for d, day := range b.m.Workers[x.Thing].Days {
			if day.From <= x.From && x.From < day.Until && b.load[x.Thing][d] > day.Limit {
				return fmt.Sprintf("worker %d over the limit of day %d", x.Thing, d)
			}
		}
		inside := false
		for _, w := range b.m.Workers[x.Thing].Windows {
			inside = inside || (w.From <= x.From && x.Until <= w.Until)
		}
		if !inside {
			return fmt.Sprintf("worker %d is away at %d", x.Thing, x.From)
		}
	}
	for _, x := range p.runs {
		for t := max(x.From, b.lo, now); t < min(x.Until, b.hi); t++ {
			if b.pool[x.Thing][t-b.lo] > b.m.Pools[x.Thing].Capacity && (!x.Begun || b.poolPlan[x.Thing][t-b.lo] > 0) {
				return fmt.Sprintf("pool %d over at %d", x.Thing, t)
			}
		}
	}
	for _, x := range p.Stays {
		sp := &b.m.Spaces[x.Thing]
		if x.Until <= x.From {
			continue
		}
		if !x.Begun {
			for _, c := range sp.Closed {
				if max(c.From, x.From) < min(c.Until, x.Until) {
					return fmt.Sprintf("space %d closed at %d", x.Thing, max(c.From, x.From))
				}
			}
		}
		if len(sp.Floors) > 0 {
			continue
		}
		for t := max(x.From, b.lo, now); t < min(x.Until, b.hi); t++ {
			if b.space[x.Thing][t-b.lo] > sp.Capacity && (!x.Begun || b.spacePlan[x.Thing][t-b.lo] > 0) {
				return fmt.Sprintf("space %d over at %d", x.Thing, t)
			}
		}
	}
	return ""
}

// NaiveBother adds up lag costs and avoided time.
func NaiveBother(m *problem.Model, mode *problem.Mode, k int, starts, workers []int) int64 {
	var sum int64
	for i := range mode.Acts {
		if i+1 < len(mode.Acts) && i+1 >= k {
			l := starts[i+1] - starts[i] - mode.Acts[i].Work
			if lag := LagAt(mode.Acts[i].Lag, starts[i]+mode.Acts[i].Work); l > lag.Most {
				_, cost := lag.Past.Of(l)
				sum += int64(cost)
			} else {
				sum += int64(lag.Cost[l-lag.Least])
			}
		}
		if i < k || workers[i] < 0 || mode.Acts[i].Work == 0 {
			continue
		}
		avoided := 0
		for t := starts[i]; t < starts[i]+mode.Acts[i].Work; t++ {
			for _, a := range m.Workers[workers[i]].Avoid {
				if a.From <= t && t < a.Until {
					avoided++
				}
			}
		}
		sum += int64(avoided / 5) // one point for five ticks
	}
	return sum
}

// NaiveStarts calls visit with every list of starts of a mode that keeps the lags
// and ends its last work in [readyMin, readyMax]; the first ones may be fixed.
func NaiveStarts(m *problem.Model, mode *problem.Mode, fixed []int, readyMin, readyMax int, visit func([]int)) {
	n := len(mode.Acts)
	starts := append([]int(nil), fixed...)
	var next func()
	next = func() {
		i := len(starts)
		if i == n {
			if ready := starts[n-1] + mode.Acts[n-1].Work; readyMin <= ready && ready <= readyMax {
				visit(starts)
			}
			return
		}
		lo, hi := m.From, readyMax
		if i > 0 {
			from := starts[i-1] + mode.Acts[i-1].Work
			lag := LagAt(mode.Acts[i-1].Lag, from)
			lo, hi = max(lo, from+lag.Least), min(hi, from+lag.Most)
		}
		for t := lo; t <= hi; t++ {
			if t%m.Step == 0 {
				starts = append(starts, t)
				next()
				starts = starts[:len(starts)-1]
			}
		}
	}
	next()
}

// Mixed calls visit with every list of numbers below the sizes given.
func Mixed(sizes []int, visit func([]int)) {
	out := make([]int, len(sizes))
	for {
		visit(out)
		i := 0
		for ; i < len(out); i++ {
			if out[i]++; out[i] < sizes[i] {
				break
			}
			out[i] = 0
		}
		if i == len(out) {
			return
		}
	}
}

// NaiveRoom is how many boxes a line-shaped floor takes beside what stands on it:
// cells are one wide, boxes are wide cells long.
func NaiveRoom(length int64, wide int64, fixed []problem.Placed) int {
	free := make([]bool, length)
	for i := range free {
		free[i] = true
	}
	for _, p := range fixed {
		for x := p.X; x < p.X+p.W; x++ {
			free[x] = false
		}
	}
	most := make([]int, length+1)
	for x := int64(1); x <= length; x++ {
		most[x] = most[x-1]
		if x < wide {
			continue
		}
		all := true
		for y := x - wide; y < x; y++ {
			all = all && free[y]
		}
		if all {
			most[x] = max(most[x], most[x-wide]+1)
		}
	}
	return most[length]
}

// LinePacking packs boxes on a floor one deep, from the left.
func LinePacking(floor problem.Rect, fixed []problem.Placed, boxes []problem.Rect) ([]problem.Placed, bool) {
	var out []problem.Placed
	x := int64(0)
	for _, b := range boxes {
		for ; ; x++ {
			if x+b.W > floor.W {
				return nil, false
			}
			free := true
			for _, f := range fixed {
				free = free && (x+b.W <= f.X || f.X+f.W <= x)
			}
			if free {
				out = append(out, problem.Placed{X: x, Y: 0, W: b.W, D: b.D})
				x += b.W
				break
			}
		}
	}
	return out, true
}

// FaultOf reads a whole result and names what is wrong with it, "" for nothing.
func FaultOf(m *problem.Model, r *problem.Result) string {
	b := NewBoard(m)
	var parts []Part
	drawn := make([]int64, len(m.Intakes))
	short := make([]int, len(m.Demands))
	for d := range short {
		short[d] = m.Demands[d].Units
	}
	var c problem.Cost
	for i := range r.Jobs {
		j := &r.Jobs[i]
		if j.Stuck {
			if len(j.Shares) > 0 {
				return fmt.Sprintf("job %d is left where it is and serves something", i)
			}
			p := leftPart(&m.Begun[j.Begun], spacesOf(j))
			b.Put(p, 1)
			parts = append(parts, p)
			c.Stuck++
			continue
		}
		mode, begun := modeOfJob(m, j)
		if f := naiveJob(m, j, mode, begun, short, drawn); f != "" {
			return fmt.Sprintf("job %d: %s", i, f)
		}
		if j.Begun >= 0 {
			late := NaiveLate(mode, begun, j.Starts)
			if c.Late += late; late != j.Late {
				return fmt.Sprintf("job %d is %d late, said %d", i, late, j.Late)
			}
		} else {
			c = c.Plus(problem.Cost{Jobs: 1, Amount: mode.Amount, Early: -int64(j.Starts[0] - m.From)})
		}
		c.Penalty += NaiveBother(m, mode, begun, j.Starts, j.Workers)
		p := PartOf(mode, begun, j.Starts, j.Workers, j.Choices, spacesOf(j), j.End)
		for s := range p.Stays {
			p.Stays[s].Stacks = j.Stays[s].Stacks
			if p.Stays[s].Until > p.Stays[s].From && !j.Stays[s].Homeless {
				b.Measured = append(b.Measured, p.Stays[s])
			}
		}
		b.Put(p, 1)
		parts = append(parts, p)
	}
	for i := range r.Stocks {
		for _, sh := range r.Stocks[i].Shares {
			short[sh.Demand] -= sh.Units
			d := &m.Demands[sh.Demand]
			if ready := m.Stocks[i].Ready; ready > d.Due-d.Ahead || d.Due > ready+m.Families[d.Family].Keeps {
				return fmt.Sprintf("stock %d cannot serve demand %d", i, sh.Demand)
			}
		}
	}
	for _, p := range parts {
		if f := b.Fault(p); f != "" {
			return f
		}
	}
	for i, a := range m.Intakes {
		if drawn[i] > a.Amount {
			return fmt.Sprintf("intake %d overdrawn", i)
		}
	}
	for d := range short {
		if short[d] < 0 || short[d] != r.Short[d] {
			return fmt.Sprintf("demand %d is short %d, said %d", d, short[d], r.Short[d])
		}
		if m.Demands[d].Promised {
			c.PromisedShort += int64(short[d]) * m.Demands[d].Value
		} else {
			c.Short += int64(short[d]) * m.Demands[d].Value
		}
	}
	if c = c.Plus(unrestOf(m, r)); c != r.Cost {
		return fmt.Sprintf("cost %+v, said %+v", c, r.Cost)
	}
	return b.StandingFault()
}

func modeOfJob(m *problem.Model, j *problem.Job) (*problem.Mode, int) {
	if j.Begun >= 0 {
		return &m.Begun[j.Begun].Mode, len(m.Begun[j.Begun].Starts)
	}
	return &m.Families[j.Family].Modes[j.Mode], 0
}

// naiveJob checks what one job answers for alone, and counts what it serves and
// draws.
func naiveJob(m *problem.Model, j *problem.Job, mode *problem.Mode, begun int, short []int, drawn []int64) string {
	n := len(mode.Acts)
	ready := j.Starts[n-1] + mode.Acts[n-1].Work
	if ready != j.Ready {
		return "ready is wrong"
	}
	for i := range mode.Acts {
		if i >= begun && (j.Starts[i] < m.From || ((j.Starts[i]%m.Step)+m.Step)%m.Step != 0) {
			return fmt.Sprintf("activity %d off the grid or before the start", i)
		}
		if i+1 < n && i+1 >= begun {
			l := j.Starts[i+1] - j.Starts[i] - mode.Acts[i].Work
			lag := LagAt(mode.Acts[i].Lag, j.Starts[i]+mode.Acts[i].Work)
			if l < lag.Least || (l > lag.Most && (j.Begun < 0 || lag.Past == nil || j.Starts[i+1] > latestOf(m, j.Begun, i+1))) {
				return fmt.Sprintf("lag %d is %d", i, l)
			}
		}
		if i >= begun && mode.Acts[i].Work > 0 {
			can := false
			for _, w := range mode.Acts[i].Workers {
				can = can || w == j.Workers[i]
			}
			if !can {
				return fmt.Sprintf("activity %d by worker %d", i, j.Workers[i])
			}
		}
	}
	units, end, promised := 0, -problem.Infinite, false
	for _, sh := range j.Shares {
		d := &m.Demands[sh.Demand]
		units += sh.Units
		short[sh.Demand] -= sh.Units
		end, promised = max(end, d.Due), promised || d.Promised
		if d.Family != j.Family || ready > d.Due-d.Ahead || d.Due > ready+m.Families[d.Family].Keeps {
			return fmt.Sprintf("ready at %d cannot serve demand %d", ready, sh.Demand)
		}
	}
	if units > mode.Units {
		return "serves more than its units"
	}
	if j.Begun < 0 && (units == 0 || (units < m.Families[j.Family].Serves && !promised)) {
		return "serves too little"
	}
	if units > 0 {
		if l := end - ready; end != j.End || l < mode.Acts[n-1].Lag.Least || l > mode.Acts[n-1].Lag.Most {
			return "last delivery is out of limits"
		}
	}
	if j.Begun >= 0 {
		return ""
	}
	if supply := m.Families[j.Family].Supply; supply >= 0 {
		if j.Intake < 0 {
			return "draws nothing"
		}
		in := &m.Intakes[j.Intake]
		if in.Supply != supply || j.Starts[0] < in.Ready || j.Starts[0] > in.Until {
			return "draws at a wrong time"
		}
		drawn[j.Intake] += mode.Amount
	}
	return ""
}
