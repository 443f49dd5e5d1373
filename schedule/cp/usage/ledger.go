package usage

import (
	"slices"
	"sort"

	"ripeby/schedule/cp/problem"
)

// Occupation is units of a pool that one job holds; begun marks one that began
// before the planning start, which no plan can undo.
type Occupation struct {
	From, Until, Amount int
	Job                 *problem.Job
	Begun               bool
}

// Visit is the boxes of one stay, in one space.
type Visit struct {
	From, Until int
	Kind, Boxes int
	Stacks      []problem.Standing
	job         *problem.Job
	Begun       bool
}

// Shift is a piece of work of a worker.
type Shift struct {
	From, Until int
	job         *problem.Job
}

// Ledger is everything that is placed, and what it uses. Lists are sorted by their start.
type Ledger struct {
	Model    *problem.Model
	First    int // first grid start
	Pools    [][]Occupation
	Spaces   [][]Visit
	Busy     [][]Shift
	Load     [][]int // per worker and day
	Drawn    []int64
	Jobs     []*problem.Job
	Homes    []problem.StayPlace // of the running stay of each begun job
	Arranged Arrangement         // how boxes are put now
	Unmet    []int               // units short of each demand
	Stocks   []problem.StockPlan
	kept     []*problem.Job // the job that is each of the model's kept ones, nil for none
	unkept   problem.Unrest // what those count while none is
	packed   *Packings
	Spent    int64
}

// NewLedger is a kitchen with nothing in it, and answers of the packing that it shares with
// others.
func NewLedger(m *problem.Model, packed *Packings) Ledger {
	s := Ledger{Model: m, packed: packed, First: problem.CeilTo(m.From, m.Step)}
	s.Pools = make([][]Occupation, len(m.Pools))
	s.Spaces = make([][]Visit, len(m.Spaces))
	s.Busy = make([][]Shift, len(m.Workers))
	s.Load = make([][]int, len(m.Workers))
	for w := range m.Workers {
		s.Load[w] = make([]int, len(m.Workers[w].Days))
	}
	s.Drawn = make([]int64, len(m.Intakes))
	s.kept, s.unkept = make([]*problem.Job, len(m.Kept)), m.Unkept()
	s.Unmet = make([]int, len(m.Demands))
	for d := range m.Demands {
		s.Unmet[d] = m.Demands[d].Units
	}
	return s
}

// Hold puts in force where boxes stand now, what stock gives, and jobs.
func (s *Ledger) Hold(homes []problem.StayPlace, stocks []problem.StockPlan, jobs []*problem.Job) {
	s.Homes, s.Stocks = homes, append([]problem.StockPlan(nil), stocks...)
	for i := range stocks {
		s.KeepStock(i, stocks[i].Shares)
	}
	for _, j := range jobs {
		s.Add(j)
	}
}

// ModeOf is the mode by which the job runs.
func (s *Ledger) ModeOf(j *problem.Job) *problem.Mode {
	if j.Begun >= 0 {
		return &s.Model.Begun[j.Begun].Mode
	}
	return &s.Model.Families[j.Family].Modes[j.Mode]
}

// Add puts a placed job's occupations, work and draw in force.
func (s *Ledger) Add(j *problem.Job) {
	mode := s.ModeOf(j)
	begun := 0
	if j.Begun >= 0 {
		begun = len(s.Model.Begun[j.Begun].Starts)
	}
	for r := range mode.Runs {
		s.addRun(j, mode, r, begun)
	}
	for r := range mode.Stays {
		s.addStay(j, mode, r, begun)
	}
	for i, t := range j.Starts {
		if w := j.Workers[i]; w >= 0 && mode.Acts[i].Work > 0 {
			s.addWork(w, Shift{t, t + mode.Acts[i].Work, j})
		}
	}
	if j.Kept != nil {
		s.kept[j.Kept.Number] = j
	}
	if j.Intake >= 0 {
		s.Drawn[j.Intake] += mode.Amount
	}
	for _, sh := range j.Shares {
		s.Unmet[sh.Demand] -= sh.Units
	}
	s.Jobs = append(s.Jobs, j)
}

func (s *Ledger) addRun(j *problem.Job, mode *problem.Mode, r, begun int) {
	from, until, ok := j.Occupies(mode, mode.Runs[r].Occupied())
	if !ok {
		return
	}
	c := mode.Runs[r].Choices[j.Choices[r]]
	s.addOccupation(c.Pool, Occupation{from, until + c.Clean, mode.Runs[r].Amount, j, mode.Runs[r].First < begun})
}

func (s *Ledger) addOccupation(pool int, o Occupation) {
	s.Pools[pool] = insert(s.Pools[pool], o, func(i int) bool { return s.Pools[pool][i].From > o.From })
}

func (s *Ledger) addStay(j *problem.Job, mode *problem.Mode, r, begun int) {
	from, until, ok := j.Occupies(mode, mode.Stays[r].Occupied())
	p := j.Stays[r]
	if !ok || p.Homeless || p.Space < 0 || until <= max(from, s.Model.From) {
		return
	}
	s.addVisit(p.Space, Visit{from, until, mode.Stays[r].Kind, mode.Stays[r].Boxes, p.Stacks, j, mode.Stays[r].First < begun})
}

func (s *Ledger) addVisit(space int, v Visit) {
	s.Spaces[space] = insert(s.Spaces[space], v, func(i int) bool { return s.Spaces[space][i].From > v.From })
}

func (s *Ledger) addWork(w int, b Shift) {
	s.Busy[w] = insert(s.Busy[w], b, func(i int) bool { return s.Busy[w][i].From > b.From })
	if d := problem.DayOf(s.Model.Workers[w].Days, b.From); d >= 0 {
		s.Load[w][d] += b.Until - b.From
	}
}

// Remove takes a job out again; its shares are unmet once more.
func (s *Ledger) Remove(j *problem.Job) {
	mode := s.ModeOf(j)
	for r := range mode.Runs {
		if mode.Runs[r].First < len(j.Starts) {
			p := mode.Runs[r].Choices[j.Choices[r]].Pool
			s.Pools[p] = without(s.Pools[p], func(o *Occupation) bool { return o.Job == j })
		}
	}
	for r := range mode.Stays {
		if mode.Stays[r].First < len(j.Starts) && j.Stays[r].Space >= 0 {
			p := j.Stays[r].Space
			s.Spaces[p] = without(s.Spaces[p], func(v *Visit) bool { return v.job == j })
		}
	}
	for i, t := range j.Starts {
		w := j.Workers[i]
		if w < 0 || mode.Acts[i].Work == 0 {
			continue
		}
		s.Busy[w] = without(s.Busy[w], func(b *Shift) bool { return b.job == j && b.From == t })
		if d := problem.DayOf(s.Model.Workers[w].Days, t); d >= 0 {
			s.Load[w][d] -= mode.Acts[i].Work
		}
	}
	if j.Kept != nil {
		s.kept[j.Kept.Number] = nil
	}
	if j.Intake >= 0 {
		s.Drawn[j.Intake] -= mode.Amount
	}
	for _, sh := range j.Shares {
		s.Unmet[sh.Demand] += sh.Units
	}
	for i := range s.Jobs {
		if s.Jobs[i] == j {
			s.Jobs = append(s.Jobs[:i], s.Jobs[i+1:]...)
			break
		}
	}
}

// Widen makes room for what a model has more of than the ledger's own, of which nothing
// is used.
func (s *Ledger) Widen(m *problem.Model) {
	s.Pools = slices.Grow(s.Pools, len(m.Pools))[:len(m.Pools)]
	s.Spaces = slices.Grow(s.Spaces, len(m.Spaces))[:len(m.Spaces)]
	s.Busy = slices.Grow(s.Busy, len(m.Workers))[:len(m.Workers)]
	s.Load = slices.Grow(s.Load, len(m.Workers))[:len(m.Workers)]
	s.Drawn = slices.Grow(s.Drawn, len(m.Intakes))[:len(m.Intakes)]
}

// IdleWorkers has no work placed for anybody.
func (s *Ledger) IdleWorkers() {
	s.Busy, s.Load = make([][]Shift, len(s.Busy)), make([][]int, len(s.Load))
	for w := range s.Load {
		s.Load[w] = make([]int, len(s.Model.Workers[w].Days))
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

// Cost is the parts of what is placed.
func (s *Ledger) Cost() problem.Cost {
	c := problem.Cost{Moved: s.unkept.Moved, Penalty: s.unkept.Points}
	for d, n := range s.Unmet {
		v := int64(n) * s.Model.Demands[d].Value
		if s.Model.Demands[d].Promised {
			c.PromisedShort += v
		} else {
			c.Short += v
		}
	}
	for _, j := range s.Jobs {
		c = c.Plus(s.JobCost(j))
	}
	return c
}

// JobCost is a job's own share of the parts that are not of what is short. One that is a kept one
// has what that saves.
func (s *Ledger) JobCost(j *problem.Job) problem.Cost {
	mode := s.ModeOf(j)
	u := s.Model.UnrestOf(j, mode)
	switch {
	case j.Begun >= 0 && (j.Stuck || s.Model.Begun[j.Begun].Left != nil):
		return problem.Cost{Stuck: 1, Moved: u.Moved, Penalty: u.Points}
	case j.Begun >= 0:
		return problem.Cost{Late: j.Late, Moved: u.Moved, Penalty: j.Penalty + u.Points}
	}
	return problem.Cost{Jobs: 1, Moved: u.Moved, Amount: mode.Amount, Penalty: j.Penalty + u.Points, Early: -int64(j.Starts[0] - s.Model.From)}
}

// RemoveAll takes all jobs out.
func (s *Ledger) RemoveAll() {
	for _, j := range append([]*problem.Job(nil), s.Jobs...) {
		s.Remove(j)
	}
}

// LastEnd is when all that is placed and ends is over.
func (s *Ledger) LastEnd() int {
	last := s.First
	add := func(until int) {
		if until < problem.Infinite {
			last = max(last, until)
		}
	}
	for _, list := range s.Pools {
		for i := range list {
			add(list[i].Until)
		}
	}
	for _, list := range s.Spaces {
		for i := range list {
			add(list[i].Until)
		}
	}
	return last
}

// IsFree reports whether no job that is placed is a kept one.
func (s *Ledger) IsFree(k *problem.Kept) bool { return s.kept[k.Number] == nil }
