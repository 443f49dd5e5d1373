package whatif

import (
	"fmt"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/needs"
	"ripeby/schedule/planner"
)

// OneMore is every change that is one more of something in the kitchen: each pot,
// station, mould and box, and a shelf or a place for a box in each cold place.
func OneMore(p *schedule.Problem) []Change {
	var out []Change
	for _, t := range needs.Things(&p.Kitchen) {
		out = append(out, moreOf(p, t.Name))
	}
	for i := range p.Kitchen.Cold {
		out = append(out, moreRoom(p, i))
	}
	return out
}

// moreOf is one more of a counted thing.
func moreOf(p *schedule.Problem, name string) Change {
	with := copied(p)
	for _, t := range needs.Things(&with.Kitchen) {
		if t.Name == name {
			*t.Count++
		}
	}
	return changed(ChangeKit, with, "one more "+name)
}

// moreRoom is one shelf more, like the largest, or room for one box more.
func moreRoom(p *schedule.Problem, place int) Change {
	with := copied(p)
	c := &with.Kitchen.Cold[place]
	if !c.Measured() {
		c.Boxes++
		return changed(ChangeKit, with, "room for one more box in "+c.Name)
	}
	largest := slices.MaxFunc(c.Shelves, func(a, b resources.Shelf) int {
		return int(a.Size.Width*a.Size.Depth/1000 - b.Size.Width*b.Size.Depth/1000)
	})
	like := largest.Name
	largest.Name, largest.Taken = "one more", nil
	c.Shelves = append(slices.Clone(c.Shelves), largest)
	return changed(ChangeKit, with, fmt.Sprintf("one more shelf in %s, like %s", c.Name, like))
}

// asMany is as much more of a thing as a batch takes that gives so many pieces, or the
// largest; nothing where that is one.
func asMany(st *planner.Stated, f problem.Fact, family, pieces int) []Change {
	p, modes := st.Problem(), st.Model().Families[family].Modes
	if len(modes) == 0 {
		return nil
	}
	k := slices.IndexFunc(modes, func(m problem.Mode) bool { return m.Units >= pieces })
	if k < 0 {
		k = len(modes) - 1
	}
	n := 0
	with := copied(p)
	c := changed(ChangeKit, with, "")
	switch f.Kind {
	case problem.FactPool:
		for _, r := range modes[k].Runs {
			if slices.ContainsFunc(r.Choices, func(c problem.PoolChoice) bool { return c.Pool == f.Index }) {
				n = max(n, r.Amount)
			}
		}
		name := st.Thing(f.Index).Name
		for _, t := range needs.Things(&with.Kitchen) {
			if t.Name == name {
				c.Text = fmt.Sprintf("%d x %s instead of %d", *t.Count+n, name, *t.Count)
				*t.Count += n
			}
		}
		c.unless = moreOf(p, name).Text
	case problem.FactSpace:
		place := &with.Kitchen.Cold[f.Index]
		if place.Measured() {
			return nil
		}
		for _, s := range modes[k].Stays {
			if slices.Contains(s.Spaces, f.Index) {
				n = max(n, s.Boxes)
			}
		}
		c.Text = fmt.Sprintf("room for %d boxes in %s instead of %d", place.Boxes+n, place.Name, place.Boxes)
		place.Boxes += n
		c.unless = moreRoom(p, f.Index).Text
	}
	if n < 2 {
		return nil
	}
	return []Change{c}
}

// biggerPots are the pots that are too small for a cheese's largest batch, each as large.
func biggerPots(p *schedule.Problem, r *schedule.Recipe) []Change {
	var out []Change
	for i := range p.Kitchen.Pots {
		pot := &p.Kitchen.Pots[i]
		if pot.Holds >= r.Batch.Most {
			continue
		}
		with := copied(p)
		with.Kitchen.Pots[i].Holds = r.Batch.Most
		out = append(out, changed(ChangeKit, with, fmt.Sprintf("%s for %s instead of %s", pot.Name, resources.FormatVolume(r.Batch.Most), resources.FormatVolume(pot.Holds))))
	}
	return out
}

// moreMilk is half as much again of a collection.
func moreMilk(p *schedule.Problem, milk int) []Change {
	m := &p.Kitchen.Milk[milk]
	if m.Most == resources.NoLimit {
		return nil
	}
	with := copied(p)
	most := m.Most + max(m.Most/2/1000*1000, 1000)
	with.Kitchen.Milk[milk].Most = most
	return []Change{changed(ChangeKit, with, fmt.Sprintf("%s of %s a collection instead of %s", resources.FormatVolume(most), m.Name, resources.FormatVolume(m.Most)))}
}
