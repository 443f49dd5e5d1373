package explain

import (
	"context"
	"slices"

	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/search"
	"ripeby/schedule/cp/statement"
	"ripeby/schedule/cp/usage"
)

// reasons asks, of a plan that is short, which facts forbid one unit more. The model
// is stated once, with a way round every thing ([problem.WaysRound]); a fact is in force while its
// literal is assumed. What the kernel then gives as the core of an impossible question is
// made smaller by leaving out one fact after another.
type reasons struct {
	plan   *search.Plan // that is short
	s      *search.Plan // the same on the model with ways round
	k      *statement.Statement
	facts  []problem.Fact
	lits   []kernel.Lit // of each fact
	count  statement.Counts
	near   []bool // demands that are stated
	ctx    context.Context
	until  int64 // counted work of the plan's schedule
	share  int64 // one part in so many of the work that is left goes to one question
	doubt  bool  // some clause was not proved
	over   bool  // the work was spent before the model was stated with more room: nothing more is asked
	wanted kernel.Lit
	demand int
	units  int
	also   func() []kernel.Lit // what is assumed beside the facts; nil for nothing
	jobs   []*problem.Job      // of the last answer, in the statement's terms
	put    *statement.Placing  // and its boxes
}

// coreShare is the share of the question that gives a reason, before it is made smaller.
const coreShare = 2

// askShare is the share of one question where nothing else is said.
const askShare = 8

// newReasons states the plan's model with its ways round; nil where that cannot be
// stated. Of a long plan it states what is near a demand. Frozen, all the rest is as it
// is beside that: an answer is a plan, and no answer says nothing. Else the rest is left
// out, and asked for no more than every plan gives: no answer is a proof.
func newReasons(ctx context.Context, s *search.Plan, demand int, frozen bool, known *Tables) *reasons {
	r := &reasons{plan: s, ctx: ctx, near: nearTo(s, demand), count: statement.NewCounts(), demand: demand, share: askShare}
	frozen = frozen && !r.whole()
	free := r.stated
	var m *problem.Model
	var rest *usage.Ledger
	switch {
	case r.whole():
		m = s.Model
	case frozen:
		free = func(j *problem.Job) bool { return j.Begun < 0 && r.stated(j) }
		m, rest = s.CutOut(free, func(d int) bool { return r.near[d] })
	default:
		m = s.Model.Owed(r.owedNear()).Loosened()
	}
	r.facts = m.Facts()
	out := problem.WaysRound(m)
	r.s = search.NewPlan(out)
	r.s.Limit = s.LimitOfAsking(ctx)
	r.s.Flat = true
	if frozen || r.whole() {
		known.lend(s.Model, r.s.Prep, r.count)
	}
	if frozen {
		rest.Widen(out)
		r.s.Frozen = rest
	} else {
		r.s.Hold(s.Homes, s.Stocks, nil)
	}
	for _, j := range s.Jobs {
		if free(j) {
			r.s.Add(j)
		}
	}
	r.count.MakeRoom(&r.s.Ledger)
	r.count.SpareEach(askSpare)
	if len(r.s.Jobs) > s.Whole || !r.restate() {
		return nil
	}
	return r
}

// whole reports whether nothing is left out of the statement.
func (r *reasons) whole() bool { return r.plan.IsWhole() }

// owedNear is what is owed of each demand, of those that are not stated nothing.
func (r *reasons) owedNear() []int {
	owed := make([]int, len(r.near))
	for d := range owed {
		if r.near[d] {
			owed[d] = r.plan.Model.Demands[d].Units
		}
	}
	return owed
}

// nearTo marks the demands whose jobs can meet those of one demand, and of a long plan
// only as many around it as some jobs serve; all where the plan is short enough to be stated
// whole.
func nearTo(s *search.Plan, demand int) []bool {
	near := make([]bool, len(s.Model.Demands))
	long := 0
	for f := range s.Model.Families {
		for k := range s.Model.Families[f].Modes {
			long = max(long, s.Model.Longest(&s.Model.Families[f].Modes[k])+s.Model.Families[f].Keeps)
		}
	}
	gapOf := func(due int) int {
		gap := due - s.Model.Demands[demand].Due
		return max(gap, -gap)
	}
	var gaps []int
	for _, j := range s.Jobs {
		gaps = append(gaps, gapOf(j.End))
	}
	slices.Sort(gaps)
	if n := min(nearJobs, s.Whole); len(gaps) > n {
		long = min(long, gaps[n]-1)
	}
	for d := range near {
		near[d] = d == demand || s.IsWhole() || gapOf(s.Model.Demands[d].Due) <= long
	}
	return near
}

// nearJobs is how many jobs of a long plan around a demand are stated to ask about it.
const nearJobs = 24

// stated reports whether a job stands in the statement: it serves nothing that is left out.
func (r *reasons) stated(j *problem.Job) bool {
	return j.Begun >= 0 || !slices.ContainsFunc(j.Shares, func(sh problem.Share) bool { return !r.near[sh.Demand] })
}

// covers reports whether all that can stand in the way of a demand is stated.
func (r *reasons) covers(d int) bool { return r.demand == d || r.whole() }

// restate states the model, the facts and what the plan gives. Where that cannot be, what was
// stated before stands as it is, and nothing more is asked of it.
func (r *reasons) restate() bool {
	defer r.charge(r.s.Spent)
	k := statement.New(&r.s.Schedule, r.s.Frozen)
	defer func() { r.s.Spent += int64(k.Kernel.Vars()) * statedWork }()
	var lits []kernel.Lit
	for range r.facts {
		lits = append(lits, k.Kernel.NewVar(0, 1).Ge(1))
	}
	k.Serves = make([]kernel.Lit, len(k.Model.Families))
	for f := range k.Serves {
		k.Serves[f] = k.Yes
	}
	for i, f := range r.facts {
		if f.Kind == problem.FactServes {
			k.Serves[f.Index] = lits[i]
		}
	}
	if !k.State(r.count) {
		r.over = true
		return false
	}
	k.SumUp(problem.CostParts - 1)
	r.k, r.lits, r.doubt = k, lits, false
	open := make([][]statement.Decision, len(k.Slots)) // listed once for all facts
	for x, sl := range k.Slots {
		open[x] = sl.Decisions()
	}
	for i, f := range r.facts {
		r.addFact(f, r.lits[i], open)
	}
	r.noLater()
	k.BranchNear(&r.s.Ledger)
	r.askFor(r.demand, r.units)
	return k.Kernel.Search(r.ctx, 0) != kernel.Impossible
}

// noLater holds every answer to no more lateness than the plan's: that comes before what is
// short of what was not promised.
func (r *reasons) noLater() {
	if len(r.s.Model.Begun) > 0 {
		cost := r.plan.Cost()
		r.k.Kernel.AddClause(r.k.Cost[problem.PartStuck].Le(int32(cost.Stuck)))
		r.k.Kernel.AddClause(r.k.Cost[problem.PartLate].Le(int32(cost.Late)))
	}
}

// askSpare is how many spare slots each last delivery has at first: one question opens some
// of them, and what is learned serves the next.
const askSpare = 2

// statedWork is the counted work of stating one variable and what there is to say of it.
const statedWork = 8

// charge counts what has been spent on the statement since then as the plan's. Its units are
// those of placing, which take less time than those of asking.
func (r *reasons) charge(since int64) { r.plan.Spent += (r.s.Spent - since) / placedShare }

// addFact closes the ways round a thing while its fact is in force; open is what is open of each
// slot.
func (r *reasons) addFact(f problem.Fact, in kernel.Lit, open [][]statement.Decision) {
	k, m := r.k, r.plan.Model
	shut := func(l kernel.Lit, unless ...kernel.Lit) {
		k.Kernel.AddClause(append([]kernel.Lit{in.Not(), l.Not()}, unless...)...)
	}
	if f.Kind == problem.FactDemand {
		k.Kernel.AddClause(in.Not(), k.Short[f.Index].Le(int32(r.plan.Unmet[f.Index])))
		return
	}
	for x, sl := range k.Slots {
		for _, d := range open[x] {
			switch {
			case d.About == statement.DecidesPool && f.Kind == problem.FactPool && d.To == len(m.Pools)+f.Index,
				d.About == statement.DecidesSpace && f.Kind == problem.FactSpace && d.To == len(m.Spaces)+f.Index:
				shut(d.Lit)
			case d.About == statement.DecidesWho && f.Kind == problem.FactWorker && d.To == len(m.Workers)+f.Index:
				before, after := statement.AtMost(sl.Done[d.At], k.Grid.Down(f.From)), sl.Start[d.At].Ge(k.Grid.Up(f.Until))
				if !k.Kernel.True(before) && !k.Kernel.True(after) { // as they are of most days
					shut(d.Lit, before, after)
				}
			case d.About == statement.DecidesDraw && f.Kind == problem.FactSupply && d.To >= len(m.Intakes) && k.Model.Intakes[d.To].Supply == f.Index:
				// It may be the only one in reach: then there is no such job.
				shut(d.Lit, sl.Present().Not())
			}
		}
	}
}

// possible asks for a plan in which the demand gets one unit more, with the facts that
// are marked in force. Where there is none it gives the facts of the kernel's core.
func (r *reasons) possible(in []bool) (kernel.Status, []bool) {
	for !r.over && r.plan.Spent < r.until && r.ctx.Err() == nil {
		assume := []kernel.Lit{r.wanted}
		if r.also != nil {
			assume = append(assume, r.also()...)
		}
		for i := range in {
			if in[i] {
				assume = append(assume, r.lits[i])
			}
		}
		st, over, core, spent := r.k.Ask(r.ctx, (r.until-r.plan.Spent)/r.share, assume)
		r.plan.Spent += spent
		switch st {
		case kernel.Solved:
			other := r.s.Spent
			jobs, stocks := r.k.Answer()
			put, ok := r.k.PutBoxes(jobs, stocks)
			r.charge(other)
			if ok {
				r.jobs, r.put = jobs, put
				return kernel.Solved, nil
			}
			if slices.ContainsFunc(put.Clause, r.k.Holds) {
				return kernel.Unknown, nil // it would be found again
			}
			r.doubt = r.doubt || !put.Sure
			r.k.Kernel.AddClause(put.Clause...)
		case kernel.Impossible:
			if r.doubt {
				return kernel.Unknown, nil
			}
			if len(over) > 0 {
				if !r.count.Widen(over) && !r.restate() {
					return kernel.Unknown, nil
				}
				continue
			}
			out := make([]bool, len(in))
			for i := range in {
				out[i] = in[i] && slices.Contains(core, r.lits[i])
			}
			return kernel.Impossible, out
		default:
			return kernel.Unknown, nil
		}
	}
	return kernel.Unknown, nil
}

// found is the last answer as a plan of the plan's own model; every fact was in force for
// it, so that nothing goes a way round.
func (r *reasons) found() *search.Plan {
	out := r.plan.Emptied(r.plan.Model)
	homes, stocks := r.put.Homes, r.put.Stocks
	if b := r.s.Frozen; b != nil {
		homes, stocks = r.plan.Homes, b.Stocks
		for _, j := range b.Jobs {
			out.Add(j)
		}
	}
	out.Hold(homes, stocks, r.jobs)
	return out
}

// askFor makes so many units more the question; 0 asks for the plan as it is.
func (r *reasons) askFor(demand, units int) {
	r.demand, r.units = demand, units
	r.wanted = r.k.Short[demand].Le(int32(r.plan.Unmet[demand] - units))
}

// setsShown is how many sets of facts are looked for at the most where all of them are: each
// by itself forbids the demand, and lifting one only shows the next.
const setsShown = 3

// reason finds why a demand cannot get so many units more, in so many ways at the most.
func (r *reasons) reason(demand, units, most int) problem.Reason {
	out := problem.Reason{Demand: demand}
	r.askFor(demand, units)
	in := r.allBut(demand)
	for len(out.Sets) < most {
		is, core := r.possibleIn(in, coreShare)
		if is != kernel.Impossible {
			out.Enough = is == kernel.Solved && r.whole()
			break
		}
		set, least := r.shrink(core)
		fs := r.factSet(set, least)
		for _, i := range marked(set) {
			in[i] = false
		}
		out.Sets = append(out.Sets, fs)
		if len(fs.Facts) == 0 {
			break
		}
	}
	if len(out.Sets) > 0 {
		out.Kind = problem.ReasonFacts
	}
	return out
}

// possibleIn is [reasons.possible] with one part in so many of the work that is left.
func (r *reasons) possibleIn(in []bool, parts int64) (kernel.Status, []bool) {
	share := r.share
	r.share = parts
	defer func() { r.share = share }()
	return r.possible(in)
}

// factSet is the facts that are marked.
func (r *reasons) factSet(set []bool, least bool) problem.FactSet {
	fs := problem.FactSet{Least: least}
	for _, i := range marked(set) {
		fs.Facts = append(fs.Facts, r.facts[i])
	}
	sortFacts(fs.Facts)
	return fs
}

// sortFacts puts facts in the order in which they are told.
func sortFacts(list []problem.Fact) { slices.SortFunc(list, problem.Fact.Compare) }

// allBut marks every fact but what a demand gets.
func (r *reasons) allBut(demand int) []bool {
	in := make([]bool, len(r.facts))
	for i, f := range r.facts {
		in[i] = f.Kind != problem.FactDemand || f.Index != demand
	}
	return in
}
