package planner_test

import (
	"fmt"
	"slices"
	"sort"

	"ripeby/resources"
	"ripeby/schedule"
)

// everyKind is all ways that are alike for everybody who gets cheese of them: of one
// batch under way or entry of stock, or new ones of one recipe and size, that serve
// the same wants and leave at the same time.
type everyKind struct {
	giver
	slot   int // of what is there already; -1 for a new batch
	recipe int
	litres resources.Millilitres
	ways   []everyWay // least bother first, then the latest make
}

// everyPlan lists all plans of one kitchen.
type everyPlan struct {
	*everyWorld
	slots int // batches under way and entries of stock
	kinds []everyKind
	bench *everyBench
	work  int64 // ways put so far, in all questions
	over  bool  // too much for a list

	goal  *schedule.Score // the search may stop when this is beaten; nil for the best
	best  schedule.Score  // the first four parts, then all
	found bool
	ties  [][]int // sets of kinds with these four parts
	set   []int   // the best plan: kinds and their ways
	ways  []*everyWay
}

// A kitchen with more than this is too large to list.
const (
	everyWays = 3_000
	everyWork = 1_500_000
)

// listKinds makes the list of ways; not ok when it is too long.
func listKinds(p *schedule.Problem) (*everyPlan, bool) {
	e := &everyPlan{everyWorld: newEveryWorld(p), slots: len(p.Begun) + len(p.Stock)}
	count := 0
	for i := range p.Begun {
		l := e.underWay(&p.Begun[i])
		e.sort(l.out, everyKind{giver: giver{sell: l.sell}, slot: i, litres: l.litres}, l.r.Name, l.r.Keeps)
		count += len(l.out)
	}
	for i := range p.Stock {
		s := &p.Stock[i]
		ways := e.stockWays(s)
		e.sort(ways, everyKind{giver: giver{sell: s.Pieces}, slot: len(p.Begun) + i}, s.Cheese, p.Recipe(s.Cheese).Keeps)
	}
	for i := range p.Recipes {
		r := &p.Recipes[i]
		for milk := r.Batch.Least; milk <= r.Batch.Most; milk += r.Batch.Step {
			l := e.newBatch(r, milk)
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
	return e, count <= everyWays
}

// sort puts ways into kinds.
func (e *everyPlan) sort(ways []everyWay, like everyKind, cheese string, keeps resources.Minutes) {
	first := len(e.kinds)
	for _, w := range ways {
		k := like
		for i, x := range e.wants {
			if w.served() && x.open(cheese, w.packed, keeps) && x.by <= w.end {
				k.reach |= 1 << i
				if x.by == w.end {
					k.ends |= 1 << i
				}
			}
		}
		at := slices.IndexFunc(e.kinds[first:], func(o everyKind) bool { return o.reach == k.reach && o.ends == k.ends })
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
// carried on in time, or when there is too much to list.
func (e *everyPlan) solve(apart [sides]bool) (schedule.Score, bool) {
	e.bench.apart, e.bench.tried, e.found, e.ties = apart, 0, false, nil
	layer := [][]int{nil}
	for slot := range e.slots {
		var next [][]int
		for _, set := range layer {
			for k := range e.kinds {
				if e.kinds[k].slot == slot {
					next = append(next, append(slices.Clone(set), k))
				}
			}
		}
		layer = next
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
		if !e.found || e.nothingShort() {
			break
		}
		layer = e.larger(able)
	}
	e.dateTies()
	e.work += e.bench.tried
	return e.best, e.found && !e.over
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

// goalBeaten reports whether the first four parts are better than the goal's already.
func (e *everyPlan) goalBeaten() bool {
	if e.goal == nil || !e.found {
		return false
	}
	four := *e.goal
	four.Bother, four.MakeStarts = 0, 0
	return e.best.Compare(four) < 0
}

// weigh reports whether a set of kinds is possible, and keeps it if no other is better
// in the first four parts. Every part of a possible set is possible, so nothing is lost
// by giving an impossible one up.
func (e *everyPlan) weigh(set []int) bool {
	shares := shareOut(e.wants, e.givers(set))
	if shares == nil || !e.possible(set, 0, 0) {
		return false
	}
	s := schedule.Score{PromisedShort: shares.lost.promised, Short: shares.lost.other, Batches: len(set) - e.slots}
	for _, k := range set[e.slots:] {
		s.Litres += e.kinds[k].litres
	}
	c := s.Compare(e.best)
	if !e.found || c < 0 {
		e.best, e.found, e.ties = s, true, [][]int{set}
	} else if c == 0 {
		e.ties = append(e.ties, set)
	}
	return true
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
// as any in the first four parts.
func (e *everyPlan) dateTies() {
	e.set, e.ways = nil, nil
	parts := e.best
	for _, set := range e.ties {
		e.date(set, 0, 0, parts, nil)
	}
}

// date tries all ways of a set from the i-th kind on. A branch is given up when the
// least bother of each that is left, and the latest make of each, were no better.
func (e *everyPlan) date(set []int, i, least int, s schedule.Score, ways []*everyWay) {
	if e.ways != nil {
		hope := s
		for _, k := range set[i:] {
			hope.Bother += e.kinds[k].ways[0].bother
			hope.MakeStarts += e.kinds[k].latest()
		}
		if hope.Compare(e.best) >= 0 {
			return
		}
	}
	if i == len(set) {
		e.best, e.set, e.ways = s, set, append([]*everyWay{}, ways...)
		return
	}
	all := e.kinds[set[i]].ways
	for n := e.first(set, i, least); n < len(all) && e.goOn(); n++ {
		w := &all[n]
		if !e.bench.put(w) {
			continue
		}
		more := s
		more.Bother += w.bother
		more.MakeStarts += w.begins
		e.date(set, i+1, n, more, append(ways, w))
		e.bench.take(w)
	}
}

// latest is the latest make of the kind's ways.
func (k *everyKind) latest() int64 {
	last := k.ways[0].begins
	for i := range k.ways {
		last = max(last, k.ways[i].begins)
	}
	return last
}
