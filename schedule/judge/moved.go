package judge

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// stageOf names a stage of a batch, over plans.
type stageOf struct{ batch, stage string }

// job is a stage's work: when, and who does it.
type job struct {
	start resources.Moment
	who   string
}

// unrest counts the stages whose work in the settled time is not the same in the earlier plan and in this
// one, and what the earlier plan's later work costs that is not as it was. Lost batches, stages that have
// begun and those that the earlier plan had before the planning start count in neither.
func (h *hearing) unrest() (moved int, points int64) {
	e, until := h.problem.Earlier, h.from.Add(h.problem.Kitchen.Settled)
	if e == nil || h.problem.Kitchen.Settled == 0 {
		return 0, 0
	}
	settled := func(j job, there bool) bool { return there && h.from <= j.start && j.start < until }
	was, is, out := h.tasks()
	all := map[stageOf]bool{}
	for key := range was {
		all[key] = true
	}
	for key := range is {
		all[key] = true
	}
	for key := range all {
		before, had := was[key]
		now, has := is[key]
		switch {
		case out[key] || had && has && before == now:
		case had && has && before.start == now.start && h.isTaken(key):
		case settled(before, had) || settled(now, has):
			moved++
		case had:
			points += 3
		}
	}
	return moved + h.leftToOthers(was, is), points
}

// isTaken reports whether somebody has taken work on: by whom it is done counts by itself then.
func (h *hearing) isTaken(key stageOf) bool {
	return slices.ContainsFunc(h.problem.TakenOn, func(x schedule.TakenOn) bool { return stageOf{x.Batch, x.Stage} == key })
}

// leftToOthers counts the work of the earlier plan that somebody has taken on and that they do not do, unless
// it has begun or its batch is lost.
func (h *hearing) leftToOthers(was, is map[stageOf]job) (n int) {
	for _, x := range h.problem.TakenOn {
		key := stageOf{x.Batch, x.Stage}
		t := h.plan.Batch(x.Batch).Stage(x.Stage)
		if _, told := was[key]; !told || t != nil && t.Begun || slices.Contains(h.problem.Lost, x.Batch) {
			continue
		}
		if is[key].who != x.Who {
			n++
		}
	}
	return n
}

// tasks are the stages with work of the earlier plan and of this one, and those that count in neither: of
// lost batches, begun, or before the planning start in the earlier plan.
func (h *hearing) tasks() (was, is map[stageOf]job, out map[stageOf]bool) {
	e := h.problem.Earlier
	out = map[stageOf]bool{}
	for _, plan := range []*schedule.Plan{e, h.plan} {
		for i := range plan.Batches {
			b := &plan.Batches[i]
			for _, t := range b.Stages {
				if slices.Contains(h.problem.Lost, b.ID) || plan == h.plan && t.Begun || plan == e && t.Start < h.from {
					out[stageOf{b.ID, t.Stage}] = true
				}
			}
		}
	}
	return jobsOf(e), jobsOf(h.plan), out
}

// jobsOf are a plan's stages with work.
func jobsOf(plan *schedule.Plan) map[stageOf]job {
	out := map[stageOf]job{}
	for i := range plan.Batches {
		b := &plan.Batches[i]
		for _, t := range b.Stages {
			if t.Work > 0 {
				out[stageOf{b.ID, t.Stage}] = job{t.Start, t.Who}
			}
		}
	}
	return out
}
