package feed

import (
	"fmt"
	"net/http"
	"reflect"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"ripeby/calendar/address"
	"ripeby/calendar/ask"
	"ripeby/calendar/listeners"
	"ripeby/calendar/seen"
	"ripeby/calendar/served"
	"ripeby/calendar/trust"
	"ripeby/calendar/warmth"
)

// Site says under which names a server is reached.
type Site = address.Site

// Options says how a kitchen is served.
type Options struct {
	Site    Site
	Version string           // what /version tells
	Every   time.Duration    // how often the kitchen is looked at; 0 for LookEvery
	Now     func() time.Time // the clock
	Say     func(string)     // a line for whoever runs the server; never an address
	Asks    ask.Kitchen      // who answers questions; nil where nothing is asked
	Warmth  warmth.Source    // what thermometers read; nil where none is listened to
	Trust   *trust.Pages     // the authority that https is to be trusted by; nil for one that phones know
}

// Server serves one kitchen.
type Server struct {
	kitchen   Kitchen
	store     address.Store
	opt       Options
	site      Site
	pages     *pages
	kept      served.Kept
	limits    limits
	board     atomic.Pointer[board]
	writing   sync.Mutex // of the board: who puts one in place
	hearing   sync.Mutex // what was told last is shown last
	seeing    sync.Mutex // what is answered last is kept last
	heardAt   time.Time  // when; while hearing
	listeners listeners.Listeners
	taps      address.Pace
	desk      *ask.Desk    // nil where nothing is asked
	tasks     http.Handler // for calendar programs; nil where none are served
	tasksAt   string       // where they begin
	warm      http.Handler // for thermometers; nil where none is listened to
	meant     sync.Map     // what the last word of each writing address means, by its token
	watch     *watch       // the watching goroutine's
	open      atomic.Int64 // connections
}

// New gives a server that shows the plan that is kept, so that the first phone that
// asks gets it. Watch keeps it up to date.
func New(k Kitchen, store address.Store, opt Options) (*Server, error) {
	if opt.Every <= 0 {
		opt.Every = LookEvery
	}
	s := &Server{kitchen: k, store: store, opt: opt, site: opt.Site, pages: newPages(), limits: usual()}
	if opt.Asks != nil {
		s.desk = ask.NewDesk(opt.Asks, opt.Now, s.listeners.Tell, func(err error) { opt.Say("a question was not answered: " + detailsOf(err)) })
	}
	s.watch = &watch{server: s}
	s.watch.bookText = s.watch.readBookText() // before the book: what changes in between is seen at the first look
	book, err := address.Read(store)
	if err != nil {
		return nil, err
	}
	answered, err := seen.Read(store)
	if err != nil {
		opt.Say(err.Error())
	}
	s.board.Store(&board{book: book, seen: answered})
	s.watch.begin()
	return s, nil
}

// change puts a changed copy of the board in place. Of what is told anybody may do so, of all else
// only the watching goroutine.
func (s *Server) change(f func(*board)) {
	s.writing.Lock()
	defer s.writing.Unlock()
	next := *s.board.Load()
	f(&next)
	s.board.Store(&next)
	s.listeners.Tell()
}

// hear shows what the kitchen has said by now.
func (s *Server) hear() {
	s.hearing.Lock()
	defer s.hearing.Unlock()
	told, err := safely(s.kitchen.Told)
	s.heardAt = s.opt.Now()
	if err != nil { // what was known of it stays
		s.opt.Say("what was said cannot be shown: " + detailsOf(err))
		return
	}
	if !reflect.DeepEqual(told, s.board.Load().told) {
		s.change(func(b *board) { b.told = told })
	}
}

// hearAgain does so where that is some time ago: what is to be answered goes by the clock too.
func (s *Server) hearAgain() {
	s.hearing.Lock()
	ago := s.opt.Now().Sub(s.heardAt)
	s.hearing.Unlock()
	if ago >= hearEvery {
		s.hear()
	}
}

// ServeHTTP answers a request. Paths are taken apart here and compared whole: none
// is ever cleaned, redirected or used as the name of a file.
func (s *Server) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	defer func() {
		if fault := caught(recover()); fault != nil {
			s.opt.Say(detailsOf(fault))
			refuse(w, http.StatusInternalServerError, "this is a fault of ripeby")
		}
	}()
	parts, ok := segments(r.URL.EscapedPath())
	beside := s.beside(parts)
	if !s.admit(w, r, isSaying(parts) || isAsking(parts), beside != nil) {
		return
	}
	if !ok {
		refuse(w, http.StatusNotFound, notFound)
		return
	}
	switch {
	case beside != nil:
		beside.ServeHTTP(w, r)
	case len(parts) == 1 && parts[0] == "health":
		s.health(w)
	case len(parts) == 1 && parts[0] == "version":
		plainly(w, http.StatusOK, s.opt.Version)
	case len(parts) == 1 && parts[0] == "robots.txt":
		// Calendars may be fetched, also by those who ask first; X-Robots-Tag keeps
		// them out of indexes.
		plainly(w, http.StatusOK, "User-agent: *\nDisallow:")
	case s.opt.Trust != nil && r.URL.Path == trust.Path:
		s.opt.Trust.Secure(w, r)
	case s.opt.Trust != nil && r.URL.Path == trust.CertificatePath:
		s.opt.Trust.Certificate(w, r)
	case len(parts) == 2 && parts[0] == "assets":
		s.pages.asset(w, r, parts[1])
	case len(parts) == 2 && parts[0] == "f" && strings.HasSuffix(parts[1], feedEnd):
		s.subscription(w, r, strings.TrimSuffix(parts[1], feedEnd))
	case len(parts) == 4 && parts[0] == "s" && parts[2] == "batch":
		s.sheetOfFeed(w, r, parts[1], parts[3])
	case len(parts) >= 2 && parts[0] == "p":
		s.page(w, r, address.Page, parts[1], parts[2:])
	case isSaying(parts):
		s.say(w, r, parts[1])
	case isAsking(parts):
		s.ask(w, r, parts[1])
	case len(parts) >= 2 && parts[0] == "w":
		s.page(w, r, address.Writing, parts[1], parts[2:])
	default:
		refuse(w, http.StatusNotFound, notFound)
	}
}

// health says whether calendars are being served.
func (s *Server) health(w http.ResponseWriter) {
	b := s.board.Load()
	switch {
	case b.made == nil:
		w.Header().Set("Retry-After", "30")
		plainly(w, http.StatusServiceUnavailable, "no plan yet")
	case len(b.status.Faults) > 0:
		plainly(w, http.StatusOK, "ok, with the last good plan")
	default:
		plainly(w, http.StatusOK, "ok")
	}
}

const notFound = "There is nothing at this address. The terminal where ripeby serves shows the right ones."

// plainly answers with a line of text.
func plainly(w http.ResponseWriter, status int, text string) {
	h := w.Header()
	h.Set("Content-Type", "text/plain; charset=utf-8")
	if h.Get("Cache-Control") == "" {
		h.Set("Cache-Control", "no-store")
	}
	w.WriteHeader(status)
	fmt.Fprintln(w, text)
}

// refuse answers with an error.
func refuse(w http.ResponseWriter, status int, text string) {
	for _, name := range []string{"ETag", "Last-Modified", "Cache-Control"} {
		w.Header().Del(name)
	}
	plainly(w, status, text)
}
