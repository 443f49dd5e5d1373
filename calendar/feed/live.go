package feed

import (
	"net/http"
	"sync"
	"time"

	"ripeby/calendar/address"
)

// A page that is looked at is told when something has changed, by server-sent events (HTML Standard,
// 9.2): it asks for itself then, so that nothing but "changed" is ever sent. Who is behind misses
// nothing: the next time that it asks it gets what is there.

const (
	// listenersMost is how many pages are told at a time; others look by themselves.
	listenersMost = 64
	// beat is how often something is sent though nothing has changed, so that what lies between does
	// not give the connection up.
	beat = 20 * time.Second
	// writeWithin is how long one event may take to be sent: a phone that is gone does not answer.
	writeWithin = 5 * time.Second
)

// listeners are the pages that are told of changes.
type listeners struct {
	mu  sync.Mutex
	all map[chan struct{}]bool
}

// add takes a listener in; nil where there are as many as there may be.
func (l *listeners) add() chan struct{} {
	l.mu.Lock()
	defer l.mu.Unlock()
	if len(l.all) >= listenersMost {
		return nil
	}
	if l.all == nil {
		l.all = map[chan struct{}]bool{}
	}
	c := make(chan struct{}, 1)
	l.all[c] = true
	return c
}

func (l *listeners) leave(c chan struct{}) {
	l.mu.Lock()
	defer l.mu.Unlock()
	delete(l.all, c)
}

// count is how many there are.
func (l *listeners) count() int {
	l.mu.Lock()
	defer l.mu.Unlock()
	return len(l.all)
}

// tell has all of them know that something has changed. Nobody is waited for: who has not yet
// taken the last word is told by that.
func (l *listeners) tell() {
	l.mu.Lock()
	defer l.mu.Unlock()
	for c := range l.all {
		select {
		case c <- struct{}{}:
		default:
		}
	}
}

// live tells a page of changes for as long as it listens and its address is good.
func (s *Server) live(w http.ResponseWriter, r *http.Request, token string) {
	changed := s.listeners.add()
	if changed == nil {
		w.Header().Set("Retry-After", "60")
		refuse(w, http.StatusServiceUnavailable, "as many pages as may be are told of changes; this one looks by itself")
		return
	}
	defer s.listeners.leave(changed)
	h := w.Header()
	h.Set("Content-Type", "text/event-stream")
	h.Set("Cache-Control", "no-store")
	h.Set("X-Accel-Buffering", "no") // what lies between passes it on at once
	w.WriteHeader(http.StatusOK)
	send := func(text string) bool {
		control := http.NewResponseController(w)
		_ = control.SetWriteDeadline(time.Now().Add(writeWithin)) // where it cannot be set, the server's own holds
		_, err := w.Write([]byte(text))
		return err == nil && control.Flush() == nil
	}
	tick := time.NewTicker(beat)
	defer tick.Stop()
	for ok := send(": listening\n\n"); ok; {
		select {
		case <-r.Context().Done():
			return
		case <-changed:
			if _, standing := s.board.Load().book.Find(token); standing != address.InUse {
				return // the page finds out by itself when it asks
			}
			ok = send("data: changed\n\n")
		case <-tick.C:
			ok = send(": still here\n\n")
		}
	}
}
