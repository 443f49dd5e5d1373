package search

import (
	"context"
	"sort"

	"ripeby/schedule/cp/bound"
	"ripeby/schedule/cp/calm"
	"ripeby/schedule/cp/carry"
	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/usage"
)

// Plan is a schedule that is searched, with what bounds it.
type Plan struct {
	chain.Schedule
	Frozen *usage.Ledger // what stays as it is while this is stated, nil for nothing
	Relax  *bound.Relaxation
	Whole  int           // jobs up to which a plan is stated whole
	stated func(*prover) // told of every statement before it is searched, by a test; nil for nobody
}

// NewPlan is a plan of a model with nothing in it.
func NewPlan(m *problem.Model) *Plan {
	return &Plan{Schedule: *chain.NewSchedule(m), Relax: bound.NewRelaxation(), Whole: DefaultWhole}
}

// Emptied is a plan with nothing in it of the same kitchen, with what is known of it.
func (s *Plan) Emptied(m *problem.Model) *Plan {
	n := &Plan{Schedule: chain.EmptySchedule(m, s.Prep), Relax: s.Relax, Whole: s.Whole, stated: s.stated}
	n.Limit = s.Limit
	return n
}

// carrier puts in force what is under way.
func (s *Plan) carrier() *carry.Carrier { return &carry.Carrier{Schedule: &s.Schedule, Relax: s.Relax} }

// bounded is what bounds a plan of such a cost.
func (s *Plan) bounded(cover, cost problem.Cost) problem.Cost {
	return s.Relax.BoundFor(&s.Schedule, cover, cost)
}

// BoundAfter is what is known of a plan that is better than one of such a cost and bound: the
// parts up to the first in which they differ are bounded as they were, and of what follows, which
// would take work to bound, nothing is known.
func (s *Plan) BoundAfter(cost, bound problem.Cost) problem.Cost {
	now := s.Cost()
	out := problem.Cost{Early: -now.Jobs * int64(s.Model.Horizon-s.Model.From)}
	for i := range problem.CostParts {
		*out.Part(i) = *bound.Part(i)
		if *now.Part(i) != *cost.Part(i) {
			break
		}
	}
	return out
}

// Result is what is placed now, begun jobs first in the model's order and new
// ones by start.
func (s *Plan) Result(bound problem.Cost) *problem.Result {
	calm.Assign(&s.Ledger, s.Frozen)
	r := &problem.Result{Stocks: s.Stocks, Short: s.Unmet, Cost: s.Cost(), Bound: bound}
	jobs := append([]*problem.Job(nil), s.Jobs...)
	sort.SliceStable(jobs, func(i, k int) bool {
		a, b := jobs[i], jobs[k]
		switch {
		case (a.Begun >= 0) != (b.Begun >= 0):
			return a.Begun >= 0
		case a.Begun >= 0:
			return a.Begun < b.Begun
		case a.Starts[0] != b.Starts[0]:
			return a.Starts[0] < b.Starts[0]
		case a.Family != b.Family:
			return a.Family < b.Family
		default:
			return a.Ready < b.Ready
		}
	})
	left := s.slipWork()
	for i, j := range jobs {
		before := s.Spent
		s.FillSlips(j, min(left/int64(len(jobs)-i), chain.SlipWork))
		left -= s.Spent - before
		out := *j
		if j.Begun >= 0 && s.Model.Begun[j.Begun].Left != nil {
			out = leftWhereItIs(j, s.Model.Begun[j.Begun].Left)
		}
		r.Jobs = append(r.Jobs, out)
	}
	return r
}

// leftWhereItIs is a job that the model leaves where it is as one of what it was, which never goes
// on.
func leftWhereItIs(j *problem.Job, was *problem.Begun) problem.Job {
	out := *j
	out.Choices, out.Stays = make([]int, len(was.Mode.Runs)), make([]problem.StayPlace, len(was.Mode.Stays))
	copy(out.Choices, was.Choices)
	at := 0
	for r := range was.Mode.Stays {
		out.Stays[r] = problem.StayPlace{Space: -1}
		if was.Mode.Stays[r].First < len(was.Starts) {
			out.Stays[r] = j.Stays[at]
			at++
		}
	}
	out.Ready, out.End, out.Stuck, out.Penalty, out.Late = problem.Infinite, problem.Infinite, true, 0, 0
	return out
}

// The slips of all jobs together may take one part in slipShare of the budget, and slipFloor
// where that is more or somebody waits.
const (
	slipShare = 4
	slipFloor = 4_000_000
)

// slipWork is the work for all slips.
func (s *Plan) slipWork() int64 {
	switch {
	case s.CalledOff():
		return slipFloor / 4
	case s.Limit.Until == 0:
		return int64(len(s.Jobs)) * chain.SlipWork
	}
	return max(s.Limit.Until/slipShare, slipFloor)
}

// To state the plan once more for questions about it may take one part in askShare of the
// budget, and askFloor where that is more.
const (
	askShare = 8
	askFloor = 1_000_000
)

// LimitOfAsking is what stating the plan for questions about it may take.
func (s *Plan) LimitOfAsking(ctx context.Context) chain.Limit {
	if s.Limit.Until == 0 {
		return chain.Limit{Ctx: ctx}
	}
	return chain.Limit{Ctx: ctx, Until: max(s.Limit.Until/askShare, askFloor)}
}

// CutOut cuts out of the plan the jobs that are free and what is wanted of the demands: a model
// that owes what the free jobs serve of them and what nobody does, and all the rest as it is,
// frozen beside it.
func (s *Plan) CutOut(free func(*problem.Job) bool, wanted func(demand int) bool) (*problem.Model, *usage.Ledger) {
	frozen := usage.NewLedger(s.Model, s.Prep.Packed)
	frozen.Hold(nil, s.Stocks, nil)
	for _, j := range s.Jobs {
		if !free(j) {
			frozen.Add(j)
		}
	}
	owed := make([]int, len(s.Model.Demands))
	for d := range owed {
		if wanted(d) {
			owed[d] = frozen.Unmet[d]
		}
	}
	return s.Model.Owed(owed).Apart(), &frozen
}

// IsWhole reports whether a plan is short enough to be stated whole.
func (s *Plan) IsWhole() bool { return len(s.Jobs) <= s.Whole }
