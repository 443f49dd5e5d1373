package needs

import (
	"ripeby/resources"
	"ripeby/schedule"
)

// Hold is the wait after a stage's work as the grid allows it: its limits are rounded
// inward. Best may lie off the grid.
type Hold struct {
	Least, Best, Most resources.Minutes
	HasBest           bool
}

// HoldOf is the hold of stage i as it is written, however warm the room is. The last stage's is the
// store: it ends at the latest when the cheese has kept its time, and has no best.
func HoldOf(r *schedule.Recipe, i int, step resources.Minutes) Hold {
	return onGrid(r, i, step, r.Stages[i].Hold)
}

// holdIn is the hold of stage i in a room of a temperature.
func holdIn(r *schedule.Recipe, i int, step resources.Minutes, room resources.MilliCelsius) Hold {
	h := r.Stages[i].Hold
	if h.ByRoom() {
		in := h.In(room)
		h = &in
	}
	return onGrid(r, i, step, h)
}

func onGrid(r *schedule.Recipe, i int, step resources.Minutes, h *schedule.Hold) Hold {
	last := i == len(r.Stages)-1
	switch {
	case h == nil && last:
		return Hold{Most: r.Keeps}
	case h == nil:
		return Hold{}
	}
	least := resources.CeilLength(h.Least, step)
	if h.AsIs {
		least = h.Least
	}
	out := Hold{Least: least, Most: resources.FloorLength(h.Most, step)}
	if h.AsIs { // what has no give may last as long as it must, off the grid too
		out.Most = max(out.Most, least)
	}
	if last {
		out.Most = min(out.Most, r.Keeps)
		return out
	}
	out.Best, out.HasBest = h.Best, h.HasBest
	return out
}

// Bother is how far a hold is from its best, in whole per cent of how far it may be on
// that side, halves up. Beyond Most, which only what has begun can be, it goes on growing;
// a side without width counts 100.
func (h Hold) Bother(length resources.Minutes) int32 {
	if !h.HasBest {
		return 0
	}
	off, width := length-h.Best, h.Most-h.Best
	if off < 0 {
		off, width = -off, h.Best-h.Least
	}
	switch {
	case off == 0:
		return 0
	case width <= 0:
		return 100
	}
	return int32((200*off + width) / (2 * width))
}

// shortMost is the most against which the lateness of a hold with a shorter one is told.
const shortMost = 2 * resources.Hour

// StuckLate is the lateness of a batch that nothing can carry on, and mostLate that of one
// hold at the most.
const (
	StuckLate = 1000
	mostLate  = StuckLate - 1
)

// Patience is how long after the planning start the next stage of what has begun is waited for,
// unless the hold that runs may last longer; what its later stages take comes on top. Who finds
// no moment within that has a batch that goes no further.
const Patience = 60 * resources.Day

// Late is by how many whole tenths of its most a hold runs past it; a most of less than two
// hours counts as two hours.
func (h Hold) Late(length resources.Minutes) int64 {
	over := length - h.Most
	if over <= 0 {
		return 0
	}
	return min(mostLate, 10*int64(over)/int64(max(h.Most, shortMost)))
}
