package statement

import (
	"ripeby/schedule/cp/chain"
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

// Answer turns the solution found into placed jobs and stock; the boxes have a
// space, but stand nowhere in it yet.
func (k *Statement) Answer() (jobs []*problem.Job, stocks []problem.StockPlan) {
	for _, sl := range k.Slots {
		switch {
		case k.Holds(sl.Present()):
			jobs = append(jobs, k.jobOf(sl))
		case sl.Begun >= 0:
			jobs = append(jobs, k.Schedule.LeftWhereItIs(sl.Begun))
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
	for i := range j.Workers {
		j.Workers[i] = -1
	}
	if sl.Begun >= 0 {
		j.Mode = -1
		k.asBegun(j)
	}
	for _, d := range sl.Decisions() {
		switch {
		case d.About == DecidesGift:
			if n := k.Kernel.Value(d.X); n > 0 {
				j.Shares = problem.AddShare(j.Shares, d.To, int(n))
			}
		case d.About == DecidesStart:
			j.Starts[d.At] = k.Grid.Tick(k.Kernel.Value(d.X))
		case !d.Number() && k.Holds(d.Lit):
			d.make(j, mode)
		}
	}
	k.finishJob(sl, mode, j)
	return j
}

// asBegun gives a job what of it has begun.
func (k *Statement) asBegun(j *problem.Job) {
	b := &k.Model.Begun[j.Begun]
	copy(j.Starts, b.Starts)
	copy(j.Workers, b.Workers[:len(b.Starts)])
	for r := range b.Mode.Runs {
		if b.Mode.Runs[r].First < len(b.Starts) {
			j.Choices[r] = b.Choices[r]
		}
	}
	for r := range b.Mode.Stays {
		if b.Mode.Stays[r].First < len(b.Starts) {
			j.Stays[r] = problem.StayPlace{Space: b.Homes[r]}
			if r == b.RunningStay() {
				j.Stays[r] = k.Schedule.Homes[j.Begun]
			}
		}
	}
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
	if sl.Begun >= 0 {
		j.Late = chain.LateOf(j, mode, sl.Fixed)
	}
}

// ReadyBy is a literal under which all that a demand gets is ready by a tick.
func (k *Statement) ReadyBy(demand, tick int) kernel.Lit {
	in := k.Kernel.NewVar(0, 1).Ge(1)
	for _, sl := range k.Slots {
		for x, d := range sl.Reach {
			if d == demand {
				k.Kernel.AddClause(in.Not(), sl.Give[x].Le(0), AtMost(sl.Done[sl.Acts()-1], k.Grid.Down(tick)))
			}
		}
	}
	return in
}
