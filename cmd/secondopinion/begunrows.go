package main

import (
	"fmt"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// begunRow is a batch under way whose hold is running: done stages are over or running,
// the work of the last of them ends at worked, and the next stage starts on one of the
// steps first to last, each at its cost.
type begunRow struct {
	entry       int
	done        int
	ends        []resources.Moment // of the work of the stages that have begun
	worked      resources.Moment
	first, last int
	cost        []int
	made        int // pieces before anything left
}

// busyRow is kit that is in hand or being cleaned after a use that is over.
type busyRow struct {
	thing, count int
	until        resources.Moment
}

// done is how many stages of a batch under way have begun.
func (r *recipeRow) done() int {
	if r.begun == nil {
		return 0
	}
	return r.begun.done
}

// setBegun gives every batch under way a row of its own. What has gone wrong with one
// already, or may not be as written, is refused.
func (s *statement) setBegun() error {
	for i, e := range s.p.Begun {
		r := slices.IndexFunc(s.p.Recipes, func(r schedule.Recipe) bool { return r.Name == e.Cheese })
		if r < 0 {
			return &refusal{"a begun batch without a recipe", e.ID}
		}
		row, err := s.begunOf(i, &s.p.Recipes[r])
		if err != nil {
			return err
		}
		row.cheese = r
		if err := s.addRecipe(row); err != nil {
			return err
		}
	}
	return nil
}

// begunOf states batch i of begun.yaml up to its running hold.
func (s *statement) begunOf(i int, r *schedule.Recipe) (recipeRow, error) {
	e := &s.p.Begun[i]
	made := int(int64(e.Litres) * int64(r.Yield.Pieces) / int64(r.Yield.From))
	left := made
	if e.Pieces >= 0 {
		left = e.Pieces
	}
	row := recipeRow{r: r, litres: []resources.Millilitres{e.Litres}, pieces: []int{left},
		begun: &begunRow{entry: i, done: len(e.Stages), made: made}}
	g := row.begun
	if g.done >= len(r.Stages) {
		return row, &refusal{"a begun batch that is packed", e.ID}
	}
	for k := range e.Stages {
		f, err := s.formOf(&row, len(s.recipes), k)
		if err != nil {
			return row, err
		}
		g.ends = append(g.ends, e.Stages[k].Start.Add(resources.Minutes(f.work[0])*s.step))
	}
	g.worked = g.ends[g.done-1]
	hold := r.Stages[g.done-1].Hold
	f, err := s.formOf(&row, len(s.recipes), g.done-1)
	if err != nil {
		return row, err
	}
	if hold == nil || f.most == 0 {
		return row, &refusal{"a begun stage without a hold", e.ID}
	}
	step := int64(s.step)
	g.first = max(0, int(int64(resources.CeilTo(g.worked.Add(resources.Minutes(f.least)*s.step), s.step)-s.zero)/step))
	g.last = int(int64(resources.FloorTo(g.worked.Add(resources.Minutes(f.most)*s.step), s.step)-s.zero) / step)
	if g.last < g.first {
		return row, &refusal{"a hold that is overrun", e.ID}
	}
	for x := g.first; x <= g.last; x++ {
		g.cost = append(g.cost, s.percent(hold, s.moment(x).Sub(g.worked), f.least, f.most))
	}
	return row, nil
}

// potOf is the pot of a begun batch, as written or else the first that is large enough.
func (s *statement) potOf(row *recipeRow, u schedule.Use) []int {
	e := &s.p.Begun[row.begun.entry]
	for i, p := range s.p.Kitchen.Pots {
		name := u.Name
		if name == "" {
			name = e.Pot
		}
		if name == p.Name || name == "" && p.Holds >= e.Litres {
			return []int{i}
		}
	}
	return nil
}

// over states a run of kit of a begun batch that began before the planning start; stated
// is false when the run is over, and what is left of it is busy until it is clean.
func (s *statement) over(row *recipeRow, x kitRun, u *useRow) (stated bool, err error) {
	g := row.begun
	if x.use.Kind == schedule.UsePot {
		if u.things = s.potOf(row, x.use); len(u.things) == 0 {
			return false, &refusal{"a begun batch larger than every pot", row.r.Name}
		}
	}
	if x.last+1 >= g.done {
		u.from = -1
		return true, nil
	}
	thing, until := u.things[0], g.ends[x.last+1]
	if until = until.Add(s.things[thing].clean); until > s.zero {
		s.busy = append(s.busy, busyRow{thing, s.counts[u.count][1], until})
	}
	return false, nil
}

// runningStay states where a begun batch stands now; nil when it is in the room.
func (s *statement) runningStay(row *recipeRow) (*stayRow, error) {
	g := row.begun
	at := row.r.Stages[g.done-1].At
	if at.Kind == schedule.AtRoom {
		return nil, nil
	}
	places := s.placesFor(at)
	if name := s.p.Begun[g.entry].At; name != "" {
		places = slices.DeleteFunc(places, func(c int) bool { return s.p.Kitchen.Cold[c].Name != name })
	}
	if len(places) == 0 {
		return nil, &refusal{"a begun batch in a place where it may not be", s.p.Begun[g.entry].ID}
	}
	c := &s.p.Kitchen.Cold[places[0]]
	if c.Measured() {
		return nil, &refusal{"a begun batch on shelves", fmt.Sprintf("%s in %s", s.p.Begun[g.entry].ID, c.Name)}
	}
	return &stayRow{from: -1, put: max(s.zero, g.worked), places: places[:1]}, nil
}

// standsNow refuses begun batches and stock that take more together than there is: that has
// happened, and is no limit for what is planned.
func (s *statement) standsNow() error {
	used, stands := make([]int, len(s.things)), make([]int, len(s.p.Kitchen.Cold))
	for _, b := range s.busy {
		used[b.thing] += b.count
	}
	for _, u := range s.uses {
		if u.from < 0 {
			used[u.things[0]] += s.counts[u.count][1]
		}
	}
	for _, st := range s.stock {
		if st.thing >= 0 {
			used[st.thing] += st.boxes
		}
		if st.place >= 0 {
			stands[st.place] += st.boxes
		}
	}
	for _, t := range s.stays {
		if t.from < 0 {
			stands[t.places[0]] += s.counts[t.count][1]
		}
	}
	for i, n := range used {
		if n > s.things[i].there {
			return &refusal{"more in hand than there is", s.things[i].name}
		}
	}
	for i, n := range stands {
		if c := &s.p.Kitchen.Cold[i]; !c.Measured() && n > c.Boxes {
			return &refusal{"more in place than there is room for", c.Name}
		}
	}
	return nil
}

// begunWork lists the work of begun batches by person: what is still running, and what
// counts for the day on which it started.
func (s *statement) begunWork(person int) []resources.Span {
	var out []resources.Span
	for r := range s.recipes {
		g := s.recipes[r].begun
		if g == nil {
			continue
		}
		e := &s.p.Begun[g.entry]
		for k := range e.Stages {
			who := s.recipes[r].r.Stages[k].Who
			first := slices.IndexFunc(s.p.Kitchen.People, func(p resources.Person) bool { return len(who) == 0 || slices.Contains(who, p.Name) })
			if span := (resources.Span{From: e.Stages[k].Start, Until: g.ends[k]}); first == person && !span.Empty() {
				out = append(out, span)
			}
		}
	}
	return out
}
