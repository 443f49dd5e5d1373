package statement

import (
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
)

// want gives a literal's variable the value that makes it true, or false.
func (k *Statement) want(values []int32, l kernel.Lit, holds bool) {
	if l == k.Yes || l == k.Yes.Not() {
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

// Holds reports whether a literal is true in the solution found.
func (k *Statement) Holds(l kernel.Lit) bool {
	v := k.Kernel.Value(l.B.Var())
	if l.B&1 != 0 {
		v = -v
	}
	return v >= l.V
}

// picked is the place of the literal that is true in the solution found.
func (k *Statement) picked(lits []kernel.Lit) int {
	for i, l := range lits {
		if k.Holds(l) {
			return i
		}
	}
	return 0
}

// Answer turns the solution found into placed jobs and stock; the boxes have a
// space, but stand nowhere in it yet.
func (k *Statement) Answer() (jobs []*problem.Job, stocks []problem.StockPlan) {
	for _, sl := range k.Slots {
		if k.Holds(sl.Present()) {
			jobs = append(jobs, k.jobOf(sl))
		}
	}
	for i, st := range k.Stock {
		p := problem.StockPlan{Place: k.Schedule.Stocks[i].Place, End: k.Model.Stocks[i].Keep}
		for x, d := range st.Reach {
			if n := k.Kernel.Value(st.Give[x]); n > 0 {
				p.Shares = problem.AddShare(p.Shares, d, int(n))
			}
		}
		for x, sh := range p.Shares {
			if due := k.Model.Demands[sh.Demand].Due; x == 0 || due > p.End {
				p.End = due
			}
		}
		stocks = append(stocks, p)
	}
	return jobs, stocks
}

func (k *Statement) jobOf(sl *Slot) *problem.Job {
	mode := sl.Modes[k.Kernel.Value(sl.Size)]
	n := sl.Acts()
	j := &problem.Job{Family: sl.Family, Mode: int(k.Kernel.Value(sl.Size)), Begun: sl.Begun, Intake: -1,
		Starts: make([]int, n), Workers: make([]int, n), Choices: make([]int, len(mode.Runs)), Stays: make([]problem.StayPlace, len(mode.Stays))}
	if sl.Begun >= 0 {
		j.Mode = -1
	}
	for i := range n {
		j.Workers[i] = -1
		switch {
		case i < sl.Fixed:
			j.Starts[i], j.Workers[i] = k.Model.Begun[sl.Begun].Starts[i], k.Model.Begun[sl.Begun].Workers[i]
		default:
			j.Starts[i] = k.Grid.Tick(k.Kernel.Value(sl.Start[i]))
			if len(sl.Who[i]) > 0 {
				j.Workers[i] = mode.Acts[i].Workers[k.picked(sl.Who[i])]
			}
		}
	}
	for r := range mode.Runs {
		if sl.Begun >= 0 && mode.Runs[r].First < sl.Fixed {
			j.Choices[r] = k.Model.Begun[sl.Begun].Choices[r]
			continue
		}
		for _, c := range sl.Pools[r] {
			if k.Holds(c.Lit) {
				for x := range mode.Runs[r].Choices {
					if mode.Runs[r].Choices[x].Pool == c.Pool {
						j.Choices[r] = x
					}
				}
				break
			}
		}
	}
	for _, d := range sl.Draws {
		if k.Holds(d.Lit) {
			j.Intake = d.Intake
			break
		}
	}
	for x, d := range sl.Reach {
		if n := k.Kernel.Value(sl.Give[x]); n > 0 {
			j.Shares = problem.AddShare(j.Shares, d, int(n))
		}
	}
	k.finishJob(sl, mode, j)
	return j
}

// finishJob works out what follows from a job's starts and shares.
func (k *Statement) finishJob(sl *Slot, mode *problem.Mode, j *problem.Job) {
	n := len(mode.Acts)
	j.Ready = j.Starts[n-1] + mode.Acts[n-1].Work
	j.End = j.Ready + problem.LastLag(mode).Least
	if sl.Fixed == n {
		j.End = max(j.End, k.Model.From)
	}
	for x, sh := range j.Shares {
		if due := k.Model.Demands[sh.Demand].Due; x == 0 || due > j.End {
			j.End = due
		}
	}
	j.Penalty = k.Schedule.PenaltyOf(j, mode, sl.Fixed)
	for r := range mode.Stays {
		if sl.Begun >= 0 && mode.Stays[r].First < sl.Fixed {
			j.Stays[r] = problem.StayPlace{Space: k.Model.Begun[sl.Begun].Homes[r]}
			if r == k.Model.Begun[sl.Begun].RunningStay() {
				j.Stays[r] = k.Schedule.Homes[sl.Begun]
			}
			continue
		}
		j.Stays[r] = problem.StayPlace{Space: mode.Stays[r].Spaces[k.picked(sl.Spaces[r])]}
	}
}
