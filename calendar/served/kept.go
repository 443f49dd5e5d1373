package served

import (
	"bytes"
	"net/http"
	"strconv"
	"sync"
	"time"

	"ripeby/resources"
)

// Answer is a page or a picture as it is sent.
type Answer struct {
	Kind, Tag string // the content type, and the tag with its quotes
	Policy    string // a picture's own; "" for that of pages
	Text      []byte
}

// Send answers with bytes that a client may keep but asks about each time.
func (a *Answer) Send(w http.ResponseWriter, r *http.Request) {
	a.describe(w.Header())
	w.Header().Set("ETag", a.Tag)
	http.ServeContent(w, Whole(r), "", time.Time{}, bytes.NewReader(a.Text))
}

// SendAs answers with a status that is not for conditions.
func (a *Answer) SendAs(w http.ResponseWriter, r *http.Request, status int) {
	a.describe(w.Header())
	w.Header().Set("Content-Length", strconv.Itoa(len(a.Text)))
	w.WriteHeader(status)
	if r.Method != http.MethodHead {
		_, _ = w.Write(a.Text) // a client that went away is no fault
	}
}

// describe sets what tells of the bytes.
func (a *Answer) describe(h http.Header) {
	if a.Policy != "" {
		h.Set("Content-Security-Policy", a.Policy)
	}
	h.Set("Content-Type", a.Kind)
	h.Set("Cache-Control", MayKeep)
}

// How much is kept of what was drawn. Every part of the page fits, and with them the
// sheets and weeks that a kitchen looks at in a minute; what comes on top is drawn for
// each request, so that nobody can fill the memory by asking for every day there is.
const (
	MostAnswers = 64
	MostBytes   = 4 << 20
)

// Kept holds what was drawn of one board in one minute: pages tell the time to the
// minute, so until then the next phone that asks gets the same bytes.
type Kept struct {
	mu      sync.Mutex
	of      any // by identity
	at      resources.Moment
	answers map[string]*Answer // by the path below the server
	bytes   int
}

// Find gives what was drawn for a path, nil for nothing.
func (k *Kept) Find(of any, at resources.Moment, path string) *Answer {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.of != of || k.at != at {
		return nil
	}
	return k.answers[path]
}

// Add keeps what was drawn, if there is room, and lets go of what was drawn before.
func (k *Kept) Add(of any, at resources.Moment, path string, a *Answer) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.of != of || k.at != at {
		k.of, k.at, k.answers, k.bytes = of, at, map[string]*Answer{}, 0
	}
	if len(k.answers) < MostAnswers && k.bytes+len(a.Text) <= MostBytes {
		k.answers[path] = a
		k.bytes += len(a.Text)
	}
}
