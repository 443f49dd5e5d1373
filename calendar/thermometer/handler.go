package thermometer

import (
	"errors"
	"fmt"
	"io"
	"net/http"
	"strings"
	"sync"
	"time"

	"ripeby/calendar/address"
	"ripeby/resources"
)

// Desk is where readings are handed to.
type Desk interface {
	// Book has the addresses that there are.
	Book() *address.Book
	// Keep keeps the reading of a place, unless it has one of that quarter of an hour. It comes back when there
	// is one on the disk. The error is [ErrLater], or something else that may pass by itself.
	Keep(place string, at resources.Moment, is resources.MilliCelsius) error
}

// ErrLater says that nothing could be kept just now, and can be soon.
var ErrLater = errors.New("readings cannot be kept just now")

// Options says how readings are taken.
type Options struct {
	Now func() time.Time // the clock
	Say func(string)     // a line for whoever runs the server; never an address
}

// Handler answers thermometers.
type Handler struct {
	desk Desk
	opt  Options
	pace pace

	mu     sync.Mutex
	failed bool // the last reading was not kept, which has been told
}

// New gives a handler that hands on to a desk.
func New(desk Desk, opt Options) *Handler { return &Handler{desk: desk, opt: opt} }

// Root is what the addresses of thermometers begin with.
const Root = "/t/"

// how says how to post.
const how = `Send the temperature alone in °C, such as: curl -d 4.6 URL`

const (
	notFound = "There is nothing at this address. The terminal where ripeby serves shows the right ones."
	gone     = "This address has been taken back. The terminal where ripeby serves shows the new one."
)

// ServeHTTP answers a request. Whoever hands it on has looked at the host.
func (h *Handler) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	if r.Method != http.MethodPost {
		w.Header().Set("Connection", "close") // a body is not read
	}
	token, below := strings.CutPrefix(r.URL.Path, Root)
	a, standing := h.desk.Book().Find(token)
	switch {
	case !below || standing == address.Unknown || standing == address.InUse && a.Kind != address.Thermometer:
		sendText(w, http.StatusNotFound, notFound)
	case standing == address.Revoked:
		sendText(w, http.StatusGone, gone)
	case r.Method == http.MethodGet || r.Method == http.MethodHead:
		sendText(w, http.StatusOK, "A thermometer posts here. "+how)
	case r.Method != http.MethodPost:
		w.Header().Set("Allow", "GET, HEAD, POST")
		sendText(w, http.StatusMethodNotAllowed, how)
	default:
		h.post(w, r, a)
	}
}

// post takes a reading.
func (h *Handler) post(w http.ResponseWriter, r *http.Request, a address.Address) {
	now := h.opt.Now()
	if wait := h.pace.wait(a.Token, now); wait > 0 {
		later(w, http.StatusTooManyRequests, wait, fmt.Sprintf("A thermometer posts at most %d times a minute; once in a quarter of an hour is enough.", postsAMinute))
		return
	}
	body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, mostBody))
	var large *http.MaxBytesError
	switch {
	case errors.As(err, &large):
		sendText(w, http.StatusRequestEntityTooLarge, fmt.Sprintf("A reading is no larger than %d bytes. %s", mostBody, how))
		return
	case err != nil:
		sendText(w, http.StatusBadRequest, "The reading did not come whole. Send it again.")
		return
	}
	s, bad := open(body)
	var is resources.MilliCelsius
	var at resources.Moment
	if bad == nil {
		is, bad = s.degrees()
	}
	if bad == nil {
		at, bad = s.moment(now)
	}
	if bad != nil {
		sendText(w, bad.status, bad.text)
		return
	}
	h.kept(w, h.desk.Keep(a.Place, at, is))
}

// kept answers for a reading that was handed on. That none can be kept is told once until one is again: devices
// send on.
func (h *Handler) kept(w http.ResponseWriter, err error) {
	if errors.Is(err, ErrLater) {
		later(w, http.StatusServiceUnavailable, 30*time.Second, "Readings cannot be kept just now. Send it again.")
		return
	}
	h.mu.Lock()
	told := h.failed
	h.failed = err != nil
	h.mu.Unlock()
	if err != nil {
		if !told {
			h.opt.Say("what thermometers read cannot be kept: " + err.Error())
		}
		later(w, http.StatusInternalServerError, 60*time.Second, "The reading could not be kept. Send it again.")
		return
	}
	w.Header().Set("Cache-Control", "no-store")
	w.WriteHeader(http.StatusNoContent)
}

// later refuses, and says when to try again.
func later(w http.ResponseWriter, status int, wait time.Duration, text string) {
	w.Header().Set("Retry-After", fmt.Sprint(int(wait/time.Second)+1))
	sendText(w, status, text)
}

// sendText answers with a line of text.
func sendText(w http.ResponseWriter, status int, text string) {
	w.Header().Set("Content-Type", "text/plain; charset=utf-8")
	w.Header().Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	_, _ = io.WriteString(w, text+"\n") // a device that went away is no fault; net/http sends no body to HEAD
}
