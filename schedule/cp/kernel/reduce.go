package kernel

import "sort"

// limits are the counters that steer restarts and the dropping of clauses.
type limits struct {
	keep  int   // learned clauses kept before the next drop
	unit  int64 // conflicts of the shortest run between restarts
	turns int64 // restarts so far
}

// What the counters start from. Luby et al., "Optimal speedup of Las Vegas
// algorithms" (1993), for the restarts; the sizes were found by trying.
const (
	firstKeep   = 4000
	keepMore    = 300
	restartUnit = 250
	alwaysKeep  = 2 // spread up to which a clause is never dropped
)

func firstLimits() limits {
	return limits{keep: firstKeep, unit: restartUnit}
}

// luby is the n-th number, from 1, of the sequence 1 1 2 1 1 2 4 …
func luby(n int64) int64 {
	for {
		k := int64(1)
		for k < n+1 {
			k *= 2
		}
		if k == n+1 {
			return k / 2
		}
		n -= k/2 - 1
	}
}

// reduce drops the half of the learned clauses with the widest spread and, of like
// spread, the longest out of use; those of the least spread stay. No decision may be in force: a change at the root is never
// explained again, so that no clause is needed as a reason.
func (s *Solver) reduce() {
	if len(s.learned) < s.limits.keep {
		return
	}
	s.limits.keep += keepMore
	sort.SliceStable(s.learned, func(i, k int) bool {
		a, b := &s.clauses[s.learned[i]], &s.clauses[s.learned[k]]
		if a.spread != b.spread {
			return a.spread < b.spread
		}
		return a.used > b.used
	})
	gone := map[int32]bool{}
	kept := s.learned[:0]
	half := len(s.learned) / 2
	for i, at := range s.learned {
		if i < half || s.clauses[at].spread <= alwaysKeep {
			kept = append(kept, at)
			continue
		}
		gone[at] = true
	}
	s.learned = kept
	for b := range s.watches {
		s.watches[b].drop(gone)
	}
	// In the order of number, so that numbers are given out again the same way.
	for at := range s.clauses {
		if gone[int32(at)] {
			s.clauses[at] = clause{}
			s.freed = append(s.freed, int32(at))
		}
	}
}

// drop takes out the watchers of clauses that are gone, and bounds that nothing
// waits for any more.
func (w *waiting) drop(gone map[int32]bool) {
	m := 0
	for k, list := range w.lists {
		n := 0
		for _, one := range list {
			if !gone[one.clause] {
				list[n] = one
				n++
			}
		}
		if n > 0 {
			w.at[m], w.lists[m] = w.at[k], list[:n]
			m++
		}
	}
	w.at, w.lists = w.at[:m], w.lists[:m]
}
