package feed

import (
	"net/http"
	"slices"
	"strings"

	"ripeby/calendar/address"
	"ripeby/calendar/said"
	"ripeby/calendar/words"
	"ripeby/schedule"
)

// Tasks is what answers calendar programs that tick tasks (calendar/dav), and how much it takes.
type Tasks struct {
	Handler  http.Handler
	Methods  []string
	MostBody int64  // bytes
	At       string // where programs begin, for the page
}

// Beside has tasks served beside the page. It is called before Serve.
func (s *Server) Beside(t *Tasks) { s.tasks = t }

// isTasks reports whether a path is one of tasks, or where programs ask for them (RFC 6764, 5).
func (s *Server) isTasks(parts []string) bool {
	return s.tasks != nil && len(parts) > 0 && (parts[0] == "dav" || len(parts) == 2 && parts[0] == ".well-known" && parts[1] == "caldav")
}

// admits reports whether a request is one that tasks are for; where it is not, it says so. A body without a
// length is read no further than it may be.
func (t *Tasks) admits(w http.ResponseWriter, r *http.Request) bool {
	if !slices.Contains(t.Methods, r.Method) {
		w.Header().Set("Allow", strings.Join(t.Methods, ", "))
		w.Header().Set("Connection", "close")
		refuse(w, http.StatusMethodNotAllowed, "this is not done here: tasks come from the plan, and are ticked")
		return false
	}
	if r.ContentLength > t.MostBody {
		w.Header().Set("Connection", "close")
		refuse(w, http.StatusRequestEntityTooLarge, "a request has at most 64 KiB here")
		return false
	}
	return true
}

// Writer is who writes with a token, and where the sheets are that their own calendar leads to; "" for none.
func (s *Server) Writer(token string) (a address.Address, sheets string, standing address.Standing) {
	b := s.board.Load()
	if a, standing = b.book.Find(token); standing == address.InUse && a.Kind != address.Writing {
		return address.Address{}, "", address.Unknown
	}
	for _, o := range b.book.Addresses {
		if o.Kind == address.OnePerson && o.Person == a.Person && standing == address.InUse {
			sheets = s.site.Link(o.SheetsPath())
		}
	}
	return a, sheets, standing
}

// Shown is the kitchen and the plan that are shown, nil before the first, and what was said.
func (s *Server) Shown() (*schedule.Problem, *schedule.Plan, *said.Told) {
	b := s.board.Load()
	if b.made == nil {
		return nil, nil, b.told
	}
	return b.made.Problem, b.made.Plan, b.told
}

// tasksOf is where somebody's tasks are, as their own page tells it; nil for none.
func (s *Server) tasksOf(v *View) *TasksView {
	if s.tasks == nil || v.Writer == "" {
		return nil
	}
	return &TasksView{Server: s.site.Link(s.tasks.At), User: words.Printable(v.Writer), Open: s.site.Secure() || s.site.Loopback}
}
