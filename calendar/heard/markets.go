package heard

import (
	"cmp"
	"slices"

	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

// Market is one cheese of one target at its moment, how many pieces the plan has for it or have left, and what
// was said of it.
type Market struct {
	Target, Cheese string
	By             resources.Moment
	Planned        int
	Said           []string
}

// marketsWithin is for how long after a target has left it may be said what left and came back.
const marketsWithin = 10 * resources.Day

// Markets are the cheeses of targets that leave within a day or left of late, the next first and then the latest.
func (b *Beside) Markets() (all []Market) {
	add := func(target, cheese string, by resources.Moment, pieces int) {
		if by <= b.Now.Add(-marketsWithin) || by >= b.Now.Add(resources.Day) {
			return
		}
		at := slices.IndexFunc(all, func(m Market) bool { return m.Target == target && m.Cheese == cheese && m.By == by })
		if at < 0 {
			at, all = len(all), append(all, Market{Target: target, Cheese: cheese, By: by})
		}
		all[at].Planned += pieces
	}
	for i := range b.Plan.Targets {
		w := &b.Plan.Targets[i]
		add(w.Target, w.Cheese, w.By, w.Met)
	}
	left := func(cheese string, of []schedule.LeftShare) {
		for _, l := range of {
			add(l.Target, cheese, l.By, l.Pieces)
		}
	}
	for _, batches := range [][]schedule.Batch{b.Plan.Batches, b.Plan.Past} {
		for i := range batches {
			left(batches[i].Cheese, batches[i].Left)
		}
	}
	for _, stock := range [][]schedule.StockUse{b.Plan.Stock, b.Plan.PastStock} {
		for i := range stock {
			left(stock[i].Cheese, stock[i].Left)
		}
	}
	slices.SortFunc(all, func(a, c Market) int {
		return cmp.Or(cmp.Compare(c.By, a.By), cmp.Compare(a.Target, c.Target), cmp.Compare(a.Cheese, c.Cheese))
	})
	for i := range all {
		m := &all[i]
		for k := range b.Told.Lately {
			if w := &b.Told.Lately[k]; w.Target == m.Target && w.Cheese == m.Cheese {
				m.Said = append(m.Said, words.Printable(w.Text)+","+b.By(w))
			}
		}
	}
	return all
}
