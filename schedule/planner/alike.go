package planner

import (
	"ripeby/schedule/cp/problem"
)

// What is under way of one recipe has its lags in common, each worked out once: those to come,
// and those that run of batches that have come equally far. So the engine sees that they are the
// same, and works out once as well what it wants to know of them.

// runningKey tells holds that run apart: the recipe's stage, how much of the activity's lag was over
// when its hold began, how far past the grid that was, and its limits as they are by now.
type runningKey struct {
	family, stage, past, phase int
	hold                       hold
}

// alike are the lags of what is under way, as far as they are worked out.
type alike struct {
	toCome  map[int][]problem.Lag // by recipe
	running map[runningKey]problem.Lag
}

// lagsOf are the lags of a recipe's activities as batches under way have them to come: they may go
// on past their time, but for the last, the store of packed cheese.
func (pl *Stated) lagsOf(family int) []problem.Lag {
	if known, ok := pl.alike.toCome[family]; ok {
		return known
	}
	lags := pl.chains[family].lags(pl.clock, true)
	pl.alike.toCome[family] = lags
	return lags
}

// runningLag is what may still come of the holds of the running activity, as a lag from
// the end of its first stage's work; it may go on past its time.
func (pl *Stated) runningLag(u *underWay, ac act, work int) problem.Lag {
	running, past, phase := pl.running(u, ac, work)
	if running == ac.last {
		phase = 0 // one hold alone ends on the grid whenever it began
	}
	key := runningKey{u.family, running, past, phase, u.chain.holds[running]}
	lag, known := pl.alike.running[key]
	if !known {
		c, step := u.chain, int(pl.clock.step)
		lag = c.runningLag(running, ac.last, past, step, phase)
		lag.Past = c.pastOf(running, ac.last, past, phase, step)
		pl.alike.running[key] = lag
	}
	return lag
}
