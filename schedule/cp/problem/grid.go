package problem

import "sort"

// Grid counts time in steps from the first tick that the proof looks at, so that
// it fits the kernel's numbers. Planned starts lie on it; ends of what nobody
// plans are rounded up, which loses nothing, since what may begin at such an end
// begins on the grid.
type Grid struct{ Origin, Step int }

// Up is the first step at or after a tick.
func (g Grid) Up(t int) int32 { return int32((CeilTo(t, g.Step) - g.Origin) / g.Step) }

// Down is the last step at or before a tick.
func (g Grid) Down(t int) int32 { return int32((FloorTo(t, g.Step) - g.Origin) / g.Step) }

// Tick is the tick of a step.
func (g Grid) Tick(x int32) int { return g.Origin + int(x)*g.Step }

// Long is a length in steps, rounded up.
func (g Grid) Long(ticks int) int32 { return int32(CeilTo(ticks, g.Step) / g.Step) }

// Short is a length in steps, rounded down.
func (g Grid) Short(ticks int) int32 { return int32(FloorTo(ticks, g.Step) / g.Step) }

// CeilTo is the first multiple of the step at or after t.
func CeilTo(t, step int) int {
	r := t % step
	if r < 0 {
		r += step
	}
	if r == 0 {
		return t
	}
	return t + step - r
}

// FloorTo is the last multiple of the step at or before t.
func FloorTo(t, step int) int {
	r := t % step
	if r < 0 {
		r += step
	}
	return t - r
}

// DayOf is the day in which a start at t counts, -1 for none.
func DayOf(days []Day, t int) int {
	i := sort.Search(len(days), func(i int) bool { return days[i].Until > t })
	if i < len(days) && days[i].From <= t {
		return i
	}
	return -1
}
