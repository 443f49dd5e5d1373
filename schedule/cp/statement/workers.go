package statement

import (
	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/problem"
)

// addWorkers keeps each worker at one piece of work at a time, and within the limits
// of days.
func (k *Statement) addWorkers() {
	for w := range k.Model.Workers {
		if k.Model.Workers[w].Many {
			continue
		}
		var tasks []global.Task
		var items []global.Item
		taken := k.frozenWork(w)
		for _, sl := range k.Slots {
			for i := range sl.Start {
				work := sl.table(func(m *problem.Mode) int32 { return k.Grid.Long(m.Acts[i].Work) })
				if work.Table[len(work.Table)-1] == 0 {
					continue
				}
				if i < sl.Fixed {
					if at := k.Model.Begun[sl.Begun].Workers[i]; at == w {
						taken = append(taken, global.Taken{From: k.Kernel.Min(sl.Start[i]), Until: sl.Done[i].Add, Units: 1})
						items = append(items, global.Item{Weight: work, Start: sl.Start[i], Timed: true})
					}
					continue
				}
				for x, at := range sl.Modes[0].Acts[i].Workers {
					if at == w {
						when := ifs(sl.Present(), sl.Who[i][x], k.Yes)
						tasks = append(tasks, global.Task{From: global.Moment{X: sl.Start[i]}, Until: sl.Done[i], Least: work.Table[0], Demand: always(1), If: when})
						items = append(items, global.Item{Weight: work, If: when, Start: sl.Start[i], Timed: true})
					}
				}
			}
		}
		if len(tasks) == 0 {
			continue
		}
		global.AddCumulative(k.Kernel, tasks, 1, taken)
		k.addDays(items, w)
	}
}

// addDays keeps the work that starts on each day within its limit. What has begun
// may have been too much already; then nothing may be added.
func (k *Statement) addDays(items []global.Item, worker int) {
	var list []global.Day
	for x, day := range k.Model.Workers[worker].Days {
		d := global.Day{From: k.Grid.Up(day.From), Until: k.Grid.Up(day.Until), AtMost: max(k.Grid.Short(day.Limit)-k.frozenLoad(worker, x), 0)}
		most, gone := int32(0), int32(0)
		for _, it := range items {
			if k.Kernel.Min(it.Start) >= d.Until || k.Kernel.Max(it.Start) < d.From {
				continue
			}
			most += it.Weight.Table[len(it.Weight.Table)-1]
			if k.Kernel.Fixed(it.Start) && len(it.If) == 0 {
				gone += it.Weight.Table[0]
			}
		}
		if d.AtMost = max(d.AtMost, gone); most > d.AtMost && d.From < d.Until {
			list = append(list, d)
		}
	}
	if len(list) > 0 {
		global.AddDays(k.Kernel, items, list)
	}
}
