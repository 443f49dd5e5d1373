package cp

import "ripeby/schedule/cp/global"

// addFactsAside is for a thing of which what has begun may hold more than there is:
// that is no fault of a plan's, but nothing planned may come beside it. What has
// begun only ever goes; so there is a moment from which on it fits, and until then
// the thing is full.
//
//	held   ███████▄▄▄▄▄___      more than there is up to the moment
//	full   |------|
func (k *asked) addFactsAside(tasks []global.Task, capacity int32) []global.Task {
	sum := int32(0)
	for i := range tasks {
		if k.isFact(&tasks[i]) {
			sum += tasks[i].Demand.Table[len(tasks[i].Demand.Table)-1]
		}
	}
	if sum <= capacity {
		return tasks
	}
	fits := global.Moment{X: k.k.NewVar(k.now().Add, k.last+k.g.long(k.m.longestClean()))}
	out := append([]global.Task(nil), tasks...)
	for i := range out {
		if k.isFact(&out[i]) {
			out[i].From = fits
		}
	}
	return append(out, global.Task{From: k.now(), Until: fits, Demand: always(capacity)})
}

// isFact reports whether a task has begun.
func (k *asked) isFact(t *global.Task) bool { return t.From == k.now() }

// longestClean is the longest cleaning of any pool.
func (m *Model) longestClean() int {
	most := 0
	note := func(mode *Mode) {
		for r := range mode.Runs {
			for _, c := range mode.Runs[r].Choices {
				most = max(most, c.Clean)
			}
		}
	}
	for f := range m.Families {
		for k := range m.Families[f].Modes {
			note(&m.Families[f].Modes[k])
		}
	}
	for b := range m.Begun {
		note(&m.Begun[b].Mode)
	}
	for i := range m.Stocks {
		most = max(most, m.Stocks[i].Clean)
	}
	return most
}
