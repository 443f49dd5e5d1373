package schedule

import (
	"cmp"
	"slices"
	"time"

	"ripeby/resources"
)

// MilkJob is milk to order by a moment, or to collect from a moment on. A plan says it
// with its batches' draws, from which [MilkJobs] works it out.
type MilkJob struct {
	Order   bool             // else it is to be collected
	At      resources.Moment // the last at which it can be ordered, or when it is ready
	Supply  string
	Collect resources.Moment      // when the collection is ready
	Litres  resources.Millilitres // still to be ordered; of a collection, all that is drawn from it
	Known   resources.Millilitres // what comes of it without another word; for what is to be ordered, besides Litres
	By      KnownBy               // how that is known; "" where it is 0
	Assumed bool                  // it can no longer be ordered, and only the plan before says that it was
	Draws   []MilkDraw            // of the whole collection, in the order of the plan's batches
	// Sequence counts how often what a calendar says about it changed from plan to
	// plan, and Revised is when it last did; 0 where no plan in force has numbered it.
	Sequence int
	Revised  resources.Moment
}

// KnownBy says how it is known that milk comes.
type KnownBy string

// Milk is known to come because it came, has been ordered, or comes each time.
const (
	KnownCame     KnownBy = "came"
	KnownOrdered  KnownBy = "ordered"
	KnownStanding KnownBy = "standing"
)

// MilkDraw is what one batch draws from a collection.
type MilkDraw struct {
	Batch, Cheese string
	Litres        resources.Millilitres
}

// Same reports whether two jobs are of one collection and of one kind.
func (j *MilkJob) Same(o *MilkJob) bool {
	return j.Order == o.Order && j.Supply == o.Supply && j.Collect == o.Collect
}

// MilkJobs gives what the plan's batches draw, collection by collection: a job to
// collect it, and before that one to order it, where the supply must be ordered (ahead, or
// above what stands) and not enough is known to come. An order that would have been due before the
// planning start is left out: it is made already, or cannot be made. They come by their
// moments, orders first, and without numbers.
func MilkJobs(p *Problem, plan *Plan) []MilkJob {
	var jobs []MilkJob
	for _, c := range milkDrawn(plan) {
		m := p.Supply(c.Supply)
		if m == nil { // the kitchen has it no more
			jobs = append(jobs, c)
			continue
		}
		c.Known, c.By = p.comes(m, CollectionDay(m, c.Collect, p.Kitchen.Zone))
		due, rest := c.Collect.Add(-m.Order), c.Litres-c.Known
		needed := (m.Order > 0 || m.Standing > 0) && rest > 0 && c.By != KnownCame
		c.Assumed = needed && due < plan.From && toCome(plan, c.Draws)
		jobs = append(jobs, c)
		if needed && due >= plan.From {
			o := c
			o.Order, o.At, o.Litres = true, due, rest
			jobs = append(jobs, o)
		}
	}
	slices.SortStableFunc(jobs, func(a, b MilkJob) int {
		return cmp.Or(cmp.Compare(a.At, b.At), cmp.Compare(later(a.Order), later(b.Order)))
	})
	return jobs
}

// MilkOf gives the jobs with milk as they were when the plan was put in force, whatever
// has become of the kitchen since; of one that has none listed they are worked out.
func MilkOf(p *Problem, plan *Plan) []MilkJob {
	if plan.Milk != nil {
		return plan.Milk
	}
	return MilkJobs(p, plan)
}

// toCome reports whether one of the batches that draw has not begun.
func toCome(plan *Plan, draws []MilkDraw) bool {
	return slices.ContainsFunc(draws, func(d MilkDraw) bool {
		b := plan.Batch(d.Batch)
		return b != nil && !b.Begun
	})
}

// later sorts collections after orders.
func later(order bool) int {
	if order {
		return 0
	}
	return 1
}

// milkDrawn adds up what is drawn from each collection, by its moment and then the
// supply's name.
func milkDrawn(plan *Plan) []MilkJob {
	var jobs []MilkJob
	of := map[Draw]int{}
	for i := range plan.Batches {
		b := &plan.Batches[i]
		if b.Milk == nil {
			continue
		}
		n, known := of[*b.Milk]
		if !known {
			n = len(jobs)
			of[*b.Milk] = n
			jobs = append(jobs, MilkJob{At: b.Milk.Collect, Supply: b.Milk.Supply, Collect: b.Milk.Collect})
		}
		jobs[n].Litres += b.Litres
		jobs[n].Draws = append(jobs[n].Draws, MilkDraw{b.ID, b.Cheese, b.Litres})
	}
	slices.SortStableFunc(jobs, func(a, b MilkJob) int {
		return cmp.Or(cmp.Compare(a.At, b.At), cmp.Compare(a.Supply, b.Supply))
	})
	return jobs
}

// Supply finds a kitchen's milk by its name; nil when there is none.
func (p *Problem) Supply(name string) *resources.Milk {
	for i := range p.Kitchen.Milk {
		if p.Kitchen.Milk[i].Name == name {
			return &p.Kitchen.Milk[i]
		}
	}
	return nil
}

// CollectionDay is the day of a collection that is ready at a moment: the day before,
// where it is ready at 24:00.
func CollectionDay(m *resources.Milk, ready resources.Moment, zone *time.Location) resources.Date {
	for _, c := range m.Collections(resources.Span{From: ready, Until: ready + 1}, zone) {
		return c.Day
	}
	return ready.DateIn(zone)
}

// CameOf is how much of a supply came on a day, if that has been said.
func (p *Problem) CameOf(supply string, day resources.Date) (sum resources.Millilitres, said bool) {
	for _, c := range p.Came {
		if c.Milk == supply && c.Day == day {
			sum, said = sum+c.Litres, true
		}
	}
	return sum, said
}

// OrderedOf is how much of a supply has been ordered for a day, if that has been said.
func (p *Problem) OrderedOf(supply string, day resources.Date) (sum resources.Millilitres, said bool) {
	for _, o := range p.Ordered {
		if o.Milk == supply && o.Day == day {
			sum, said = sum+o.Litres, true
		}
	}
	return sum, said
}

// comes is how much is known to come of a supply on a day without another word, and how
// it is known.
func (p *Problem) comes(m *resources.Milk, day resources.Date) (resources.Millilitres, KnownBy) {
	if came, said := p.CameOf(m.Name, day); said {
		return came, KnownCame
	}
	if ordered, _ := p.OrderedOf(m.Name, day); ordered > m.Standing {
		return ordered, KnownOrdered
	}
	if m.Standing > 0 {
		return m.Standing, KnownStanding
	}
	return 0, ""
}
