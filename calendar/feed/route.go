package feed

import (
	"net/http"
	"strings"
	"time"

	"ripeby/calendar"
	"ripeby/resources"
	"ripeby/schedule"
)

// page answers for the page and what is below it.
func (s *Server) page(w http.ResponseWriter, r *http.Request, token string, rest []string) {
	b := s.board.Load()
	a, ok := s.known(w, b, token)
	if !ok {
		return
	}
	if a.Kind != Page {
		refuse(w, http.StatusNotFound, notFound)
		return
	}
	v := s.view(b)
	v.Root = a.Path()
	first, second := "", ""
	switch len(rest) {
	case 2:
		second = rest[1]
		fallthrough
	case 1:
		first = rest[0]
	}
	v.Part = first
	if len(rest) > 2 || !s.answered(w, r, b, v, first, second) {
		refuse(w, http.StatusNotFound, notFound)
	}
}

// answered reports whether there is such a part of the page, and answers for it.
func (s *Server) answered(w http.ResponseWriter, r *http.Request, b *board, v *View, first, second string) bool {
	alone := second == ""
	switch {
	case first == "worker.js" && alone:
		s.pages.asset(w, r, first) // it speaks for what is below its own address
	case first == "calendars" && alone:
		s.calendars(w, r, b, v)
	case v.Plan == nil && (first == "" || first == "status") && alone:
		v.Title = "No plan yet"
		s.draw(w, r, "none.html", v)
	case v.Plan == nil:
		return false
	case first == "" && alone:
		v.Title = "Now and next"
		s.drawMade(w, r, "now.html", v, v.withToday())
	case first == "week":
		return s.week(w, r, v, second)
	case first == "batches" && alone:
		v.Title = "Batches over days"
		var err error
		v.Heads, v.Batches, err = calendar.ShowBatches(v.Problem, v.Plan)
		s.drawMade(w, r, "batches.html", v, err)
	case first == "batches.svg" && alone:
		s.drawing(w, r, calendar.Picture(v.Problem, v.Plan))
	case first == "cold":
		return s.cold(w, r, v, second)
	case first == "batch" && v.batch(second) != nil:
		s.sheet(w, r, v, v.batch(second))
	case first == "status" && alone:
		v.Title = "How the plan stands"
		v.withStanding()
		s.draw(w, r, "status.html", v)
	default:
		return false
	}
	return true
}

// calendars answers for the part that offers the calendars.
func (s *Server) calendars(w http.ResponseWriter, r *http.Request, b *board, v *View) {
	v.Title = "Calendars for your phone"
	s.drawMade(w, r, "calendars.html", v, v.withFeeds(s, b))
}

// week answers for the week that a day lies in, "" for today.
func (s *Server) week(w http.ResponseWriter, r *http.Request, v *View, day string) bool {
	of, ok := v.dayOf(day)
	if !ok {
		return false
	}
	v.Title = "The week"
	var err error
	v.Week, err = calendar.ShowWeek(v.Problem, v.Plan, of)
	s.drawMade(w, r, "week.html", v, err)
	return true
}

// pictureForm is how the address of a map has its moment.
const pictureForm = "20060102T1504Z"

// noon is the moment for which a day's map is drawn.
const noon = resources.Clock(12 * 60)

// cold answers for the cold places now, on a day at noon, and for their map.
func (s *Server) cold(w http.ResponseWriter, r *http.Request, v *View, which string) bool {
	if when, ok := strings.CutSuffix(which, ".svg"); ok {
		at, err := time.Parse(pictureForm, when)
		if err != nil || at.Year() < resources.FirstYear || at.Year() > resources.LastYear {
			return false
		}
		picture, err := calendar.ColdPicture(v.Problem, v.Plan, calendar.ColdOptions{At: resources.MomentOf(at)})
		if err != nil {
			panic(err)
		}
		s.drawing(w, r, picture)
		return true
	}
	day, ok := v.dayOf(which)
	if !ok {
		return false
	}
	at := v.moment()
	if which != "" {
		at = day.At(noon, v.Problem.Kitchen.Zone)
	}
	shown, err := calendar.ShowCold(v.Problem, v.Plan, at)
	v.Title = "Cold places"
	v.Cold = &ColdView{ColdShown: shown, Picture: "cold/" + at.In(time.UTC).Format(pictureForm) + ".svg", Day: day,
		Before: day.AddDays(-1), After: day.AddDays(1), Present: which == ""}
	s.drawMade(w, r, "cold.html", v, err)
	return true
}

// dayOf reads a day in an address; "" is today.
func (v *View) dayOf(text string) (resources.Date, bool) {
	if text == "" {
		return v.today(), true
	}
	d, err := resources.ParseDate(text)
	return d, err == nil && d.String() == text
}

// sheet answers for the sheet of a batch.
func (s *Server) sheet(w http.ResponseWriter, r *http.Request, v *View, b *schedule.Batch) {
	var err error
	if v.Sheet, err = calendar.ShowSheet(v.Problem, v.Plan, b); err == nil {
		v.Title = v.Sheet.ID + ", " + v.Sheet.Cheese
	}
	s.drawMade(w, r, "sheet.html", v, err)
}

// sheetOfFeed answers for the sheet of a batch that a calendar names. Somebody's own
// calendar leads to the batches that they have work with, and to no others.
func (s *Server) sheetOfFeed(w http.ResponseWriter, r *http.Request, token, id string) {
	b := s.board.Load()
	a, ok := s.known(w, b, token)
	if !ok {
		return
	}
	v := s.view(b)
	batch := v.batch(id)
	if a.Kind == Page || batch == nil || a.Kind == OnePerson && !works(batch, a.Person) {
		refuse(w, http.StatusNotFound, notFound)
		return
	}
	s.sheet(w, r, v, batch)
}

func works(b *schedule.Batch, person string) bool {
	for _, t := range b.Stages {
		if t.Work > 0 && t.Who == person {
			return true
		}
	}
	return false
}
