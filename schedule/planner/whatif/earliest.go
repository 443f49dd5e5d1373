package whatif

import (
	"context"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/planner"
)

// LaterDays is how far after the asked moment an earliest one is looked for.
const LaterDays = 28

// laterShare: the search for a later moment may take one part in so many of the work of an
// order, beside it.
const laterShare = 2

// dayShare: one part in so many of the work left goes to each day that is looked at.
const dayShare = 2

// earliest is the search for the first moment by which all of an order can be ready.
type earliest struct {
	p     *schedule.Problem
	o     Order
	known *cp.Tables
	work  int64
	soon  chan resources.Moment // the first moment that is found; 0 for none

	lead  resources.Minutes // see leadOf
	ready resources.Moment  // the first that was found; 0 for none
	sure  bool              // none can be sooner
}

// find begins with a day, at the asked time of day, on which the order fits beside the plan
// at once, and asks how soon it can be packed for that day; then whether it fits on the day
// before that, and so on while it does.
func (e *earliest) find(ctx context.Context) {
	defer close(e.soon)
	day := 1
	e.lead = e.leadOf(e.on(day))
	for day < LaterDays && ctx.Err() == nil {
		if st := e.on(day); cp.Beside(st.Model(), last(st)) {
			break
		}
		day++
	}
	for day >= 1 {
		st := e.on(day)
		q := ask(ctx, st, last(st), -1, e.work/dayShare, e.known)
		if q == nil { // there was too little work left for it
			e.sure = false
			return
		}
		tick, told, ok := q.Soonest(e.o.Pieces, st.Tick(e.o.By.Add(-e.lead)))
		e.known = q.Tables()
		switch {
		case ok:
			first := e.ready == 0
			if at := st.Moment(tick); first || at < e.ready {
				e.ready = at
			}
			if first {
				e.soon <- e.ready
			}
			e.sure = told && e.dayFor(e.ready) <= day
			day = min(e.dayFor(e.ready), day-1)
		case told && e.ready != 0:
			day--
		default:
			e.sure = false
			return
		}
		if e.work -= q.Spent(); e.work <= 0 {
			e.sure = e.sure && day < 1
			return
		}
	}
}

// dayFor is the first day for which what is ready at a moment is ready in time, and has
// rested. What could be ready sooner for a later day could be so for this one: it leaves
// sooner, and is fresher.
func (e *earliest) dayFor(ready resources.Moment) int {
	day := 1
	for ready > e.by(day).Add(-e.lead) {
		day++
	}
	return day
}

// leadOf is how long before it leaves an order is packed at the least: as long as was asked,
// or as the last hold of whatever could serve it must be, where that is longer.
func (e *earliest) leadOf(st *planner.Stated) resources.Minutes {
	m := st.Model()
	family := m.Demands[len(m.Demands)-1].Family
	rest := 0
	look := func(mode *problem.Mode) { rest = max(rest, mode.Acts[len(mode.Acts)-1].Lag.Least) }
	for k := range m.Families[family].Modes {
		look(&m.Families[family].Modes[k])
	}
	for b := range m.Begun {
		if m.Begun[b].Family == family {
			look(&m.Begun[b].Mode)
		}
	}
	return max(e.o.Packed, resources.Minutes(rest))
}

// leaves is the first moment at the asked time of day at which what was found can leave; 0
// for nothing found.
func (e *earliest) leaves() resources.Moment {
	if e.ready == 0 {
		return 0
	}
	return e.by(e.dayFor(e.ready))
}

// by is so many days after the asked moment.
func (e *earliest) by(days int) resources.Moment { return dayLater(e.p, e.o.By, days) }

// on is the model with the order due so many days later.
func (e *earliest) on(days int) *planner.Stated { return e.o.stated(e.p, e.by(days)) }
