package main

import (
	"fmt"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
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
		r := s.p.RecipeNumber(e.Cheese)
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
	made := needs.Pieces(r, e.Litres)
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
	f, err := s.formOf(&row, len(s.recipes), g.done-1)
	if err != nil {
		return row, err
	}
	if f.most == 0 {
		return row, &refusal{"a begun stage without a hold", e.ID}
	}
	step := int64(s.step)
	g.first = max(0, int(int64(resources.CeilTo(g.worked.Add(resources.Minutes(f.least)*s.step), s.step)-s.zero)/step))
	g.last = int(int64(resources.FloorTo(g.worked.Add(resources.Minutes(f.most)*s.step), s.step)-s.zero) / step)
	if g.last < g.first {
		return row, &refusal{"a hold that is overrun", e.ID}
	}
	for x := g.first; x <= g.last; x++ {
		g.cost = append(g.cost, int(f.hold.Bother(s.moment(x).Sub(g.worked))))
	}
	return row, nil
}

// running makes a stay one that began before the planning start: it is where the begun
// batch stands now.
func (s *statement) running(row *recipeRow, stay *stayRow) error {
	e := &s.p.Begun[row.begun.entry]
	if e.At != "" {
		stay.places = slices.DeleteFunc(stay.places, func(c int) bool { return s.p.Kitchen.Cold[c].Name != e.At })
	}
	if len(stay.places) == 0 {
		return &refusal{"a begun batch in a place where it may not be", e.ID}
	}
	c := &s.p.Kitchen.Cold[stay.places[0]]
	if c.Measured() {
		return &refusal{"a begun batch on shelves", fmt.Sprintf("%s in %s", e.ID, c.Name)}
	}
	stay.from, stay.put, stay.places = -1, max(s.zero, row.begun.worked), stay.places[:1]
	return nil
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
		if n > *s.things[i].Count {
			return &refusal{"more in hand than there is", s.things[i].Name}
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
			who := needs.Who(&s.recipes[r].r.Stages[k], &s.p.Kitchen)
			if span := (resources.Span{From: e.Stages[k].Start, Until: g.ends[k]}); len(who) > 0 && who[0] == person && !span.Empty() {
				out = append(out, span)
			}
		}
	}
	return out
}
