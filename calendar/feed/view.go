package feed

import (
	"html/template"
	"time"

	"ripeby/schedule"
)

// View is all that a page is drawn from: plain values, of one board and one moment.
type View struct {
	// Root is what links to the page's own parts begin with, "/p/TOKEN/"; "" on a
	// sheet that a calendar links to, which leads nowhere else.
	Root string
	// Kitchen is the kitchen's name, "" when nothing is known of it yet.
	Kitchen string
	// Problem and Plan are nil before the first plan.
	Problem *schedule.Problem
	Plan    *schedule.Plan
	// Batch is the batch of a sheet, nil on other pages.
	Batch *schedule.Batch
	// Now is the present; it and the times of Status are in the kitchen's time zone.
	Now    time.Time
	Status Status
	// Feeds are the calendars to subscribe to, in the order of their book; none on a
	// sheet that a calendar links to.
	Feeds []FeedView
	// Loopback: only this machine can connect. Secure: what is sent is hidden.
	Loopback, Secure bool
	Version          string
}

// FeedView is a calendar as the page offers it.
type FeedView struct {
	Label  string
	Kind   Kind
	Webcal template.URL // opens a phone's calendar
	Link   string       // the same for a browser, or to copy
	QR     template.HTML
	Left   bool // somebody who is not in the kitchen any more
}

// view gathers what pages share.
func (s *Server) view(b *board) *View {
	v := &View{Now: s.opt.Now(), Status: b.status, Loopback: s.site.Loopback, Secure: s.site.Secure(), Version: s.opt.Version}
	if b.made != nil {
		v.Problem, v.Plan = b.made.Problem, b.made.Plan
		v.Kitchen = v.Problem.Kitchen.Name
		for _, at := range []*time.Time{&v.Now, &v.Status.Since, &v.Status.PlanSeen, &v.Status.FaultsSince} {
			*at = at.In(v.Problem.Kitchen.Zone)
		}
	}
	return v
}

// withFeeds adds what only the page may tell.
func (v *View) withFeeds(s *Server, b *board) error {
	for _, a := range b.book.Addresses {
		if a.Kind == Page {
			continue
		}
		webcal := s.site.Webcal(a.Path())
		qr, err := pageQR(webcal, "QR code of the calendar for "+a.Label())
		if err != nil {
			return err
		}
		v.Feeds = append(v.Feeds, FeedView{Label: a.Label(), Kind: a.Kind, Webcal: template.URL(webcal), Link: s.site.Link(a.Path()), QR: qr,
			Left: a.Kind == OnePerson && b.made != nil && !inKitchen(b.made.Problem, a.Person)})
	}
	return nil
}

// batch finds a batch of the plan; nil when there is none.
func (v *View) batch(id string) *schedule.Batch {
	if v.Plan == nil {
		return nil
	}
	for i := range v.Plan.Batches {
		if v.Plan.Batches[i].ID == id {
			return &v.Plan.Batches[i]
		}
	}
	return nil
}
