package cp

// openings calls visit for every grid start in [lo, hi] at which the worker can
// do a piece of work of length w, in rising order, one stretch at a time.
func (s *ledger) openings(worker, w, lo, hi int, visit func(from, to int)) {
	wk := &s.m.Workers[worker]
	busy := s.busy[worker]
	b := 0
	for _, win := range wk.Windows {
		if win.Until <= lo {
			continue
		}
		if win.From > hi {
			return
		}
		at := max(win.From, lo)
		for b > 0 && busy[b-1].until > at {
			b--
		}
		for b < len(busy) && busy[b].until <= at {
			b++
		}
		for at < win.Until {
			end := win.Until
			next := end
			if b < len(busy) && busy[b].from < end {
				end, next = busy[b].from, busy[b].until
				b++
			}
			from, to := ceilTo(at, s.m.Step), min(floorTo(end-w, s.m.Step), hi)
			if from <= to {
				visit(from, to)
			}
			at = max(next, at)
			if next >= win.Until {
				break
			}
		}
	}
}

// fillWork writes, for every grid start lo+k*Step of activity i, the least cost
// at which somebody can do its work, and who: the first of the cheapest.
func (s *schedule) fillWork(q *query, i int, cost []int32, who []int16) {
	act := &q.mode.Acts[i]
	for k := range cost {
		cost[k] = unreachable
	}
	lo := q.lo[i]
	if act.Work == 0 {
		for k := range cost {
			cost[k], who[k] = 0, -1
		}
		return
	}
	step := s.m.Step
	hi := lo + (len(cost)-1)*step
	for _, w := range act.Workers {
		days := s.m.Workers[w].Days
		avoid := s.prep.avoid[w]
		s.openings(w, act.Work, lo, hi, func(from, to int) {
			s.spent += int64((to-from)/step) + 8
			for t := from; t <= to; {
				end := to
				if d := dayOf(days, t); d >= 0 {
					end = min(to, days[d].Until-1)
					if days[d].Limit-s.load[w][d] < act.Work || q.isForbidden(i, w, d) {
						t = ceilTo(end+1, step)
						continue
					}
				}
				for ; t <= end; t += step {
					k := (t - lo) / step
					c := int32(0)
					if avoid != nil {
						c = s.prep.avoidCost(avoid, t, act.Work)
					}
					if q.begun {
						c = 0
					}
					if c < cost[k] {
						cost[k], who[k] = c, int16(w)
					}
				}
			}
		})
	}
}
