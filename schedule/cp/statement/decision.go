package statement

import (
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
)

// Decides is what a decision of a slot is about.
type Decides int

// The decisions of a slot, in the order in which they are visited. The first three are
// numbers; of the others each is one of several choices.
const (
	DecidesSize  Decides = iota
	DecidesGift          // To the demand
	DecidesStart         // At the activity
	DecidesWho           // At the activity, To the worker
	DecidesPool          // At the run, To the pool
	DecidesSpace         // At the stay, To the space
	DecidesDraw          // To the intake
	DecidesKept          // Kept is what it is
)

// Decision is one thing that has to be decided of a job: a number X, or, for a choice,
// whether Lit is true.
type Decision struct {
	About  Decides
	At, To int
	X      kernel.Var
	Lit    kernel.Lit
	Kept   *problem.Kept
}

// Number reports whether the decision is a number.
func (d *Decision) Number() bool { return d.About <= DecidesStart }

// Decisions are all that is open of a slot. Whoever branches on a slot, turns a plan into
// values, holds a slot to a job or reads a job back goes by this list; what else a slot
// has follows from it. What has begun is not open.
func (sl *Slot) Decisions() []Decision {
	mode := sl.Modes[0] // the sizes have the same workers and spaces
	out := []Decision{{About: DecidesSize, X: sl.Size}}
	for x, d := range sl.Reach {
		out = append(out, Decision{About: DecidesGift, To: d, X: sl.Give[x]})
	}
	for i := sl.Fixed; i < sl.Acts(); i++ {
		out = append(out, Decision{About: DecidesStart, At: i, X: sl.Start[i]})
		for w, l := range sl.Who[i] {
			out = append(out, Decision{About: DecidesWho, At: i, To: mode.Acts[i].Workers[w], Lit: l})
		}
	}
	for r := range mode.Runs {
		for _, c := range sl.Pools[r] {
			if mode.Runs[r].First >= sl.Fixed {
				out = append(out, Decision{About: DecidesPool, At: r, To: c.Pool, Lit: c.Lit})
			}
		}
	}
	for r := range mode.Stays {
		for x, l := range sl.Spaces[r] {
			out = append(out, Decision{About: DecidesSpace, At: r, To: mode.Stays[r].Spaces[x], Lit: l})
		}
	}
	for _, d := range sl.Draws {
		out = append(out, Decision{About: DecidesDraw, To: d.Intake, Lit: d.Lit})
	}
	if sl.told != nil {
		for _, l := range sl.told.Links {
			out = append(out, Decision{About: DecidesKept, Lit: l.Lit, Kept: l.Kept})
		}
	}
	return out
}

// Made reports whether a job, of a mode, has it so that the choice is made.
func (d *Decision) Made(j *problem.Job, mode *problem.Mode) bool {
	switch d.About {
	case DecidesWho:
		return j.Workers[d.At] == d.To
	case DecidesPool:
		return mode.Runs[d.At].Choices[j.Choices[d.At]].Pool == d.To
	case DecidesSpace:
		return j.Stays[d.At].Space == d.To
	case DecidesKept:
		return j.Kept == d.Kept
	default:
		return j.Intake == d.To
	}
}

// make has a job, of a mode, take the choice.
func (d *Decision) make(j *problem.Job, mode *problem.Mode) {
	switch d.About {
	case DecidesWho:
		j.Workers[d.At] = d.To
	case DecidesPool:
		for x, c := range mode.Runs[d.At].Choices {
			if c.Pool == d.To {
				j.Choices[d.At] = x
			}
		}
	case DecidesSpace:
		j.Stays[d.At] = problem.StayPlace{Space: d.To}
	case DecidesKept:
		j.Kept = d.Kept
	default:
		j.Intake = d.To
	}
}

// number is what a number is in a job, as the kernel counts it.
func (k *Statement) number(d *Decision, j *problem.Job) int32 {
	switch d.About {
	case DecidesSize:
		return int32(max(j.Mode, 0))
	case DecidesGift:
		return int32(problem.UnitsFor(j.Shares, d.To))
	default:
		return k.Grid.Down(j.Starts[d.At])
	}
}
