package cp

import "slices"

// Building: orders are placed one after another, each at its best beside those
// placed before it. What does not fit as it is gets smaller or is split; what
// stays unmet is offered again by fill.

// placeOrder places a new job that serves the shares; false when none fits.
func (s *plan) placeOrder(family int, shares []Share) (*Job, bool) {
	mode := s.modeFor(family, shares)
	if mode < 0 || !s.enough(family, shares) {
		return nil, false
	}
	w := s.m.windowOf(family, shares)
	if w.readyMin > w.readyMax {
		return nil, false
	}
	s.spent += 50
	j, ok := s.place(s.query(family, mode, w))
	if !ok {
		return nil, false
	}
	j.Family, j.Mode, j.Shares = family, mode, shares
	return j, true
}

// placeAt places a new job with its activities starting exactly so.
func (s *plan) placeAt(family int, shares []Share, starts []int, stood [][]Standing) (*Job, bool) {
	mode := s.modeFor(family, shares)
	if mode < 0 || !s.enough(family, shares) || len(starts) != len(s.m.Families[family].Modes[mode].Acts) {
		return nil, false
	}
	q := s.query(family, mode, s.m.windowOf(family, shares))
	q.exact, q.stood = starts, stood
	j, ok := s.place(q)
	if !ok {
		return nil, false
	}
	j.Family, j.Mode, j.Shares = family, mode, shares
	return j, true
}

// modeFor is the smallest mode that gives the shares, -1 for none.
func (s *plan) modeFor(family int, shares []Share) int {
	n := unitsOf(shares)
	for m := range s.m.Families[family].Modes {
		if s.m.Families[family].Modes[m].Units >= n {
			return m
		}
	}
	return -1
}

func unitsOf(shares []Share) int {
	n := 0
	for _, sh := range shares {
		n += sh.Units
	}
	return n
}

// enough reports whether a new job may be made for the shares.
func (s *plan) enough(family int, shares []Share) bool {
	if unitsOf(shares) >= s.m.Families[family].Serves {
		return len(shares) > 0
	}
	for _, sh := range shares {
		if s.m.Demands[sh.Demand].Promised {
			return true
		}
	}
	return false
}

// fill offers what a family still owes to jobs that have units to spare and to
// new jobs. Seeds are taken in the order of picks, which decides ties.
func (s *plan) fill(family int, seeds []int) {
	for _, d := range seeds {
		// What is worth nothing is not worth a job.
		for s.unmet[d] > 0 && s.m.Demands[d].Value > 0 {
			if !s.topUp(family, d) && (s.hopeless(d) || !s.startNew(family, d)) {
				break
			}
		}
	}
}

// hopeless reports whether no new job could serve a demand even with the kitchen
// to itself.
func (s *plan) hopeless(d int) bool {
	dm := &s.m.Demands[d]
	w := s.m.windowOf(dm.Family, []Share{{d, 1}})
	for m := range s.m.Families[dm.Family].Modes {
		if s.idle(dm.Family, m, w).ok {
			return false
		}
	}
	return true
}

// topUp lets a placed job of the family serve more of a demand, in a larger mode
// if need be. The job is placed again for it.
func (s *plan) topUp(family, d int) bool {
	due := s.m.Demands[d].Due
	for _, j := range append([]*Job(nil), s.jobs...) {
		if j.Family != family || j.Stuck || due-s.m.Demands[d].Ahead < j.Ready-2*s.m.Families[family].Keeps ||
			due > j.Ready+2*s.m.Families[family].Keeps {
			continue
		}
		most := min(s.unitsMost(j)-unitsOf(j.Shares), s.unmet[d])
		if most <= 0 {
			continue
		}
		s.remove(j)
		// As many more as fit: the next larger mode may be too large.
		for n := most; n > 0; n = s.fewer(j, n) {
			if again, ok := s.serveMore(j, d, n); ok {
				s.add(again)
				return true
			}
		}
		s.add(j)
	}
	return false
}

// fewer is the most units below n more that a smaller mode than n asks for gives.
func (s *plan) fewer(j *Job, n int) int {
	if j.Begun >= 0 {
		return n - 1
	}
	served := unitsOf(j.Shares)
	modes := s.m.Families[j.Family].Modes
	for m := len(modes) - 1; m >= 0; m-- {
		if modes[m].Units < served+n && (m == len(modes)-1 || modes[m+1].Units >= served+n) {
			return modes[m].Units - served
		}
	}
	return 0
}

// serveMore places a removed job again with n more units for a demand.
func (s *plan) serveMore(j *Job, d, n int) (*Job, bool) {
	shares := addShare(append([]Share(nil), j.Shares...), d, n)
	if j.Begun >= 0 {
		return s.carryOn(j.Begun, shares)
	}
	return s.placeOrder(j.Family, shares)
}

// unitsMost is the most that a job could serve in the largest mode.
func (s *plan) unitsMost(j *Job) int {
	if j.Begun >= 0 {
		return s.m.Begun[j.Begun].Mode.Units
	}
	modes := s.m.Families[j.Family].Modes
	return modes[len(modes)-1].Units
}

// startNew places a new job that serves a demand and, as far as they fit, the
// family's later and earlier unmet demands beside it.
func (s *plan) startNew(family, d int) bool {
	modes := s.m.Families[family].Modes
	if len(modes) == 0 {
		return false
	}
	most := modes[len(modes)-1].Units
	for _, shares := range s.offers(family, d, most) {
		if j, ok := s.placeOrder(family, shares); ok {
			s.add(j)
			return true
		}
	}
	return false
}

// offers lists what a new job for demand d might serve, the most first: d with
// as many neighbours in due order as keeping time and units allow, then fewer
// neighbours, then less of d alone.
func (s *plan) offers(family, d, most int) [][]Share {
	var out [][]Share
	keeps := s.m.Families[family].Keeps
	due := s.m.Demands[d].Due
	after, before := []int{}, []int{}
	for _, o := range s.prep.byDue[family] {
		t := s.m.Demands[o].Due
		if o == d || s.unmet[o] == 0 || s.m.Demands[o].Value == 0 || t-due > keeps || due-t > keeps {
			continue
		}
		if t >= due {
			after = append(after, o)
		} else {
			before = append(before, o)
		}
	}
	grow := func(near []int) {
		for n := len(near); n > 0; n-- {
			shares := []Share{{d, min(s.unmet[d], most)}}
			left := most - shares[0].Units
			for _, o := range near[:n] {
				if k := min(left, s.unmet[o]); k > 0 {
					shares = addShare(shares, o, k)
					left -= k
				}
			}
			if len(shares) == n+1 {
				out = append(out, shares)
			}
		}
	}
	grow(after)
	slices.Reverse(before)
	grow(before)
	last := -1
	for m := len(s.m.Families[family].Modes) - 1; m >= 0; m-- {
		n := min(s.unmet[d], s.m.Families[family].Modes[m].Units)
		if n > 0 && n != last {
			out = append(out, []Share{{d, n}})
			last = n
		}
	}
	return out
}
