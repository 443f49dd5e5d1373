package explain

import (
	"context"
	"slices"

	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/search"
	"ripeby/schedule/cp/statement"
)

// Inquiry is questions about a plan in force: what more it could give, with what moved,
// and why not more. Nothing of it changes the plan.
type Inquiry struct {
	r       *reasons
	left    *reasons // of a long plan: what is proved with the rest left out; nil where r is all
	demand  int
	also    int                  // a demand that must be met too, -1 for none
	inLeft  []bool               // of left, as in
	in      []bool               // every fact but the asked demand itself
	jobs    []*problem.Job       // of the plan
	k       *statement.Statement // statement that same belongs to
	same    []kernel.Lit         // of each job: it stays as it is, but for its size
	sized   []kernel.Lit         // and that stays too
	resized []bool               // of each job: it may be of another size where it stays; nil for none
	best    *search.Plan         // the plan that gives the demand the most, of those found
	calm    *problem.Cost        // what is asked for moves no more of what was told than this does; nil for any
	since   int64                // counted work before the model was stated
	placed  bool                 // what fits beside the plan at once is known

	vain    int // least number of units that was looked for in vain, 0 for none
	refused int // and that is known to be too many
}

// Inquire takes the model's hints for the plan in force and prepares to ask about one of
// its demands, of which the plan gives nothing yet; nil where the plan cannot be put back as
// it was, or is too long to be stated. It counts up to budget work over all its questions.
// With also, a demand that the plan knew nothing of must be met in full beside it, and
// what is not wanted any more is left out; -1 for none. What is known of a like model saves
// work; nil for nothing.
func Inquire(ctx context.Context, m *problem.Model, demand, also int, budget int64, known *Tables) *Inquiry {
	return inquire(ctx, m, demand, also, budget, known, search.DefaultWhole)
}

// inquire is [Inquire] of a plan that is a long one with more than whole jobs.
func inquire(ctx context.Context, m *problem.Model, demand, also int, budget int64, known *Tables, whole int) *Inquiry {
	s := search.Begin(m)
	s.Whole, s.Limit.Ctx = whole, ctx
	if !asHinted(s, also >= 0) {
		return nil
	}
	since := s.Spent
	r := newReasons(ctx, s, demand, true, known)
	if r == nil {
		return nil
	}
	q := &Inquiry{r: r, demand: demand, also: also, in: r.allBut(demand), jobs: slices.Clone(r.s.Jobs), since: since}
	problem.SortJobs(q.jobs)
	if !r.whole() {
		if q.left = newReasons(ctx, s, demand, false, nil); q.left == nil {
			return nil
		}
		q.left.until, q.inLeft = s.Spent+budget, q.left.allBut(demand)
	}
	r.until = s.Spent + budget
	return q
}

// surely asks once more, where the plan is a long one, whether what nothing was found for
// cannot be: beside what is frozen it was not found, which is no proof.
func (q *Inquiry) surely(units int) kernel.Status {
	if q.left == nil {
		return kernel.Impossible
	}
	q.left.askFor(q.demand, units)
	is, _ := q.left.possible(q.inLeft)
	if is == kernel.Impossible {
		return kernel.Impossible
	}
	return kernel.Unknown
}

// hold makes the literals by which jobs stay as they are.
func (q *Inquiry) hold() {
	k := q.r.k
	q.k, q.same, q.sized = k, nil, nil
	taken := map[*statement.Slot]bool{}
	for _, j := range q.jobs {
		sl := k.SlotFor(j, taken)
		in, sized := k.Kernel.NewVar(0, 1).Ge(1), k.Kernel.NewVar(0, 1).Ge(1)
		q.same, q.sized = append(q.same, in), append(q.sized, sized)
		if sl == nil { // there is no such job any more, not even alone
			k.Kernel.AddClause(in.Not())
			continue
		}
		taken[sl] = true
		stay := func(l kernel.Lit) { k.Kernel.AddClause(in.Not(), l) }
		if j.Stuck { // left where it is, which may be no more than an earlier plan's
			stay(sl.Present().Not())
			continue
		}
		stay(sl.Present())
		if j.Begun < 0 {
			k.Kernel.AddClause(sized.Not(), sl.Size.Ge(int32(j.Mode)))
			k.Kernel.AddClause(sized.Not(), sl.Size.Le(int32(j.Mode)))
		}
		mode := q.r.s.ModeOf(j)
		var made []kernel.Lit
		for _, d := range sl.Decisions() {
			switch {
			case d.About == statement.DecidesStart:
				stay(d.X.Ge(k.Grid.Down(j.Starts[d.At])))
				stay(d.X.Le(k.Grid.Down(j.Starts[d.At])))
			case !d.Number() && d.Made(j, mode):
				made = append(made, d.Lit)
			}
		}
		for _, l := range made {
			stay(l)
		}
	}
}

// ask asks for a plan that gives the demand so many units, with the jobs kept that are
// marked.
func (q *Inquiry) ask(units int, kept []bool, also ...func(*statement.Statement) kernel.Lit) kernel.Status {
	q.r.askFor(q.demand, units)
	q.r.also = func() []kernel.Lit {
		if q.k != q.r.k {
			q.hold()
		}
		var out []kernel.Lit
		for i := range kept {
			if kept[i] {
				out = append(out, q.same[i])
			}
			if kept[i] && (q.resized == nil || !q.resized[i]) {
				out = append(out, q.sized[i])
			}
		}
		for _, f := range also {
			out = append(out, f(q.k))
		}
		if q.calm != nil {
			out = append(out, q.k.Cost[problem.PartMoved].Le(q.k.Value(*q.calm, problem.PartMoved)))
		}
		if q.also >= 0 {
			out = append(out, q.k.Short[q.also].Le(0))
		}
		return out
	}
	is, _ := q.r.possible(q.in)
	return is
}

// within keeps what is asked until it is called off to one part in so many of the work
// that is left, which one question may take whole.
func (q *Inquiry) within(parts int64) (callOff func()) {
	return q.upTo(q.r.plan.Spent + (q.r.until-q.r.plan.Spent)/parts)
}

// upTo has what is asked until it is called off end at so much counted work, which one
// question may take whole.
func (q *Inquiry) upTo(work int64) (callOff func()) {
	until, share := q.r.until, q.r.share
	q.r.until, q.r.share = work, 1
	return func() { q.r.until, q.r.share = until, share }
}

// all marks every job.
func (q *Inquiry) all() []bool {
	out := make([]bool, len(q.jobs))
	for i := range out {
		out[i] = true
	}
	return out
}

// standsWork is what it may take at the least to tell whether the plan in force stands, for
// else nothing can be said of it: with all jobs as they are there is little to try.
const standsWork = 1_000_000

// Stands asks whether the plan in force keeps all rules as it is.
func (q *Inquiry) Stands() bool {
	if q.also >= 0 {
		return true // it is another plan that is looked for
	}
	defer q.upTo(max(q.r.until, q.r.plan.Spent+standsWork))()
	return q.ask(0, q.all()) == kernel.Solved
}

// helpShare: one part in so many of the work left goes to one question of [Inquiry.Helps].
const helpShare = 32

// Helps reports whether one unit more could be had with one fact lifted for good: where it
// could not, less of a change of that fact cannot help either. It is true where the work
// allowed did not tell.
func (q *Inquiry) Helps(f problem.Fact) bool {
	lift := func(r *reasons, in []bool) (back func()) {
		i := -1
		if r != nil {
			i = slices.Index(r.facts, f)
		}
		if i < 0 {
			return func() {}
		}
		kept := in[i]
		in[i] = false
		return func() { in[i] = kept }
	}
	defer lift(q.r, q.in)()
	defer lift(q.left, q.inLeft)()
	defer q.within(helpShare)()
	is := q.ask(1, q.none())
	if is == kernel.Impossible {
		is = q.surely(1)
	}
	return is != kernel.Impossible
}

// Why is the reason why the demand cannot get so many units. With every, others that would
// forbid it even so are looked for too.
func (q *Inquiry) Why(units int, every bool) problem.Reason {
	most := 1
	if every {
		most = setsShown
	}
	if plain := plainReason(q.r.ctx, q.r.plan, q.demand, q.r.until); plain.Kind != problem.ReasonOpen {
		return plain
	}
	if q.left != nil {
		return q.left.reason(q.demand, units, most)
	}
	q.r.also = nil
	return q.r.reason(q.demand, units, most)
}

// Spent is the counted work of stating the model and of all questions so far.
func (q *Inquiry) Spent() int64 { return q.r.plan.Spent - q.since }

// Short is how many units of each demand the plan in force is short of.
func (q *Inquiry) Short() []int { return q.r.plan.Unmet }
