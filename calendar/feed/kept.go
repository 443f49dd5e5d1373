package feed

import (
	"bytes"
	"net/http"
	"strconv"
	"sync"
	"time"

	"ripeby/resources"
)

// answer is a page or a picture as it is sent.
type answer struct {
	kind, tag string
	policy    string // a picture's own; "" for that of pages
	text      []byte
}

// send answers with bytes that a client may keep but asks about each time.
func (a *answer) send(w http.ResponseWriter, r *http.Request) {
	a.describe(w.Header())
	w.Header().Set("ETag", a.tag)
	http.ServeContent(w, whole(r), "", time.Time{}, bytes.NewReader(a.text))
}

// sendAs answers with a status that is not for conditions.
func (a *answer) sendAs(w http.ResponseWriter, r *http.Request, status int) {
	a.describe(w.Header())
	w.Header().Set("Content-Length", strconv.Itoa(len(a.text)))
	w.WriteHeader(status)
	if r.Method != http.MethodHead {
		_, _ = w.Write(a.text) // a client that went away is no fault
	}
}

// describe sets what tells of the bytes.
func (a *answer) describe(h http.Header) {
	if a.policy != "" {
		h.Set("Content-Security-Policy", a.policy)
	}
	h.Set("Content-Type", a.kind)
	h.Set("Cache-Control", mayKeep)
}

// How much is kept of what was drawn. Every part of the page fits, and with them the
// sheets and weeks that a kitchen looks at in a minute; what comes on top is drawn for
// each request, so that nobody can fill the memory by asking for every day there is.
const (
	keptAnswers = 64
	keptBytes   = 4 << 20
)

// kept holds what was drawn of one board in one minute: pages tell the time to the
// minute, so until then the next phone that asks gets the same bytes.
type kept struct {
	mu      sync.Mutex
	of      *board
	at      resources.Moment
	answers map[string]*answer // by the path below the server
	bytes   int
}

// find gives what was drawn for a path, nil for nothing.
func (k *kept) find(of *board, at resources.Moment, path string) *answer {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.of != of || k.at != at {
		return nil
	}
	return k.answers[path]
}

// add keeps what was drawn, if there is room, and lets go of what was drawn before.
func (k *kept) add(of *board, at resources.Moment, path string, a *answer) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.of != of || k.at != at {
		k.of, k.at, k.answers, k.bytes = of, at, map[string]*answer{}, 0
	}
	if len(k.answers) < keptAnswers && k.bytes+len(a.text) <= keptBytes {
		k.answers[path] = a
		k.bytes += len(a.text)
	}
}
