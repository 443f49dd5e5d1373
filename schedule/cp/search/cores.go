package search

import (
	"slices"

	"ripeby/schedule/cp/kernel"
)

// What a part of the cost is at the least, from its summands up.
//
// A part is a sum, and each of its summands alone could be next to nothing: what it costs
// comes of a few jobs that want the same hours, and of a few others elsewhere. So the question
// is put the other way round. All summands are asked to be at their least at once; the core of
// the refusal names a few that cannot all be, which are one summand from there on, of their
// sum, and that is raised for as long as it is quickly refuted alone:
//
//	least      2   0   5   0   9   0
//	core           └───┴───┘              not all three: they come to 6 at the least,
//	           2        17      9   0     and, asked alone, to 17
//
// The sum of the leasts is a bound of the part, and the sums are what clauses can name: after
// some rounds the part is bounded by a few of them.
//
// This is core-guided search, with sums for cores and their exhaustion: Fu and Malik, "On
// solving the partial MAX-SAT problem" (2006); Andres, Kaufmann, Matheis, Schaub,
// "Unsatisfiability-based optimization in clasp" (2012); Gange, Berg, Demirović, Stuckey,
// "Core-guided and core-boosted search for constraint programming" (2020).

// summand is a variable that a part of the cost is no less than the sum of, with others.
type summand struct {
	x     kernel.Var
	least int32 // in every plan that is better than the present one
	climb int32 // stride by which it was raised last
}

// atLeast is the literal that it is no more than its least.
func (s *summand) atLeast() kernel.Lit { return s.x.Le(s.least) }

// One part in coreShare of the work goes to each question about a core; of that, one part in
// shrinkShare to each look at a member of it, and one in exhaustShare to each look at how far its
// sum can be raised, or exhaustTimes what the core took.
const (
	coreShare    = 10
	shrinkShare  = 10
	exhaustShare = 10
	exhaustTimes = 4
)

// raise bounds the part from its summands up, with so much work, or until a question takes more
// than one part in coreShare of that.
func (p *prover) raise(part int, work, end int64) {
	if p.sums == nil {
		for _, x := range p.k.Summands(part) {
			p.sums = append(p.sums, summand{x: x, least: p.k.Kernel.Min(x)})
		}
	}
	raised := false
	end = min(end, p.s.Spent+work)
	work /= coreShare
	for p.s.Spent < end && p.ctx.Err() == nil && !p.doubt {
		least := int32(0)
		for _, s := range p.sums {
			least += s.least
		}
		now := p.k.Value(p.cost, part)
		p.atLeast(part, min(least, now))
		if least >= now {
			return
		}
		before := p.s.Spent
		members, st := p.core(part, min(work, end-p.s.Spent))
		if st == kernel.Unknown {
			break
		}
		if st == kernel.Solved {
			p.take()
			continue
		}
		raised = true
		if len(members) == 0 { // whatever the summands are
			p.atLeast(part, now)
			return
		}
		p.join(part, members)
		sum := &p.sums[len(p.sums)-1]
		p.exhaust(part, sum, max(work/exhaustShare, exhaustTimes*(p.s.Spent-before)))
	}
	if raised && len(p.sums) > 0 {
		var xs []kernel.Var
		for _, s := range p.sums {
			xs = append(xs, s.x)
		}
		p.k.Within(xs, part)
	}
}

// atLeast notes that a part is no less than the kernel's value.
func (p *prover) atLeast(part int, v int32) {
	lifted := min(p.k.Lifted(part, v, p.cost.Jobs), p.cost.Parts()[part])
	p.setBound(part, max(p.bound.Parts()[part], lifted))
}

// better is the literal that a plan is better than the present one.
func (p *prover) better(part int) kernel.Lit {
	return p.k.Cost[part].Le(p.k.Value(p.cost, part) - 1)
}

// core asks for a better plan with every summand at its least; where there is none it gives
// some that cannot all be, as few as are quickly found.
func (p *prover) core(part int, work int64) (members []kernel.Lit, st kernel.Status) {
	ask := func(of []kernel.Lit, work int64) (kernel.Status, []kernel.Lit) {
		st, over, core, spent := p.k.Ask(p.ctx, work, append([]kernel.Lit{p.better(part)}, of...))
		p.s.Spent += spent
		if len(over) > 0 { // with further jobs it might be
			return kernel.Unknown, nil
		}
		return st, slices.DeleteFunc(slices.Clone(of), func(l kernel.Lit) bool { return !slices.Contains(core, l) })
	}
	var all []kernel.Lit
	for i := range p.sums {
		all = append(all, p.sums[i].atLeast())
	}
	st, members = ask(all, work)
	if st != kernel.Impossible || len(members) < 2 {
		return members, st
	}
	members, _ = kernel.Shrink(members, members, func(rest []kernel.Lit) (kernel.Status, []kernel.Lit) {
		return ask(rest, work/shrinkShare)
	})
	return members, st
}

// join makes one summand, the last, of those whose leasts cannot all be.
func (p *prover) join(part int, members []kernel.Lit) {
	sum, rest := summand{least: 1}, p.sums[:0]
	var xs []kernel.Var
	for _, s := range p.sums {
		if slices.Contains(members, s.atLeast()) {
			xs = append(xs, s.x)
			sum.least += s.least
			sum.climb = max(sum.climb, s.climb)
		} else {
			rest = append(rest, s)
		}
	}
	sum.x = p.k.Sum(xs)
	p.k.Kernel.AddClause(p.better(part).Not(), sum.x.Ge(sum.least))
	p.sums = append(rest, sum)
}

// exhaust raises a summand by strides that grow, for as long as it is refuted within so much
// work that it is less.
func (p *prover) exhaust(part int, sum *summand, work int64) {
	for stride := max(sum.climb, 1); p.ctx.Err() == nil; stride *= 2 {
		sum.climb = stride / 2
		better, most := p.better(part), sum.x.Le(sum.least+stride-1)
		st, over, core, spent := p.k.Ask(p.ctx, work, []kernel.Lit{better, most})
		p.s.Spent += spent
		if st == kernel.Solved && p.take() {
			p.settleNow()
		}
		if st != kernel.Impossible || len(over) > 0 || p.doubt {
			return
		}
		if !slices.Contains(core, most) {
			sum.least = p.k.Value(p.cost, part) // there is none
			return
		}
		sum.least += stride
		p.k.Kernel.AddClause(better.Not(), sum.x.Ge(sum.least))
	}
}
