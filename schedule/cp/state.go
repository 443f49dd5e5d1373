package cp

import "sort"

// occupation is units of a pool that one job holds; fact marks one that began
// before the planning start, which no plan can undo.
type occupation struct {
	from, until, amount int
	job                 *Job
	fact                bool
}

// visit is the boxes of one stay, in one space.
type visit struct {
	from, until int
	boxes       int
	stacks      []Standing
	job         *Job
	fact        bool
}

// shift is a piece of work of a worker.
type shift struct {
	from, until int
	job         *Job
}

// ledger is everything that is placed, and what it uses. Lists are sorted by their start.
type ledger struct {
	m        *Model
	first    int // first grid start
	pools    [][]occupation
	spaces   [][]visit
	busy     [][]shift
	load     [][]int // per worker and day
	drawn    []int64
	jobs     []*Job
	homes    []StayPlace // of the running stay of each begun job
	arranged arrangement // how boxes are put now
	unmet    []int       // units short of each demand
	stocks   []StockPlan
	packed   *packed
	spent    int64
}

// newLedger is a kitchen with nothing in it, and answers of the packing that it shares with
// others.
func newLedger(m *Model, packed *packed) ledger {
	s := ledger{m: m, packed: packed, first: ceilTo(m.From, m.Step)}
	s.pools = make([][]occupation, len(m.Pools))
	s.spaces = make([][]visit, len(m.Spaces))
	s.busy = make([][]shift, len(m.Workers))
	s.load = make([][]int, len(m.Workers))
	for w := range m.Workers {
		s.load[w] = make([]int, len(m.Workers[w].Days))
	}
	s.drawn = make([]int64, len(m.Intakes))
	s.unmet = make([]int, len(m.Demands))
	for d := range m.Demands {
		s.unmet[d] = m.Demands[d].Units
	}
	return s
}

// packed is the questions to the packing answered so far, and orders of floors.
type packed struct {
	known map[string][]Placed
	turns [][arrangements / 2][]int // orders of each space's floors
}

func newPacked(m *Model) *packed {
	p := &packed{known: map[string][]Placed{}}
	for i := range m.Spaces {
		p.turns = append(p.turns, floorTurns(m.Spaces[i].Floors))
	}
	return p
}

// hold puts in force where boxes stand now, what stock gives, and jobs.
func (s *ledger) hold(homes []StayPlace, stocks []StockPlan, jobs []*Job) {
	s.homes, s.stocks = homes, append([]StockPlan(nil), stocks...)
	for i := range stocks {
		s.keepStock(i, stocks[i].Shares)
	}
	for _, j := range jobs {
		s.add(j)
	}
}

// modeOf is the mode by which the job runs.
func (s *ledger) modeOf(j *Job) *Mode {
	if j.Begun >= 0 {
		return &s.m.Begun[j.Begun].Mode
	}
	return &s.m.Families[j.Family].Modes[j.Mode]
}

// add puts a placed job's occupations, work and draw in force.
func (s *ledger) add(j *Job) {
	mode := s.modeOf(j)
	begun := 0
	if j.Begun >= 0 {
		begun = len(s.m.Begun[j.Begun].Starts)
	}
	for r := range mode.Runs {
		s.addRun(j, mode, r, begun)
	}
	for r := range mode.Stays {
		s.addStay(j, mode, r, begun)
	}
	for i, t := range j.Starts {
		if w := j.Workers[i]; w >= 0 && mode.Acts[i].Work > 0 {
			s.addWork(w, shift{t, t + mode.Acts[i].Work, j})
		}
	}
	if j.Intake >= 0 {
		s.drawn[j.Intake] += mode.Amount
	}
	for _, sh := range j.Shares {
		s.unmet[sh.Demand] -= sh.Units
	}
	s.jobs = append(s.jobs, j)
}

func (s *ledger) addRun(j *Job, mode *Mode, r, begun int) {
	from, until, ok := runSpan(j, mode, r)
	if !ok {
		return
	}
	c := mode.Runs[r].Choices[j.Choices[r]]
	s.addOccupation(c.Pool, occupation{from, until + c.Clean, mode.Runs[r].Amount, j, mode.Runs[r].First < begun})
}

func (s *ledger) addOccupation(pool int, o occupation) {
	s.pools[pool] = insert(s.pools[pool], o, func(i int) bool { return s.pools[pool][i].from > o.from })
}

// runSpan is a run's occupation without the cleaning; not ok for a run that a
// stuck job never comes to.
func runSpan(j *Job, mode *Mode, r int) (from, until int, ok bool) {
	run := &mode.Runs[r]
	if run.First >= len(j.Starts) {
		return 0, 0, false
	}
	until = j.End
	if next := run.Last + 1; next < len(mode.Acts) && next < len(j.Starts) {
		until = j.Starts[next] + mode.Acts[next].Work
	}
	return j.Starts[run.First], until, true
}

// staySpan is when a stay's boxes stand in its space.
func staySpan(j *Job, mode *Mode, r int) (from, until int, ok bool) {
	stay := &mode.Stays[r]
	if stay.First >= len(j.Starts) {
		return 0, 0, false
	}
	from = j.Starts[stay.First] + mode.Acts[stay.First].Work
	until = j.End
	if next := stay.Last + 1; next < len(mode.Acts) && next < len(j.Starts) {
		until = j.Starts[next]
	}
	return from, until, until > from
}

func (s *ledger) addStay(j *Job, mode *Mode, r, begun int) {
	from, until, ok := staySpan(j, mode, r)
	p := j.Stays[r]
	if !ok || p.Homeless || p.Space < 0 || until <= s.m.From {
		return
	}
	s.addVisit(p.Space, visit{from, until, mode.Stays[r].Boxes, p.Stacks, j, mode.Stays[r].First < begun})
}

func (s *ledger) addVisit(space int, v visit) {
	s.spaces[space] = insert(s.spaces[space], v, func(i int) bool { return s.spaces[space][i].from > v.from })
}

func (s *ledger) addWork(w int, b shift) {
	s.busy[w] = insert(s.busy[w], b, func(i int) bool { return s.busy[w][i].from > b.from })
	if d := dayOf(s.m.Workers[w].Days, b.from); d >= 0 {
		s.load[w][d] += b.until - b.from
	}
}

// remove takes a job out again; its shares are unmet once more.
func (s *ledger) remove(j *Job) {
	mode := s.modeOf(j)
	for r := range mode.Runs {
		if mode.Runs[r].First < len(j.Starts) {
			p := mode.Runs[r].Choices[j.Choices[r]].Pool
			s.pools[p] = without(s.pools[p], func(o *occupation) bool { return o.job == j })
		}
	}
	for r := range mode.Stays {
		if mode.Stays[r].First < len(j.Starts) && j.Stays[r].Space >= 0 {
			p := j.Stays[r].Space
			s.spaces[p] = without(s.spaces[p], func(v *visit) bool { return v.job == j })
		}
	}
	for i, t := range j.Starts {
		w := j.Workers[i]
		if w < 0 || mode.Acts[i].Work == 0 {
			continue
		}
		s.busy[w] = without(s.busy[w], func(b *shift) bool { return b.job == j && b.from == t })
		if d := dayOf(s.m.Workers[w].Days, t); d >= 0 {
			s.load[w][d] -= mode.Acts[i].Work
		}
	}
	if j.Intake >= 0 {
		s.drawn[j.Intake] -= mode.Amount
	}
	for _, sh := range j.Shares {
		s.unmet[sh.Demand] += sh.Units
	}
	for i := range s.jobs {
		if s.jobs[i] == j {
			s.jobs = append(s.jobs[:i], s.jobs[i+1:]...)
			break
		}
	}
}

// insert puts v before the first element that is later, in place.
func insert[T any](list []T, v T, later func(i int) bool) []T {
	at := sort.Search(len(list), later)
	list = append(list, v)
	copy(list[at+1:], list[at:])
	list[at] = v
	return list
}

// without drops the elements for which gone holds, in place.
func without[T any](list []T, gone func(*T) bool) []T {
	n := 0
	for i := range list {
		if !gone(&list[i]) {
			list[n] = list[i]
			n++
		}
	}
	return list[:n]
}

// dayOf is the day in which a start at t counts, -1 for none.
func dayOf(days []Day, t int) int {
	i := sort.Search(len(days), func(i int) bool { return days[i].Until > t })
	if i < len(days) && days[i].From <= t {
		return i
	}
	return -1
}

// cost is the six parts of what is placed.
func (s *ledger) cost() Cost {
	var c Cost
	for d, n := range s.unmet {
		v := int64(n) * s.m.Demands[d].Value
		if s.m.Demands[d].Promised {
			c.PromisedShort += v
		} else {
			c.Short += v
		}
	}
	for _, j := range s.jobs {
		c = c.Plus(s.jobCost(j))
	}
	return c
}

// jobCost is a job's own share of parts three to six.
func (s *ledger) jobCost(j *Job) Cost {
	if j.Begun >= 0 {
		return Cost{Bother: j.Bother}
	}
	return Cost{Jobs: 1, Amount: s.modeOf(j).Amount, Bother: j.Bother, Early: -int64(j.Starts[0] - s.m.From)}
}

func ceilTo(t, step int) int {
	r := t % step
	if r < 0 {
		r += step
	}
	if r == 0 {
		return t
	}
	return t + step - r
}

func floorTo(t, step int) int {
	r := t % step
	if r < 0 {
		r += step
	}
	return t - r
}
