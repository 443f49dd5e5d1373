package tiny

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"ripeby/schedule/cp/problem"
)

// Whole lists the cost of every plan of a tiny model.
type Whole struct {
	M       *problem.Model
	Board   *Board
	options [][]Way // of each begun job, then of all new jobs together
	units   []int   // demand of each unit owed
	Costs   map[problem.Cost]bool
	known   map[string][][2]int64
	steps   int
	over    bool                // gave up
	Shorts  map[string]Shortage // of every way of sharing out

	list func(chosen []*Way, from, kept []int, cost problem.Cost) // told of every plan; see ListedPlan
}

// Shortage is how many units of each demand a plan is short of, how many jobs it leaves where they
// are, and how late those under way are.
type Shortage struct {
	Units       []int
	Stuck, Late int64
}

// Way is one way of one job.
type Way struct {
	Family, Mode, Begun, Intake int
	End                         int // nowhere: serves nothing
	Ready                       int
	units                       int
	least, most                 int
	part                        Part
	Amount                      int64
	Cost                        problem.Cost

	Starts, Workers, Choices, Spaces []int
}

const (
	wholeWays  = 90
	wholeSteps = 20_000
)

// EveryPlan lists the costs of all plans; not ok when there are too many, or when
// what has begun cannot be carried on.
func EveryPlan(m *problem.Model) (*Whole, bool) { return listPlans(m, nil) }

// listPlans is everyPlan, which tells of every plan by what is chosen and who gives each unit.
func listPlans(m *problem.Model, list func(chosen []*Way, from, kept []int, cost problem.Cost)) (*Whole, bool) {
	w := &Whole{M: m, Board: NewBoard(m), Costs: map[problem.Cost]bool{}, known: map[string][][2]int64{}, Shorts: map[string]Shortage{}, list: list}
	for d := range m.Demands {
		for n := 0; n < m.Demands[d].Units; n++ {
			w.units = append(w.units, d)
		}
	}
	for b := range m.Begun {
		w.options = append(w.options, append(w.WaysOf(m.Begun[b].Family, -1, b, &m.Begun[b].Mode), leftWay(m, b)...))
	}
	var fresh []Way
	for f := range m.Families {
		for k := range m.Families[f].Modes {
			fresh = append(fresh, w.WaysOf(f, k, -1, &m.Families[f].Modes[k])...)
		}
	}
	if len(fresh) > wholeWays {
		return w, false
	}
	w.options = append(w.options, fresh)
	w.carry(0, nil)
	return w, !w.over && len(w.Costs) > 0
}

// leftWay is the way of a job under way that is left where it is, if it is not over.
func leftWay(m *problem.Model, b int) []Way {
	bg := &m.Begun[b]
	if len(bg.Starts) == len(bg.Mode.Acts) {
		return nil
	}
	return []Way{{Family: bg.Family, Mode: -1, Begun: b, Intake: -1, End: problem.Nowhere, Ready: problem.Infinite, Amount: bg.Mode.Amount,
		Starts: bg.Starts, Workers: bg.Workers, Choices: bg.Choices, Spaces: bg.Homes, Cost: problem.Cost{Stuck: 1}, part: leftPart(bg, bg.Homes)}}
}

// WaysOf lists all ways of a job that are good by themselves.
func (w *Whole) WaysOf(f, k, b int, mode *problem.Mode) []Way {
	m := w.M
	var fixed []int
	if b >= 0 {
		fixed = m.Begun[b].Starts
	}
	ends := map[int]bool{}
	for d := range m.Demands {
		if m.Demands[d].Family == f {
			ends[m.Demands[d].Due] = true
		}
	}
	list := []int{}
	for e := range ends {
		list = append(list, e)
	}
	sort.Ints(list)
	if b >= 0 {
		list = append(list, problem.Nowhere)
	}
	var out []Way
	n := len(mode.Acts)
	lag := mode.Acts[n-1].Lag
	for _, end := range list {
		lo, hi := end-min(lag.Most, m.Families[f].Keeps), end-lag.Least
		if end == problem.Nowhere {
			lo, hi = -problem.Infinite, m.Horizon
		}
		NaiveStarts(m, runningLate(m, b, mode), fixed, lo, hi, func(starts []int) {
			for i := len(fixed); b >= 0 && i < n; i++ {
				if starts[i] > latestOf(m, b, i) {
					return
				}
			}
			if len(out) <= wholeWays {
				out = append(out, w.variants(f, k, b, mode, starts, end)...)
			}
		})
	}
	return out
}

// runningLate is the mode of a job under way with lags that may go on past their time to the
// horizon; a new job's is its own.
func runningLate(m *problem.Model, b int, mode *problem.Mode) *problem.Mode {
	if b < 0 {
		return mode
	}
	out := *mode
	out.Acts = slices.Clone(mode.Acts)
	for i := max(len(m.Begun[b].Starts)-1, 0); i < len(out.Acts)-1; i++ {
		lag := &out.Acts[i].Lag
		lag.Turns = slices.Clone(lag.Turns)
		goOn := func(l problem.Lag) problem.Lag {
			if l.Past != nil {
				l.Most = max(l.Most, m.Horizon-min(m.From, m.Begun[b].Starts[0]))
			}
			return l
		}
		for k, turn := range lag.Turns {
			is := goOn(*turn.Lag)
			lag.Turns[k].Lag = &is
		}
		*lag = goOn(*lag)
	}
	return &out
}

// choicesOf is how many workers, pools and spaces each activity, run and stay may choose from;
// those before done have chosen.
func choicesOf(mode *problem.Mode, done int) (sizes []int) {
	size := func(fixed bool, n int) {
		if fixed {
			n = 1
		}
		sizes = append(sizes, n)
	}
	for i := range mode.Acts {
		size(i < done || mode.Acts[i].Work == 0, len(mode.Acts[i].Workers))
	}
	for _, r := range mode.Runs {
		size(r.First < done, len(r.Choices))
	}
	for _, s := range mode.Stays {
		size(s.First < done, len(s.Spaces))
	}
	return sizes
}

// variants are the ways with given starts.
func (w *Whole) variants(f, k, b int, mode *problem.Mode, starts []int, end int) []Way {
	m := w.M
	n, done := len(mode.Acts), 0
	if b >= 0 {
		done = len(m.Begun[b].Starts)
	}
	sizes := choicesOf(mode, done)
	draws := b < 0 && m.Families[f].Supply >= 0
	if draws {
		sizes = append(sizes, len(m.Intakes))
	}
	ready := starts[n-1] + mode.Acts[n-1].Work
	var out []Way
	Mixed(sizes, func(pick []int) {
		workers := make([]int, n)
		for i := range workers {
			workers[i] = -1
			if mode.Acts[i].Work > 0 {
				workers[i] = mode.Acts[i].Workers[pick[i]]
			}
			if i < done {
				workers[i] = m.Begun[b].Workers[i]
			}
		}
		choices := append([]int(nil), pick[n:n+len(mode.Runs)]...)
		spaces := make([]int, len(mode.Stays))
		for r := range choices {
			if mode.Runs[r].First < done {
				choices[r] = m.Begun[b].Choices[r]
			}
		}
		for r := range spaces {
			spaces[r] = mode.Stays[r].Spaces[pick[n+len(mode.Runs)+r]]
			if mode.Stays[r].First < done {
				spaces[r] = m.Begun[b].Homes[r]
			}
		}
		v := Way{Family: f, Mode: k, Begun: b, Intake: -1, End: end, Ready: ready, units: mode.Units,
			least: mode.Acts[n-1].Lag.Least, most: mode.Acts[n-1].Lag.Most, Amount: mode.Amount,
			Starts: slices.Clone(starts), Workers: workers, Choices: choices, Spaces: spaces}
		if draws {
			v.Intake = pick[len(pick)-1]
			in := &m.Intakes[v.Intake]
			if in.Supply != m.Families[f].Supply || starts[0] < in.Ready || starts[0] > in.Until {
				return
			}
		}
		v.Cost.Penalty = NaiveBother(m, mode, done, starts, workers)
		if b >= 0 {
			v.Cost.Late = NaiveLate(mode, done, starts)
		}
		if b < 0 {
			v.Cost.Jobs, v.Cost.Amount, v.Cost.Early = 1, mode.Amount, -int64(starts[0]-m.From)
		}
		last := end
		if end == problem.Nowhere {
			last = ready + v.least
			if done == n {
				last = max(last, m.From)
			}
		}
		v.part = PartOf(mode, done, starts, workers, choices, spaces, last)
		w.Board.Put(v.part, 1)
		if w.Board.Fault(v.part) == "" {
			out = append(out, v)
		}
		w.Board.Put(v.part, -1)
	})
	return out
}

// carry chooses a way for begun job b and all after it, then new jobs.
func (w *Whole) carry(b int, chosen []*Way) {
	if b == len(w.M.Begun) {
		w.addNew(0, chosen, make([]int64, len(w.M.Intakes)))
		return
	}
	for i := range w.options[b] {
		v := &w.options[b][i]
		w.Board.Put(v.part, 1)
		if w.Board.Fault(v.part) == "" {
			w.carry(b+1, append(chosen, v))
		}
		w.Board.Put(v.part, -1)
	}
}

// addNew records the plans with the chosen jobs and goes on to more jobs.
func (w *Whole) addNew(from int, chosen []*Way, drawn []int64) {
	if w.steps++; w.steps > wholeSteps {
		w.over = true
		return
	}
	w.record(chosen)
	if len(chosen)-len(w.M.Begun) == len(w.units) {
		return
	}
	fresh := w.options[len(w.M.Begun)]
	for i := from; i < len(fresh); i++ {
		v := &fresh[i]
		if v.Intake >= 0 && drawn[v.Intake]+v.Amount > w.M.Intakes[v.Intake].Amount {
			continue
		}
		w.Board.Put(v.part, 1)
		if w.Board.Fault(v.part) == "" {
			if v.Intake >= 0 {
				drawn[v.Intake] += v.Amount
			}
			w.addNew(i, append(chosen, v), drawn)
			if v.Intake >= 0 {
				drawn[v.Intake] -= v.Amount
			}
		}
		w.Board.Put(v.part, -1)
	}
}

func (w *Whole) record(chosen []*Way) {
	var base problem.Cost
	var key strings.Builder
	for _, v := range chosen {
		base = base.Plus(v.Cost)
		fmt.Fprint(&key, v.Family, v.Begun, v.End, v.Ready, v.units, v.Cost.Stuck, v.Cost.Late, ";")
	}
	kept, counts := tellings(w.M, chosen)
	shorts, ok := w.known[key.String()]
	if !ok {
		shorts = w.serve(chosen, base, nil)
		w.known[key.String()] = shorts
	}
	for i, u := range counts {
		if w.list != nil {
			w.serve(chosen, base.Plus(problem.Cost{Moved: u.Moved, Penalty: u.Points}), kept[i])
		}
	}
	for _, s := range shorts {
		for _, u := range counts {
			c := base.Plus(problem.Cost{PromisedShort: s[0], Short: s[1], Moved: u.Moved, Penalty: u.Points})
			w.Costs[c] = true
		}
	}
}

// serve gives the values short of every way of sharing out the units. It lists the plans where it is
// said which kept ones the jobs are.
func (w *Whole) serve(chosen []*Way, base problem.Cost, kept []int) [][2]int64 {
	m := w.M
	from := make([]int, len(w.units)) // of each unit, who gives it; -1 for nobody
	n := len(chosen) + len(m.Stocks)
	given := make([]int, n)
	last := make([]int, n)
	promised := make([]bool, n)
	found := map[[2]int64]bool{}
	unmet := make([]int, len(m.Demands))
	var share func(u int, short [2]int64)
	share = func(u int, short [2]int64) {
		if u == len(w.units) {
			for i, v := range chosen {
				if v.End == problem.Nowhere {
					if given[i] > 0 {
						return
					}
					continue
				}
				least := 1
				if v.Begun < 0 && !promised[i] {
					least = max(least, m.Families[v.Family].Serves)
				}
				if given[i] < least || last[i] != v.End {
					return
				}
			}
			found[short] = true
			w.Shorts[fmt.Sprint(unmet, base.Stuck, base.Late)] = Shortage{append([]int(nil), unmet...), base.Stuck, base.Late}
			if w.list != nil && kept != nil {
				w.list(chosen, from, kept, base.Plus(problem.Cost{PromisedShort: short[0], Short: short[1]}))
			}
			return
		}
		d := &m.Demands[w.units[u]]
		for i := 0; i < n; i++ {
			family, ready, units := 0, 0, 0
			if i < len(chosen) {
				family, ready, units = chosen[i].Family, chosen[i].Ready, chosen[i].units
			} else {
				st := &m.Stocks[i-len(chosen)]
				family, ready, units = st.Family, st.Ready, st.Units
			}
			if family != d.Family || given[i] == units || ready > d.Due-d.Ahead || d.Due > ready+m.Families[family].Keeps {
				continue
			}
			l, p := last[i], promised[i]
			given[i]++
			if given[i] == 1 || d.Due > last[i] {
				last[i] = d.Due
			}
			promised[i] = (promised[i] && given[i] > 1) || d.Promised
			from[u] = i
			share(u+1, short)
			given[i]--
			last[i], promised[i] = l, p
		}
		if d.Promised {
			short[0] += d.Value
		} else {
			short[1] += d.Value
		}
		unmet[w.units[u]]++
		from[u] = -1
		share(u+1, short)
		unmet[w.units[u]]--
	}
	share(0, [2]int64{})
	var out [][2]int64
	for s := range found {
		out = append(out, s)
	}
	return out
}

// Best is the cheapest of all plans.
func (w *Whole) Best() problem.Cost {
	var best problem.Cost
	first := true
	for c := range w.Costs {
		if first || c.Less(best) {
			best, first = c, false
		}
	}
	return best
}

// LeastAfter is the least of part i among plans whose earlier parts are those of c.
func (w *Whole) LeastAfter(c problem.Cost, i int) (int64, bool) {
	least, some := int64(0), false
	want := c.Parts()
	for o := range w.Costs {
		p := o.Parts()
		same := true
		for x := 0; x < i; x++ {
			same = same && p[x] == want[x]
		}
		if same && (!some || p[i] < least) {
			least, some = p[i], true
		}
	}
	return least, some
}
