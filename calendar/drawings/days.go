package drawings

import (
	"ripeby/calendar/strips"
	"ripeby/resources"
	"ripeby/schedule"
)

// Drawing is a picture as a page has it.
type Drawing struct {
	At            string // below the page's own address
	Width, Height int    // in pixels
}

// Days is the batches over some days, drawn for a phone and for a desk.
type Days struct {
	Phone, Desk    Drawing
	First          resources.Date
	Earlier, Later *resources.Date // where other days begin; nil where the plan has nothing there
}

// Opens is the day from which the batches are shown to who names none: today, or the plan's first day where
// all of it lies beyond the days that would be shown.
func Opens(p *schedule.Problem, plan *schedule.Plan, today resources.Date) resources.Date {
	if first, _ := strips.Reach(p, plan); today.DaysUntil(first) >= strips.PhoneDays {
		return first
	}
	return today
}

// DaysFrom are the days from one on.
func DaysFrom(p *schedule.Problem, plan *schedule.Plan, day resources.Date) *Days {
	first, last := strips.Reach(p, plan)
	at := batchesAt + day.String()
	d := &Days{First: day, Phone: Drawing{At: at + pictureEnd, Width: strips.PhoneWide}, Desk: Drawing{At: at + deskEnd + pictureEnd, Width: strips.DeskWide}}
	_, d.Phone.Height = strips.DrawDays(p, plan, day, strips.PhoneDays, strips.PhoneWide)
	_, d.Desk.Height = strips.DrawDays(p, plan, day, strips.DeskDays, strips.DeskWide)
	if earlier := day.AddDays(-strips.PhoneDays); day.DaysUntil(first) < 0 && earlier.Year >= resources.FirstYear {
		d.Earlier = &earlier
	}
	if later := day.AddDays(strips.PhoneDays); later.DaysUntil(last) >= 0 && later.Year <= resources.LastYear {
		d.Later = &later
	}
	return d
}
