package dav

import (
	"net/http"
	"sync"
	"time"

	"ripeby/calendar/address"
	"ripeby/calendar/said"
	"ripeby/schedule"
)

// Root is where the tasks are found, and WellKnown where programs ask for that (RFC 6764, 5).
const (
	Root      = "/dav/"
	WellKnown = "/.well-known/caldav"
)

// mostBody is how many bytes a request may bring.
const mostBody = 64 << 10

// methods are the methods that are answered.
var methods = []string{http.MethodOptions, http.MethodGet, http.MethodHead, "PROPFIND", "REPORT", "PROPPATCH", http.MethodPut, http.MethodDelete}

// Desk is where the tasks come from, and where what is ticked is handed on to. Its methods are called at any time.
type Desk interface {
	// Book has the addresses that there are.
	Book() *address.Book
	// Shown is the kitchen, the plan in force, nil before the first, and what was said; nil where nothing
	// can be.
	Shown() (*schedule.Problem, *schedule.Plan, *said.Told)
	// Take writes down what somebody says. The errors are those of a kitchen and *[said.TooOften].
	Take(address.Address, said.Saying) (said.Heard, error)
}

// Options says how tasks are served.
type Options struct {
	Link   func(path string) string // a link to a path of the server
	Secure bool                     // phones reach the server by https
	Now    func() time.Time         // the clock
	Say    func(string)             // a line for whoever runs the server
}

// Handler answers for the tasks of a kitchen.
type Handler struct {
	desk    Desk
	opt     Options
	door    door
	mu      sync.Mutex // of all below
	journal *journal
	shelves map[string]*shelf // by who it is of
	returns address.Pace      // what was put back
}

// New gives the handler. What programs have seen is kept in the store, so that they go on from there after
// a restart; where it cannot be read, that is said, and they fetch all once more.
func New(desk Desk, store address.Store, opt Options) *Handler {
	h := &Handler{desk: desk, opt: opt, shelves: map[string]*shelf{}}
	var err error
	if h.journal, err = readJournal(store); err != nil {
		opt.Say(err.Error())
	}
	return h
}
