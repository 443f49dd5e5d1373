package explain

import (
	"context"
	"slices"

	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/search"
	"ripeby/schedule/cp/statement"
)

// Why work is otherwise than an earlier plan told: the model is stated once more, and of each piece of
// work it is asked whether it could be as told at no more cost, in all parts and then in those before
// the last one that the refusal needs. Answers count only where their boxes stand.

// One part in changedShare of what a plan took may go to that, all in all, and changedFloor at the least.
const (
	changedShare = 3
	changedFloor = 8_000_000
)

// WorkOfChanges is the counted work that may go to what is otherwise in a plan that took so much.
func WorkOfChanges(spent int64) int64 { return max(spent/changedShare, changedFloor) }

// Changed says what of a plan is otherwise than told, and by which part of the cost, with so much
// counted work.
func Changed(ctx context.Context, s *search.Plan, work int64) []problem.Changed {
	out := s.Model.ChangedIn(s.Jobs)
	if len(out) == 0 || !s.IsWhole() || s.Frozen != nil {
		return out
	}
	c := &changing{ctx: ctx, s: s, count: statement.NewCounts(), cost: s.Cost()}
	c.count.MakeRoom(&s.Ledger)
	c.count.SpareEach(1)
	c.restate()
	end := s.Spent + work
	for i := range out {
		c.until = s.Spent + (end-s.Spent)/int64(len(out)-i)
		out[i].By = c.by(out[i])
	}
	return out
}

// changing is the asking about one plan.
type changing struct {
	ctx   context.Context
	s     *search.Plan
	k     *statement.Statement
	count statement.Counts
	cost  problem.Cost
	until int64 // counted work at which to stop
	doubt bool  // some clause was not proved
}

// restate states the model with the slots counted now; k is nil where that takes too much.
func (c *changing) restate() {
	limit := c.s.LimitOfAsking(c.ctx)
	if limit.Until > 0 {
		limit.Until += c.s.Spent
	}
	c.s.Limit, limit = limit, c.s.Limit
	k, ok := statement.Of(&c.s.Schedule, nil, c.count)
	c.s.Limit = limit
	if c.k, c.doubt = k, false; !ok {
		c.k = nil
		return
	}
	k.BranchNear(&c.s.Ledger)
}

// by is the part in which a plan is worse first that has work as it was told.
func (c *changing) by(of problem.Changed) int {
	for c.k != nil && c.s.Spent < c.until {
		if k, part := c.k, c.look(of); c.k == k {
			return part
		}
	}
	return problem.ByUnknown
}

// look is the same in the present statement; what it says counts for nothing where that was made anew.
// Most are forced by nothing before the penalty, which is soon seen; which of the rest is worse may take
// as long as the proof of the plan.
func (c *changing) look(of problem.Changed) int {
	same := c.k.AsTold(of)
	parts, by, open := problem.PartPenalty, problem.ByNothing, problem.ByUnknown
	st, core := c.ask(same, parts)
	if st == kernel.Solved {
		parts, open = problem.CostParts, problem.ByLittle
		st, core = c.ask(same, parts)
	}
	for st == kernel.Impossible && !c.doubt {
		by = problem.ByItself
		for part := range parts {
			if slices.Contains(core, c.limit(part)) {
				by = part
			}
		}
		if by < 0 || by == problem.PartPenalty && open == problem.ByLittle {
			return by
		}
		parts = by
		st, core = c.ask(same, parts)
	}
	if st == kernel.Solved {
		return c.timely(by)
	}
	return open
}

// timely is the part, but where what is under way may run later than it is stated to: then nothing that
// comes before being late is known.
func (c *changing) timely(by int) int {
	if by >= 0 && by < problem.PartLate && c.s.Model.CanRunLate() {
		return problem.ByUnknown
	}
	return by
}

// limit is the literal that a part is no more than the plan has.
func (c *changing) limit(part int) kernel.Lit {
	return c.k.Cost[part].Le(c.k.Value(c.cost, part))
}

// ask asks for a plan with a literal and no more of the first parts; its boxes stand.
func (c *changing) ask(same kernel.Lit, parts int) (kernel.Status, []kernel.Lit) {
	for c.s.Spent < c.until {
		assume := []kernel.Lit{same}
		for part := range parts {
			assume = append(assume, c.limit(part))
		}
		st, over, core, spent := c.k.Ask(c.ctx, c.until-c.s.Spent, assume)
		c.s.Spent += spent
		switch {
		case st == kernel.Impossible && len(over) > 0:
			if !c.count.Widen(over) {
				c.restate()
				return kernel.Unknown, nil
			}
		case st != kernel.Solved:
			return st, core
		default:
			put, ok := c.k.PutBoxes(c.k.Answer())
			if ok {
				return st, nil
			}
			c.doubt = c.doubt || !put.Sure
			c.k.Kernel.AddClause(put.Clause...)
		}
	}
	return kernel.Unknown, nil
}
