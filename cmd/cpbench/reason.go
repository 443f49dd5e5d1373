package main

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"ripeby/cmd/cpbench/psplib"
	"ripeby/cmd/cpbench/rules"
	"ripeby/schedule/cp/kernel"
)

// fact is one thing of a project that somebody could change: the windows, the
// capacity of a thing, or a greatest lag. Least lags are the order of the work
// itself and are always taken as given.
type fact struct {
	windows bool
	thing   int // from 0, -1 for none
	lag     int // place in the lags, -1 for none
}

// reason is a set of facts that together forbid every plan.
type reason struct {
	facts   []fact
	minimal bool // without any one of them there is a plan; false where work ran out
}

// say writes the reason with the numbers of the file: tasks from 0, things from 1.
func (r reason) say(in *psplib.Instance, cal calendar) string {
	var out []string
	for _, f := range r.facts {
		switch {
		case f.windows:
			out = append(out, fmt.Sprintf("windows %d of %d", cal.on, cal.period))
		case f.thing >= 0:
			out = append(out, fmt.Sprintf("%d units of thing %d", in.Capacity[f.thing], f.thing+1))
		default:
			l := in.Lags[f.lag]
			out = append(out, fmt.Sprintf("lag %d -> %d at most %d", l.To, l.From, -l.Least))
		}
	}
	if len(out) == 0 {
		out = []string{"the least lags alone"}
	}
	text := "impossible because of: " + strings.Join(out, "; ")
	if !r.minimal {
		text += " (perhaps fewer of them would do)"
	}
	return text
}

// factsOf gives the facts of a project: windows first, where there are any, then
// things, then greatest lags.
func factsOf(in *psplib.Instance, cal calendar) []fact {
	var out []fact
	if cal.period > 0 {
		out = append(out, fact{true, -1, -1})
	}
	for r := range in.Capacity {
		out = append(out, fact{false, r, -1})
	}
	for k, l := range in.Lags {
		if l.Least < 0 {
			out = append(out, fact{false, -1, k})
		}
	}
	return out
}

// guarded is a project of which each fact holds only while its literal does.
type guarded struct {
	s      *kernel.Solver
	starts []kernel.Var
	facts  []fact
	lits   []kernel.Lit // one for each fact
}

// guard states a project with its facts under literals; false when what is always
// given is contradictory.
func guard(in *psplib.Instance, cal calendar) (*guarded, bool) {
	g := &guarded{s: kernel.New(), facts: factsOf(in, cal)}
	horizon := in.Horizon(cal.period)
	for range in.Lengths {
		g.starts = append(g.starts, g.s.NewVar(0, int32(horizon)))
	}
	ok := g.s.AddClause(g.starts[0].Le(0))
	for _, l := range in.Lags {
		if l.Least >= 0 {
			ok = ok && g.s.AddArc(g.starts[l.From], g.starts[l.To], int32(l.Least))
		}
	}
	for _, f := range g.facts {
		switch {
		case f.windows:
			g.windows(in, cal, horizon)
		case f.thing >= 0:
			g.capacity(in, f.thing, horizon)
		default:
			b, l := g.s.NewVar(0, 1), in.Lags[f.lag]
			g.s.AddArcIf(b.Ge(1), g.starts[l.From], g.starts[l.To], int32(l.Least))
			g.lits = append(g.lits, b.Ge(1))
		}
	}
	return g, ok
}

// windows forbids every start from which hands would work outside a window.
func (g *guarded) windows(in *psplib.Instance, cal calendar, horizon int) {
	b := g.s.NewVar(0, 1)
	for i, x := range g.starts {
		if in.Lengths[i] == 0 || in.Demands[i][0] == 0 {
			continue
		}
		for _, h := range shut(cal, in.Lengths[i], horizon) {
			if h.From < h.Until {
				g.s.AddClause(b.Le(0), x.Le(h.From-1), x.Ge(h.Until))
			}
		}
	}
	g.lits = append(g.lits, b.Ge(1))
}

// capacity gives a thing room for everything at once, less a filler that takes all
// beyond the capacity from its start to the end of time: while it starts at 0 the
// capacity is kept, and where it starts at the end nothing is.
func (g *guarded) capacity(in *psplib.Instance, r, horizon int) {
	longest, sum := 0, 0
	var list []rules.Interval
	for i, x := range g.starts {
		d := in.Demands[i][r]
		if d > 0 && in.Lengths[i] > 0 {
			list = append(list, rules.Interval{Start: x, Length: int32(in.Lengths[i]), Demand: int32(d)})
			longest, sum = max(longest, in.Lengths[i]), sum+d
		}
	}
	over := int32(horizon + longest) // everything has ended by then
	filler := g.s.NewVar(0, over)
	if sum > in.Capacity[r] {
		list = append(list, rules.Interval{Start: filler, Length: over, Demand: int32(sum - in.Capacity[r])})
		rules.AddTimetable(g.s, list, int32(sum))
	}
	g.lits = append(g.lits, filler.Le(0))
}

// why finds a least set of facts that forbids every plan, leaving out one after
// another what is not needed; each question may take so much counted work. False
// when none was found in that.
func why(ctx context.Context, in *psplib.Instance, cal calendar, budget int64) (reason, bool) {
	g, ok := guard(in, cal)
	if !ok {
		return reason{minimal: true}, true
	}
	// A reason that holds without windows says more than one that needs them.
	if cal.period == 0 || g.s.Search(ctx, budget, g.lits[1:]...) != kernel.Impossible {
		if g.s.Search(ctx, budget, g.lits...) != kernel.Impossible {
			return reason{}, false
		}
	}
	core := g.inOrder(g.s.Core())
	core, minimal := kernel.Shrink(core, core, func(rest []kernel.Lit) (kernel.Status, []kernel.Lit) {
		st := g.s.Search(ctx, budget, rest...)
		return st, g.inOrder(g.s.Core())
	})
	r := reason{minimal: minimal}
	for k, f := range g.facts {
		if slices.Contains(core, g.lits[k]) {
			r.facts = append(r.facts, f)
		}
	}
	return r, true
}

// inOrder gives a core in the order of the facts.
func (g *guarded) inOrder(core []kernel.Lit) []kernel.Lit {
	core = slices.Clone(core)
	var out []kernel.Lit
	for _, l := range g.lits {
		if slices.Contains(core, l) {
			out = append(out, l)
		}
	}
	return out
}
