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
	fits := global.Moment{X: k.k.NewVar(k.now().Add, farAway)}
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
