package feed

import (
	"net/url"
	"strconv"
	"strings"
	"time"

	"ripeby/calendar/cold"
	"ripeby/calendar/strips"
	"ripeby/calendar/words"
	"ripeby/resources"
)

// Drawing is a picture as a page has it: its size is told with it, so that nothing moves when it comes.
type Drawing struct {
	At            string // below Root
	Width, Height int    // in pixels
}

// DaysView is the batches over some days, drawn for a phone and for a desk.
type DaysView struct {
	Phone, Desk    Drawing
	First          resources.Date
	Earlier, Later *resources.Date // where other days begin; nil where the plan has nothing there
}

// deskEnd is what the address of the picture for a desk ends with.
const deskEnd = "-desk"

// batches is the batches over the days from one on, "" for today, or the picture of these.
func (s *Server) batches(v *View, which string) *answer {
	picture, isPicture := strings.CutSuffix(which, ".svg")
	text, desk := strings.CutSuffix(picture, deskEnd)
	day, ok := v.dayOf(text)
	switch {
	case !ok, !isPicture && desk, isPicture && text == "":
		return nil
	case isPicture && desk:
		drawn, _ := strips.DrawDays(v.Problem, v.Plan, day, strips.DeskDays, strips.DeskWide)
		return drawing(drawn)
	case isPicture:
		drawn, _ := strips.DrawDays(v.Problem, v.Plan, day, strips.PhoneDays, strips.PhoneWide)
		return drawing(drawn)
	}
	first, last := strips.Reach(v.Problem, v.Plan)
	d := &DaysView{First: day}
	_, high := strips.DrawDays(v.Problem, v.Plan, day, strips.PhoneDays, strips.PhoneWide)
	d.Phone = Drawing{"batches/" + day.String() + ".svg", strips.PhoneWide, high}
	_, high = strips.DrawDays(v.Problem, v.Plan, day, strips.DeskDays, strips.DeskWide)
	d.Desk = Drawing{"batches/" + day.String() + deskEnd + ".svg", strips.DeskWide, high}
	if earlier := day.AddDays(-strips.PhoneDays); day.DaysUntil(first) < 0 && earlier.Year >= resources.FirstYear {
		d.Earlier = &earlier
	}
	if later := day.AddDays(strips.PhoneDays); later.DaysUntil(last) >= 0 && later.Year <= resources.LastYear {
		d.Later = &later
	}
	v.Days, v.Title = d, "Batches over days"
	return s.drawMade("batches.html", v, v.withBatches())
}

// ColdView is the cold places at a moment, or one of them.
type ColdView struct {
	*cold.Shown
	Maps          []PartView
	Day           resources.Date
	Before, After resources.Date // the days next to it
	Present       bool           // the moment is now
	Whole         string         // the picture of all, below Root
}

// PartView is a shelf, or a counted place, with its pictures.
type PartView struct {
	cold.PartShown
	Small, Large Drawing
	To           string // the sheet of its place; "" where its name cannot stand in an address
}

// pictureForm is how the address of a map has its moment, and largeEnd what that of a large one ends with.
const (
	pictureForm = "20060102T1504Z"
	largeEnd    = "-large"
)

// noon is the moment for which a day's map is drawn, and present what the address of the sheet of a place
// has for now.
const (
	noon    = resources.Clock(12 * 60)
	present = "now"
)

// cold is the cold places now or on a day at noon, one of them by its name, or a map.
func (s *Server) cold(v *View, which, place string) *answer {
	if name, ok := strings.CutSuffix(which, ".svg"); ok && place == "" {
		return coldPicture(v, name)
	}
	now := which == "" || which == present && place != ""
	if which == present {
		which = ""
	}
	day, ok := v.dayOf(which)
	if !ok || !now && which == "" {
		return nil
	}
	at := v.moment()
	if !now {
		at = day.At(noon, v.Problem.Kitchen.Zone)
	}
	shown, err := cold.Show(v.Problem, v.Plan, at)
	c := &ColdView{Shown: shown, Day: day, Before: day.AddDays(-1), After: day.AddDays(1), Present: now}
	v.Title, v.Cold = "Cold places", c
	if err != nil {
		return s.drawMade("cold.html", v, err)
	}
	moment, when := "cold/"+at.In(time.UTC).Format(pictureForm), day.String()
	if now {
		when = present
	}
	c.Whole = moment + ".svg"
	for _, p := range shown.Parts {
		if place != "" && p.Place != place {
			continue
		}
		m := PartView{PartShown: p, To: "cold/" + when + "/" + url.PathEscape(p.Place)}
		if _, ok := segments("/" + m.To); !ok {
			m.To = ""
		}
		nr := moment + "-" + strconv.Itoa(p.Number)
		m.Small = Drawing{nr + ".svg", cold.SmallWide, p.Small}
		m.Large = Drawing{nr + largeEnd + ".svg", cold.LargeWide, p.Large}
		c.Maps = append(c.Maps, m)
	}
	if place == "" {
		return s.draw("cold.html", v)
	}
	if len(c.Maps) == 0 {
		return nil
	}
	v.Title = words.Printable(place)
	return s.draw("place.html", v)
}

// coldPicture is the picture of all cold places at a moment, or of one part of them.
func coldPicture(v *View, name string) *answer {
	text, large := strings.CutSuffix(name, largeEnd)
	text, nr, one := strings.Cut(text, "-")
	at, err := time.Parse(pictureForm, text)
	if err != nil || at.Year() < resources.FirstYear || at.Year() > resources.LastYear || large && !one {
		return nil
	}
	var picture []byte
	if !one {
		picture, err = cold.Picture(v.Problem, v.Plan, cold.Options{At: resources.MomentOf(at)})
	} else {
		number, bad := strconv.Atoi(nr)
		if bad != nil || strconv.Itoa(number) != nr {
			return nil
		}
		pixels := cold.SmallWide
		if large {
			pixels = cold.LargeWide
		}
		picture, err = cold.PartPicture(v.Problem, v.Plan, resources.MomentOf(at), number, pixels)
	}
	if err != nil {
		panic(err)
	}
	if picture == nil {
		return nil
	}
	return drawing(picture)
}
