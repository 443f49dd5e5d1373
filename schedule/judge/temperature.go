package judge

import (
	"math/big"

	"ripeby/resources"
	"ripeby/schedule"
)

// A hold may go by how warm the make room is on the local date on which it begins. Its limits are then
// for a room of one temperature, and in another they are multiplied by
//
//	((that temperature - 4.8) / (the room's - 4.8))^2 x times
//
// to the minute, halves up, and only then rounded inward to the grid. The rule holds from 15 to 30 °C;
// in a room that is cooler or warmer what is written holds as it is, and the maker is told.
var (
	coolest, warmest = big.NewRat(15, 1), big.NewRat(30, 1)
	noMore           = big.NewRat(48, 10) // where milk sets no more
)

// goesBy reports whether a hold goes by the make room.
func goesBy(w *schedule.Hold) bool { return w != nil && w.GoesBy.Temperature != 0 }

// degrees is a temperature in degrees Celsius.
func degrees(m resources.MilliCelsius) *big.Rat { return big.NewRat(int64(m), 1000) }

// ruled reports whether the rule holds in a room.
func ruled(room *big.Rat) bool { return room.Cmp(coolest) >= 0 && room.Cmp(warmest) <= 0 }

// roomOn is how warm the make room is on the local date of a moment.
func (h *hearing) roomOn(m resources.Moment) *big.Rat {
	is := h.kitchen.Room
	for _, r := range h.kitchen.Rooms {
		if dayOf(r.From) <= dayIn(m, h.zone) {
			is = r.Is
		}
	}
	return degrees(is)
}

// warmed is a hold as it is in a room.
func warmed(w *schedule.Hold, room *big.Rat) *schedule.Hold {
	if !goesBy(w) || !ruled(room) {
		return w
	}
	by := new(big.Rat).Quo(new(big.Rat).Sub(degrees(w.GoesBy.Temperature), noMore), new(big.Rat).Sub(room, noMore))
	by.Mul(by, by).Mul(by, big.NewRat(int64(w.GoesBy.Times), 1000))
	minutes := func(m resources.Minutes) resources.Minutes {
		x := new(big.Rat).Mul(by, big.NewRat(int64(m), 1))
		x.Add(x, big.NewRat(1, 2))
		return resources.Minutes(new(big.Int).Div(x.Num(), x.Denom()).Int64()) // floor: it is not below 0
	}
	out := *w
	out.Least, out.Best, out.Most = minutes(w.Least), minutes(w.Best), minutes(w.Most)
	return &out
}

// warmedAsPlanned is a recipe with each hold as it is in the room on the date on which the plan has it begin.
func (h *hearing) warmedAsPlanned(r *schedule.Recipe, b *schedule.Batch) *schedule.Recipe {
	if r == nil {
		return nil
	}
	out := *r
	out.Stages = append([]schedule.Stage(nil), r.Stages...)
	for i := range out.Stages {
		if i < len(b.Stages) && goesBy(out.Stages[i].Hold) {
			out.Stages[i].Hold = warmed(out.Stages[i].Hold, h.roomOn(b.Stages[i].Start.Add(b.Stages[i].Work)))
		}
	}
	return &out
}

// rooms are all temperatures that the make room ever has.
func (h *hearing) rooms() []*big.Rat {
	out := []*big.Rat{degrees(h.kitchen.Room)}
	for _, r := range h.kitchen.Rooms {
		out = append(out, degrees(r.Is))
	}
	return out
}

// ever is the shortest and the longest that the limits of stage i let its hold be, whatever day it
// begins on.
func (h *hearing) ever(l *lot, i int) (least, most resources.Minutes) {
	for n, room := range h.rooms() {
		a, b := h.limitsIn(l, i, room)
		if n == 0 {
			least, most = a, b
		}
		least, most = min(least, a), max(most, b)
	}
	return least, most
}

// always is what every room lets the hold of stage i be: no shorter than its greatest least, no longer
// than its smallest most.
func (h *hearing) always(l *lot, i int) (least, most resources.Minutes) {
	for n, room := range h.rooms() {
		a, b := h.limitsIn(l, i, room)
		if n == 0 {
			least, most = a, b
		}
		least, most = max(least, a), min(most, b)
	}
	return least, most
}

func (h *hearing) limitsIn(l *lot, i int, room *big.Rat) (least, most resources.Minutes) {
	one := schedule.Recipe{Stages: []schedule.Stage{{Hold: warmed(l.written.Stages[i].Hold, room)}}}
	return limits(&one, 0, h.step)
}

// checkRoom: the maker is told where a hold that goes by the room begins in one of which the rule says
// nothing.
func checkRoom(h *hearing) {
	for _, l := range h.lots {
		if !l.sound || h.plan.Warned("room-outside", l.batch.ID) {
			continue
		}
		for i := range l.batch.Stages {
			t := &l.batch.Stages[i]
			if goesBy(l.written.Stages[i].Hold) && t.Ends >= h.from && !ruled(h.roomOn(t.Start.Add(t.Work))) {
				h.failStage("warning-missing", l, i, "room-outside", "got a hold that begins in a room outside 15 to 30 °C without a warning, want one that names the batch")
				break
			}
		}
	}
}
