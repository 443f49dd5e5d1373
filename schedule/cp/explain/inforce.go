package explain

import (
	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/search"
)

// asHinted puts the earlier plan back exactly as it was; false where not all of it is
// known, or something under way was not in it. Whether it still holds is not asked here.
// Loosely, it leaves out what is not wanted any more.
func asHinted(s *search.Plan, loosely bool) bool {
	m := s.Model
	left := append([]int(nil), s.Unmet...)
	wanted := func(list []problem.Share) []problem.Share {
		var out []problem.Share
		for _, sh := range list {
			if n := min(sh.Units, left[sh.Demand]); n > 0 {
				out = problem.AddShare(out, sh.Demand, n)
				left[sh.Demand] -= n
			}
		}
		return out
	}
	begun := make([]bool, len(m.Begun))
	given := make([][]problem.Share, len(m.Stocks))
	var jobs []*problem.Job
	for i := range m.Hints {
		h := m.Hints[i]
		if loosely {
			h.Shares = wanted(h.Shares)
		}
		if h.Stock >= 0 {
			given[h.Stock] = h.Shares
			continue
		}
		if loosely && h.Begun < 0 && len(h.Shares) == 0 {
			continue
		}
		if h.Begun >= 0 && (h.Stuck || m.Begun[h.Begun].Left != nil) {
			j := s.LeftWhereItIs(h.Begun)
			if m.Begun[h.Begun].Left != nil {
				j, _ = s.CarryOn(h.Begun, nil)
			}
			begun[h.Begun] = true
			jobs = append(jobs, j)
			continue
		}
		if h.Exact == nil {
			return false
		}
		j, ok := jobHinted(s, &h)
		if !ok {
			return false
		}
		if h.Begun >= 0 {
			begun[h.Begun] = true
		}
		jobs = append(jobs, j)
	}
	for b := range begun {
		if !begun[b] {
			return false
		}
	}
	for i := range m.Stocks {
		s.KeepStock(i, given[i])
	}
	for _, j := range jobs {
		s.Add(j)
	}
	for _, n := range s.Unmet {
		if n < 0 {
			return false
		}
	}
	return true
}

// jobHinted is the job of a hint.
func jobHinted(s *search.Plan, h *problem.Hint) (*problem.Job, bool) {
	e := h.Exact
	j := &problem.Job{Family: h.Family, Mode: e.Mode, Begun: h.Begun, Shares: h.Shares,
		Starts: h.Starts, Workers: e.Workers, Choices: e.Choices, Intake: e.Intake}
	if h.Begun < 0 && (e.Mode < 0 || e.Mode >= len(s.Model.Families[h.Family].Modes)) || h.Begun < 0 && len(h.Shares) == 0 {
		return nil, false
	}
	if s.Model.Calm() {
		j.Kept = h.Kept
	}
	mode := s.ModeOf(j)
	n := len(mode.Acts)
	if len(h.Starts) != n || len(e.Workers) != n || len(e.Choices) != len(mode.Runs) || len(e.Spaces) != len(mode.Stays) || problem.UnitsOf(h.Shares) > mode.Units {
		return nil, false
	}
	fixed := 0
	j.Ready = j.Starts[n-1] + problem.LastWork(mode)
	j.End = j.Ready + problem.LastLag(mode).Least
	if h.Begun >= 0 {
		b := &s.Model.Begun[h.Begun]
		fixed = len(b.Starts)
		if fixed == n {
			j.End = max(j.End, s.Model.From)
		} else if fixed > 0 {
			j.Late = chain.LateOf(j, mode, fixed)
		}
	}
	for i := fixed; i < n; i++ {
		if j.Starts[i] < s.Model.From { // it had begun, and is taken not to have
			return nil, false
		}
	}
	for x, sh := range j.Shares {
		if due := s.Model.Demands[sh.Demand].Due; x == 0 || due > j.End {
			j.End = due
		}
	}
	j.Penalty = s.PenaltyOf(j, mode, fixed)
	for r := range mode.Stays {
		p := problem.StayPlace{Space: e.Spaces[r]}
		if r < len(h.Stood) {
			p.Stacks = h.Stood[r]
		}
		if h.Begun >= 0 && mode.Stays[r].First < fixed {
			p = problem.StayPlace{Space: s.Model.Begun[h.Begun].Homes[r]}
			if r == s.Model.Begun[h.Begun].RunningStay() {
				p = s.Homes[h.Begun]
			}
		}
		j.Stays = append(j.Stays, p)
	}
	return j, true
}
