package cheapest

import (
	"slices"
	"sort"

	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/kernel"
)

// weakening is which bounds it takes that no chain costs less than need. Pieces of work are gone
// through from the last that matters to the first:
//
//	up to there          the present bounds of those before, in rows
//	from there on        what those after let in once their bounds have gone out, in next
//
// so that whatever a bound lets in by going out, all that is let in together costs need or more.
type weakening struct {
	*rule
	s          *kernel.Solver
	z          *chain.SizeCosts
	size, need int32
	i, last    int
	anybody    bool // whoever does the present piece of work
}

// weaken puts the reasons why there is no chain of less than need, after the piece of work up to which
// there is none.
func (b *rule) weaken(s *kernel.Solver, z *chain.SizeCosts, size, need int32, last int) {
	w := weakening{rule: b, s: s, z: z, size: size, need: need, last: last}
	b.next = b.next[:0]
	for w.i = last; w.i >= b.Fixed; w.i-- {
		from, to := z.Within(w.i, s.Min(b.Start[w.i]), s.Max(b.Start[w.i]))
		w.who(from, to)
		from, to = w.goOut(from, to)
		if w.i > b.Fixed {
			w.letIn(from, to)
		}
	}
}

// own is what the present piece of work costs; need or more where no cheaper chain goes through it
// by the tables.
func (w *weakening) own(t int32) int32 {
	switch {
	case !w.cheap(w.i, w.size, t, w.need):
		return w.need
	case w.anybody:
		return w.z.Any[w.i][t-w.z.Lo[w.i]]
	}
	return w.ownAt(w.s, w.z, w.i, t)
}

// cheaper reports whether some chain through a start costs less than need.
func (w *weakening) cheaper(t int32) bool {
	v := w.upTo(w.s, w.z, w.i, t, w.own(t), w.need)
	if v < w.need && w.i < w.last {
		v += w.after(w.s, w.z, w.i, t)
	}
	return v < w.need
}

// who names those who may no longer do the present piece of work, at the starts that are left, where
// that matters.
func (w *weakening) who(from, to int) {
	w.anybody = true
	if !slices.ContainsFunc(w.Who[w.i], w.s.False) {
		return
	}
	for _, t := range w.z.At[w.i][from:to] {
		if w.cheaper(t) {
			w.anybody = false
			break
		}
	}
	if w.anybody {
		return
	}
	for _, l := range w.Who[w.i] {
		if w.s.False(l) {
			w.lits = append(w.lits, l.Not())
		}
	}
}

// goOut names the bounds of the present start, as far out as they may be, and gives the part of the
// starts that they let in. Where no start further out can be reached from what is left of the piece of
// work before, a bound goes out all the way: that one has still to go out.
func (w *weakening) goOut(from, to int) (int, int) {
	at, x := w.z.At[w.i], w.Start[w.i]
	low, high := w.leads()
	first, past := low, high
	if w.i > w.Fixed {
		row, lag := w.rows[w.i-1], w.z.Work[w.i-1]+w.z.Least[w.i-1]
		first, past = part(at, first, past, row[0].t+lag, row[len(row)-1].t+lag+int32(len(w.z.Lags[w.i-1]))-1)
	}
	from, to = max(min(from, past), first), max(min(to, past), first)
	for from > first && !w.cheaper(at[from-1]) {
		from--
	}
	if from > first {
		w.lits = append(w.lits, x.Ge(at[from-1]+1))
		low = from
	}
	for to < past && !w.cheaper(at[to]) {
		to++
	}
	if to < past {
		w.lits = append(w.lits, x.Le(at[to]-1))
		high = to
	}
	return low, high
}

// leads is the part of the present starts from which a lag leads to what is let in after them.
func (w *weakening) leads() (first, past int) {
	at := w.z.At[w.i]
	switch {
	case w.i == w.last:
		return 0, len(at)
	case len(w.next) == 0:
		return 0, 0
	}
	lag := w.z.Work[w.i] + w.z.Least[w.i]
	return part(at, 0, len(at), w.next[0].t-lag-int32(len(w.z.Lags[w.i]))+1, w.next[len(w.next)-1].t-lag)
}

// part is the part of at[first:past] from least to most.
func part(at []int32, first, past int, least, most int32) (int, int) {
	first = min(past, max(first, sort.Search(len(at), func(k int) bool { return at[k] >= least })))
	return first, max(first, min(past, sort.Search(len(at), func(k int) bool { return at[k] > most })))
}

// letIn fills next with what the present piece of work lets in.
func (w *weakening) letIn(from, to int) {
	out := w.room[:0]
	for _, t := range w.z.At[w.i][from:to] {
		v := w.own(t)
		if v < w.need && w.i < w.last {
			v += w.after(w.s, w.z, w.i, t)
		}
		if v < w.need {
			out = append(out, reached{t, v})
		}
	}
	w.next, w.room = out, w.next
}
