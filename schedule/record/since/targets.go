package since

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
)

// targets compares what is wanted. A target is the same where name and moment are; one that leaves at
// another moment than before is told once.
func (c *comparing) targets() {
	moved := map[string]bool{}
	for i := range c.p.Targets {
		t := &c.p.Targets[i]
		was := c.wanted(t.Name, t.By)
		other := c.before(t.Name)
		switch {
		case was != nil && c.sameWants(t, was):
		case was != nil:
			c.add(t.Name, "changed", func(p *schedule.Problem) { p.Targets[i].Wants, p.Targets[i].Packed = wantsOf(was), c.packed(t) })
		case len(other) == 1 && c.now(t.Name) == 1:
			moved[t.Name] = true
			c.addBack(t.Name, "at another time", func(p *schedule.Problem) { p.Targets[i] = c.asBefore(other) })
		default:
			c.add(t.Name, "new", func(p *schedule.Problem) { p.Targets = slices.Delete(p.Targets, i, i+1) })
		}
	}
	for _, of := range c.gone() {
		if !moved[of[0].Target] {
			c.addBack(of[0].Target, "dropped", func(p *schedule.Problem) { p.Targets = append(p.Targets, c.asBefore([][]*schedule.WantResult{of})) })
		}
	}
}

// add lists a target and what has become of it. What cannot be put back, as there is no such cheese any
// more, is only named.
func (c *comparing) add(name, what string, back func(p *schedule.Problem)) {
	change := func(p *schedule.Problem) {
		p.Targets = slices.Clone(p.Targets)
		back(p)
	}
	d := Difference{Text: "the target " + name + " (" + what + ")"}
	as := *c.p
	if change(&as); !slices.ContainsFunc(as.Targets, func(t schedule.Target) bool {
		return slices.ContainsFunc(t.Wants, func(w schedule.Want) bool { return as.Recipe(w.Cheese) == nil })
	}) {
		d.Without = c.with(change)
	}
	c.list = append(c.list, d)
}

// addBack is add of a target that is put back; where the plan does not remember when it was packed, it
// cannot be.
func (c *comparing) addBack(name, what string, back func(p *schedule.Problem)) {
	if c.add(name, what, back); c.p.Earlier.MadeOf == nil {
		c.list[len(c.list)-1].Without = nil
	}
}

// wanted are the wants of a target of the earlier plan; nil for none.
func (c *comparing) wanted(name string, by resources.Moment) (of []*schedule.WantResult) {
	for i := range c.p.Earlier.Targets {
		if w := &c.p.Earlier.Targets[i]; w.Target == name && w.By == by {
			of = append(of, w)
		}
	}
	return of
}

// before are the targets of a name that the earlier plan had from the planning start on, each its wants.
func (c *comparing) before(name string) (all [][]*schedule.WantResult) {
	for i := range c.p.Earlier.Targets {
		w := &c.p.Earlier.Targets[i]
		if w.Target == name && w.By >= c.p.From && !slices.ContainsFunc(all, func(o []*schedule.WantResult) bool { return o[0].By == w.By }) {
			all = append(all, c.wanted(name, w.By))
		}
	}
	return all
}

// now is how many targets have a name.
func (c *comparing) now(name string) (n int) {
	for i := range c.p.Targets {
		if c.p.Targets[i].Name == name {
			n++
		}
	}
	return n
}

// gone are the earlier plan's targets from the planning start on that there are no more.
func (c *comparing) gone() (all [][]*schedule.WantResult) {
	for i := range c.p.Earlier.Targets {
		w := &c.p.Earlier.Targets[i]
		there := slices.ContainsFunc(c.p.Targets, func(t schedule.Target) bool { return t.Name == w.Target && t.By == w.By })
		listed := slices.ContainsFunc(all, func(o []*schedule.WantResult) bool { return o[0].Target == w.Target && o[0].By == w.By })
		if w.By >= c.p.From && !there && !listed {
			all = append(all, c.wanted(w.Target, w.By))
		}
	}
	return all
}

// sameWants reports whether a target wants what it did. What was taken already is wanted no more.
func (c *comparing) sameWants(t *schedule.Target, was []*schedule.WantResult) bool {
	if len(t.Wants) != len(was) || t.Packed != c.packed(t) {
		return false
	}
	for i, w := range t.Wants {
		if o := was[i]; w.Cheese != o.Cheese || w.Price != o.Price || w.Promised != o.Promised || w.Pieces != o.Wanted && !c.taken(t.Name, w.Cheese) {
			return false
		}
	}
	return true
}

// taken reports whether somebody said how much of a cheese a target took.
func (c *comparing) taken(target, cheese string) bool {
	return slices.ContainsFunc(c.book.Standing(), func(e *record.Entry) bool {
		return e.Subject.Kind == record.OfTarget && e.Target.Took.Given && e.Subject.Cheese == cheese && e.Subject.Full() == target
	})
}

// asBefore is a target as the earlier plan had it.
func (c *comparing) asBefore(of [][]*schedule.WantResult) schedule.Target {
	first := of[0][0]
	t := schedule.Target{Name: first.Target, By: first.By, Wants: wantsOf(of[0])}
	t.Packed = c.packed(&t)
	return t
}

// packed is how long before it leaves a target was packed by the earlier plan; as it is now where that
// does not remember.
func (c *comparing) packed(t *schedule.Target) resources.Minutes {
	m := c.p.Earlier.MadeOf
	if m == nil {
		return t.Packed
	}
	for _, x := range m.Packed {
		if x.Target == t.Name && x.By == t.By {
			return x.Before
		}
	}
	return 0
}

// wantsOf are wants as they were.
func wantsOf(was []*schedule.WantResult) (out []schedule.Want) {
	for _, w := range was {
		out = append(out, schedule.Want{Cheese: w.Cheese, Pieces: w.Wanted, Price: w.Price, Promised: w.Promised})
	}
	return out
}
