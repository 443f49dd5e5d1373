package feed

import (
	"html/template"
	"time"

	"ripeby/calendar/address"
	"ripeby/calendar/ask"
	"ripeby/calendar/drawings"
	"ripeby/calendar/heard"
	"ripeby/calendar/label"
	"ripeby/calendar/list"
	"ripeby/calendar/qr"
	"ripeby/calendar/said"
	"ripeby/calendar/seen"
	"ripeby/calendar/standing"
	"ripeby/calendar/warmth"
	"ripeby/calendar/week"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

// View is all that a page is drawn from: plain values, of one board and one moment.
// The parts below Version are each filled for one page only.
type View struct {
	// Root is what links to the page's own parts begin with, "/p/TOKEN/"; "" on a
	// sheet that a calendar links to, which leads nowhere else.
	Root string
	// Part is which of the page's parts this is, as its address has it; Title is its
	// heading.
	Part, Title string
	// Kitchen is the kitchen's name, "" when nothing is known of it yet.
	Kitchen string
	// Problem and Plan are nil before the first plan.
	Problem *schedule.Problem
	Plan    *schedule.Plan
	// Now is the present; it and the times of Status are in the kitchen's time zone.
	Now    time.Time
	Status Status
	// Loopback: only this machine can connect. Secure: what is sent is hidden.
	Loopback, Secure bool
	// Vouched: by an authority of the server's own, of which its page on trust tells.
	Vouched bool
	Version string

	// Person is whom the page is for, "" for all.
	Person string
	// Writer is whose writing address this is, "" for one to read at; Address is that then.
	Writer  string
	Address address.Address
	// Asks says that something may be asked here.
	Asks bool
	// Meant is what came of the last word said here.
	Meant said.Heard
	// Told is what the kitchen has said; nil where nothing can be said of it.
	Told *said.Told
	seen seen.Book

	NotSaid  *NotSaidView
	Tell     *TellView
	Today    *TodayView
	Week     *week.Folded
	Heads    []string          // of Batches and Past
	Batches  []week.BatchShown // under way or to come
	Past     []week.BatchShown
	Days     *drawings.Days // of the batches
	Cold     *ColdView
	Sheet    *week.SheetShown
	NoLabels label.None
	List     *list.Shown
	Lists    []list.TargetShown
	// Receivers are businesses that the list has a delivery note for, below NotesAt.
	Receivers []list.Receiver
	NotesAt   string
	Feeds     []FeedView // in the order of their book
	Standing  *standing.Standing
	Changes   *standing.Changes
	Ask       *ask.Shown
	Tasks     string // where calendar programs find the writer's tasks; "" for none
}

// FeedView is a calendar as the page offers it.
type FeedView struct {
	Label  string
	Kind   address.Kind
	Webcal template.URL // opens a phone's calendar
	Link   string       // the same for a browser, or to copy
	QR     template.HTML
}

// ColdView is the cold places at a moment, or one of them.
type ColdView struct {
	*drawings.Places
	Day           resources.Date
	Before, After resources.Date // the days next to it
	Present       bool           // the moment is now
	Warm          []warmth.Shown // how warm it was there, where Present
	WarmFaults    []string       // what of that cannot be read
	Measured      []string       // of one place, now: the last first
	Form          *FormView      // to say what was measured in it; nil where nothing is said
}

// NotSaidView is why nothing was written, and the form as it was filled in, to be put right or to be
// sent once more; nil where that would be refused again.
type NotSaidView struct {
	*said.Refusal
	Form []said.Field
}

// view gathers what pages share.
func (s *Server) view(b *board) *View {
	v := &View{Now: s.opt.Now(), Status: b.status, Loopback: s.site.Loopback, Secure: s.site.Secure(), Vouched: s.opt.Trust != nil, Version: s.opt.Version}
	if b.made != nil {
		v.Problem, v.Plan = b.made.Problem, b.made.Plan
		v.Kitchen = v.Problem.Kitchen.Name
		for _, at := range []*time.Time{&v.Now, &v.Status.Since, &v.Status.PlanSeen, &v.Status.FaultsSince} {
			*at = at.In(v.Problem.Kitchen.Zone)
		}
	}
	return v
}

// viewOf gathers what pages share that are read at an address.
func (s *Server) viewOf(b *board, a address.Address) *View {
	v := s.view(b)
	v.Root, v.Told, v.seen = a.Path(), b.told, b.seen
	if a.Kind == address.Writing && b.told != nil && v.Problem != nil && inKitchen(v.Problem, a.Person) {
		v.Writer, v.Address = a.Person, a
		v.Person = a.Person
		v.Asks = s.desk != nil && v.Plan != nil
		if heard, ok := s.meant.Load(a.Token); ok {
			v.Meant = heard.(said.Heard)
		}
	}
	return v
}

// Changed says how many tasks changed since the plan before; "" for none.
func (v *View) Changed() string { return standing.Changed(v.Plan) }

// moment is the present in the plan's minutes, and today its day.
func (v *View) moment() resources.Moment { return resources.MomentOf(v.Now) }

func (v *View) today() resources.Date { return v.moment().DateIn(v.Problem.Kitchen.Zone) }

// heard is what was said beside the plan.
func (v *View) heard() *heard.Beside {
	return &heard.Beside{Problem: v.Problem, Plan: v.Plan, Told: v.Told, Now: v.moment()}
}

// IsToday reports whether a day is the present one in the kitchen.
func (v *View) IsToday(d resources.Date) bool { return d == v.today() }

// withBatches fills in the batches, those that are over apart: of a year's plan they are most.
func (v *View) withBatches() error {
	heads, all, err := week.ShowBatches(v.Problem, v.Plan)
	v.Heads = heads
	for _, b := range all {
		if b.Ends <= v.moment() {
			v.Past = append(v.Past, b)
		} else {
			v.Batches = append(v.Batches, b)
		}
	}
	return err
}

// withFeeds adds what only the page may tell.
func (v *View) withFeeds(s *Server, b *board) error {
	for _, a := range b.book.Addresses {
		if !a.Kind.IsCalendar() || a.Kind == address.OnePerson && a.Person != v.Writer {
			continue // a page shows nobody's key but that of who writes on it
		}
		webcal := s.site.Webcal(a.Path())
		label := words.Printable(a.Label())
		code, err := qr.Page(webcal, "QR code of the calendar for "+label)
		if err != nil {
			return err
		}
		v.Feeds = append(v.Feeds, FeedView{Label: label, Kind: a.Kind, Webcal: template.URL(webcal), Link: s.site.Link(a.Path()), QR: code})
	}
	return nil
}

// batch finds a batch of the plan; nil when there is none.
func (v *View) batch(id string) *schedule.Batch {
	if v.Plan == nil {
		return nil
	}
	return v.Plan.Batch(id)
}
