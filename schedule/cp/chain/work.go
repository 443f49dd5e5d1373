package chain

import "ripeby/schedule/cp/problem"

// fillWork writes, for every grid start lo+k*Step of activity i, the least cost
// at which somebody can do its work, and who: the first of the cheapest.
func (s *Schedule) fillWork(q *query, i int, cost []int32, who []int16) {
	act := &q.Mode.Acts[i]
	for k := range cost {
		cost[k] = Unreachable
	}
	lo := q.Lo[i]
	if act.Work == 0 {
		for k := range cost {
			cost[k], who[k] = 0, -1
		}
		return
	}
	step := s.Model.Step
	hi := lo + (len(cost)-1)*step
	for _, w := range act.Workers {
		if q.As != nil && w != q.As.Workers[i] {
			continue
		}
		days := s.Model.Workers[w].Days
		avoid := s.Prep.avoid[w]
		s.Openings(w, act.Work, lo, hi, func(from, to int) {
			s.Spent += int64((to-from)/step) + 8
			for t := from; t <= to; {
				end := to
				if d := problem.DayOf(days, t); d >= 0 {
					end = min(to, days[d].Until-1)
					if days[d].Limit-s.Load[w][d] < act.Work || q.isForbidden(i, w, d) {
						t = problem.CeilTo(end+1, step)
						continue
					}
				}
				for ; t <= end; t += step {
					k := (t - lo) / step
					c := int32(0)
					if avoid != nil {
						c = s.Prep.avoidCost(avoid, t, act.Work)
					}
					if q.unrest > 0 {
						c += s.unrestCost(q, i, t, w)
					}
					if c < cost[k] {
						cost[k], who[k] = c, int16(w)
					}
				}
			}
		})
	}
}
