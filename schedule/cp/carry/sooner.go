package carry

import (
	"slices"

	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/problem"
)

// That all that is overdue goes on as soon as it can may take one part in soonerShare of the budget,
// and soonerFloor where that is more; a quarter of that where somebody waits.
const (
	soonerShare = 8
	soonerFloor = 4_000_000
)

// Sooner has what runs past its time go on as soon as it can at the same cost: within a bit
// of lateness nothing else asks for it.
func (s *Carrier) Sooner() {
	until := s.Spent + max(s.Limit.Until/soonerShare, soonerFloor)
	switch {
	case s.CalledOff():
		until = s.Spent + soonerFloor/4
	case s.Limit.Until == 0:
		until = problem.Infinite
	}
	for _, j := range slices.Clone(s.Jobs) {
		if s.Spent >= until {
			return
		}
		if j.Begun < 0 || j.Stuck || !chain.Overruns(s.ModeOf(j), j) {
			continue
		}
		s.Remove(j)
		k, ok := s.CarryOn(j.Begun, j.Shares)
		if ok && s.JobCost(k) == s.JobCost(j) && slices.Compare(k.Starts, j.Starts) < 0 {
			j = k
		}
		s.Add(j)
	}
}
