package chance

import (
	"cmp"
	"slices"

	"ripeby/resources"
)

// Remedy is one change of the plan, and how often the want would be met with it.
type Remedy struct {
	Batch, Stage string           // whose start moves
	Was, Now     resources.Moment // earlier: the stages before it move with it; later: no other does
	Hits         int
	Low, High    float64
}

// worthTelling is by how much of all times a remedy must help to be told: less is within what chance does.
const worthTelling = 0.01

// tried is how many moments are tried each way: the nearest an hour or more away, the farthest, and between.
const tried = 4

// MostHolds is for how many holds it is tried what would help, those that fail wants most often: each is as much work
// as counting the plan through eight times.
const MostHolds = 8

// remedies finds for each want what would help most: to begin what comes before the hold that fails it most often
// earlier, or to come for it later, each by the recipe's limits, in somebody's free hours and with the kit that is
// free by the plan. All are tried with the same draws.
func (s *state) remedies(a *Answer, all []draws, opt Options) {
	fails := map[task]int{}
	var holds []task
	of := func(w *Want) (task, bool) {
		if w.Breaks.Why != NotOver || opt.Helps == nil || !opt.Helps(w) {
			return task{}, false
		}
		bi := slices.IndexFunc(s.batches, func(b batch) bool { return b.id == w.Breaks.Batch })
		return task{bi, slices.IndexFunc(s.batches[bi].stages, func(x stage) bool { return x.name == w.Breaks.Stage })}, true
	}
	for i := range a.Wants {
		if t, ok := of(&a.Wants[i]); ok {
			if fails[t] == 0 {
				holds = append(holds, t)
			}
			fails[t] += a.Wants[i].Breaks.Times
		}
	}
	slices.SortStableFunc(holds, func(x, y task) int { return cmp.Compare(fails[y], fails[x]) })
	a.Untried = max(0, len(holds)-MostHolds)
	tries := map[task][]counting{}
	for _, t := range holds[:len(holds)-a.Untried] {
		tries[t] = s.tryAll(t, all, opt)
	}
	for i := range a.Wants {
		w := &a.Wants[i]
		t, ok := of(w)
		if !ok {
			continue
		}
		best := w.Hits
		for _, c := range tries[t] {
			with := &c.wants[i]
			if with.Hits > best && float64(with.Hits-w.Hits) >= worthTelling*float64(w.Times) {
				best = with.Hits
				r := c.Remedy
				r.Hits, r.Low, r.High = with.Hits, with.Low, with.High
				w.Remedy = &r
			}
		}
	}
}

// counting is a change of the plan, and how its wants fare with it.
type counting struct {
	Remedy
	wants []Want
}

// tryAll tries what may help a hold that is not over in time.
func (s *state) tryAll(of task, all []draws, opt Options) (out []counting) {
	b := &s.batches[of.batch]
	try := func(moved map[task]resources.Moment, told int) {
		x := &b.stages[told]
		t := task{of.batch, told}
		out = append(out, counting{Remedy{Batch: b.id, Stage: x.name, Was: x.start, Now: moved[t]}, s.with(moved).count(all, opt)})
	}
	for _, by := range some(s.earlier(of)) {
		moved := map[task]resources.Moment{}
		for k := 0; k <= of.stage; k++ {
			moved[task{of.batch, k}] = b.stages[k].start.Add(-by)
		}
		try(moved, 0)
	}
	for _, by := range some(s.later(of)) {
		t := task{of.batch, of.stage + 1}
		try(map[task]resources.Moment{t: s.at(t).start.Add(by)}, t.stage)
	}
	return out
}

// some are a few of many, the first and the last among them.
func some(all []resources.Minutes) []resources.Minutes {
	if len(all) <= tried {
		return all
	}
	out := make([]resources.Minutes, tried)
	for i := range out {
		out[i] = all[i*(len(all)-1)/(tried-1)]
	}
	return out
}

// least is the smallest change that is tried.
const least = resources.Hour

// give is by how much a hold can become longer.
func (s *state) give(of task) resources.Minutes {
	x, next := s.at(of), s.at(task{of.batch, of.stage + 1})
	return x.most - next.start.Sub(x.start.Add(x.work))
}

// earlier are the times by which a batch may begin earlier, up to the hold of a stage, rising.
func (s *state) earlier(of task) (out []resources.Minutes) {
	b := &s.batches[of.batch]
	for by := resources.CeilLength(least, s.step); by <= s.give(of); by += s.step {
		ok := b.stages[0].start.Add(-by) >= max(b.earliest, s.p.From)
		for k := 0; ok && k <= of.stage; k++ {
			ok = !b.stages[k].begun && s.freeFor(task{of.batch, k}, b.stages[k].start.Add(-by))
		}
		if ok && s.kitFor(of, by) {
			out = append(out, by)
		}
	}
	return out
}

// later are the times by which the stage after a hold may begin later while those after it stay, rising.
func (s *state) later(of task) (out []resources.Minutes) {
	b, t := &s.batches[of.batch], task{of.batch, of.stage + 1}
	x := s.at(t)
	if x.begun {
		return nil
	}
	give := s.give(of)
	if t.stage+1 < len(b.stages) {
		give = min(give, b.stages[t.stage+1].start.Sub(x.start.Add(x.work+x.least)))
	}
	for by := resources.CeilLength(least, s.step); by <= give; by += s.step {
		if s.freeFor(t, x.start.Add(by)) {
			out = append(out, by)
		}
	}
	return out
}

// freeFor reports whether the person whom the plan has do a stage has time for it then, beside all else that is
// planned but for the batch's own.
func (s *state) freeFor(t task, at resources.Moment) bool {
	x := s.at(t)
	if x.work == 0 {
		return true
	}
	if x.by < 0 {
		return false
	}
	span := resources.Span{From: at, Until: at.Add(x.work)}
	if slices.ContainsFunc(s.planned[x.by], func(b booking) bool {
		return b.of.batch != t.batch && b.from < span.Until && span.From < b.until
	}) {
		return false
	}
	return slices.ContainsFunc(from(s.free[x.by], at), func(f resources.Span) bool { return f.Contains(span) })
}

// kitFor reports whether all that a batch keeps from its stages up to a hold on is there earlier by so much too.
func (s *state) kitFor(of task, by resources.Minutes) bool {
	for _, u := range s.batches[of.batch].uses {
		if u.first > of.stage {
			continue
		}
		taken := 0
		for i := range s.batches {
			for _, o := range s.batches[i].uses {
				if i != of.batch && o.thing == u.thing && o.from < u.from && o.until.Add(o.clean) > u.from.Add(-by) {
					taken += o.count
				}
			}
		}
		if taken+u.count > s.things[u.thing] {
			return false
		}
	}
	return true
}

// with is the plan with some stages begun at other moments.
func (s *state) with(moved map[task]resources.Moment) *state {
	out := *s
	out.batches = slices.Clone(s.batches)
	out.planned = make([][]booking, len(s.planned))
	for i := range out.batches {
		b := &out.batches[i]
		b.stages, b.uses = slices.Clone(b.stages), slices.Clone(b.uses)
		for k := range b.stages {
			at, ok := moved[task{i, k}]
			if !ok {
				continue
			}
			for j := range b.uses {
				u := &b.uses[j]
				if u.first == k {
					u.from = u.from.Add(at.Sub(b.stages[k].start))
				}
				if u.last == k {
					u.until = u.until.Add(at.Sub(b.stages[k].start))
				}
			}
			b.stages[k].start = at
		}
	}
	for i := range out.planned {
		out.planned[i] = slices.Clone(s.planned[i])
		for k := range out.planned[i] {
			b := &out.planned[i][k]
			if at, ok := moved[b.of]; ok {
				b.from, b.until = at, at.Add(b.until.Sub(b.from))
			}
		}
		slices.SortFunc(out.planned[i], func(a, b booking) int { return cmp.Compare(a.from, b.from) })
	}
	out.inTurn()
	return &out
}
