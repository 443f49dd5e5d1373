package planner_test

import (
	"cmp"
	"fmt"
	"slices"
	"sort"

	"ripeby/resources"
	"ripeby/schedule"
)

// everyKind is all ways that are alike for everybody who gets cheese of them: of one
// batch under way or entry of stock, or new ones of one recipe and size, that serve
// the same wants, leave at the same time and are equally late.
type everyKind struct {
	giver
	slot   int // of what is there already; -1 for a new batch
	stuck  int // 1 for what is left where it is
	late   int64
	recipe int
	litres resources.Millilitres
	ways   []everyWay // fewest moved first, then least bother, then the latest make
	calm   int        // stages that any of them moves at the least
}

// everyScore is a plan's score, and how many batches it leaves where they are: that counts
// before all.
type everyScore struct {
	stuck int
	schedule.Score
}

func (s everyScore) compare(o everyScore) int {
	return cmp.Or(cmp.Compare(s.stuck, o.stuck), s.Score.Compare(o.Score))
}

// everyPlan lists all plans of one kitchen.
type everyPlan struct {
	*everyWorld
	most  int64 // what has begun is so late at the most; -1 for any, and stuck
	slots int   // batches under way and entries of stock
	kinds []everyKind
	bench *everyBench
	work  int64 // ways put so far, in all questions
	over  bool  // too much for a list

	goal  *everyScore // the search may stop when this is beaten; nil for the best
	best  everyScore  // the parts before bother, then all
	found bool
	ties  [][]int // sets of kinds with these parts
	set   []int   // the best plan: kinds and their ways
	ways  []*everyWay
	as    []int // which batch of the earlier plan each is, -1 for none

	told everyTold
	used []bool // which of those are new ones
}

// A kitchen with more than this is too large to list.
const (
	everyWays = 3_000
	everyWork = 1_500_000
	everySets = 20_000 // of what may become of what is there already
)

// listKinds makes the list of ways in which no hold is past its most; not ok when it is too long.
func listKinds(p *schedule.Problem) (*everyPlan, bool) { return listLate(p, 0) }

// listLate makes the list of ways in which each batch is so late at the most, -1 for all.
func listLate(p *schedule.Problem, most int64) (*everyPlan, bool) {
	e := &everyPlan{everyWorld: newEveryWorld(p), most: most}
	e.slots = len(e.under) + len(p.Stock)
	if e.unsure {
		return e, false
	}
	count := 0
	for i := range e.under {
		l := e.underWay(&e.under[i], most)
		e.sort(l.out, everyKind{giver: giver{sell: l.sell}, slot: i, litres: l.litres}, l.r.Name, l.r.Keeps)
		if count += len(l.out); count > everyWays {
			return e, false
		}
	}
	for i := range p.Stock {
		s := &p.Stock[i]
		ways := e.stockWays(i)
		e.sort(ways, everyKind{giver: giver{sell: s.Pieces}, slot: len(e.under) + i}, s.Cheese, p.Recipe(s.Cheese).Keeps)
	}
	for i := range p.Recipes {
		r := &p.Recipes[i]
		for milk := r.Batch.Least; milk <= r.Batch.Most; milk += r.Batch.Step {
			l := e.newBatch(r, milk)
			if len(l.out) > everyWays {
				return e, false
			}
			e.bench = newEveryBench(e.everyWorld)
			alone := slices.DeleteFunc(l.out, func(w everyWay) bool {
				good := e.bench.put(&w)
				if good {
					e.bench.take(&w)
				}
				return !good
			})
			e.sort(alone, everyKind{giver: giver{sell: l.sell, serves: max(1, r.Batch.Serves)}, slot: -1, recipe: i, litres: milk}, r.Name, r.Keeps)
			count += len(alone)
		}
	}
	e.bench = newEveryBench(e.everyWorld)
	e.told = e.listTold()
	e.countTold()
	return e, count <= everyWays
}

// sort puts ways into kinds.
func (e *everyPlan) sort(ways []everyWay, like everyKind, cheese string, keeps resources.Minutes) {
	first := len(e.kinds)
	for _, w := range ways {
		k := like
		if k.late = w.late; w.stuck {
			k.stuck = 1
		}
		for i, x := range e.wants {
			if w.served() && x.open(cheese, w.packed, keeps) && x.by <= w.end {
				k.reach |= 1 << i
				if x.by == w.end {
					k.ends |= 1 << i
				}
			}
		}
		at := slices.IndexFunc(e.kinds[first:], func(o everyKind) bool {
			return o.reach == k.reach && o.ends == k.ends && o.late == k.late && o.stuck == k.stuck
		})
		if at < 0 {
			at = len(e.kinds) - first
			e.kinds = append(e.kinds, k)
		}
		e.kinds[first+at].ways = append(e.kinds[first+at].ways, w)
	}
	for i := range e.kinds[first:] {
		ways := e.kinds[first+i].ways
		sort.SliceStable(ways, func(a, b int) bool {
			return ways[a].bother < ways[b].bother || ways[a].bother == ways[b].bother && ways[a].begins > ways[b].begins
		})
	}
}

// solve finds the best score of all plans; not ok when what is there already cannot be
// carried on, when there is too much to list, or when ways that are not listed may be better.
func (e *everyPlan) solve(apart [sides]bool) (everyScore, bool) {
	e.bench.apart, e.bench.tried, e.found, e.ties = apart, 0, false, nil
	least := e.leastPromised()
	for _, layer := range e.standing() {
		if how := e.lateOf(layer[0]); e.found && how.compare(everyScore{e.best.stuck, schedule.Score{Late: e.best.Late}}) > 0 &&
			(how.stuck > e.best.stuck || e.best.PromisedShort <= least) {
			break // later, and nothing promised to be won by that
		}
		for len(layer) > 0 && !e.over {
			var able [][]int
			for _, set := range layer {
				if e.weigh(set) {
					able = append(able, set)
				}
				if e.goalBeaten() {
					return e.best, true
				}
			}
			if e.found && e.nothingShort() {
				break
			}
			layer = e.larger(able)
		}
	}
	e.dateTies()
	e.work += e.bench.tried
	return e.best, e.found && !e.over && (e.most < 0 || len(e.under) == 0 || e.best.PromisedShort <= least)
}

// standing lists what becomes of all that is there already: the sets of its kinds, those that
// leave equally many where they are and are equally late together, the least first.
func (e *everyPlan) standing() [][][]int {
	sets := [][]int{nil}
	for slot := range e.slots {
		var next [][]int
		for _, set := range sets {
			for k := range e.kinds {
				if e.kinds[k].slot == slot {
					next = append(next, append(slices.Clone(set), k))
				}
			}
		}
		if sets = next; len(sets) > everySets {
			e.over = true
			return nil
		}
	}
	sort.SliceStable(sets, func(a, b int) bool { return e.lateOf(sets[a]).compare(e.lateOf(sets[b])) < 0 })
	var out [][][]int
	for i, set := range sets {
		if i == 0 || e.lateOf(sets[i-1]) != e.lateOf(set) {
			out = append(out, nil)
		}
		out[len(out)-1] = append(out[len(out)-1], set)
	}
	return out
}

// lateOf is how many batches a set of kinds leaves where they are, and how late it is.
func (e *everyPlan) lateOf(set []int) (s everyScore) {
	for _, k := range set {
		s.stuck += e.kinds[k].stuck
		s.Late += e.kinds[k].late
	}
	return s
}

// leastPromised is a value of promised pieces that every plan leaves short: of wants that no
// way reaches. What has begun may reach any, late enough.
func (e *everyPlan) leastPromised() resources.Money {
	var lost resources.Money
	for i, w := range e.wants {
		reached := slices.ContainsFunc(e.kinds, func(k everyKind) bool { return k.reach>>i&1 == 1 }) ||
			slices.ContainsFunc(e.under, func(b everyBegun) bool { return e.most >= 0 && b.Cheese == w.Cheese })
		if w.Promised && !reached {
			lost += w.Price * resources.Money(w.Pieces)
		}
	}
	return lost
}

// larger lists the sets with one more new batch, each once, of which all parts with one
// less are possible.
func (e *everyPlan) larger(able [][]int) [][]int {
	known := map[string]bool{}
	for _, set := range able {
		known[fmt.Sprint(set)] = true
	}
	var out [][]int
	for _, set := range able {
		least := 0
		if len(set) > e.slots {
			least = set[len(set)-1]
		}
		for k := least; k < len(e.kinds); k++ {
			more := append(slices.Clone(set), k)
			good := e.kinds[k].slot < 0
			for i := e.slots; good && i < len(set); i++ {
				good = known[fmt.Sprint(slices.Delete(slices.Clone(more), i, i+1))]
			}
			if e.over = e.over || len(more) > mostGivers; good && !e.over {
				out = append(out, more)
			}
		}
	}
	return out
}

// goalBeaten reports whether the parts before bother are better than the goal's already.
func (e *everyPlan) goalBeaten() bool {
	if e.goal == nil || !e.found {
		return false
	}
	goal := *e.goal
	if goal.Bother, goal.MakeStarts = 0, 0; e.told.until > 0 {
		goal.Moved, goal.Litres = 0, 0
	}
	return e.best.compare(goal) < 0
}

// weigh reports whether a set of kinds is possible, and keeps it if no other is better
// in the parts before bother. Every part of a possible set is possible, so nothing is lost
// by giving an impossible one up.
func (e *everyPlan) weigh(set []int) bool {
	shares := shareOut(e.wants, e.givers(set))
	if shares == nil || !e.possible(set, 0, 0) {
		return false
	}
	s := e.beforeBother(set, shares)
	c := s.compare(e.best)
	if !e.found || c < 0 {
		e.best, e.found, e.ties = s, true, [][]int{set}
	} else if c == 0 {
		e.ties = append(e.ties, set)
	}
	return true
}

// beforeBother are the parts of a set's score that its ways have no say in.
func (e *everyPlan) beforeBother(set []int, shares *reached) everyScore {
	s := e.lateOf(set)
	s.PromisedShort, s.Short, s.Batches = shares.lost.promised, shares.lost.other, len(set)-e.slots
	if e.told.until == 0 { // else they come after what the ways have a say in
		s.Litres = e.litresOf(set)
	}
	return s
}

func (e *everyPlan) litresOf(set []int) (sum resources.Millilitres) {
	for _, k := range set[e.slots:] {
		sum += e.kinds[k].litres
	}
	return sum
}

func (e *everyPlan) givers(set []int) []giver {
	var out []giver
	for _, k := range set {
		out = append(out, e.kinds[k].giver)
	}
	return out
}

// nothingShort reports whether more batches could not make anything better: each want
// is met, but for those that no way of any kind reaches.
func (e *everyPlan) nothingShort() bool {
	var lost short
	for i, w := range e.wants {
		if slices.ContainsFunc(e.kinds, func(k everyKind) bool { return k.reach>>i&1 == 1 }) {
			continue
		}
		value := w.Price * resources.Money(w.Pieces)
		if w.Promised {
			lost.promised += value
		} else {
			lost.other += value
		}
	}
	return e.best.PromisedShort == lost.promised && e.best.Short == lost.other
}

// possible reports whether there are ways of a set of kinds, from the i-th on, that go
// together. Equal kinds are taken in one order only.
func (e *everyPlan) possible(set []int, i, least int) bool {
	if i == len(set) {
		return true
	}
	ways := e.kinds[set[i]].ways
	for n := e.first(set, i, least); n < len(ways) && e.goOn(); n++ {
		if !e.bench.put(&ways[n]) {
			continue
		}
		rest := e.possible(set, i+1, n)
		e.bench.take(&ways[n])
		if rest {
			return true
		}
	}
	return false
}

// first is where the ways of the i-th kind begin, when the one before took that way.
func (e *everyPlan) first(set []int, i, before int) int {
	if i > e.slots && set[i] == set[i-1] {
		return before
	}
	return 0
}

// goOn reports whether the work is within its limit.
func (e *everyPlan) goOn() bool {
	e.over = e.over || e.bench.tried > everyWork
	return !e.over
}

// dateTies finds the least bother, then the latest makes, of the sets that are as good
// as any in the parts before bother.
func (e *everyPlan) dateTies() {
	e.set, e.ways, e.as = nil, nil, nil
	parts := e.best
	e.used = make([]bool, len(e.told.may))
	for _, set := range e.ties {
		parts.Litres = e.litresOf(set)
		e.date(set, 0, 0, parts, nil, nil)
	}
}

// date tries all ways of a set from the i-th kind on. A branch is given up when the
// least bother of each that is left, and the latest make of each, were no better.
func (e *everyPlan) date(set []int, i, least int, s everyScore, ways []*everyWay, is []int) {
	if e.ways != nil {
		hope := s // what is none of the earlier plan's batches may still be
		for _, k := range set[i:] {
			hope.Moved += e.kinds[k].calm
			hope.Bother += e.kinds[k].leastBother()
			hope.MakeStarts += e.kinds[k].latest()
		}
		if hope.compare(e.best) >= 0 {
			return
		}
	}
	if i == len(set) {
		u := e.unkept()
		s.Moved, s.Bother = s.Moved+u.moved, s.Bother+u.bother
		if e.ways == nil || s.compare(e.best) < 0 {
			e.best, e.set, e.ways, e.as = s, set, append([]*everyWay{}, ways...), slices.Clone(is)
		}
		return
	}
	all := e.kinds[set[i]].ways
	for n := e.first(set, i, least); n < len(all) && e.goOn(); n++ {
		w := &all[n]
		if !e.bench.put(w) {
			continue
		}
		e.ids(&e.kinds[set[i]], w, func(of int, u everyUnrest) {
			more := s
			more.Moved += u.moved
			more.Bother += w.bother + u.bother
			more.MakeStarts += w.begins
			e.date(set, i+1, n, more, append(ways, w), append(is, of))
		})
		e.bench.take(w)
	}
}

// leastBother is the least bother of the kind's ways.
func (k *everyKind) leastBother() int64 {
	least := k.ways[0].bother
	for i := range k.ways {
		least = min(least, k.ways[i].bother)
	}
	return least
}

// latest is the latest make of the kind's ways.
func (k *everyKind) latest() int64 {
	last := k.ways[0].begins
	for i := range k.ways {
		last = max(last, k.ways[i].begins)
	}
	return last
}
