package planner_test

import (
	"fmt"

	"ripeby/resources"
	"ripeby/schedule"
)

// recipe draws one cheese of two to four stages.
func (d *dice) recipe(i int) schedule.Recipe {
	r := schedule.Recipe{Name: []string{"Button", "Drum"}[i], Code: []string{"B", "D"}[i], Mould: "ring",
		Yield: schedule.Yield{Pieces: oneOf(d, 1, 1, 1, 2), From: litres(1)}, Keeps: minutes(60*d.n(4, 30) + oneOf(d, 0, 0, 0, 25)),
		Box:   &schedule.Boxing{Name: "box", Takes: d.n(2, 4)},
		Batch: schedule.BatchSize{Least: litres(2), Step: oneOf(d, litres(1), litres(1), 500), Serves: oneOf(d, 1, 1, 1, 2, 3)}}
	r.Batch.Most = r.Batch.Least + r.Batch.Step*resources.Millilitres(oneOf(d, 0, 1, 1, 2))
	if len(d.p.Kitchen.Milk) > 0 && (d.tight == sideMilk || d.chance(75)) {
		r.Milk = d.p.Kitchen.Milk[0].Name
	}
	if d.chance(20) {
		r.Spare = 1
	}
	n := oneOf(d, 2, 3, 3, 4)
	for i := range n {
		r.Stages = append(r.Stages, d.stage(&r, i, n))
	}
	if d.warm {
		d.goesBy(&r)
	}
	return r
}

// stage draws stage i of n.
func (d *dice) stage(r *schedule.Recipe, i, n int) schedule.Stage {
	s := schedule.Stage{Name: fmt.Sprintf("stage %d", i+1), At: inTheRoom}
	var before *schedule.Stage
	if i > 0 {
		before = &r.Stages[i-1]
	}
	if i == 0 || !d.chance(25) {
		s.Hands = &schedule.Hands{Fixed: rate(1000 * oneOf(d, 20, 40, 60, 70)), PerLitre: rate(oneOf(d, 0, 0, 5000)), PerPiece: rate(oneOf(d, 0, 0, 4000))}
		if d.chance(15) {
			s.Who = []string{oneOf(d, d.p.Kitchen.People...).Name}
		}
	}
	if s.Hands == nil && before.Hold != nil && before.Hold.Most > 0 {
		s.Uses, s.Box, s.At = before.Uses, before.Box, before.At // nobody is there to move anything
	} else {
		d.kit(&s, before, i, n)
	}
	if i < n-1 && d.chance(75) {
		s.Hold = d.hold(5)
	}
	if i == n-1 && d.chance(12) {
		s.Hold = &schedule.Hold{Least: minutes(30 * d.n(0, 4))}
		s.Hold.Most = min(r.Keeps, s.Hold.Least+minutes(60*d.n(2, 12)))
	}
	return s
}

// kit draws what a stage uses, and where it is.
func (d *dice) kit(s *schedule.Stage, before *schedule.Stage, i, n int) {
	switch {
	case i == 0 || i < n-1 && before.Uses[0].Kind == schedule.UsePot && d.chance(35):
		s.Uses = []schedule.Use{usePot}
		if i > 0 {
			s.Uses = before.Uses // the same pot, by name or not
		} else if d.chance(10) {
			s.Uses = []schedule.Use{{Kind: schedule.UsePot, Name: d.p.Kitchen.Pots[0].Name}}
		}
	case d.tight == sideCold && d.chance(80):
		s.Uses = []schedule.Use{useBox}
	case i == 1:
		s.Uses = oneOf(d, []schedule.Use{useOf("hook")}, []schedule.Use{useOf("press")}, []schedule.Use{useOf("tub")},
			[]schedule.Use{useMould}, []schedule.Use{useMould, useBox}, []schedule.Use{useBox}, []schedule.Use{useBox}, []schedule.Use{useBox})
	default:
		s.Uses = oneOf(d, []schedule.Use{useOf("press")}, []schedule.Use{useMould, useBox}, []schedule.Use{useMould}, []schedule.Use{useBox}, []schedule.Use{useBox}, []schedule.Use{useBox})
	}
	if !usesKind(s, schedule.UseBox) {
		return
	}
	if d.chance(25) {
		s.Box = &schedule.Boxing{Name: "carton", Takes: d.n(2, 3)}
	}
	if d.chance(20) {
		s.Fresh = []schedule.UseKind{schedule.UseBox}
	}
	place := oneOf(d, d.p.Kitchen.Cold...)
	switch d.n(0, 5) {
	case 0, 1:
		s.At = schedule.At{Kind: schedule.AtPlace, Place: place.Name}
	case 2, 3, 4:
		s.At = schedule.At{Kind: schedule.AtRange, Low: place.Temperature - 1_000, High: place.Temperature + 1_000}
	}
}

// hold draws one of some hours, with few grid steps to give.
func (d *dice) hold(hours int) *schedule.Hold {
	h := &schedule.Hold{Least: minutes(60 * d.n(0, hours))}
	h.Most = h.Least + minutes(60*d.n(0, 4))
	if d.chance(20) {
		h.Most += minutes(d.n(30, 59))
		h.Least += minutes(d.n(0, 20))
	}
	if step := d.p.Kitchen.Step; resources.CeilLength(h.Least, step) > resources.FloorLength(h.Most, step) {
		h.Most = resources.CeilLength(h.Least, step)
	}
	if d.chance(70) {
		h.HasBest = true
		h.Best = h.Least + minutes(30*d.n(0, int(h.Most-h.Least)/30))
	}
	return h
}

// targets draws one to three, some at the same moment, often near one another.
func (d *dice) targets() {
	by := d.p.From.Add(minutes(60 * d.n(20, 50)))
	number := oneOf(d, 1, 2, 2, 2, 3)
	if d.tight != sides {
		number = d.n(2, 3)
	}
	for i := range number {
		t := schedule.Target{Name: fmt.Sprintf("Target %d", i+1), By: by, Packed: minutes(oneOf(d, 0, 0, 0, 0, 60, 90))}
		if d.chance(20) {
			t.By = t.By.Add(minutes(d.n(1, 59)))
		}
		seen := map[schedule.Want]bool{}
		for range oneOf(d, 1, 1, 1, 2) {
			w := schedule.Want{Cheese: oneOf(d, d.p.Recipes...).Name, Price: resources.Money(oneOf(d, 100, 100, 250, 650)), Promised: d.chance(30)}
			if d.chance(4) {
				w.Price = 0
			}
			if !seen[w] {
				seen[w] = true
				w.Pieces = d.n(1, 3)
				if d.tight != sides {
					w.Pieces = d.n(2, 3)
				}
				t.Wants = append(t.Wants, w)
			}
		}
		d.p.Targets = append(d.p.Targets, t)
		by = by.Add(minutes(60 * oneOf(d, 0, 1, 2, 4, 8, 14)))
	}
}

func (d *dice) stock() {
	for range oneOf(d, 1, 1, 2) {
		r := &d.p.Recipes[d.IntN(len(d.p.Recipes))]
		s := schedule.Stock{Cheese: r.Name, Pieces: d.n(1, 3), At: "room", Packed: d.p.From.Add(-minutes(d.n(0, int(r.Keeps)*9/8)))}
		last := &r.Stages[len(r.Stages)-1]
		switch last.At.Kind {
		case schedule.AtPlace:
			s.At = last.At.Place
		case schedule.AtRange:
			s.At = coldIn(&d.p.Kitchen, last.At)[0]
		}
		for i := range r.Stages {
			if usesKind(&r.Stages[i], schedule.UseBox) {
				s.Boxes = 1
			}
		}
		d.p.Stock = append(d.p.Stock, s)
	}
}

// coldIn lists the cold places whose temperature lies in a range, by name.
func coldIn(k *resources.Kitchen, at schedule.At) []string {
	var out []string
	for _, c := range k.Cold {
		if at.Kind == schedule.AtPlace && c.Name == at.Place || at.Kind == schedule.AtRange && at.Low <= c.Temperature && c.Temperature <= at.High {
			out = append(out, c.Name)
		}
	}
	return out
}

// someBatch draws a batch and how many of its pieces are left.
func (d *dice) someBatch(number int) (*schedule.Recipe, *schedule.Begun, int) {
	r := &d.p.Recipes[d.IntN(len(d.p.Recipes))]
	steps := int((r.Batch.Most - r.Batch.Least) / r.Batch.Step)
	b := &schedule.Begun{ID: fmt.Sprintf("%s-270101-%d", r.Code, number), Cheese: r.Name, Pieces: -1, Litres: r.Batch.Least + r.Batch.Step*resources.Millilitres(d.n(0, steps))}
	made := int(int64(b.Litres) * int64(r.Yield.Pieces) / int64(r.Yield.From))
	left := made
	if d.chance(25) {
		left = d.n(1, made)
		b.Pieces = left
	}
	return r, b, left
}

// begun draws a batch under way. It need not be possible to carry it on in time: then the
// kitchen is passed over.
func (d *dice) begun(number int) {
	r, b, left := d.someBatch(number)
	running := d.n(0, len(r.Stages)-1)
	step := d.p.Kitchen.Step
	at := resources.CeilTo(d.p.From, step).Add(-step * resources.Minutes(d.n(1, 7)))
	if d.chance(15) {
		at = at.Add(-minutes(d.n(1, 29)))
	}
	d.walkBack(r, b, left, running, at)
}

// walkBack adds a batch under way whose running stage began at a moment, the stages before
// it walked back from that.
func (d *dice) walkBack(r *schedule.Recipe, b *schedule.Begun, left, running int, at resources.Moment) {
	step := d.p.Kitchen.Step
	for i := running; i >= 0; i-- {
		b.Stages = append([]schedule.BegunStage{{Stage: r.Stages[i].Name, Start: at}}, b.Stages...)
		if i > 0 {
			if h := r.Stages[i-1].Hold; h != nil {
				at = at.Add(-resources.CeilLength(h.Least, step) - step*resources.Minutes(d.n(0, int(resources.FloorLength(h.Most, step)-resources.CeilLength(h.Least, step))/int(step))))
			}
			at = at.Add(-workMinutes(&r.Stages[i-1], b.Litres, left, step))
		}
	}
	if d.chance(60) {
		for _, pot := range d.p.Kitchen.Pots {
			if pot.Holds >= b.Litres {
				b.Pot = pot.Name
			}
		}
	}
	if cold := coldIn(&d.p.Kitchen, r.Stages[running].At); len(cold) > 0 && d.chance(60) {
		b.At = cold[d.IntN(len(cold))]
	}
	d.p.Begun = append(d.p.Begun, *b)
}
