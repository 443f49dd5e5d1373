package cp

import (
	"sort"

	"ripeby/schedule/cp/kernel"
)

// want gives a literal's variable the value that makes it true, or false.
func (k *asked) want(values []int32, l kernel.Lit, holds bool) {
	if l == k.yes || l == k.yes.Not() {
		return
	}
	if !holds {
		l = l.Not()
	}
	if l.B&1 == 0 {
		values[l.B.Var()] = l.V
	} else {
		values[l.B.Var()] = -l.V
	}
}

func sortJobs(jobs []*Job) {
	sort.SliceStable(jobs, func(i, k int) bool {
		if jobs[i].Begun != jobs[k].Begun {
			return jobs[i].Begun > jobs[k].Begun
		}
		return jobs[i].Starts[0] < jobs[k].Starts[0]
	})
}

// holds reports whether a literal is true in the solution found.
func (k *asked) holds(l kernel.Lit) bool {
	v := k.k.Value(l.B.Var())
	if l.B&1 != 0 {
		v = -v
	}
	return v >= l.V
}

// picked is the place of the literal that is true in the solution found.
func (k *asked) picked(lits []kernel.Lit) int {
	for i, l := range lits {
		if k.holds(l) {
			return i
		}
	}
	return 0
}

// answer turns the solution found into placed jobs and stock; the boxes have a
// space, but stand nowhere in it yet.
func (k *asked) answer() (jobs []*Job, stocks []StockPlan) {
	for _, sl := range k.slots {
		if k.holds(sl.present()) {
			jobs = append(jobs, k.jobOf(sl))
		}
	}
	for i, st := range k.stock {
		p := StockPlan{Place: k.s.stocks[i].Place, End: k.m.Stocks[i].Keep}
		for x, d := range st.reach {
			if n := k.k.Value(st.give[x]); n > 0 {
				p.Shares = addShare(p.Shares, d, int(n))
			}
		}
		for x, sh := range p.Shares {
			if due := k.m.Demands[sh.Demand].Due; x == 0 || due > p.End {
				p.End = due
			}
		}
		stocks = append(stocks, p)
	}
	return jobs, stocks
}

func (k *asked) jobOf(sl *slot) *Job {
	mode := sl.modes[k.k.Value(sl.size)]
	n := sl.acts()
	j := &Job{Family: sl.family, Mode: int(k.k.Value(sl.size)), Begun: sl.begun, Intake: -1,
		Starts: make([]int, n), Workers: make([]int, n), Choices: make([]int, len(mode.Runs)), Stays: make([]StayPlace, len(mode.Stays))}
	if sl.begun >= 0 {
		j.Mode = -1
	}
	for i := range n {
		j.Workers[i] = -1
		switch {
		case i < sl.fixed:
			j.Starts[i], j.Workers[i] = k.m.Begun[sl.begun].Starts[i], k.m.Begun[sl.begun].Workers[i]
		default:
			j.Starts[i] = k.g.tick(k.k.Value(sl.start[i]))
			if len(sl.who[i]) > 0 {
				j.Workers[i] = mode.Acts[i].Workers[k.picked(sl.who[i])]
			}
		}
	}
	for r := range mode.Runs {
		if sl.begun >= 0 && mode.Runs[r].First < sl.fixed {
			j.Choices[r] = k.m.Begun[sl.begun].Choices[r]
			continue
		}
		for _, c := range sl.pools[r] {
			if k.holds(c.lit) {
				for x := range mode.Runs[r].Choices {
					if mode.Runs[r].Choices[x].Pool == c.pool {
						j.Choices[r] = x
					}
				}
				break
			}
		}
	}
	for _, d := range sl.draws {
		if k.holds(d.lit) {
			j.Intake = d.intake
			break
		}
	}
	for x, d := range sl.reach {
		if n := k.k.Value(sl.give[x]); n > 0 {
			j.Shares = addShare(j.Shares, d, int(n))
		}
	}
	k.finishJob(sl, mode, j)
	return j
}

// finishJob works out what follows from a job's starts and shares.
func (k *asked) finishJob(sl *slot, mode *Mode, j *Job) {
	n := len(mode.Acts)
	j.Ready = j.Starts[n-1] + mode.Acts[n-1].Work
	j.End = j.Ready + lastLag(mode).Least
	if sl.fixed == n {
		j.End = max(j.End, k.m.From)
	}
	for x, sh := range j.Shares {
		if due := k.m.Demands[sh.Demand].Due; x == 0 || due > j.End {
			j.End = due
		}
	}
	j.Bother = k.s.botherOf(j, mode, sl.fixed)
	for r := range mode.Stays {
		if sl.begun >= 0 && mode.Stays[r].First < sl.fixed {
			j.Stays[r] = StayPlace{Space: k.m.Begun[sl.begun].Homes[r]}
			if r == k.m.Begun[sl.begun].runningStay() {
				j.Stays[r] = k.s.homes[sl.begun]
			}
			continue
		}
		j.Stays[r] = StayPlace{Space: mode.Stays[r].Spaces[k.picked(sl.spaces[r])]}
	}
}

// botherOf is what a job's lags cost, and for a new one its work in avoided time.
func (s *schedule) botherOf(j *Job, mode *Mode, fixed int) int64 {
	sum := int64(0)
	for i := range mode.Acts {
		if i < len(mode.Acts)-1 && i >= fixed-1 {
			lag, long := &mode.Acts[i].Lag, j.Starts[i+1]-j.Starts[i]-mode.Acts[i].Work
			if i == fixed-1 && long > lag.Most && lag.Late != nil {
				sum += int64(lag.Late(long))
				continue
			}
			sum += int64(costOfLag(lag, long))
		}
		if j.Begun < 0 && j.Workers[i] >= 0 && s.prep.avoid[j.Workers[i]] != nil {
			sum += int64(s.prep.avoidCost(s.prep.avoid[j.Workers[i]], j.Starts[i], mode.Acts[i].Work))
		}
	}
	return sum
}
