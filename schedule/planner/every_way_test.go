package planner_test

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// everyWay is one way of one batch, or of one entry of stock: all that is chosen of
// it but which pieces go where.
type everyWay struct {
	starts []resources.Moment
	works  []resources.Minutes
	who    []int    // -1 where there is no work
	at     []string // place of each stage
	pots   []string // of each run that is a pot, in the order of runs
	draw   *schedule.Draw
	packed resources.Moment
	end    resources.Moment
	claims []everyClaim
	stays  []everyStay
	bother int64
	late   int64
	stuck  bool          // left where it is: only what has begun is there, and it never leaves
	begins int64         // minutes from the planning start; 0 for what has begun
	unrest []everyUnrest // as what it is, then as each batch of the earlier plan that it may be; nil where nothing was told
}

// everyClaim is so much of a thing for a time. Planned is what does not belong to
// what has happened: only that can be too much.
type everyClaim struct {
	thing       int
	from, until resources.Moment
	count       int64
	planned     bool
}

// everyStay is boxes of one kind in a measured place for a time.
type everyStay struct {
	place, box  int // in the kitchen's lists
	boxes       int
	from, until resources.Moment
	open        uint // the shelves that are not closed meanwhile
	stage       int
	planned     bool
	now         bool             // it stands there at the planning start
	at          []everyPile      // where, if that is known
	carried     resources.Moment // when it comes, if it has not gone on by then; 0 for what is in no new place
}

// everyRun is consecutive stages that keep the same kit.
type everyRun struct {
	first, last int
	use         schedule.Use
	box         *schedule.Boxing
}

// boxingAt is what a stage packs into; nil when it uses no box.
func boxingAt(r *schedule.Recipe, i int) *schedule.Boxing {
	switch {
	case !usesKind(&r.Stages[i], schedule.UseBox):
		return nil
	case r.Stages[i].Box != nil:
		return r.Stages[i].Box
	}
	return r.Box
}

// everyRuns lists the runs of a recipe by first stage.
func everyRuns(r *schedule.Recipe) []everyRun {
	var out []everyRun
	for i := range r.Stages {
		for _, u := range r.Stages[i].Uses {
			goesOn := false
			for k := range out {
				if out[k].last != i-1 || out[k].use != u || slices.Contains(r.Stages[i].Fresh, u.Kind) {
					continue
				}
				if u.Kind != schedule.UseBox || *boxingAt(r, i) == *out[k].box {
					out[k].last, goesOn = i, true
				}
			}
			if !goesOn {
				out = append(out, everyRun{i, i, u, boxingAt(r, i)})
			}
		}
	}
	return out
}

// lister lists all ways of a batch of one size.
type lister struct {
	*everyWorld
	r      *schedule.Recipe
	litres resources.Millilitres
	pieces int // that are worked on
	sell   int
	begun  *everyBegun // nil for a new batch
	fixed  []resources.Moment
	latest []resources.Moment // of each stage of what has begun
	most   int64              // so late at the most; -1 for any
	runs   []everyRun
	now    everyWay
	out    []everyWay
}

// newBatch lists all ways of a new batch.
func (e *everyWorld) newBatch(r *schedule.Recipe, milk resources.Millilitres) *lister {
	l := &lister{everyWorld: e, r: r, litres: milk, runs: everyRuns(r)}
	l.pieces = int(int64(milk) * int64(r.Yield.Pieces) / int64(r.Yield.From))
	l.sell = l.pieces - r.Spare
	if l.sell < 1 {
		return l
	}
	for t := resources.CeilTo(e.from, e.step); t <= e.last; t = t.Add(e.step) {
		l.stage(0, t, spent{}, true)
	}
	return l
}

// followAtOnce adds the stages without work that nobody would write down: they have
// begun when the work before them, which no hold follows, was done.
func (l *lister) followAtOnce() {
	for i := len(l.fixed); i < len(l.r.Stages); i++ {
		before := &l.r.Stages[i-1]
		_, most := l.limits(before.Hold)
		done := l.fixed[i-1].Add(l.workOf(i - 1))
		if l.r.Stages[i].Hands != nil || most > 0 || done > l.from {
			return
		}
		l.fixed = append(l.fixed, done)
	}
}

// spent is what a way has cost so far.
type spent struct{ bother, late int64 }

// stage tries everybody for the work of stage i, begun at t. Full says that the holds before
// it that come after one another by themselves have lasted as long as they may.
func (l *lister) stage(i int, t resources.Moment, cost spent, full bool) {
	if len(l.out) > everyWays {
		return
	}
	work := l.workOf(i)
	done := t.Add(work)
	if l.begun == nil && done > l.last {
		return
	}
	for _, who := range l.hands(i, resources.Span{From: t, Until: done}) {
		more := cost
		if who >= 0 && i >= len(l.fixed) {
			more.bother += l.grudged(who, resources.Span{From: t, Until: done})
		}
		l.now.starts, l.now.works, l.now.who = append(l.now.starts, t), append(l.now.works, work), append(l.now.who, who)
		if i == len(l.r.Stages)-1 {
			l.ends(done, more)
		} else {
			l.wait(i, done, more, full)
		}
		l.now.starts, l.now.works, l.now.who = l.now.starts[:i], l.now.works[:i], l.now.who[:i]
	}
}

// hands lists who can do stage i then: -1, nobody, where there is no work. What has
// begun was done by the first listed person who may.
func (l *lister) hands(i int, work resources.Span) []int {
	if work.Empty() {
		return []int{-1}
	}
	var out []int
	if i < len(l.fixed) {
		if who := l.begun.whoDid(l.p, i); who >= 0 {
			return []int{who}
		}
	}
	for who := range l.p.Kitchen.People {
		names := l.r.Stages[i].Who
		if len(names) > 0 && !slices.Contains(names, l.p.Kitchen.People[who].Name) {
			continue
		}
		if i < len(l.fixed) {
			return []int{who}
		}
		if l.mayWork(who, work) {
			out = append(out, who)
		}
	}
	return out
}

// wait tries every length of the hold after stage i.
func (l *lister) wait(i int, done resources.Moment, cost spent, full bool) {
	h := l.warm(l.r.Stages[i].Hold, done)
	least, most := l.limits(h)
	after := func(next resources.Moment) spent {
		return spent{cost.bother + l.offHold(h, next.Sub(done)), cost.late + lateness(next.Sub(done)-most, most)}
	}
	if i+1 < len(l.fixed) {
		next := l.fixed[i+1]
		if next >= l.from {
			cost = after(next)
		}
		l.stage(i+1, next, cost, true)
		return
	}
	first := resources.CeilTo(max(l.from, done.Add(least)), l.step)
	longest := done.Add(most)
	if l.comesByItself(i + 1) {
		if first > longest && l.begun != nil && i+1 == len(l.fixed) {
			longest = first // just then, and that is as long as it may last
		}
		for next := first; next <= longest; next = next.Add(l.step) {
			l.stage(i+1, next, after(next), full && next.Add(l.step) > longest)
		}
		return
	}
	until := longest
	if l.begun != nil && full {
		until = l.waited(i + 1)
	}
	for next := first; next <= until; next = next.Add(l.step) {
		if next > longest && l.most >= 0 && after(next).late > l.most {
			return
		}
		l.stage(i+1, next, after(next), true)
	}
}

// ends tries every target that the batch can leave with last; for what has begun also
// none.
func (l *lister) ends(packed resources.Moment, cost spent) {
	last := &l.r.Stages[len(l.r.Stages)-1]
	least, most := l.limits(last.Hold)
	if last.Hold == nil {
		most = l.r.Keeps
	}
	l.now.packed, l.now.bother, l.now.late, l.now.begins = packed, cost.bother, cost.late, 0
	if l.begun == nil {
		l.now.begins = int64(l.now.starts[0] - l.from)
	}
	for _, end := range l.leaving(l.r.Name, packed, l.r.Keeps) {
		if hold := end.Sub(packed); l.sell > 0 && least <= hold && hold <= most {
			l.now.end = end
			l.fetch()
		}
	}
	if l.begun != nil {
		l.now.end = packed.Add(least)
		if len(l.fixed) == len(l.r.Stages) {
			l.now.end = max(l.now.end, l.from)
		}
		l.now.end = -l.now.end // without a target
		l.fetch()
	}
}

// leaving lists the moments at which cheese packed then can leave, each once.
func (e *everyWorld) leaving(cheese string, packed resources.Moment, keeps resources.Minutes) []resources.Moment {
	var out []resources.Moment
	for _, w := range e.wants {
		if w.open(cheese, packed, keeps) && !slices.Contains(out, w.by) {
			out = append(out, w.by)
		}
	}
	return out
}

// fetch tries every collection that the milk can come from.
func (l *lister) fetch() {
	begins := l.now.starts[0]
	var fit []collected
	for _, c := range l.milk[l.r.Milk] {
		if c.Ready <= begins && begins <= c.Ready.Add(l.supplied().Keeps) {
			fit = append(fit, c)
		}
	}
	switch {
	case l.begun != nil && l.begun.earlier != nil && l.begun.earlier.Milk != nil: // as it was
		for _, c := range l.milk[l.r.Milk] {
			if c.Ready == l.begun.earlier.Milk.Collect {
				l.draw(c)
			}
		}
	case l.begun != nil && len(fit) > 0: // it drew on the latest
		l.draw(fit[len(fit)-1])
	case l.r.Milk == "" || l.begun != nil:
		l.now.draw = nil
		l.kit(nil)
	default:
		for _, c := range fit {
			if c.usable && int64(l.litres) <= l.things[c.thing].limit {
				l.draw(c)
			}
		}
	}
}

func (l *lister) supplied() *resources.Milk {
	for i := range l.p.Kitchen.Milk {
		if l.p.Kitchen.Milk[i].Name == l.r.Milk {
			return &l.p.Kitchen.Milk[i]
		}
	}
	return nil
}

func (l *lister) draw(c collected) {
	l.now.draw = &schedule.Draw{Supply: l.r.Milk, Collect: c.Ready}
	l.kit([]everyClaim{{c.thing, 0, 1, int64(l.litres), l.begun == nil}})
}
