package statement

import "ripeby/schedule/cp/global"

// addBegunAside is for a thing of which what has begun may hold more than there is:
// that is no fault of a plan's, but nothing planned may come beside it. What has
// begun only ever goes, once the last of it has come from work that runs at the planning
// start; so there is a moment from which on it fits, and from then on up to that moment the
// thing is full. Before, what has begun is left out here; see overfull.
//
//	held   ___███████▄▄▄▄▄___      more than there is up to the moment
//	full      |------|
func (k *Statement) addBegunAside(tasks []global.Task, capacity int32) []global.Task {
	sum, latest := int32(0), k.now()
	for i := range tasks {
		if k.hasBegun(&tasks[i]) {
			latest.Add = max(latest.Add, tasks[i].From.Add)
			sum += tasks[i].Demand.Table[len(tasks[i].Demand.Table)-1]
		}
	}
	if sum <= capacity {
		return tasks
	}
	fits := global.Moment{X: k.Kernel.NewVar(latest.Add, farAway)}
	out := append([]global.Task(nil), tasks...)
	for i := range out {
		if k.hasBegun(&out[i]) {
			out[i].From = fits
		}
	}
	return append(out, global.Task{From: latest, Until: fits, Demand: always(capacity)})
}

// hasBegun reports whether a task has begun.
func (k *Statement) hasBegun(t *global.Task) bool { return t.From.X == k.Zero }
