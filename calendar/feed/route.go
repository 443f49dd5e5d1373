package feed

import (
	"net/http"
	"net/url"
	"strings"

	"ripeby/calendar/address"
	"ripeby/calendar/drawings"
	"ripeby/calendar/label"
	"ripeby/calendar/list"
	"ripeby/calendar/said"
	"ripeby/calendar/served"
	"ripeby/calendar/standing"
	"ripeby/calendar/strips"
	"ripeby/calendar/warmth"
	"ripeby/calendar/week"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/readings"
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
	if v.Asks && len(rest) > 0 && rest[0] == askingAt {
		s.asking(w, r, v, rest[1:]) // it is not kept: it changes by itself
		return
	}
	path := v.Root + strings.Join(rest, "/")
	drawn := s.kept.Find(b, v.moment(), path)
	if drawn == nil {
		if drawn = s.part(b, v, rest); drawn == nil {
			s.gone(v).SendAs(w, r, http.StatusNotFound)
			return
		}
		s.kept.Add(b, v.moment(), path, drawn)
	}
	drawn.Send(w, r)
}

// part draws what is at an address below the page's, nil where nothing is.
func (s *Server) part(b *board, v *View, rest []string) *served.Answer {
	if len(rest) > 0 && rest[0] == "labels" {
		return s.labels(v, rest[1:])
	}
	if len(rest) == 3 && rest[0] == "batch" && rest[2] == "paper" {
		return s.paper(v, rest[1])
	}
	if len(rest) > 0 && rest[0] == "note" && v.Plan != nil {
		return s.note(v, rest[1:])
	}
	first, second, third := "", "", ""
	switch len(rest) {
	case 3:
		if rest[0] != "cold" {
			return nil
		}
		third = rest[2]
		fallthrough
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
	case first == "batches":
		return s.batches(v, second)
	case first == "batches.svg" && alone:
		return served.Drawing("image/svg+xml", strips.Draw(v.Problem, v.Plan))
	case first == "cold":
		return s.cold(v, second, third)
	case first == "more" && alone:
		v.Title = "More"
		return s.draw("more.html", v)
	case first == "list":
		return s.list(b, v, second)
	case first == "batch" && v.batch(second) != nil:
		return s.sheet(v, v.batch(second))
	case first == "tell" && alone && v.Writer != "":
		v.Title = "Away, closed, market"
		v.withTell()
		return s.draw("tell.html", v)
	case first == "changes" && alone:
		v.Title = "What changed"
		v.Changes = standing.ChangesOf(v.Problem, v.Plan)
		return s.draw("changes.html", v)
	case first == "status" && alone:
		v.Title = "How the plan stands"
		v.Standing = standing.Of(v.Problem, v.Plan)
		return s.draw("status.html", v)
	}
	return nil
}

// gone leads on from an address below the page's where nothing is, as after a batch
// has left the plan.
func (s *Server) gone(v *View) *served.Answer {
	if v.Plan == nil {
		v.Title = "No plan yet"
		return s.draw("none.html", v)
	}
	v.Title = "Not in the plan"
	return s.draw("gone.html", v)
}

// now is what is on and what comes next, of somebody before the others where the page is for one.
func (s *Server) now(v *View) *served.Answer {
	v.Title = "Now and next"
	if v.Person != "" {
		v.Title += " for " + words.Printable(v.Person)
	}
	return s.drawMade("now.html", v, v.withToday())
}

// list is what to take along to a target, by its key; without one which targets come.
func (s *Server) list(b *board, v *View, key string) *served.Answer {
	v.Title = "What to take along"
	if key == "" {
		v.Lists = list.Coming(v.Problem, v.Plan, b.made.Chances, v.today())
		return s.draw("list.html", v)
	}
	t, ok := list.WithKey(v.Plan, key)
	if !ok {
		return nil
	}
	var err error
	if v.List, err = list.Show(v.Problem, v.Plan, t); err == nil {
		v.List.Bring(v.Problem, t, b.made.Bring)
		v.List.Chances(v.Problem, t, b.made.Chances)
	}
	v.Receivers = list.Receivers(&v.Problem.Kitchen, t)
	v.NotesAt = v.Root + "note/" + key + "/"
	v.Title = words.Printable(t.Name)
	return s.drawMade("list.html", v, err)
}

// calendars is the part that offers the calendars.
func (s *Server) calendars(b *board, v *View) *served.Answer {
	v.Title = "Calendars for your phone"
	if s.tasks != nil && v.Writer != "" {
		v.Tasks = s.site.Link(s.tasksAt)
	}
	return s.drawMade("calendars.html", v, v.withFeeds(s, b))
}

// week is the week that a day lies in, "" for today.
func (s *Server) week(v *View, day string) *served.Answer {
	of, ok := v.dayOf(day)
	if !ok {
		return nil
	}
	v.Title = "The week"
	shown, err := week.Show(v.Problem, v.Plan, of)
	if err == nil {
		v.Week = shown.Fold(v.today(), v.moment(), v.heard().Said)
	}
	return s.drawMade("week.html", v, err)
}

// batches is the batches over the days from one on, "" for where they open, or the picture of these.
func (s *Server) batches(v *View, which string) *served.Answer {
	if drawings.IsPicture(which) {
		return drawnAt(v, "batches/"+which)
	}
	day, ok := v.dayOf(which)
	if !ok {
		return nil
	}
	if which == "" {
		day = drawings.Opens(v.Problem, v.Plan, day)
	}
	v.Title, v.Days = "Batches over days", drawings.DaysFrom(v.Problem, v.Plan, day)
	return s.drawMade("batches.html", v, v.withBatches())
}

// drawnAt is the picture at an address below the page's, nil for none.
func drawnAt(v *View, path string) *served.Answer {
	picture, err := drawings.Draw(v.Problem, v.Plan, path)
	if err != nil {
		panic(err)
	}
	if picture == nil {
		return nil
	}
	return served.Drawing("image/svg+xml", picture)
}

// noon is the moment for which a day's maps are drawn.
const noon = resources.Clock(12 * 60)

// cold is the cold places now or on a day at noon, one of them by its name, or a picture.
func (s *Server) cold(v *View, which, place string) *served.Answer {
	if picture := warmth.Picture(v.Problem, s.opt.Warmth, which, v.moment()); picture != nil && place == "" {
		return served.Drawing("image/svg+xml", picture)
	}
	if drawings.IsPicture(which) && place == "" {
		return drawnAt(v, "cold/"+which)
	}
	now := which == "" || which == drawings.Present && place != ""
	if now {
		which = ""
	}
	day, ok := v.dayOf(which)
	if !ok {
		return nil
	}
	at, when := v.moment(), drawings.Present
	if !now {
		at, when = day.At(noon, v.Problem.Kitchen.Zone), which
	}
	places, err := drawings.PlacesAt(v.Problem, v.Plan, at, when, place)
	v.Title, v.Cold = "Cold places", &ColdView{Places: places, Day: day, Before: day.AddDays(-1), After: day.AddDays(1), Present: now}
	if now {
		v.Cold.Warm, v.Cold.WarmFaults = warmth.Show(v.Problem, s.opt.Warmth, place, at)
	}
	switch {
	case err != nil || place == "":
		return s.drawMade("cold.html", v, err)
	case len(places.Maps) == 0 && len(v.Cold.Warm) == 0 && !(now && place == readings.Room && v.Writer != ""):
		return nil
	}
	v.Title = words.Printable(place)
	if now {
		v.Cold.Measured = v.heard().InPlace(place)
		v.Cold.Form = v.form(said.About{Place: place}, v.Title, ButtonView{"measured", "Write down"})
	}
	return s.draw("place.html", v)
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
func (s *Server) sheet(v *View, b *schedule.Batch) *served.Answer {
	var err error
	if v.Sheet, err = week.ShowSheet(v.Problem, v.Plan, b); err == nil {
		v.Title = v.Sheet.ID + ", " + v.Sheet.Cheese
		for i := range v.Sheet.Stages {
			v.Sheet.Stages[i].Facts = append(v.Sheet.Stages[i].Facts, v.heard().MeasuredFacts(b.ID, b.Stages[i].Stage)...)
		}
	}
	return s.drawMade("sheet.html", v, err)
}

// labels is the page from which the labels of a batch are printed, or why there are none.
func (s *Server) labels(v *View, path []string) *served.Answer {
	id, opt, ok := label.Asked(v.Root, path)
	if !ok || v.batch(id) == nil {
		return nil
	}
	page, err := s.kitchen.Labels(id, opt)
	if err == nil {
		return served.Drawing("text/html; charset=utf-8", page)
	}
	v.Title, v.NoLabels = "No labels of "+words.Printable(id), label.None{Why: err.Error(), Back: opt.Back}
	return s.draw("nolabels.html", v)
}

// paper is the page from which a batch's sheet is printed, one too that is in the plan no more; nil where nothing is
// known of it.
func (s *Server) paper(v *View, id string) *served.Answer {
	back := v.Root
	if v.batch(id) != nil {
		back += "batch/" + url.PathEscape(id)
	}
	page, err := s.kitchen.Sheet(id, back)
	switch {
	case err == nil:
		return served.Drawing("text/html; charset=utf-8", page)
	case v.batch(id) == nil:
		return nil
	}
	v.Title, v.NoLabels = "No batch sheet of "+words.Printable(id), label.None{Why: err.Error(), Back: back}
	return s.draw("nolabels.html", v)
}

// note is the page from which a delivery note is printed, or why there is none.
func (s *Server) note(v *View, path []string) *served.Answer {
	t, to, ok := list.AskedNote(v.Problem, v.Plan, path)
	if !ok {
		return nil
	}
	back := v.Root + "list/" + t.Key()
	page, err := s.kitchen.Note(v.Problem, v.Plan, t, to, back)
	if err == nil {
		return served.Drawing("text/html; charset=utf-8", page)
	}
	v.Title, v.NoLabels = "No delivery note", label.None{Why: err.Error(), Back: back}
	return s.draw("nolabels.html", v)
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
	if !a.Kind.IsCalendar() || batch == nil || a.Kind == address.OnePerson && !works(batch, a.Person) {
		refuse(w, http.StatusNotFound, notFound)
		return
	}
	s.sheet(v, batch).Send(w, r)
}

func works(b *schedule.Batch, person string) bool {
	for _, t := range b.Stages {
		if t.Work > 0 && t.Who == person {
			return true
		}
	}
	return false
}
