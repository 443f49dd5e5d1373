package usage

import "ripeby/schedule/cp/problem"

// Openings calls visit for every grid start in [lo, hi] at which the worker can
// do a piece of work of length w, in rising order, one stretch at a time.
func (s *Ledger) Openings(worker, w, lo, hi int, visit func(from, to int)) {
	wk := &s.Model.Workers[worker]
	busy := s.Busy[worker]
	b := 0
	for _, win := range wk.Windows {
		if win.Until <= lo {
			continue
		}
		if win.From > hi {
			return
		}
		at := max(win.From, lo)
		for b > 0 && busy[b-1].Until > at {
			b--
		}
		for b < len(busy) && busy[b].Until <= at {
			b++
		}
		for at < win.Until {
			end := win.Until
			next := end
			if b < len(busy) && busy[b].From < end {
				end, next = busy[b].From, busy[b].Until
				b++
			}
			from, to := problem.CeilTo(at, s.Model.Step), min(problem.FloorTo(end-w, s.Model.Step), hi)
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
