package global

import "ripeby/schedule/cp/kernel"

// Task holds Demand units of a thing from From until Until (half-open) while all
// literals If are true; else it does not count. Least is the least length that
// Until-From has whatever else holds (from other constraints); 0 if unknown. It may
// also end before it begins or be of no length: then it takes nothing. A demand below
// 0 counts as 0.
type Task struct {
	From, Until Moment
	Least       int32
	Demand      Amount
	If          []kernel.Lit
}

// side is a task's ends in one direction of time.
//
//	must run      from.most() .. until.least()
//	may run       from.least() .. until.most()
type side struct{ from, until point }

// occupation is a task as the rules look at it.
type occupation struct {
	seen   [2]side // forward, backward
	least  int32
	demand Amount
	ifs    []kernel.Lit
}

func (t Task) occupation() occupation {
	from, until := t.From.point(), t.Until.point()
	return occupation{
		seen:   [2]side{{from, until}, {until.mirror(), from.mirror()}},
		least:  max(0, t.Least),
		demand: t.Demand.atLeast(0),
		ifs:    distinct(t.If),
	}
}

// wakes appends the views whose rise may let a rule say more about the task.
func (o *occupation) wakes(wake []kernel.View) []kernel.View {
	for _, p := range []point{o.seen[0].from, o.seen[0].until} {
		wake = both(wake, p.at.Var())
	}
	if o.demand.sized() {
		wake = append(wake, o.demand.By.Up())
	}
	return onTrue(wake, o.ifs)
}
