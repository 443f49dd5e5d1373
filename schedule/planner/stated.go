package planner

import (
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/needs"
)

// Stated is a problem as it is stated to the engine: the model, and which number of
// the one means which thing of the other. [Plan] has the model solved; package whatif
// asks about it. The engine counts minutes from a grid moment ([clock]), people, pools,
// cold places, milk and recipes as the problem lists them, and wants as
// [Stated.Wants] does.
type Stated struct {
	p       *schedule.Problem
	clock   clock
	within  resources.Span // all that the plan can touch
	model   *problem.Model
	under   []*underWay
	things  []needs.Thing  // of each pool, but for those that stand in for what is gone
	poolOf  map[string]int // pot, station, mould and box names
	kindOf  map[string]int // box names
	chains  []*chain       // of each recipe
	modes   [][]needs.Size // of each recipe: what each engine mode means
	wants   []WantAt       // of each demand
	intakes []collected
	stocks  []int // engine stock -> entry of Problem.Stock
	warn    []schedule.Warning
	alike   alike            // lags of what is under way
	past    []schedule.Batch // that keep, and of which nothing is left to sell
	before  told             // what the earlier plan told of what may be again
	carries []carried        // out of closed places, whatever the plan

	endedNow int64 // bother of begun holds that ended at the planning start itself
	lateNow  int64 // how late those were
	lateUnit int32 // what the engine counts for a tenth of lateness
}

// WantAt names a want: its target's place in [schedule.Problem.Targets], and its own
// among the target's.
type WantAt struct{ Target, Want int }

// Problem is what is stated.
func (pl *Stated) Problem() *schedule.Problem { return pl.p }

// Model is what the engine is told. Whoever asks about it leaves it as it is.
func (pl *Stated) Model() *problem.Model { return pl.model }

// Wants are all wants, by the engine's number of them.
func (pl *Stated) Wants() []WantAt { return pl.wants }

// Carries are those that a plan may make out of closed places: all that have a place to go to.
func (pl *Stated) Carries() []schedule.Carry {
	var out []schedule.Carry
	for _, c := range pl.carries {
		if c.isMade() {
			out = append(out, c.Carry)
		}
	}
	return out
}

// Until is how far ahead the model looks.
func (pl *Stated) Until() resources.Moment { return pl.within.Until }

// Tick is a moment as the engine counts.
func (pl *Stated) Tick(m resources.Moment) int { return pl.clock.tick(m) }

// Moment is the moment of a tick of the engine's.
func (pl *Stated) Moment(tick int) resources.Moment { return pl.clock.moment(tick) }

// Family is the engine's number of a cheese's recipe, -1 for none.
func (pl *Stated) Family(cheese string) int { return pl.p.RecipeNumber(cheese) }

// Thing is the pot, station, mould or box that a pool of the engine's stands for; nothing
// where that pool stands in for kit that the kitchen no longer has.
func (pl *Stated) Thing(pool int) needs.Thing {
	if pool >= len(pl.things) {
		return needs.Thing{}
	}
	return pl.things[pool]
}

// clock turns moments into the engine's ticks: minutes from a grid moment.
type clock struct {
	origin resources.Moment
	step   resources.Minutes
}

func (c clock) tick(m resources.Moment) int   { return int(m - c.origin) }
func (c clock) moment(t int) resources.Moment { return c.origin + resources.Moment(t) }

// phase is how many minutes a tick is past the grid.
func (c clock) phase(tick int) int {
	step := int(c.step)
	return (tick%step + step) % step
}
