package cp

import (
	"context"
	"slices"

	"ripeby/schedule/cp/kernel"
)

// reasons asks, of a plan that is short, which facts forbid one unit more. The model
// is stated once, with a way round every thing ([beyond]); a fact is in force while its
// literal is assumed. What the kernel then gives as the core of an impossible question is
// made smaller by leaving out one fact after another.
type reasons struct {
	plan   *plan // that is short
	s      *plan // the same on the model with ways round
	k      *asked
	facts  []Fact
	lits   []kernel.Lit // of each fact
	count  slotCounts
	near   []bool // demands that are stated
	ctx    context.Context
	until  int64 // counted work of the plan's state
	share  int64 // one part in so many of the work that is left goes to one question
	doubt  bool  // some clause was not proved
	wanted kernel.Lit
	demand int
	units  int
	also   func() []kernel.Lit // what is assumed beside the facts; nil for nothing
	jobs   []*Job              // of the last answer, in the statement's terms
	put    *putting            // and its boxes
}

// answered is what is known of a question.
type answered int

const (
	cannot answered = iota
	can
	unknown
)

// coreShare is the share of the question that gives a reason, before it is made smaller.
const coreShare = 2

// askShare is the share of one question where nothing else is said.
const askShare = 8

// newReasons states the plan's model with its ways round; nil where that cannot be
// stated. Of a long plan it states what is near a demand. Frozen, all the rest is as it
// is beside that: an answer is a plan, and no answer says nothing. Else the rest is left
// out, and asked for no more than every plan gives: no answer is a proof.
func newReasons(ctx context.Context, s *plan, demand int, frozen bool, known *Tables) *reasons {
	r := &reasons{plan: s, ctx: ctx, near: nearTo(s, demand), count: newSlotCounts(), demand: demand, share: askShare}
	frozen = frozen && !r.whole()
	m := *s.m
	m.Demands = append([]Demand(nil), s.m.Demands...)
	for d := range m.Demands {
		if !r.near[d] {
			m.Demands[d].Units = 0
		}
	}
	m.Begun = append([]Begun(nil), s.m.Begun...)
	for b := range m.Begun {
		m.Begun[b].Mode.Acts = append([]Activity(nil), m.Begun[b].Mode.Acts...)
	}
	if !asItRuns(s, &m) {
		return nil
	}
	if frozen {
		r.freeze(&m)
	} else if !r.whole() {
		m.loosen()
	}
	r.facts = m.facts()
	out := beyond(&m)
	r.s = newPlan(out)
	r.s.flat = true
	if frozen || r.whole() {
		known.lend(s.m, r.s.prep, r.count)
	}
	if frozen {
		frozen := newLedger(out, r.s.prep.packed) // with room for the ways round, which nothing beside goes
		r.s.frozen = &frozen
		r.s.frozen.m = s.m
		r.s.frozen.hold(nil, s.stocks, nil)
	} else {
		r.s.hold(s.homes, s.stocks, nil)
	}
	for _, j := range s.jobs {
		switch {
		case frozen && (j.Begun >= 0 || !r.stated(j)):
			r.s.frozen.add(j)
		case r.stated(j):
			r.s.add(r.asStated(j))
		}
	}
	r.count.makeRoom(&r.s.ledger)
	r.count.spareEach(askSpare)
	if len(r.s.jobs) > s.whole || !r.restate() {
		return nil
	}
	return r
}

// freeze leaves in a model what the jobs that are stated serve, and what nobody does:
// all else is beside it.
func (r *reasons) freeze(m *Model) {
	m.Begun, m.Stocks, m.Hints = nil, nil, nil
	taken := func(list []Share) {
		for _, sh := range list {
			m.Demands[sh.Demand].Units = max(m.Demands[sh.Demand].Units-sh.Units, 0)
		}
	}
	for _, j := range r.plan.jobs {
		if j.Begun >= 0 || !r.stated(j) {
			taken(j.Shares)
		}
	}
	for i := range r.plan.stocks {
		taken(r.plan.stocks[i].Shares)
	}
}

// whole reports whether nothing is left out of the statement.
func (r *reasons) whole() bool { return r.plan.isWhole() }

// isWhole reports whether a plan is short enough to be stated whole.
func (s *plan) isWhole() bool { return len(s.jobs) <= s.whole }

// nearTo marks the demands whose jobs can meet those of one demand, and of a long plan
// only as many around it as some jobs serve; all where the plan is short enough to be stated
// whole.
func nearTo(s *plan, demand int) []bool {
	near := make([]bool, len(s.m.Demands))
	long := 0
	for f := range s.m.Families {
		for k := range s.m.Families[f].Modes {
			long = max(long, s.m.longest(&s.m.Families[f].Modes[k])+s.m.Families[f].Keeps)
		}
	}
	gapOf := func(due int) int {
		gap := due - s.m.Demands[demand].Due
		return max(gap, -gap)
	}
	var gaps []int
	for _, j := range s.jobs {
		gaps = append(gaps, gapOf(j.End))
	}
	slices.Sort(gaps)
	if n := min(nearJobs, s.whole); len(gaps) > n {
		long = min(long, gaps[n]-1)
	}
	for d := range near {
		near[d] = d == demand || s.isWhole() || gapOf(s.m.Demands[d].Due) <= long
	}
	return near
}

// nearJobs is how many jobs of a long plan around a demand are stated to ask about it.
const nearJobs = 24

// longest is the most time from the first start to the end of the last work.
func (m *Model) longest(mode *Mode) int {
	n := 0
	for i := range mode.Acts {
		n += mode.Acts[i].Work
		if i < len(mode.Acts)-1 {
			n += min(mode.Acts[i].Lag.Most, m.Horizon-m.From)
		}
	}
	return n
}

// stated reports whether a job stands in the statement: it serves nothing that is left out.
func (r *reasons) stated(j *Job) bool {
	return j.Begun >= 0 || !slices.ContainsFunc(j.Shares, func(sh Share) bool { return !r.near[sh.Demand] })
}

// asStated is a job of a plan as it is on the model with ways round.
func (r *reasons) asStated(j *Job) *Job {
	if !j.Stuck {
		return j
	}
	out := *j
	b := &r.s.m.Begun[j.Begun]
	out.Stuck, out.Ready = false, j.Starts[len(j.Starts)-1]+lastWork(&b.Mode)
	out.End = out.Ready + lastLag(&b.Mode).Least
	out.Choices, out.Stays = b.Choices, nil
	for x, stay := range r.plan.m.Begun[j.Begun].Mode.Stays {
		if stay.First < len(j.Starts) {
			out.Stays = append(out.Stays, j.Stays[x])
		}
	}
	return &out
}

// covers reports whether all that can stand in the way of a demand is stated.
func (r *reasons) covers(d int) bool { return r.demand == d || r.whole() }

// restate states the model, the facts and what the plan gives.
func (r *reasons) restate() bool {
	defer r.charge(r.s.spent)
	k := newAsked(&r.s.schedule, r.s.frozen)
	defer func() { r.s.spent += int64(k.k.Vars()) * statedWork }()
	r.k, r.lits, r.doubt = k, nil, false
	for range r.facts {
		r.lits = append(r.lits, k.k.NewVar(0, 1).Ge(1))
	}
	k.serves = make([]kernel.Lit, len(k.m.Families))
	for f := range k.serves {
		k.serves[f] = k.yes
	}
	for i, f := range r.facts {
		if f.Kind == FactServes {
			k.serves[f.Index] = r.lits[i]
		}
	}
	if !k.state(r.count) {
		return false
	}
	for i, f := range r.facts {
		r.addFact(f, r.lits[i])
	}
	k.branchNear(&r.s.ledger)
	r.askFor(r.demand, r.units)
	return k.k.Search(r.ctx, 0) != kernel.Impossible
}

// askSpare is how many spare slots each last delivery has at first: one question opens some
// of them, and what is learned serves the next.
const askSpare = 2

// statedWork is the counted work of stating one variable and what there is to say of it.
const statedWork = 8

// charge counts what has been spent on the statement since then as the plan's.
func (r *reasons) charge(since int64) { r.plan.spent += r.s.spent - since }

// addFact closes the ways round a thing while its fact is in force.
func (r *reasons) addFact(f Fact, in kernel.Lit) {
	k, m := r.k, r.plan.m
	shut := func(l kernel.Lit, unless ...kernel.Lit) {
		k.k.AddClause(append([]kernel.Lit{in.Not(), l.Not()}, unless...)...)
	}
	if f.Kind == FactDemand {
		k.k.AddClause(in.Not(), k.short[f.Index].Le(int32(r.plan.unmet[f.Index])))
		return
	}
	for _, sl := range k.slots {
		switch f.Kind {
		case FactPool:
			for _, list := range sl.pools {
				for _, c := range list {
					if c.pool == len(m.Pools)+f.Index {
						shut(c.lit)
					}
				}
			}
		case FactSpace:
			for x, lits := range sl.spaces {
				for i, l := range lits {
					if sl.modes[0].Stays[x].Spaces[i] == len(m.Spaces)+f.Index {
						shut(l)
					}
				}
			}
		case FactWorker:
			for i, lits := range sl.who {
				before, after := atMost(sl.done[i], k.g.down(f.From)), sl.start[i].Ge(k.g.up(f.Until))
				if len(lits) == 0 || k.k.True(before) || k.k.True(after) {
					continue // as it is of most days
				}
				for x, l := range lits {
					if sl.modes[0].Acts[i].Workers[x] == len(m.Workers)+f.Index {
						shut(l, before, after)
					}
				}
			}
		case FactSupply:
			for _, d := range sl.draws {
				if d.intake >= len(m.Intakes) && k.m.Intakes[d.intake].Supply == f.Index {
					// It may be the only one in reach: then there is no such job.
					shut(d.lit, sl.present().Not())
				}
			}
		}
	}
}

// possible asks for a plan in which the demand gets one unit more, with the facts that
// are marked in force. Where there is none it gives the facts of the kernel's core.
func (r *reasons) possible(in []bool) (answered, []bool) {
	for r.plan.spent < r.until && r.ctx.Err() == nil {
		assume := []kernel.Lit{r.wanted}
		if r.also != nil {
			assume = append(assume, r.also()...)
		}
		for i := range in {
			if in[i] {
				assume = append(assume, r.lits[i])
			}
		}
		st, over, core, spent := r.k.question(r.ctx, (r.until-r.plan.spent)/r.share, assume)
		r.plan.spent += spent
		switch st {
		case kernel.Solved:
			other := r.s.spent
			jobs, stocks := r.k.answer()
			put, ok := r.k.putBoxes(jobs, stocks)
			r.charge(other)
			if ok {
				r.jobs, r.put = jobs, put
				return can, nil
			}
			if slices.ContainsFunc(put.clause, r.k.holds) {
				return unknown, nil // it would be found again
			}
			r.doubt = r.doubt || !put.sure
			r.k.k.AddClause(put.clause...)
		case kernel.Impossible:
			if r.doubt {
				return unknown, nil
			}
			if len(over) > 0 {
				if !r.count.widen(over) && !r.restate() {
					return unknown, nil
				}
				continue
			}
			out := make([]bool, len(in))
			for i := range in {
				out[i] = in[i] && slices.Contains(core, r.lits[i])
			}
			return cannot, out
		default:
			return unknown, nil
		}
	}
	return unknown, nil
}

// found is the last answer as a plan of the plan's own model; every fact was in force for
// it, so that nothing goes a way round.
func (r *reasons) found() *plan {
	out := r.plan.emptied(r.plan.m)
	homes, stocks := r.put.homes, r.put.stocks
	if b := r.s.frozen; b != nil {
		homes, stocks = r.plan.homes, b.stocks
		for _, j := range b.jobs {
			out.add(j)
		}
	}
	var jobs []*Job
	for _, j := range r.jobs {
		jobs = append(jobs, r.asPlanned(j))
	}
	out.hold(homes, stocks, jobs)
	return out
}

// asPlanned is a job of the statement as it is on the plan's own model: late or stuck
// where it was.
func (r *reasons) asPlanned(j *Job) *Job {
	if j.Begun < 0 {
		return j
	}
	for _, o := range r.plan.jobs {
		if o.Begun == j.Begun && o.Stuck {
			return o
		}
		if o.Begun == j.Begun {
			out := *j
			out.Late = o.Late
			b := &r.plan.m.Begun[j.Begun]
			out.Bother = r.plan.botherOf(&out, &b.Mode, len(b.Starts)) // by its own limits
			return &out
		}
	}
	return j
}

// askFor makes so many units more the question; 0 asks for the plan as it is.
func (r *reasons) askFor(demand, units int) {
	r.demand, r.units = demand, units
	r.wanted = r.k.short[demand].Le(int32(r.plan.unmet[demand] - units))
}

// reason finds why a demand cannot get so many units more, in so many ways at the most.
func (r *reasons) reason(demand, units, most int) Reason {
	out := Reason{Demand: demand}
	r.askFor(demand, units)
	in := r.allBut(demand)
	for len(out.Sets) < most {
		share := r.share
		r.share = coreShare
		is, core := r.possible(in)
		r.share = share
		if is != cannot {
			out.Enough = is == can && r.whole()
			break
		}
		set, least := r.shrink(core)
		fs := FactSet{Least: least}
		for i := range set {
			if set[i] {
				fs.Facts = append(fs.Facts, r.facts[i])
				in[i] = false
			}
		}
		slices.SortFunc(fs.Facts, Fact.compare)
		out.Sets = append(out.Sets, fs)
		if len(fs.Facts) == 0 {
			break
		}
	}
	if len(out.Sets) > 0 {
		out.Kind = ReasonFacts
	}
	return out
}

// allBut marks every fact but what a demand gets.
func (r *reasons) allBut(demand int) []bool {
	in := make([]bool, len(r.facts))
	for i, f := range r.facts {
		in[i] = f.Kind != FactDemand || f.Index != demand
	}
	return in
}

// shrink leaves out of facts that forbid the question all that are not needed, one
// after another; least tells whether each of the rest is known to be needed.
func (r *reasons) shrink(set []bool) (out []bool, least bool) {
	var order []int
	for i := range set {
		if set[i] {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return r.facts[b].weight() - r.facts[a].weight() })
	least = true
	for _, i := range order {
		if !set[i] {
			continue // an earlier core did without it
		}
		set[i] = false
		is, core := r.possible(set)
		switch is {
		case cannot:
			set = core
		case unknown:
			least = false
			set[i] = true
		default:
			set[i] = true
		}
	}
	return set, least
}
