package cp

import "ripeby/schedule/cp/global"

// addWorkers keeps each worker at one piece of work at a time, and within the limits
// of days.
func (k *asked) addWorkers() {
	for w := range k.m.Workers {
		if k.m.Workers[w].many {
			continue
		}
		var tasks []global.Task
		var items []global.Item
		taken := k.busyBeside(w)
		for _, sl := range k.slots {
			for i := range sl.start {
				work := sl.table(func(m *Mode) int32 { return k.g.long(m.Acts[i].Work) })
				if work.Table[len(work.Table)-1] == 0 {
					continue
				}
				if i < sl.fixed {
					if at := k.m.Begun[sl.begun].Workers[i]; at == w {
						taken = append(taken, global.Taken{From: k.k.Min(sl.start[i]), Until: sl.done[i].Add, Units: 1})
						items = append(items, global.Item{Weight: work, Start: sl.start[i], Timed: true})
					}
					continue
				}
				for x, at := range sl.modes[0].Acts[i].Workers {
					if at == w {
						when := ifs(sl.present(), sl.who[i][x], k.yes)
						tasks = append(tasks, global.Task{From: global.Moment{X: sl.start[i]}, Until: sl.done[i], Least: work.Table[0], Demand: always(1), If: when})
						items = append(items, global.Item{Weight: work, If: when, Start: sl.start[i], Timed: true})
					}
				}
			}
		}
		if len(tasks) == 0 {
			continue
		}
		global.AddCumulative(k.k, tasks, 1, taken)
		k.addDays(items, w)
	}
}

// addDays keeps the work that starts on each day within its limit. What has begun
// may have been too much already; then nothing may be added.
func (k *asked) addDays(items []global.Item, worker int) {
	var list []global.Day
	for x, day := range k.m.Workers[worker].Days {
		d := global.Day{From: k.g.up(day.From), Until: k.g.up(day.Until), AtMost: max(k.g.short(day.Limit)-k.loadBeside(worker, x), 0)}
		most, gone := int32(0), int32(0)
		for _, it := range items {
			if k.k.Min(it.Start) >= d.Until || k.k.Max(it.Start) < d.From {
				continue
			}
			most += it.Weight.Table[len(it.Weight.Table)-1]
			if k.k.Fixed(it.Start) && len(it.If) == 0 {
				gone += it.Weight.Table[0]
			}
		}
		if d.AtMost = max(d.AtMost, gone); most > d.AtMost && d.From < d.Until {
			list = append(list, d)
		}
	}
	if len(list) > 0 {
		global.AddDays(k.k, items, list)
	}
}
