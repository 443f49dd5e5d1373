package cp

import (
	"cmp"
	"slices"

	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/kernel"
)

// addPools keeps every pool within its capacity, and pools that can stand for one
// another within theirs together.
func (k *asked) addPools() {
	tasks := make([][]global.Task, len(k.m.Pools))
	groups := map[string]*poolGroup{}
	var order []string
	for _, sl := range k.slots {
		for r := range sl.modes[0].Runs {
			all := k.addRun(sl, r, tasks)
			if all == nil {
				continue
			}
			var pools []int
			for _, c := range sl.pools[r] {
				pools = append(pools, c.pool)
			}
			key := keyOf(pools)
			if groups[key] == nil {
				groups[key] = &poolGroup{pools: pools}
				order = append(order, key)
			}
			groups[key].tasks = append(groups[key].tasks, *all)
		}
	}
	for i := range k.m.Stocks {
		st := &k.m.Stocks[i]
		if st.Pool >= 0 && st.Boxes > 0 {
			tasks[st.Pool] = append(tasks[st.Pool], global.Task{From: k.now(), Until: k.until(k.stock[i].leave, st.Clean), Demand: always(int32(st.Boxes))})
		}
	}
	for p := range k.m.Pools {
		if c := k.m.Pools[p].Capacity; c < Infinite && len(tasks[p]) > 0 {
			c := int32(min(c, 1<<20))
			held, _ := k.heldBeside(p)
			global.AddCumulative(k.k, k.addFactsAside(tasks[p], c), c, held)
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
func (k *asked) addGroup(g *poolGroup) {
	sum := 0
	var taken []global.Taken
	for _, p := range g.pools {
		sum += min(k.m.Pools[p].Capacity, 1<<20)
		_, planned := k.heldBeside(p)
		taken = append(taken, planned...)
	}
	if len(g.tasks) > sum || len(taken) > 0 {
		global.AddCumulative(k.k, g.tasks, int32(min(sum, 1<<24)), taken)
	}
}

func always(n int32) global.Amount { return global.Amount{Table: []int32{n}} }

// now is the planning start: what stands since before it counts from there on.
func (k *asked) now() global.Moment { return global.Moment{X: k.zero, Add: k.g.down(k.m.From)} }

// addRun adds a run of a job to the tasks of the pools that it may use; it gives
// the task by itself where there are several.
func (k *asked) addRun(sl *slot, r int, tasks [][]global.Task) *global.Task {
	var list []choice
	if sl.begun >= 0 && sl.modes[0].Runs[r].First < sl.fixed {
		c := sl.modes[0].Runs[r].Choices[k.m.Begun[sl.begun].Choices[r]]
		list = []choice{{c.Pool, c.Clean, k.yes}}
	} else {
		list = k.choicesOf(sl, r)
	}
	sl.pools = append(sl.pools, list)
	demand := sl.table(func(m *Mode) int32 { return int32(m.Runs[r].Amount) })
	for _, c := range list {
		task := k.runTask(sl, r, c.clean)
		task.Demand = demand
		task.If = ifs(sl.present(), c.lit, k.yes)
		tasks[c.pool] = append(tasks[c.pool], task)
	}
	if len(list) < 2 {
		return nil
	}
	least := slices.MinFunc(list, func(a, b choice) int { return cmp.Compare(a.clean, b.clean) })
	task := k.runTask(sl, r, least.clean)
	task.Demand, task.If = demand, ifs(sl.present(), k.yes, k.yes)
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
func (k *asked) choicesOf(sl *slot, r int) []choice {
	var out []choice
	first := sl.modes[0].Runs[r].Choices // of the smallest: all that any size has
	lits := k.oneOf(len(first))
	for i, c := range first {
		out = append(out, choice{c.Pool, c.Clean, lits[i]})
		most := int32(0)
		for m, mode := range sl.modes {
			if slices.Contains(mode.Runs[r].Choices, c) {
				most = int32(m)
			}
		}
		k.k.AddClause(lits[i].Not(), sl.size.Le(most))
	}
	return out
}

// runTask is when a run holds its pool: until the next activity's work is done, or
// the last delivery, and cleaned.
func (k *asked) runTask(sl *slot, r, clean int) global.Task {
	run := &sl.modes[0].Runs[r]
	t := global.Task{From: global.Moment{X: sl.start[run.First]}}
	length := k.leastFrom(sl, run.First, run.Last+1)
	if next := run.Last + 1; next < sl.acts() {
		t.Until = sl.done[next]
		if next < sl.fixed { // ended at any tick
			end := k.m.Begun[sl.begun].Starts[next] + sl.modes[0].Acts[next].Work
			t.From, t.Until = k.now(), global.Moment{X: k.zero, Add: k.g.up(end + clean)}
			return t
		}
		t.Until.Add += k.g.long(clean)
		length += k.g.long(sl.modes[0].Acts[next].Work)
	} else {
		t.Until = k.leavesClean(sl, clean)
		length = 0
	}
	if run.First >= sl.fixed {
		t.Least = length + k.g.long(clean)
		if run.Last+1 >= sl.acts() {
			t.Least = 0
		}
	} else {
		// It is held at the planning start, however long it has been.
		t.From = k.now()
	}
	return t
}

// leastFrom is the least length in steps from the start of one activity to the
// start of another.
func (k *asked) leastFrom(sl *slot, from, to int) int32 {
	sum := int32(0)
	for i := from; i < min(to, sl.acts()); i++ {
		sum += k.g.long(sl.modes[0].Acts[i].Work)
		if i < sl.acts()-1 {
			sum += k.g.long(sl.modes[0].Acts[i].Lag.Least)
		}
	}
	return sum
}

// leavesClean is when the last of a job has left and what held it is clean.
func (k *asked) leavesClean(sl *slot, clean int) global.Moment {
	if sl.begun < 0 {
		return global.Moment{X: k.zero, Add: k.g.up(sl.due + clean)}
	}
	return sl.clear[clean]
}

// addIntakes has every new job draw on one intake, within what each has.
func (k *asked) addIntakes() {
	items := make([][]global.Item, len(k.m.Intakes))
	for _, sl := range k.slots {
		supply := -1
		if sl.begun < 0 {
			supply = k.m.Families[sl.family].Supply
		}
		if supply < 0 {
			continue
		}
		weight := sl.table(func(m *Mode) int32 { return int32(min(m.Amount, 1<<24)) })
		var from []int
		for i := range k.m.Intakes {
			in := &k.m.Intakes[i]
			if in.Supply == supply && k.g.up(in.Ready) <= k.k.Max(sl.start[0]) && k.g.down(in.Until) >= k.k.Min(sl.start[0]) {
				from = append(from, i)
			}
		}
		if len(from) == 0 {
			k.k.AddClause(sl.present().Not())
			continue
		}
		for x, lit := range k.oneOf(len(from)) {
			in := &k.m.Intakes[from[x]]
			k.k.AddClause(sl.present().Not(), lit.Not(), sl.start[0].Ge(k.g.up(in.Ready)))
			k.k.AddClause(sl.present().Not(), lit.Not(), sl.start[0].Le(k.g.down(in.Until)))
			sl.draws = append(sl.draws, draw{from[x], lit})
			items[from[x]] = append(items[from[x]], global.Item{Weight: weight, If: ifs(sl.present(), lit, k.yes)})
		}
	}
	for i := range items {
		if most := k.m.Intakes[i].Amount - k.drawnBeside(i); len(items[i]) > 0 && most < 1<<30 {
			global.AddLoad(k.k, items[i], int32(max(most, 0)), 0, 0)
		}
	}
}
