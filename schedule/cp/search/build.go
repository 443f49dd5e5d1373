package search

import (
	"slices"

	"ripeby/schedule/cp/calm"
	"ripeby/schedule/cp/lack"
	"ripeby/schedule/cp/problem"
)

// Building: orders are placed one after another, each at its best beside those
// placed before it. What does not fit as it is gets smaller or is split; what
// stays unmet is offered again by fill.

// PlaceOrder places a new job that serves the shares; false when none fits.
func (s *Plan) PlaceOrder(family int, shares []problem.Share) (*problem.Job, bool) {
	return s.placeAs(nil, family, shares)
}

// placeAs places it so that it is most like a kept job, nil for the nearest.
func (s *Plan) placeAs(was *problem.Kept, family int, shares []problem.Share) (*problem.Job, bool) {
	mode := s.modeFor(family, shares)
	if mode < 0 || !s.enough(family, shares) {
		return nil, false
	}
	w := s.Model.WindowOf(family, shares)
	if w.ReadyMin > w.ReadyMax {
		return nil, false
	}
	s.Spent += 50
	j, ok := calm.Place(&s.Schedule, s.Frozen, family, mode, w, was)
	if ok {
		j.Shares = shares
	}
	return j, ok
}

// modeFor is the smallest mode that gives the shares, -1 for none.
func (s *Plan) modeFor(family int, shares []problem.Share) int {
	n := problem.UnitsOf(shares)
	for m := range s.Model.Families[family].Modes {
		if s.Model.Families[family].Modes[m].Units >= n {
			return m
		}
	}
	return -1
}

// enough reports whether a new job may be made for the shares.
func (s *Plan) enough(family int, shares []problem.Share) bool {
	if problem.UnitsOf(shares) >= s.Model.Families[family].Serves {
		return len(shares) > 0
	}
	for _, sh := range shares {
		if s.Model.Demands[sh.Demand].Promised {
			return true
		}
	}
	return false
}

// Fill offers what a family still owes to jobs that have units to spare and to
// new jobs. Seeds are taken in the order of picks, which decides ties.
func (s *Plan) Fill(family int, seeds []int) {
	for _, d := range seeds {
		// What is worth nothing is not worth a job.
		for s.Unmet[d] > 0 && s.Model.Demands[d].Value > 0 && !s.OutOfWork() {
			if !s.topUp(family, d) && (lack.Hopeless(&s.Schedule, d) || !s.StartNew(family, d)) {
				break
			}
		}
	}
}

// topUp lets a placed job of the family serve more of a demand, in a larger mode
// if need be. The job is placed again for it.
func (s *Plan) topUp(family, d int) bool {
	due := s.Model.Demands[d].Due
	for _, j := range append([]*problem.Job(nil), s.Jobs...) {
		if j.Family != family || j.Stuck || due-s.Model.Demands[d].Ahead < j.Ready-2*s.Model.Families[family].Keeps ||
			due > j.Ready+2*s.Model.Families[family].Keeps {
			continue
		}
		most := min(s.unitsMost(j)-problem.UnitsOf(j.Shares), s.Unmet[d])
		if most <= 0 {
			continue
		}
		s.Remove(j)
		// As many more as fit: the next larger mode may be too large.
		for n := most; n > 0; n = s.fewer(j, n) {
			if again, ok := s.serveMore(j, d, n); ok {
				s.Add(again)
				return true
			}
		}
		s.Add(j)
	}
	return false
}

// fewer is the most units below n more that a smaller mode than n asks for gives.
func (s *Plan) fewer(j *problem.Job, n int) int {
	if j.Begun >= 0 {
		return n - 1
	}
	served := problem.UnitsOf(j.Shares)
	modes := s.Model.Families[j.Family].Modes
	for m := len(modes) - 1; m >= 0; m-- {
		if modes[m].Units < served+n && (m == len(modes)-1 || modes[m+1].Units >= served+n) {
			return modes[m].Units - served
		}
	}
	return 0
}

// serveMore places a removed job again with n more units for a demand.
func (s *Plan) serveMore(j *problem.Job, d, n int) (*problem.Job, bool) {
	shares := problem.AddShare(append([]problem.Share(nil), j.Shares...), d, n)
	if j.Begun >= 0 {
		again, ok := s.CarryOn(j.Begun, shares)
		if ok && again.Late > j.Late && !s.Model.Demands[d].Promised {
			return nil, false // what is promised is alone worth being later
		}
		return again, ok
	}
	return s.PlaceOrder(j.Family, shares)
}

// unitsMost is the most that a job could serve in the largest mode.
func (s *Plan) unitsMost(j *problem.Job) int {
	if j.Begun >= 0 {
		return s.Model.Begun[j.Begun].Mode.Units
	}
	modes := s.Model.Families[j.Family].Modes
	return modes[len(modes)-1].Units
}

// StartNew places a new job that serves a demand and, as far as they fit, the
// family's later and earlier unmet demands beside it.
func (s *Plan) StartNew(family, d int) bool {
	modes := s.Model.Families[family].Modes
	if len(modes) == 0 {
		return false
	}
	most := modes[len(modes)-1].Units
	for _, shares := range s.offers(family, d, most) {
		if j, ok := s.PlaceOrder(family, shares); ok {
			s.Add(j)
			return true
		}
	}
	return false
}

// offers lists what a new job for demand d might serve, the most first: d with
// as many neighbours in due order as keeping time and units allow, then fewer
// neighbours, then less of d alone.
func (s *Plan) offers(family, d, most int) [][]problem.Share {
	var out [][]problem.Share
	keeps := s.Model.Families[family].Keeps
	due := s.Model.Demands[d].Due
	after, before := []int{}, []int{}
	for _, o := range s.Prep.ByDue[family] {
		t := s.Model.Demands[o].Due
		if o == d || s.Unmet[o] == 0 || s.Model.Demands[o].Value == 0 || t-due > keeps || due-t > keeps {
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
			shares := []problem.Share{{Demand: d, Units: min(s.Unmet[d], most)}}
			left := most - shares[0].Units
			for _, o := range near[:n] {
				if k := min(left, s.Unmet[o]); k > 0 {
					shares = problem.AddShare(shares, o, k)
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
	for m := len(s.Model.Families[family].Modes) - 1; m >= 0; m-- {
		n := min(s.Unmet[d], s.Model.Families[family].Modes[m].Units)
		if n > 0 && n != last {
			out = append(out, []problem.Share{{Demand: d, Units: n}})
			last = n
		}
	}
	return out
}
