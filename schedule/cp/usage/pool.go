package usage

import (
	"sort"

	"ripeby/schedule/cp/problem"
)

// Piece says: an occupation that stands at a time in [from, until) may go on up
// to limit. A list of pieces is sorted; in a gap nothing can stand.
//
//	usage   ██████      ████████
//	free          ______        ____________
//	piece         [from,limit)  [from,limit)
type Piece struct {
	from, until, limit int
}

// rise is a change of a pool's usage at a time.
type rise struct {
	at, all, planned int
}

// Free lists the stretches of [lo, hi) in which amount more units of a pool can
// be held throughout. With begun, the units are held already: they clash only
// with what is planned, since what has happened on both sides cannot be undone.
func (s *Ledger) Free(pool, amount int, begun bool, lo, hi int) []Piece {
	capacity := s.Model.Pools[pool].Capacity
	rises := make([]rise, 0, 2*len(s.Pools[pool]))
	for i := range s.Pools[pool] {
		o := &s.Pools[pool][i]
		if o.Until <= lo || o.From >= hi || o.Until <= o.From {
			continue
		}
		p := o.Amount
		if o.Begun {
			p = 0
		}
		rises = append(rises, rise{o.From, o.Amount, p}, rise{o.Until, -o.Amount, -p})
	}
	s.Spent += int64(len(rises)) * 8
	sort.Slice(rises, func(i, k int) bool { return rises[i].at < rises[k].at })
	var out []Piece
	start, open := lo, true
	all, planned := 0, 0
	clash := func() bool {
		over := all+amount > capacity
		if begun {
			return over && planned > 0
		}
		return over
	}
	if clash() {
		open = false
	}
	for i := 0; i < len(rises); {
		at := rises[i].at
		for ; i < len(rises) && rises[i].at == at; i++ {
			all += rises[i].all
			planned += rises[i].planned
		}
		at = max(at, lo)
		switch c := clash(); {
		case c && open:
			if at > start {
				out = append(out, Piece{start, at, at})
			}
			open = false
		case !c && !open:
			start, open = at, true
		}
	}
	if open {
		out = append(out, Piece{start, problem.Infinite, problem.Infinite})
	}
	return out
}

// LimitAt is how far an occupation that stands at t may go; nowhere when it cannot
// stand there. The cursor only moves forward, so calls come with rising t.
func LimitAt(pieces []Piece, cursor *int, t int) int {
	for *cursor < len(pieces) && pieces[*cursor].until <= t {
		*cursor++
	}
	if *cursor < len(pieces) && pieces[*cursor].from <= t {
		return pieces[*cursor].limit
	}
	return problem.Nowhere
}
