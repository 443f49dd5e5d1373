package needs

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// Run is stages First to Last of a recipe that keep the same kit.
type Run struct {
	First, Last int
	Use         schedule.Use
	Box         *schedule.Boxing // which kind of box; nil for other kit
}

// Runs lists the runs of kit of a recipe. A stage goes on with what the stage before it
// uses, unless it wants it fresh or uses another kind of box.
func Runs(r *schedule.Recipe) []Run {
	var out []Run
	for i := range r.Stages {
		s := &r.Stages[i]
		for _, u := range s.Uses {
			x := Run{First: i, Last: i, Use: u}
			if u.Kind == schedule.UseBox {
				x.Box = BoxOf(r, s)
			}
			on := slices.IndexFunc(out, func(o Run) bool {
				return o.Last == i-1 && o.Use == u && sameBox(o.Box, x.Box) && !slices.Contains(s.Fresh, u.Kind)
			})
			if on >= 0 {
				out[on].Last = i
				continue
			}
			out = append(out, x)
		}
	}
	return out
}

func sameBox(a, b *schedule.Boxing) bool {
	return a == b || a != nil && b != nil && *a == *b
}

// BoxOf is the kind of box that a stage of a recipe uses, its own before the recipe's; nil
// for none.
func BoxOf(r *schedule.Recipe, s *schedule.Stage) *schedule.Boxing {
	switch {
	case !slices.ContainsFunc(s.Uses, func(u schedule.Use) bool { return u.Kind == schedule.UseBox }):
		return nil
	case s.Box != nil:
		return s.Box
	}
	return r.Box
}

// PackedIn is the kind of box that a recipe packs into, which stock stands in: that of its
// last stage with boxes; nil for none.
func PackedIn(r *schedule.Recipe) *schedule.Boxing {
	for i := len(r.Stages) - 1; i >= 0; i-- {
		if b := BoxOf(r, &r.Stages[i]); b != nil {
			return b
		}
	}
	return nil
}

// Held is from when to when the run of a dated batch keeps its kit: from the start of its
// first stage until the work of the stage after it is done, or until the batch has left.
func (x Run) Held(stages []schedule.Task, leaves resources.Moment) resources.Span {
	held := resources.Span{From: stages[x.First].Start, Until: leaves}
	if next := x.Last + 1; next < len(stages) {
		held.Until = stages[next].Start.Add(stages[next].Work)
	}
	return held
}
