package feed

import (
	"net/http"
	"time"

	"ripeby/calendar/address"
)

// A page that is looked at is told when something has changed, by server-sent events (HTML Standard,
// 9.2): it asks for itself then, so that nothing but "changed" is ever sent. Who is behind misses
// nothing: the next time that it asks it gets what is there.

const (
	// beat is how often something is sent though nothing has changed, so that what lies between does
	// not give the connection up.
	beat = 20 * time.Second
	// writeWithin is how long one event may take to be sent: a phone that is gone does not answer.
	writeWithin = 5 * time.Second
)

// live tells a page of changes for as long as it listens and its address is good.
func (s *Server) live(w http.ResponseWriter, r *http.Request, token string) {
	changed := s.listeners.Add()
	if changed == nil {
		w.Header().Set("Retry-After", "60")
		refuse(w, http.StatusServiceUnavailable, "as many pages as may be are told of changes; this one looks by itself")
		return
	}
	defer s.listeners.Leave(changed)
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
