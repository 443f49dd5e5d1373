package needs

import (
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// Drawable is the most that may be drawn from a collection of a supply, NoLimit for any
// amount, and whether any may: one that is ready and can be ordered at or after the
// planning start, or that has been ordered, up to what was ordered.
func Drawable(p *schedule.Problem, m *resources.Milk, c resources.Collection) (most resources.Millilitres, open bool) {
	if c.Ready >= p.From && c.OrderBy >= p.From {
		return m.Most, true
	}
	for _, o := range p.Ordered {
		if o.Milk == m.Name && o.Day == c.Day {
			most, open = most+o.Litres, true
		}
	}
	if open && m.Most != resources.NoLimit {
		most = min(most, m.Most)
	}
	return most, open
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
