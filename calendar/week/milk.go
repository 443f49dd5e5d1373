package week

import (
	"sort"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// milkLine is milk to order or to collect at a moment.
type milkLine struct {
	order   bool // else collect
	at      resources.Moment
	supply  string
	litres  resources.Millilitres // to order, or to be drawn from the collection
	ordered resources.Millilitres // what begun.yaml says has been ordered
	collect resources.Moment
	batches []milkDraw
	begun   bool // the collection lies before the planning start
}

// milkDraw is what one batch draws from a collection.
type milkDraw struct {
	batch  string
	litres resources.Millilitres
}

// milkLines gives what the plan's batches draw, collection by collection: one
// line to order it, where the supply must be ordered ahead and not enough has
// been, and one to collect it. An order that would have been due before the
// planning start is left out: it is made already or cannot be made.
func milkLines(p *schedule.Problem, plan *schedule.Plan, zone *time.Location) []milkLine {
	var lines []milkLine
	for _, c := range collections(plan) {
		supply := milkOf(p, c.supply)
		if supply == nil {
			lines = append(lines, c)
			continue
		}
		c.ordered = orderedFor(p, c.supply, c.collect.DateIn(zone))
		lines = append(lines, c)
		due := c.collect.Add(-supply.Order)
		if rest := c.litres - c.ordered; supply.Order > 0 && rest > 0 && due >= plan.From {
			o := c
			o.order, o.at, o.litres = true, due, rest
			lines = append(lines, o)
		}
	}
	sort.SliceStable(lines, func(i, j int) bool {
		if lines[i].at != lines[j].at {
			return lines[i].at < lines[j].at
		}
		return lines[i].order && !lines[j].order
	})
	return lines
}

// milkWithin gives the lines whose moments lie in the span.
func milkWithin(p *schedule.Problem, plan *schedule.Plan, zone *time.Location, span resources.Span) []milkLine {
	var in []milkLine
	for _, l := range milkLines(p, plan, zone) {
		if span.From <= l.at && l.at < span.Until {
			in = append(in, l)
		}
	}
	return in
}

// collections adds up what is drawn from each collection, by its moment and then
// the supply's name.
func collections(plan *schedule.Plan) []milkLine {
	var lines []milkLine
	index := map[schedule.Draw]int{}
	for i := range plan.Batches {
		b := &plan.Batches[i]
		if b.Milk == nil {
			continue
		}
		n, known := index[*b.Milk]
		if !known {
			n = len(lines)
			index[*b.Milk] = n
			lines = append(lines, milkLine{at: b.Milk.Collect, supply: b.Milk.Supply,
				collect: b.Milk.Collect, begun: b.Milk.Collect < plan.From})
		}
		lines[n].litres += b.Litres
		lines[n].batches = append(lines[n].batches, milkDraw{b.ID, b.Litres})
	}
	sort.SliceStable(lines, func(i, j int) bool {
		if lines[i].at != lines[j].at {
			return lines[i].at < lines[j].at
		}
		return lines[i].supply < lines[j].supply
	})
	return lines
}

func milkOf(p *schedule.Problem, name string) *resources.Milk {
	for i := range p.Kitchen.Milk {
		if p.Kitchen.Milk[i].Name == name {
			return &p.Kitchen.Milk[i]
		}
	}
	return nil
}

func orderedFor(p *schedule.Problem, supply string, day resources.Date) resources.Millilitres {
	var sum resources.Millilitres
	for _, o := range p.Ordered {
		if o.Milk == supply && o.Day == day {
			sum += o.Litres
		}
	}
	return sum
}
