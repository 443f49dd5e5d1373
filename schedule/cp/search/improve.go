package search

import (
	"context"
	"math/rand/v2"
	"slices"

	"ripeby/schedule/cp/calm"
	"ripeby/schedule/cp/lack"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/usage"
)

// Improving: a few jobs are taken out and built again in another way; what is no
// worse stays. See Shaw, "Using constraint programming and local search methods
// to solve vehicle routing problems" (1998), for the neighbourhoods.

// improver carries a plan from good to better. It takes a step when the plan is
// no worse than it was some steps ago (Burke and Bykov, "The late acceptance
// hill-climbing heuristic", 2017), so it can leave a plan that no single step
// betters; the best plan met is kept aside.
type improver struct {
	s        *Plan
	cost     problem.Cost
	rng      *rand.Rand
	past     [lateness]problem.Cost
	steps    int
	since    int // steps since the best plan last got better
	best     problem.Cost
	bestJobs []*problem.Job
	focus    problem.Span         // the segment that may change
	urgent   int                  // the short demand that the step is about, -1 for none
	blamed   map[int][]lack.Thing // what stands in the way of short demands in the present plan
}

// lateness is how many steps back the comparison goes; patience is how many steps
// without a better plan it takes before a worse one is let in at all.
const (
	lateness = 25
	patience = 60
)

// start begins improving from the present plan.
func (im *improver) start() {
	im.cost = im.s.Cost()
	im.best, im.bestJobs = im.cost, append([]*problem.Job(nil), im.s.Jobs...)
	for i := range im.past {
		im.past[i] = im.cost
	}
}

// finish goes back to the best plan met.
func (im *improver) finish() {
	im.restore(im.bestJobs)
	im.cost = im.best
	im.blamed = nil
}

// pick is a number in [0, n).
func (im *improver) pick(n int) int { return int(im.rng.Uint64() % uint64(n)) }

// shuffle orders list anew.
func (im *improver) shuffle(n int, swap func(i, k int)) {
	for i := n - 1; i > 0; i-- {
		swap(i, im.pick(i+1))
	}
}

// settleEach places every job again for the same shares, until none gets better.
func (im *improver) settleEach(more func() bool) {
	s := im.s
	for again := true; again; {
		again = false
		for _, j := range append([]*problem.Job(nil), s.Jobs...) {
			if !more() {
				return
			}
			if j.Stuck {
				continue
			}
			s.Remove(j)
			k, ok := s.again(j)
			if ok && !k.Stuck && s.JobCost(k).Less(s.JobCost(j)) {
				s.Add(k)
				again = true
				continue
			}
			s.Add(j)
		}
	}
	im.cost = s.Cost()
}

// Settle places one job after another at its best beside all others, within so much counted
// work.
func (s *Plan) Settle(ctx context.Context, work int64) {
	im := &improver{s: s, focus: problem.Always()}
	until := s.Spent + work
	im.settleEach(func() bool { return s.Spent < until && ctx.Err() == nil })
}

// again places a removed job anew for the same shares.
func (s *Plan) again(j *problem.Job) (*problem.Job, bool) {
	if j.Begun >= 0 {
		return s.CarryOn(j.Begun, j.Shares)
	}
	return s.placeAs(j.Kept, j.Family, j.Shares)
}

// roundWork is what a round costs whatever it does, so that rounds that find
// nothing to change still use up the budget.
const roundWork = 20

// round tries one neighbourhood; it reports whether the best plan got better.
func (im *improver) round() bool {
	s := im.s
	s.Spent += roundWork
	before := append([]*problem.Job(nil), s.Jobs...)
	ok := im.step()
	now := s.Cost()
	slot := im.steps % lateness
	im.steps++
	im.since++
	if !ok || (im.cost.Less(now) && (im.since < patience || im.past[slot].Less(now))) {
		im.restore(before)
		im.past[slot] = im.cost
		return false
	}
	im.cost = now
	im.past[slot] = now
	im.blamed = nil
	if !now.Less(im.best) {
		return false
	}
	im.best, im.bestJobs = now, append([]*problem.Job(nil), s.Jobs...)
	im.since = 0
	return true
}

// step changes the plan in some way; false when the change must be undone.
func (im *improver) step() bool {
	s := im.s
	s.Arranged, im.urgent = 0, -1
	if im.pick(4) == 0 {
		s.Arranged = usage.Arrangement(im.pick(usage.Arrangements))
	}
	defer func() { s.Arranged = 0 }()
	if len(s.Jobs) == 0 || im.pick(12) == 0 {
		return im.coverAgain()
	}
	if im.spares() && im.pick(3) == 0 && im.fewer() {
		return true
	}
	out := im.choose()
	if len(out) == 0 {
		return false
	}
	for _, j := range out {
		s.Remove(j)
	}
	return im.rebuild(out)
}

// spares reports whether a plan in which nothing is short has more jobs than the covers.
func (im *improver) spares() bool {
	jobs := int64(0)
	for _, c := range im.s.Relax.Covers {
		jobs += c.Least.Jobs
	}
	return im.cost.Jobs > jobs && !im.shortIn(im.focus)
}

// coverAgain takes out all new jobs of a family and places those of another
// cheapest walk.
func (im *improver) coverAgain() bool {
	s := im.s
	f := im.pick(len(s.Model.Families))
	for _, j := range append([]*problem.Job(nil), s.Jobs...) {
		if j.Family == f && j.Begun < 0 && im.focus.Holds(j.Ready) {
			s.Remove(j)
		}
	}
	if im.whole() {
		im.placeAll(f, s.Relax.Covers[f].Sample(im.pick))
	} else {
		im.regroup(f)
	}
	im.fillAll([]int{f})
	return true
}

// restore goes back to exactly these jobs.
func (im *improver) restore(before []*problem.Job) {
	s := im.s
	keep := map[*problem.Job]bool{}
	for _, j := range before {
		keep[j] = true
	}
	present := map[*problem.Job]bool{}
	for _, j := range append([]*problem.Job(nil), s.Jobs...) {
		if !keep[j] {
			s.Remove(j)
		} else {
			present[j] = true
		}
	}
	for _, j := range before {
		if !present[j] {
			s.Add(j)
		}
	}
	s.Jobs = append(s.Jobs[:0], before...)
}

// choose picks the jobs to take out.
func (im *improver) choose() []*problem.Job {
	list := im.inFocus(im.s.Jobs)
	if len(list) == 0 {
		return nil
	}
	size := 1 + im.pick(4)
	kind := im.pick(3)
	if kind > 0 && im.shortIn(im.focus) && im.pick(2) == 0 {
		kind = 0
	}
	switch kind {
	case 0:
		t := im.moment(list)
		if im.urgent >= 0 && im.pick(2) == 0 {
			if out := im.inTheWay(list, im.urgent, size); len(out) > 0 {
				return out
			}
		}
		return im.near(t, size)
	case 1:
		return im.ofFamily(list, size)
	default:
		var out []*problem.Job
		for _, x := range im.some(len(list), size) {
			out = append(out, list[x])
		}
		return out
	}
}

// moment is a time where something is to be gained: where a demand is short, if
// any is, else where some job of the list is.
func (im *improver) moment(list []*problem.Job) int {
	s := im.s
	var short []int
	for d, n := range s.Unmet {
		if n > 0 && im.focus.Holds(s.Model.Demands[d].Due) {
			short = append(short, d)
		}
	}
	if len(short) > 0 && im.pick(4) > 0 {
		im.urgent = short[im.pick(len(short))]
		return s.Model.Demands[im.urgent].Due
	}
	return list[im.pick(len(list))].Ready
}

// near are the jobs whose last work ends nearest a moment.
func (im *improver) near(t, size int) []*problem.Job {
	list := im.inFocus(im.s.Jobs)
	im.byDistance(list, t)
	return list[:min(size+1, len(list))]
}

// ofFamily are jobs of one family that follow one another.
func (im *improver) ofFamily(from []*problem.Job, size int) []*problem.Job {
	seed := from[im.pick(len(from))]
	var list []*problem.Job
	for _, j := range im.near(seed.Ready, len(from)) {
		if j.Family == seed.Family && len(list) < size+1 {
			list = append(list, j)
		}
	}
	return list
}

func (im *improver) movable(list []*problem.Job) []*problem.Job {
	out := make([]*problem.Job, 0, len(list))
	for _, j := range list {
		if !j.Stuck {
			out = append(out, j)
		}
	}
	return out
}

// some are k different numbers below n.
func (im *improver) some(n, k int) []int {
	all := problem.UpTo(n)
	im.shuffle(n, func(i, x int) { all[i], all[x] = all[x], all[i] })
	return all[:min(k, n)]
}

// rebuild puts the work of the removed jobs back in some other way. Jobs under
// way come back first; false when one cannot.
func (im *improver) rebuild(out []*problem.Job) bool {
	s := im.s
	im.shuffle(len(out), func(i, k int) { out[i], out[k] = out[k], out[i] })
	regroup := im.pick(2) == 0
	if !im.rebegin(out) {
		return false
	}
	if im.urgent >= 0 && im.pick(2) == 0 {
		s.Fill(s.Model.Demands[im.urgent].Family, []int{im.urgent})
	}
	families := map[int]bool{}
	var order []int
	for _, j := range out {
		if j.Begun >= 0 {
			continue
		}
		if !regroup && s.Unserved(j.Shares) {
			if k, ok := im.placeSomewhere(j); ok {
				s.Add(k)
				continue
			}
		}
		if !families[j.Family] {
			families[j.Family] = true
			order = append(order, j.Family)
		}
	}
	if regroup && im.pick(2) == 0 {
		for _, f := range order {
			im.regroup(f)
		}
	}
	im.fillAll(order)
	return true
}

// rebegin carries on those of the removed jobs that are under way. While they wait
// for their turn, what they hold now is in force.
func (im *improver) rebegin(out []*problem.Job) bool {
	s := im.s
	waiting := make([]*problem.Job, len(out))
	for x, j := range out {
		if j.Begun >= 0 {
			waiting[x] = s.carrier().Waits(j.Begun)
			s.Add(waiting[x])
		}
	}
	all := true
	for x, j := range out {
		if j.Begun < 0 {
			continue
		}
		s.Remove(waiting[x])
		if !all {
			continue
		}
		k, ok := s.CarryOn(j.Begun, j.Shares)
		if all = ok && !k.Stuck; all {
			s.Add(k)
		}
	}
	return all
}

// placeSomewhere places a removed job again for the same shares: at its best, or
// now and then at its best within a part of its window, to leave room elsewhere.
func (im *improver) placeSomewhere(j *problem.Job) (*problem.Job, bool) {
	s := im.s
	if im.pick(3) > 0 {
		return s.placeAs(j.Kept, j.Family, j.Shares)
	}
	w := s.Model.WindowOf(j.Family, j.Shares)
	length := (w.ReadyMax - w.ReadyMin) / s.Model.Step
	if length < 2 {
		return s.placeAs(j.Kept, j.Family, j.Shares)
	}
	from := w.ReadyMin + im.pick(length)*s.Model.Step
	part := problem.Window{ReadyMin: from, ReadyMax: min(w.ReadyMax, from+(1+im.pick(length))*s.Model.Step), End: w.End}
	mode := s.modeFor(j.Family, j.Shares)
	if mode < 0 {
		return nil, false
	}
	k, ok := calm.Place(&s.Schedule, s.Frozen, j.Family, mode, part, j.Kept)
	if !ok {
		return s.placeAs(j.Kept, j.Family, j.Shares)
	}
	k.Shares = j.Shares
	return k, true
}

// fillAll fills the families named first, then all others that owe something.
func (im *improver) fillAll(first []int) {
	s := im.s
	done := map[int]bool{}
	for _, f := range first {
		done[f] = true
		s.Fill(f, im.seeds(f))
	}
	for f := range s.Model.Families {
		if !done[f] {
			s.Fill(f, im.seeds(f))
		}
	}
}

// seeds are the family's unmet demands, in due order from either end or mixed.
func (im *improver) seeds(family int) []int {
	var out []int
	for _, d := range im.s.Prep.ByDue[family] {
		if im.s.Unmet[d] > 0 && im.focus.Holds(im.s.Model.Demands[d].Due) {
			out = append(out, d)
		}
	}
	switch im.pick(3) {
	case 0:
		slices.Reverse(out)
	case 1:
		im.shuffle(len(out), func(i, k int) { out[i], out[k] = out[k], out[i] })
	}
	return out
}
