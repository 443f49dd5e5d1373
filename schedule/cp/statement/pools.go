package statement

import (
	"cmp"
	"slices"

	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
)

// addPools keeps every pool within its capacity, and pools that can stand for one
// another within theirs together.
func (k *Statement) addPools() {
	tasks := make([][]global.Task, len(k.Model.Pools))
	groups := map[string]*poolGroup{}
	var order []string
	for _, sl := range k.Slots {
		for r := range sl.Modes[0].Runs {
			all := k.addRun(sl, r, tasks)
			if all == nil {
				continue
			}
			var pools []int
			for _, c := range sl.Pools[r] {
				pools = append(pools, c.Pool)
			}
			key := problem.KeyOf(pools)
			if groups[key] == nil {
				groups[key] = &poolGroup{pools: pools}
				order = append(order, key)
			}
			groups[key].tasks = append(groups[key].tasks, *all)
		}
	}
	for i := range k.Model.Stocks {
		st := &k.Model.Stocks[i]
		if st.Pool >= 0 && st.Boxes > 0 {
			tasks[st.Pool] = append(tasks[st.Pool], global.Task{From: k.now(), Until: k.until(k.Stock[i].leave, st.Clean), Demand: always(int32(st.Boxes))})
		}
	}
	for p := range k.Model.Pools {
		if c := k.Model.Pools[p].Capacity; c < problem.Infinite && len(tasks[p]) > 0 {
			c := int32(min(c, 1<<20))
			held, _ := k.frozenHeld(p)
			global.AddCumulative(k.Kernel, k.addBegunAside(tasks[p], c), c, held)
		}
	}
	for _, key := range order {
		k.addGroup(groups[key])
	}
}

// poolGroup is pools that some runs may choose from.
type poolGroup struct {
	pools []int
	tasks []global.Task
}

// addGroup keeps runs that must use one of several pools within their sum.
func (k *Statement) addGroup(g *poolGroup) {
	sum := 0
	var taken []global.Taken
	for _, p := range g.pools {
		sum += min(k.Model.Pools[p].Capacity, 1<<20)
		_, planned := k.frozenHeld(p)
		taken = append(taken, planned...)
	}
	if len(g.tasks) > sum || len(taken) > 0 {
		global.AddCumulative(k.Kernel, g.tasks, int32(min(sum, 1<<24)), taken)
	}
}

func always(n int32) global.Amount { return global.Amount{Table: []int32{n}} }

// now is the planning start: what stands since before it counts from there on.
func (k *Statement) now() global.Moment {
	return global.Moment{X: k.Zero, Add: k.Grid.Down(k.Model.From)}
}

// addRun adds a run of a job to the tasks of the pools that it may use; it gives
// the task by itself where there are several.
func (k *Statement) addRun(sl *Slot, r int, tasks [][]global.Task) *global.Task {
	var list []Choice
	if sl.Begun >= 0 && sl.Modes[0].Runs[r].First < sl.Fixed {
		c := sl.Modes[0].Runs[r].Choices[k.Model.Begun[sl.Begun].Choices[r]]
		list = []Choice{{c.Pool, c.Clean, k.Yes}}
	} else {
		list = k.choicesOf(sl, r)
	}
	sl.Pools = append(sl.Pools, list)
	demand := sl.table(func(m *problem.Mode) int32 { return int32(m.Runs[r].Amount) })
	for _, c := range list {
		task := k.runTask(sl, r, c.Clean)
		task.Demand = demand
		task.If = ifs(sl.Present(), c.Lit, k.Yes)
		tasks[c.Pool] = append(tasks[c.Pool], task)
		if run := &sl.Modes[0].Runs[r]; sl.left != k.Zero && run.First < sl.Fixed && run.Occupied().Until.Act >= sl.Fixed { // else it has an end that is known
			tasks[c.Pool] = append(tasks[c.Pool], global.Task{From: task.From, Until: global.Moment{X: k.Zero, Add: k.last}, Demand: demand, If: []kernel.Lit{sl.Present().Not()}})
		}
	}
	if len(list) < 2 {
		return nil
	}
	least := slices.MinFunc(list, func(a, b Choice) int { return cmp.Compare(a.Clean, b.Clean) })
	task := k.runTask(sl, r, least.Clean)
	task.Demand, task.If = demand, ifs(sl.Present(), k.Yes, k.Yes)
	return &task
}

// ifs lists two literals without those that are always true.
func ifs(a, b, yes kernel.Lit) []kernel.Lit {
	var out []kernel.Lit
	for _, l := range []kernel.Lit{a, b} {
		if l != yes {
			out = append(out, l)
		}
	}
	return out
}

// choicesOf makes the literals of the pools that some size of a run may use; a pool
// that the larger sizes may not use limits the size.
func (k *Statement) choicesOf(sl *Slot, r int) []Choice {
	var out []Choice
	first := sl.Modes[0].Runs[r].Choices // of the smallest: all that any size has
	lits := k.oneOf(len(first))
	for i, c := range first {
		out = append(out, Choice{c.Pool, c.Clean, lits[i]})
		most := int32(0)
		for m, mode := range sl.Modes {
			if slices.Contains(mode.Runs[r].Choices, c) {
				most = int32(m)
			}
		}
		k.Kernel.AddClause(lits[i].Not(), sl.Size.Le(most))
	}
	return out
}

// runTask is when a run holds its pool and has it cleaned.
func (k *Statement) runTask(sl *Slot, r, clean int) global.Task {
	run := &sl.Modes[0].Runs[r]
	h := run.Occupied()
	t := global.Task{From: k.moment(sl, h.From, 0), Until: k.moment(sl, h.Until, clean)}
	switch {
	case run.First < sl.Fixed:
		t.From = k.now() // it is held at the planning start, however long it has been
	case h.Until.Act < sl.Acts():
		t.Least = k.between(sl, h) + k.Grid.Long(clean)
	}
	return t
}

// moment is a mark of a job and so much cleaning after it.
func (k *Statement) moment(sl *Slot, at problem.Mark, clean int) global.Moment {
	switch {
	case at.Act >= sl.Acts():
		return k.leavesClean(sl, clean)
	case !at.Done:
		return global.Moment{X: sl.Start[at.Act], Add: k.Grid.Long(clean)}
	case at.Act < sl.Fixed: // it ended at any tick
		end := k.Model.Begun[sl.Begun].Starts[at.Act] + sl.Modes[0].After(at)
		return global.Moment{X: k.Zero, Add: k.Grid.Up(end + clean)}
	}
	m := sl.Done[at.Act]
	m.Add += k.Grid.Long(clean)
	return m
}

// between is the least length, in steps, of what is held; its marks lie on the grid.
func (k *Statement) between(sl *Slot, h problem.Occupied) int32 {
	return k.Grid.Long(sl.Modes[0].Between(h.From, h.Until, func(l *problem.Lag) int { return problem.CeilTo(l.Least, k.Grid.Step) }))
}

// leavesClean is when the last of a job has left and what held it is clean.
func (k *Statement) leavesClean(sl *Slot, clean int) global.Moment {
	if sl.Begun < 0 {
		return global.Moment{X: k.Zero, Add: k.Grid.Up(sl.Due + clean)}
	}
	return sl.clear[clean]
}

// addIntakes has every new job draw on one intake, within what each has.
func (k *Statement) addIntakes() {
	items := make([][]global.Item, len(k.Model.Intakes))
	for _, sl := range k.Slots {
		supply := -1
		if sl.Begun < 0 {
			supply = k.Model.Families[sl.Family].Supply
		}
		if supply < 0 {
			continue
		}
		weight := sl.table(func(m *problem.Mode) int32 { return int32(min(m.Amount, 1<<24)) })
		var from []int
		for i := range k.Model.Intakes {
			in := &k.Model.Intakes[i]
			if in.Supply == supply && k.Grid.Up(in.Ready) <= k.Kernel.Max(sl.Start[0]) && k.Grid.Down(in.Until) >= k.Kernel.Min(sl.Start[0]) {
				from = append(from, i)
			}
		}
		if len(from) == 0 {
			k.Kernel.AddClause(sl.Present().Not())
			continue
		}
		for x, lit := range k.oneOf(len(from)) {
			in := &k.Model.Intakes[from[x]]
			k.Kernel.AddClause(sl.Present().Not(), lit.Not(), sl.Start[0].Ge(k.Grid.Up(in.Ready)))
			k.Kernel.AddClause(sl.Present().Not(), lit.Not(), sl.Start[0].Le(k.Grid.Down(in.Until)))
			sl.Draws = append(sl.Draws, Draw{from[x], lit})
			items[from[x]] = append(items[from[x]], global.Item{Weight: weight, If: ifs(sl.Present(), lit, k.Yes)})
		}
	}
	for i := range items {
		if most := k.Model.Intakes[i].Amount - k.frozenDrawn(i); len(items[i]) > 0 && most < 1<<30 {
			global.AddLoad(k.Kernel, items[i], int32(max(most, 0)), 0, 0)
		}
	}
}
