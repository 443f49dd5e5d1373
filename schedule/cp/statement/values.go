package statement

import (
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/usage"
)

// ValuesOf turns a plan into values for the kernel's variables: the search begins
// near it. It gives false when the plan does not fit the slots.
func (k *Statement) ValuesOf(s *usage.Ledger) ([]int32, bool) {
	values := make([]int32, k.Kernel.Vars())
	for x := range values {
		values[x] = k.Kernel.Min(kernel.Var(x))
	}
	taken := map[*Slot]bool{}
	jobs := append([]*problem.Job(nil), s.Jobs...)
	problem.SortJobs(jobs)
	for _, j := range jobs {
		sl := k.SlotFor(j, taken)
		if sl == nil {
			return nil, false
		}
		taken[sl] = true
		k.guideSlot(values, sl, j)
	}
	for d := range k.Short {
		values[k.Short[d]] = int32(s.Unmet[d])
	}
	for i, st := range k.Stock {
		for x, d := range st.Reach {
			values[st.Give[x]] = int32(problem.UnitsFor(s.Stocks[i].Shares, d))
		}
		values[st.leave.rank] = st.leave.at(s.Stocks[i].End)
	}
	cost := s.Cost()
	for p := range k.Cost {
		values[k.Cost[p]] = k.Value(cost, p)
	}
	return values, true
}

// SlotFor is the first free slot that a job can stand in.
func (k *Statement) SlotFor(j *problem.Job, taken map[*Slot]bool) *Slot {
	for _, sl := range k.Slots {
		if taken[sl] || sl.Begun != j.Begun || sl.Family != j.Family {
			continue
		}
		if j.Begun >= 0 || sl.Due == j.End {
			return sl
		}
	}
	return nil
}

func (k *Statement) guideSlot(values []int32, sl *Slot, j *problem.Job) {
	if j.Stuck {
		values[sl.Here], values[sl.left] = 0, 1
		return
	}
	values[sl.Here] = 1
	if j.Begun < 0 {
		values[sl.Amount] = int32(sl.Modes[j.Mode].Amount / k.unit[problem.PartAmount])
		values[sl.Early] = k.last - k.Grid.Down(j.Starts[0])
	}
	values[sl.Penalty] = int32(j.Penalty)
	if sl.Late != k.Zero {
		values[sl.Late] = int32(j.Late)
	}
	mode := k.Schedule.ModeOf(j)
	for _, d := range sl.Decisions() {
		if d.Number() {
			values[d.X] = k.number(&d, j)
		} else {
			k.want(values, d.Lit, d.Made(j, mode))
		}
	}
	for i := sl.Fixed; i < sl.Acts(); i++ {
		if x := sl.Done[i].X; x != sl.Start[i] {
			values[x] = k.Grid.Down(j.Starts[i]) + k.Grid.Long(mode.Acts[i].Work) - sl.Done[i].Add
		}
	}
}

// Pin lists what holds the statement to the plan that values from guide stand for,
// at no more than its cost; what follows from a plan is left to the kernel.
func (k *Statement) Pin(values []int32) []kernel.Lit {
	var out []kernel.Lit
	fix := func(xs ...kernel.Var) {
		for _, x := range xs {
			out = append(out, x.Ge(values[x]), x.Le(values[x]))
		}
	}
	for _, sl := range k.Slots {
		fix(sl.Here)
		if values[sl.Here] == 0 {
			continue
		}
		for _, d := range sl.Decisions() {
			if d.Number() {
				fix(d.X)
			} else if d.Lit != k.Yes {
				fix(d.Lit.B.Var())
			}
		}
	}
	for _, st := range k.Stock {
		fix(st.Give...)
	}
	for _, o := range k.Over {
		out = append(out, o.None())
	}
	for p := range k.Cost {
		out = append(out, k.Cost[p].Le(values[k.Cost[p]]))
	}
	return out
}
