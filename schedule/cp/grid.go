package cp

// grid counts time in steps from the first tick that the proof looks at, so that
// it fits the kernel's numbers. Planned starts lie on it; ends of what nobody
// plans are rounded up, which loses nothing, since what may begin at such an end
// begins on the grid.
type grid struct{ origin, step int }

// up is the first step at or after a tick; down the last at or before it.
func (g grid) up(t int) int32   { return int32((ceilTo(t, g.step) - g.origin) / g.step) }
func (g grid) down(t int) int32 { return int32((floorTo(t, g.step) - g.origin) / g.step) }

// tick is the tick of a step.
func (g grid) tick(x int32) int { return g.origin + int(x)*g.step }

// long is a length in steps, rounded up.
func (g grid) long(ticks int) int32 { return int32(ceilTo(ticks, g.step) / g.step) }

// short is a length in steps, rounded down.
func (g grid) short(ticks int) int32 { return int32(floorTo(ticks, g.step) / g.step) }
