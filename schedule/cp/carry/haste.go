package carry

import "ripeby/schedule/cp/problem"

// In haste, when the work is spent or somebody wants what there is, jobs under way are still to be
// carried on: one that is left where it is though it has a way makes no plan. Each is looked for a
// way within a few days, from where the last one like it found one, and after all that is placed; in
// the end, as long as there is a little work for it, anywhere.

// haste is how far that has come.
type haste struct {
	s        *Carrier
	from     map[likeKey]int // where the last job of a kind began
	tried    map[likeKey]int // so many had begun when one of a kind found no way
	began    int             // so many have
	anywhere bool            // the end
	until    int64           // counted work for that
}

// likeKey tells kinds of jobs under way apart: by family, and how far they have come.
type likeKey struct{ family, done int }

// hasteWork is the counted work that it may take to look anywhere; a quarter of it where somebody
// waits.
const hasteWork = 4_000_000

// nearSteps are the stretches that are looked through first, in days of minutes.
var nearSteps = [...]int{2 * day, 12 * day}

const day = 24 * 60

func newHaste(s *Carrier) *haste {
	return &haste{s: s, from: map[likeKey]int{}, tried: map[likeKey]int{}}
}

// again reports whether what is stuck is tried once more after a turn in which some jobs went on or
// none did.
func (h *haste) again(some bool) bool {
	switch {
	case some && h.anywhere:
		return h.s.Spent < h.until
	case some || h.anywhere || !h.s.OutOfWork():
		return some
	}
	h.anywhere, h.until = true, h.s.Spent+hasteWork
	if h.s.CalledOff() {
		h.until = h.s.Spent + hasteWork/4
	}
	clear(h.tried)
	return true
}

// begin carries on a job with all it is to serve, or nothing; it is left where it is when no way is found.
func (h *haste) begin(b int, serve []problem.Share) *problem.Job {
	s := h.s
	bg := &s.Model.Begun[b]
	key := likeKey{bg.Family, len(bg.Starts)}
	if n, ok := h.tried[key]; ok && n == h.began || h.anywhere && s.Spent >= h.until {
		return s.LeftWhereItIs(b)
	}
	spans := h.spans(key)
	offers := [][]problem.Share{serve, nil}
	if len(serve) == 0 {
		offers = offers[1:]
	}
	for _, shares := range offers {
		for _, span := range spans {
			if j, ok := s.CarryOnSoon(b, shares, span); ok {
				if k := len(bg.Starts); k < len(j.Starts) {
					h.from[key] = j.Starts[k]
				}
				h.began++
				return j
			}
		}
	}
	h.tried[key] = h.began
	return s.LeftWhereItIs(b)
}

// spans are where a way of a job of a kind is looked for, in turn.
func (h *haste) spans(key likeKey) []problem.Span {
	s := h.s
	if h.anywhere {
		return []problem.Span{{From: s.First, Until: s.Model.Horizon}}
	}
	from := max(s.First, h.from[key])
	var out []problem.Span
	for _, long := range nearSteps {
		out = append(out, problem.Span{From: from, Until: from + long})
	}
	return append(out, problem.Span{From: s.LastEnd(), Until: s.Model.Horizon})
}
