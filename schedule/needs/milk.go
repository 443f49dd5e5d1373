package needs

import (
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// Drawable is the most that may be drawn from a collection of a supply, NoLimit for any
// amount, and whether any may. What came is all that there is of it. One that is ready
// and can be ordered at or after the planning start gives as much as the supply does; any
// other gives what was ordered or stands, whichever is more; and where nobody has said
// what was ordered, what the earlier plan draws from it counts as ordered, unless what nobody
// speaks of waits.
func Drawable(p *schedule.Problem, m *resources.Milk, c resources.Collection) (most resources.Millilitres, open bool) {
	if came, said := p.CameOf(m.Name, c.Day); said {
		return came, came > 0
	}
	if c.Ready >= p.From && c.OrderBy >= p.From {
		return m.Most, true
	}
	most, said := p.OrderedOf(m.Name, c.Day)
	if !said && !p.Kitchen.UnsaidWaits {
		most = Assumed(p.Earlier, schedule.Draw{Supply: m.Name, Collect: c.Ready})
	}
	most = max(most, m.Standing)
	if m.Most != resources.NoLimit {
		most = min(most, m.Most)
	}
	return most, most > 0
}

// Assumed is what an earlier plan draws from a collection, 0 without one: it was ordered
// as planned unless something else is said.
func Assumed(earlier *schedule.Plan, d schedule.Draw) (sum resources.Millilitres) {
	if earlier == nil {
		return 0
	}
	for i := range earlier.Batches {
		if b := &earlier.Batches[i]; b.Milk != nil && *b.Milk == d {
			sum += b.Litres
		}
	}
	return sum
}

// DrewOn is the collection that a batch begun at a moment drew on where nothing says which:
// the latest within keeps before it; nil when there is none.
func DrewOn(m *resources.Milk, began resources.Moment, zone *time.Location) *resources.Collection {
	list := m.Collections(resources.Span{From: began.Add(-m.Keeps), Until: began + 1}, zone)
	if len(list) == 0 {
		return nil
	}
	return &list[len(list)-1]
}
