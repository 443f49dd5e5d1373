package planner_test

import (
	"ripeby/resources"
	"ripeby/schedule"
)

// brute tries every way of making at most one batch for the only target of a tiny
// kitchen: every size, first start, hold, person and pot. It knows the contract and
// nothing of the planner. The kitchen is in UTC, its cold places are counted, and
// nothing is under way.
type brute struct {
	p      *schedule.Problem
	r      *schedule.Recipe
	litres resources.Millilitres
	pieces int

	starts []resources.Moment // of the stages so far
	works  []resources.Minutes
	who    []int
	best   schedule.Score
}

// bestByHand is the best score of all plans with one batch or none.
func bestByHand(p *schedule.Problem) schedule.Score {
	b := &brute{p: p, r: &p.Recipes[0]}
	w := p.Targets[0].Wants[0]
	b.best = b.short(w.Pieces)
	for b.litres = b.r.Batch.Least; b.litres <= b.r.Batch.Most; b.litres += b.r.Batch.Step {
		b.pieces = int(int64(b.litres) * int64(b.r.Yield.Pieces) / int64(b.r.Yield.From))
		if b.pieces <= b.r.Spare {
			continue
		}
		for t := resources.CeilTo(p.From, p.Kitchen.Step); t <= p.Targets[0].By; t = t.Add(p.Kitchen.Step) {
			b.stage(0, t, 0)
		}
	}
	return b.best
}

// short is the score of leaving so many pieces of the only want short.
func (b *brute) short(pieces int) schedule.Score {
	w := b.p.Targets[0].Wants[0]
	if w.Promised {
		return schedule.Score{PromisedShort: w.Price * resources.Money(pieces)}
	}
	return schedule.Score{Short: w.Price * resources.Money(pieces)}
}

// stage tries every way of going on with stage i at t.
func (b *brute) stage(i int, t resources.Moment, bother int64) {
	step := b.p.Kitchen.Step
	s := &b.r.Stages[i]
	work := workMinutes(s, b.litres, b.pieces, step)
	for who := range b.p.Kitchen.People {
		if work == 0 && who > 0 {
			break
		}
		more := int64(0)
		if work > 0 {
			if !b.mayWork(i, who, t, work) {
				continue
			}
			more = b.ratherNot(who, t, work)
		}
		b.starts, b.works, b.who = append(b.starts, t), append(b.works, work), append(b.who, who)
		done := t.Add(work)
		if i == len(b.r.Stages)-1 {
			b.finish(done, bother+more)
		} else {
			least, most := resources.Minutes(0), resources.Minutes(0)
			if s.Hold != nil {
				least, most = resources.CeilLength(s.Hold.Least, step), resources.FloorLength(s.Hold.Most, step)
			}
			for h := least; h <= most && done.Add(h) <= b.p.Targets[0].By; h += step {
				b.stage(i+1, done.Add(h), bother+more+offBest(s.Hold, h, least, most))
			}
		}
		b.starts, b.works, b.who = b.starts[:i], b.works[:i], b.who[:i]
	}
}

// offBest is how far a hold is from best, in whole per cent of how far it may be.
func offBest(h *schedule.Hold, is, least, most resources.Minutes) int64 {
	if h == nil || !h.HasBest || is == h.Best {
		return 0
	}
	away, width := float64(is-h.Best), float64(most-h.Best)
	if away < 0 {
		away, width = -away, float64(h.Best-least)
	}
	return int64(100*away/width + 0.5)
}

// mayWork reports whether a person may do stage i and is there for all of it.
func (b *brute) mayWork(i, who int, t resources.Moment, work resources.Minutes) bool {
	p := &b.p.Kitchen.People[who]
	if names := b.r.Stages[i].Who; len(names) > 0 && names[0] != p.Name {
		return false
	}
	for m := t; m < t.Add(work); m++ {
		if !b.there(p, m) {
			return false
		}
	}
	if p.MostPerDay == resources.NoLimit {
		return true
	}
	day, sum := t/resources.Moment(resources.Day), work
	for k, other := range b.who {
		if other == who && b.starts[k]/resources.Moment(resources.Day) == day {
			sum += b.works[k]
		}
	}
	return sum <= p.MostPerDay
}

// there reports whether somebody's hours cover a minute. They are daily here.
func (b *brute) there(p *resources.Person, m resources.Moment) bool {
	for _, a := range p.Away {
		if a.From <= m && m < a.Until {
			return false
		}
	}
	return inHours(p.Hours, m)
}

// inHours reports whether a minute lies in daily hours, in UTC.
func inHours(hours []resources.Hours, m resources.Moment) bool {
	clock := resources.Clock(m % resources.Moment(resources.Day))
	for _, h := range hours {
		if h.From < h.Until && h.From <= clock && clock < h.Until || h.From >= h.Until && (clock >= h.From || clock < h.Until) {
			return true
		}
	}
	return false
}

// ratherNot is a point for each whole five minutes of the work in such time.
func (b *brute) ratherNot(who int, t resources.Moment, work resources.Minutes) int64 {
	n := int64(0)
	for m := t; m < t.Add(work); m++ {
		if inHours(b.p.Kitchen.People[who].RatherNot, m) {
			n++
		}
	}
	return n / 5
}

// finish weighs a whole batch whose packing is done.
func (b *brute) finish(done resources.Moment, bother int64) {
	target := &b.p.Targets[0]
	if done > target.By.Add(-target.Packed) || done.Add(b.r.Keeps) < target.By || !b.milkThere() || !b.kitThere() {
		return
	}
	n := min(target.Wants[0].Pieces, b.pieces-b.r.Spare)
	if n < b.r.Batch.Serves && !target.Wants[0].Promised {
		return
	}
	s := b.short(target.Wants[0].Pieces - n)
	s.Batches, s.Litres, s.Bother, s.MakeStarts = 1, b.litres, bother, int64(b.starts[0]-b.p.From)
	if s.Compare(b.best) < 0 {
		b.best = s
	}
}

// milkThere reports whether the make starts on the milk of some collection: daily,
// to be ordered at or after the planning start.
func (b *brute) milkThere() bool {
	if b.r.Milk == "" {
		return true
	}
	m := &b.p.Kitchen.Milk[0]
	if m.Most != resources.NoLimit && b.litres > m.Most {
		return false
	}
	first := b.p.From/resources.Moment(resources.Day) - 3
	for d := first; d < first+12; d++ {
		ready := d*resources.Moment(resources.Day) + resources.Moment(m.Ready)
		if ready >= b.p.From && ready.Add(-m.Order) >= b.p.From && ready <= b.starts[0] && b.starts[0] <= ready.Add(m.Keeps) {
			return true
		}
	}
	return false
}

// kitThere counts minute by minute what the batch holds of everything, cleaning
// included, and what stands in the cold.
func (b *brute) kitThere() bool {
	k := &b.p.Kitchen
	last := len(b.r.Stages) - 1
	end := func(i int) resources.Moment { // of the work of stage i, or of the whole
		if i > last {
			return b.p.Targets[0].By
		}
		return b.starts[i].Add(b.works[i])
	}
	var held []holding
	for i := range b.r.Stages {
		for _, u := range b.r.Stages[i].Uses {
			name, count, have, clean := b.thing(u, i)
			from := i
			for from > 0 && usesAlike(b.r, from-1, from, u) {
				from--
			}
			if from < i {
				continue // goes on from before
			}
			to := i
			for to < last && usesAlike(b.r, to, to+1, u) {
				to++
			}
			if count > have {
				return false
			}
			held = append(held, holding{name, count, have, b.starts[i], end(to + 1).Add(clean)})
		}
		if at := b.r.Stages[i].At; at.Kind == schedule.AtPlace {
			until := b.p.Targets[0].By
			if i < last {
				until = b.starts[i+1]
			}
			for _, c := range k.Cold {
				for _, s := range c.Taken {
					if c.Name == at.Place && s.From < until && end(i) < s.Until && end(i) < until {
						return false
					}
				}
				if c.Name == at.Place && end(i) < until {
					_, count, _, _ := b.thing(useBox, i)
					held = append(held, holding{c.Name, count, c.Boxes, end(i), until})
				}
			}
		}
	}
	return b.anyPots(held, 0)
}

// anyPots tries every large enough pot for each use of one from the k-th holding on.
func (b *brute) anyPots(held []holding, k int) bool {
	for k < len(held) && held[k].thing != "" {
		k++
	}
	if k == len(held) {
		return fits(held)
	}
	was := held[k]
	for _, pot := range b.p.Kitchen.Pots {
		if pot.Holds >= b.litres {
			held[k].thing, held[k].have, held[k].until = pot.Name, pot.Count, was.until.Add(pot.Clean)
			if b.anyPots(held, k+1) {
				return true
			}
		}
	}
	held[k] = was
	return false
}

// holding is so many of a thing in hand for a time.
type holding struct {
	thing       string
	count, have int
	from, until resources.Moment
}

// fits reports whether there is enough of everything at every start.
func fits(held []holding) bool {
	for _, a := range held {
		sum := 0
		for _, o := range held {
			if o.thing == a.thing && o.from <= a.from && a.from < o.until {
				sum += o.count
			}
		}
		if sum > a.have && a.from < a.until {
			return false
		}
	}
	return true
}

// usesAlike reports whether stage k keeps what stage i has of a use.
func usesAlike(r *schedule.Recipe, i, k int, u schedule.Use) bool {
	a, b := &r.Stages[i], &r.Stages[k]
	if !usesKind(a, u.Kind) || !usesKind(b, u.Kind) || (u.Kind == schedule.UseBox && len(b.Fresh) > 0) {
		return false
	}
	if u.Kind == schedule.UseStation {
		return a.Uses[0] == b.Uses[0]
	}
	return true
}

// thing is what a use stands for: its name ("" for a pot), how many, of how many,
// cleaned how long.
func (b *brute) thing(u schedule.Use, stage int) (name string, count, have int, clean resources.Minutes) {
	k := &b.p.Kitchen
	switch u.Kind {
	case schedule.UsePot:
		return "", 1, 1, 0 // which one is open
	case schedule.UseMould:
		return k.Moulds[0].Name, b.pieces, k.Moulds[0].Count, k.Moulds[0].Clean
	case schedule.UseBox:
		return k.Boxes[0].Name, (b.pieces + b.r.Box.Takes - 1) / b.r.Box.Takes, k.Boxes[0].Count, k.Boxes[0].Clean
	}
	for _, x := range k.Stations {
		if x.Name == u.Name {
			n := 1
			if x.TakesVolume > 0 {
				n = int((b.litres + x.TakesVolume - 1) / x.TakesVolume)
			}
			if x.TakesPieces > 0 {
				n = (b.pieces + x.TakesPieces - 1) / x.TakesPieces
			}
			return x.Name, n, x.Count, x.Clean
		}
	}
	return u.Name, 1, 0, 0
}
