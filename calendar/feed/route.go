package feed

import (
	"net/http"
	"strings"
	"time"

	"ripeby/calendar/address"
	"ripeby/calendar/cold"
	"ripeby/calendar/list"
	"ripeby/calendar/strips"
	"ripeby/calendar/week"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

// page answers for a page of a kind and what is below it.
func (s *Server) page(w http.ResponseWriter, r *http.Request, kind address.Kind, token string, rest []string) {
	b := s.board.Load()
	a, ok := s.known(w, b, token)
	if !ok {
		return
	}
	if a.Kind != kind {
		refuse(w, http.StatusNotFound, notFound)
		return
	}
	if a.Kind == address.Writing {
		w.Header().Set("Content-Security-Policy", writingPolicy)
	}
	if len(rest) == 1 && rest[0] == "worker.js" {
		s.pages.asset(w, r, rest[0]) // it speaks for what is below its own address
		return
	}
	if len(rest) == 1 && rest[0] == "live" {
		s.live(w, r, token)
		return
	}
	v := s.viewOf(b, a)
	path := v.Root + strings.Join(rest, "/")
	drawn := s.kept.find(b, v.moment(), path)
	if drawn == nil {
		if drawn = s.part(b, v, rest); drawn == nil {
			s.gone(v).sendAs(w, r, http.StatusNotFound)
			return
		}
		s.kept.add(b, v.moment(), path, drawn)
	}
	drawn.send(w, r)
}

// part draws what is at an address below the page's, nil where nothing is.
func (s *Server) part(b *board, v *View, rest []string) *answer {
	first, second := "", ""
	switch len(rest) {
	case 2:
		second = rest[1]
		fallthrough
	case 1:
		first = rest[0]
	case 0:
	default:
		return nil
	}
	v.Part = first
	alone := second == ""
	switch {
	case first == manifestAt && alone:
		return v.manifest()
	case first == keepAt && alone:
		return s.keepList(b, v)
	case first == "calendars" && alone:
		return s.calendars(b, v)
	case v.Plan == nil && (first == "" || first == "status") && alone:
		v.Title = "No plan yet"
		return s.draw("none.html", v)
	case v.Plan == nil:
		return nil
	case first == "" && alone:
		return s.now(v)
	case first == "for" && v.Writer == "" && inKitchen(v.Problem, second):
		v.Person = second
		return s.now(v)
	case first == "week":
		return s.week(v, second)
	case first == "batches" && alone:
		v.Title = "Batches over days"
		return s.drawMade("batches.html", v, v.withBatches())
	case first == "batches.svg" && alone:
		return drawing(strips.Draw(v.Problem, v.Plan))
	case first == "cold":
		return s.cold(v, second)
	case first == "list":
		return s.list(v, second)
	case first == "batch" && v.batch(second) != nil:
		return s.sheet(v, v.batch(second))
	case first == "tell" && alone && v.Writer != "":
		v.Title = "Away, closed, market"
		v.withTell()
		return s.draw("tell.html", v)
	case first == "changes" && alone:
		v.Title = "What changed"
		v.withChanges()
		return s.draw("changes.html", v)
	case first == "status" && alone:
		v.Title = "How the plan stands"
		v.withStanding()
		return s.draw("status.html", v)
	}
	return nil
}

// gone leads on from an address below the page's where nothing is, as after a batch
// has left the plan.
func (s *Server) gone(v *View) *answer {
	if v.Plan == nil {
		v.Title = "No plan yet"
		return s.draw("none.html", v)
	}
	v.Title = "Not in the plan"
	return s.draw("gone.html", v)
}

// now is what is on and what comes next, of somebody before the others where the page is for one.
func (s *Server) now(v *View) *answer {
	v.Title = "Now and next"
	if v.Person != "" {
		v.Title += " for " + words.Printable(v.Person)
	}
	return s.drawMade("now.html", v, v.withToday())
}

// list is what to take along to a target, by its key; without one which targets come.
func (s *Server) list(v *View, key string) *answer {
	v.Title = "What to take along"
	if key == "" {
		v.Lists = list.Coming(v.Problem, v.Plan, v.today())
		return s.draw("list.html", v)
	}
	t, ok := list.WithKey(v.Plan, key)
	if !ok {
		return nil
	}
	var err error
	v.List, err = list.Show(v.Problem, v.Plan, t)
	v.Title = words.Printable(t.Name)
	return s.drawMade("list.html", v, err)
}

// calendars is the part that offers the calendars.
func (s *Server) calendars(b *board, v *View) *answer {
	v.Title = "Calendars for your phone"
	return s.drawMade("calendars.html", v, v.withFeeds(s, b))
}

// week is the week that a day lies in, "" for today.
func (s *Server) week(v *View, day string) *answer {
	of, ok := v.dayOf(day)
	if !ok {
		return nil
	}
	v.Title = "The week"
	var err error
	v.Week, err = week.Show(v.Problem, v.Plan, of)
	return s.drawMade("week.html", v, err)
}

// pictureForm is how the address of a map has its moment.
const pictureForm = "20060102T1504Z"

// noon is the moment for which a day's map is drawn.
const noon = resources.Clock(12 * 60)

// cold is the cold places now or on a day at noon, or their map.
func (s *Server) cold(v *View, which string) *answer {
	if when, ok := strings.CutSuffix(which, ".svg"); ok {
		at, err := time.Parse(pictureForm, when)
		if err != nil || at.Year() < resources.FirstYear || at.Year() > resources.LastYear {
			return nil
		}
		picture, err := cold.Picture(v.Problem, v.Plan, cold.Options{At: resources.MomentOf(at)})
		if err != nil {
			panic(err)
		}
		return drawing(picture)
	}
	day, ok := v.dayOf(which)
	if !ok {
		return nil
	}
	at := v.moment()
	if which != "" {
		at = day.At(noon, v.Problem.Kitchen.Zone)
	}
	shown, err := cold.Show(v.Problem, v.Plan, at)
	v.Title = "Cold places"
	v.Cold = &ColdView{Shown: shown, Picture: "cold/" + at.In(time.UTC).Format(pictureForm) + ".svg", Day: day,
		Before: day.AddDays(-1), After: day.AddDays(1), Present: which == ""}
	return s.drawMade("cold.html", v, err)
}

// dayOf reads a day in an address; "" is today.
func (v *View) dayOf(text string) (resources.Date, bool) {
	if text == "" {
		return v.today(), true
	}
	d, err := resources.ParseDate(text)
	return d, err == nil && d.String() == text
}

// sheet is the sheet of a batch.
func (s *Server) sheet(v *View, b *schedule.Batch) *answer {
	var err error
	if v.Sheet, err = week.ShowSheet(v.Problem, v.Plan, b); err == nil {
		v.Title = v.Sheet.ID + ", " + v.Sheet.Cheese
	}
	return s.drawMade("sheet.html", v, err)
}

// sheetOfFeed answers for the sheet of a batch that a calendar names. Somebody's own
// calendar leads to the batches that they have work with, and to no others.
func (s *Server) sheetOfFeed(w http.ResponseWriter, r *http.Request, key, id string) {
	b := s.board.Load()
	a, ok := b.book.FindSheets(key)
	if !ok {
		refuse(w, http.StatusNotFound, notFound)
		return
	}
	v := s.view(b)
	batch := v.batch(id)
	if a.Kind.IsPage() || batch == nil || a.Kind == address.OnePerson && !works(batch, a.Person) {
		refuse(w, http.StatusNotFound, notFound)
		return
	}
	s.sheet(v, batch).send(w, r)
}

func works(b *schedule.Batch, person string) bool {
	for _, t := range b.Stages {
		if t.Work > 0 && t.Who == person {
			return true
		}
	}
	return false
}
