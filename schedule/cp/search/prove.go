package search

import (
	"cmp"
	"context"

	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/statement"
)

// prover goes through the parts of the cost in order. Each is pressed below what
// the best plan has, until it is proved that this cannot be, or the work is spent;
// then it is held where it is, and the next one is pressed.
type prover struct {
	s       *Plan // the best plan known
	cost    problem.Cost
	bound   problem.Cost // true for each part given the cost's earlier parts
	cover   problem.Cost // the covers' bound
	sure    int          // so many parts are proved
	part    int          // that is pressed
	count   statement.Counts
	k       *statement.Statement
	ctx     context.Context
	until   int64 // counted work at which to stop
	first   int64 // counted work of the first question about a part, 0 for firstTry
	found   func(*prover)
	doubt   bool // some clause of the present statement was not proved
	witness *witness
	sums    []summand // of the part that is pressed, nil for none yet
}

// firstTry is the work of the first question about a part. One part in nearShare of a
// question's work is for one right below the plan, and of later questions one in beside
// where as much goes to bounding the part from its summands; one in laterShare of what is
// left is kept for the parts after the one that is pressed.
const (
	firstTry   = 400_000
	nearShare  = 2
	beside     = 4
	laterShare = 4
)

// prove improves the plan of s and its bound until both meet or the work is spent.
// It gives the better plan, its cost and the bound.
func (s *Plan) prove(ctx context.Context, cover problem.Cost, opt Options, found func(*prover)) *prover {
	s.Flat = opt.parts <= pressedParts
	p := &prover{s: s, cost: s.Cost(), cover: cover, ctx: ctx, until: opt.Budget, first: opt.first, count: statement.NewCounts(), found: found}
	p.bound = p.boundOf(s, p.cost)
	if !p.restate() {
		return p
	}
	if opt.kernel > 0 {
		p.until = min(p.until, p.s.Spent+opt.kernel)
	}
	for part := range opt.parts {
		p.press(part)
		if p.k == nil || p.s.Spent >= p.until || ctx.Err() != nil {
			break
		}
	}
	return p
}

// settleWork is the counted work in which a plan that is not proved best is settled once
// more: the kernel leaves open what it was not asked about.
const settleWork = 2_000_000

// settle places each job of a plan at its best beside the others.
func (p *prover) settle() {
	if p.sure < problem.CostParts {
		p.settleWithin(settleWork)
	}
}

// settleNow does so with a plan that was just found where it is pressed what that costs: the kernel
// leaves open what it was not asked about.
func (p *prover) settleNow() {
	if p.part == problem.PartPenalty && p.settleWithin(p.until-p.s.Spent) && p.witness != nil {
		p.witness.renew()
	}
}

// settleWithin settles within so much work, and reports whether the plan is better.
func (p *prover) settleWithin(work int64) bool {
	p.s.Settle(p.ctx, work)
	cost := p.s.Cost()
	better := cost.Less(p.cost)
	if better {
		p.rebound(p.s, cost)
	}
	return better
}

// restate states the model with room for the present plan and a little more.
func (p *prover) restate() bool {
	p.count.MakeRoom(&p.s.Ledger)
	k, ok := statement.Sparing(&p.s.Schedule, p.s.Frozen, p.count)
	if !ok {
		p.k = nil
		return false
	}
	p.k, p.doubt, p.sums = k, false, nil
	ok = k.BranchNear(&p.s.Ledger)
	if auditing {
		p.watch()
	}
	if told := p.s.stated; told != nil {
		told(p)
	}
	if !ok || k.Kernel.Search(p.ctx, 0) == kernel.Impossible {
		p.k = nil // what has begun is not as anybody would have planned it
		return false
	}
	return true
}

// boundOf is what is known of a plan without having asked.
func (p *prover) boundOf(s *Plan, cost problem.Cost) problem.Cost {
	if s.Frozen != nil { // of a segment nothing is known
		return problem.Cost{Early: -cost.Jobs * int64(s.Model.Horizon-s.Model.From)}
	}
	return s.bounded(p.cover, cost)
}

// press proves a part as far as it can. The goal is halfway between what the plan
// has and what is proved, so that each answer halves what there is between. Where
// there is none in time, goals right below the plan are tried too, and then the same
// again with twice the work: far from the best a plan may get better though nothing
// much is proved. What is a sum of many is bounded from its summands, too (cores.go).
func (p *prover) press(part int) {
	p.part, p.sums = part, nil
	p.k.SumUp(part)
	p.settleNow()
	end := p.until
	if part < problem.CostParts-1 {
		end -= (p.until - p.s.Spent) / laterShare
	}
	work, near := cmp.Or(p.first, firstTry), int32(0) // near is the stride right below the plan, 0 for halfway
	last := part == problem.CostParts-1
	if last { // what is settled is mostly the best
		near = 1
	}
	for p.s.Spent < min(end, p.until) && p.ctx.Err() == nil {
		now, least := p.k.Value(p.cost, part), p.k.Value(p.with(part, p.bound.Parts()[part]), part)
		if now <= least {
			if p.sure == part {
				p.sure++
			}
			break
		}
		stride, budget := (now-least+1)/2, work
		if work > firstTry && p.k.Sums(part) {
			budget /= beside
		}
		if near > 0 {
			stride = min(near, stride)
			if !last {
				budget /= nearShare
			}
		}
		st, over := p.ask(p.k.Cost[part].Le(now-stride), min(budget, end-p.s.Spent))
		switch {
		case st == kernel.Solved:
			if p.take() {
				p.settleNow()
			}
			near *= 2
		case st == kernel.Impossible && len(over) > 0:
			if !p.count.Widen(over) && !p.restate() {
				return
			}
			p.hold(part)
			p.k.SumUp(part)
		case st == kernel.Impossible && p.doubt:
			p.hold(part + 1)
			return
		case st == kernel.Impossible:
			p.setBound(part, p.k.Lifted(part, now-stride+1, p.cost.Jobs))
			near = 0
		case near > 0 || stride == 1:
			if p.k.Sums(part) {
				p.raise(part, work, min(end, p.until))
			}
			if work, near = 2*work, 0; last {
				near = 1
			}
		default:
			near = 1
		}
	}
	p.hold(part + 1)
}

// with is the plan's cost with one part changed.
func (p *prover) with(part int, v int64) problem.Cost {
	c := p.cost
	*c.Part(part) = v
	return c
}

// hold fixes the first parts at what the plan has.
func (p *prover) hold(parts int) {
	p.k.SumUp(parts - 1)
	for o := range parts {
		p.k.Kernel.AddClause(p.k.Cost[o].Le(p.k.Value(p.cost, o)))
	}
}

// ask looks for a plan within the goal and without further jobs; over are the
// overflows without which it might be possible.
func (p *prover) ask(goal kernel.Lit, budget int64) (kernel.Status, []*statement.Room) {
	st, over, _, spent := p.k.Ask(p.ctx, budget, []kernel.Lit{goal})
	p.s.Spent += spent
	return st, over
}

// take makes the solution found the plan, once its boxes stand; else it is
// forbidden for good.
func (p *prover) take() bool {
	jobs, stocks := p.k.Answer()
	put, ok := p.k.PutBoxes(jobs, stocks)
	if !ok {
		p.doubt = p.doubt || !put.Sure
		p.k.Kernel.AddClause(put.Clause...)
		return false
	}
	n := p.s.Emptied(p.s.Model)
	n.Spent, n.Frozen, n.Flat = p.s.Spent, p.s.Frozen, p.s.Flat
	n.Hold(put.Homes, put.Stocks, jobs)
	cost := n.Cost()
	if !cost.Less(p.cost) {
		// The statement and the plan would disagree: nothing may be concluded from it.
		p.doubt = true
		p.until = p.s.Spent
		return false
	}
	p.rebound(n, cost)
	p.k.Schedule = &n.Schedule
	if p.witness != nil {
		p.witness.renew()
	}
	p.found(p)
	return true
}

// rebound makes a better plan the present one, and keeps of the bound what holds for it.
func (p *prover) rebound(s *Plan, cost problem.Cost) {
	p.s, p.cost = s, cost
	known := p.bound
	p.bound = p.boundOf(s, cost)
	for part := range p.sure {
		p.setBound(part, cost.Parts()[part])
	}
	if p.sure < problem.CostParts {
		// Nothing before this part has changed, so what was proved of it holds.
		p.setBound(p.sure, max(p.bound.Parts()[p.sure], known.Parts()[p.sure]))
	}
}

// setBound notes that a part cannot be less, given the earlier ones.
func (p *prover) setBound(part int, v int64) { *p.bound.Part(part) = v }
