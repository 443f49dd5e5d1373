package feed

import (
	"bytes"
	"net/http"

	"ripeby/calendar/address"
	"ripeby/calendar/served"
)

// feedEnd is what the address of a calendar ends with; some clients go by it.
const feedEnd = ".ics"

// known answers for a token that is not in use: 410 for one that was taken back, so
// that phones give up, 404 for one that never was.
func (s *Server) known(w http.ResponseWriter, b *board, token string) (address.Address, bool) {
	a, standing := b.book.Find(token)
	switch standing {
	case address.InUse:
		return a, true
	case address.Revoked:
		refuse(w, http.StatusGone, "This address has been taken back. Ask in the kitchen for the new one.")
	default:
		refuse(w, http.StatusNotFound, notFound)
	}
	return address.Address{}, false
}

// subscription answers for a calendar. Conditions (RFC 9110, 13) and HEAD are left
// to http.ServeContent, which takes them from the edition's tag and time.
func (s *Server) subscription(w http.ResponseWriter, r *http.Request, token string) {
	b := s.board.Load()
	a, ok := s.known(w, b, token)
	if !ok {
		return
	}
	if !a.Kind.IsCalendar() {
		refuse(w, http.StatusNotFound, notFound)
		return
	}
	e := b.editions[address.DigestOf(token)]
	if e == nil {
		// Not 404 or an empty calendar, which would wipe what a phone has.
		w.Header().Set("Retry-After", "60")
		refuse(w, http.StatusServiceUnavailable, "there is no plan yet")
		return
	}
	h := w.Header()
	h.Set("Content-Type", "text/calendar; charset=utf-8")
	h.Set("Cache-Control", served.MayKeep)
	h.Set("ETag", e.Tag)
	http.ServeContent(w, served.Whole(r), "", e.Sent(s.opt.Now()), bytes.NewReader(e.Text))
}
