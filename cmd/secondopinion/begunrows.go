package main

import (
	"fmt"
	"slices"

	"ripeby/cmd/internal/generalsolver"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
)

// begunRow is a batch under way whose hold is running: done stages are over or running,
// and the work of the last of them ends at worked.
type begunRow struct {
	entry  int
	done   int
	starts []resources.Moment // of the stages that have begun
	ends   []resources.Moment // of their work
	worked resources.Moment
	made   int   // pieces before anything left
	form   int   // of the stage that is running, whose hold runs
	latest []int // steps after which the stages to come may not start
}

// done is how many stages of a batch under way have begun.
func (r *recipeRow) done() int {
	if r.begun == nil {
		return 0
	}
	return r.begun.done
}

// underWay lists the rows of all batches under way, the packed ones last.
func (s *statement) underWay() []*recipeRow {
	var out []*recipeRow
	for _, rows := range [][]recipeRow{s.recipes, s.packed} {
		for i := range rows {
			if rows[i].begun != nil {
				out = append(out, &rows[i])
			}
		}
	}
	return out
}

// setBegun gives every batch under way a row of its own. What may not be as written is
// refused.
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
		if row.begun.done == len(row.r.Stages) {
			if err := s.setPacked(&row); err != nil {
				return err
			}
			continue
		}
		s.addRecipe(row)
		s.carriedOn(&s.recipes[len(s.recipes)-1])
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
	row := recipeRow{r: r, litres: []resources.Millilitres{e.Litres}, pieces: []int{left}, begun: &begunRow{entry: i, made: made}}
	g := row.begun
	for k := range r.Stages {
		f := s.formOf(&row, k)
		start, begun := s.began(e, g, r, k, &f)
		if !begun {
			break
		}
		if n := len(g.ends); n > 0 {
			g.ends[n-1] = min(g.ends[n-1], start) // whoever began this one sooner was done sooner
		}
		g.starts, g.ends = append(g.starts, start), append(g.ends, start.Add(resources.Minutes(f.work[0])*s.step))
	}
	g.done = len(g.starts)
	if g.done == 0 {
		return row, &refusal{"a begun batch of which no stage has begun", e.ID}
	}
	g.worked = g.ends[g.done-1]
	return row, nil
}

// began is when stage k of a batch under way began, if it has: as written, or by itself at
// once, when it has no work and the stage before it no hold and that one's work was over.
func (s *statement) began(e *schedule.Begun, g *begunRow, r *schedule.Recipe, k int, f *formRow) (start resources.Moment, begun bool) {
	for _, x := range e.Stages {
		if x.Stage == r.Stages[k].Name {
			return x.Start, true
		}
	}
	if k == 0 || f.work[0] > 0 || needs.HoldOf(r, k-1, s.step).Most > 0 {
		return 0, false
	}
	return g.ends[k-1], g.ends[k-1] <= s.p.From
}

// carriedOn states the hold that runs, and after which steps the stages to come of a batch
// under way may not start.
func (s *statement) carriedOn(row *recipeRow) {
	g := row.begun
	f := s.formOf(row, g.done-1)
	g.form = len(s.forms)
	s.forms = append(s.forms, f)
	latest := max(s.p.From.Add(needs.Patience), g.worked.Add(resources.Minutes(f.most)*s.step))
	for _, x := range row.forms {
		g.latest = append(g.latest, s.stepUntil(latest))
		latest = latest.Add(resources.Minutes(s.forms[x].work[0]+s.forms[x].most) * s.step)
	}
}

// endedHold is the hold of a begun stage that ended when the next one began.
type endedHold struct {
	row    *recipeRow
	stage  int
	length resources.Minutes
}

// endedNow lists the holds of what has begun that did not end before the planning start, and
// run no more: they still count.
func (s *statement) endedNow() []endedHold {
	var out []endedHold
	for _, row := range s.underWay() {
		for i := range row.begun.done - 1 {
			if next := row.begun.starts[i+1]; next >= s.p.From {
				out = append(out, endedHold{row, i, next.Sub(row.begun.ends[i])})
			}
		}
	}
	return out
}

// writeEnded writes what they cost.
func (s *statement) writeEnded(w *generalsolver.Values) {
	late, bother := int64(0), int64(0)
	for _, e := range s.endedNow() {
		h := needs.HoldOf(e.row.r, e.stage, s.step)
		late, bother = late+lateOf(h, e.length), bother+int64(h.Bother(e.length))
	}
	w.Number("ended_late", int(late))
	w.Number("ended_bother", int(bother))
}

// soonest is the first step on which a batch under way can be carried on.
func (s *statement) soonest(g *begunRow) int {
	ripe := g.worked.Add(resources.Minutes(s.forms[g.form].least) * s.step)
	return s.stepFrom(max(ripe, s.zero))
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
	if c := &s.p.Kitchen.Cold[stay.places[0]]; c.Measured() && taken(c, func(t resources.Span) bool { return t.Until > s.p.From }) {
		return &refusal{"a begun batch on shelves that are taken later", fmt.Sprintf("%s in %s", e.ID, c.Name)}
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
	for _, row := range s.underWay() {
		for k, start := range row.begun.starts {
			who := needs.Who(&row.r.Stages[k], &s.p.Kitchen)
			if span := (resources.Span{From: start, Until: row.begun.ends[k]}); len(who) > 0 && who[0] == person && !span.Empty() {
				out = append(out, span)
			}
		}
	}
	return out
}
