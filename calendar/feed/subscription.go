package feed

import (
	"bytes"
	"net/http"
	"strings"

	"ripeby/calendar/address"
)

// feedEnd is what the address of a calendar ends with; some clients go by it.
const feedEnd = ".ics"

// mayKeep lets a client keep what it got but ask each time: that costs a 304.
const mayKeep = "private, no-cache"

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
	if a.Kind.IsPage() {
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
	h.Set("Cache-Control", mayKeep)
	h.Set("ETag", e.Tag)
	http.ServeContent(w, whole(r), "", e.Sent(s.opt.Now()), bytes.NewReader(e.Text))
}

// whole readies a request for http.ServeContent. Conditions that stand on several lines
// are one list (RFC 9110, 5.3). A part of a calendar would cost a phone the tasks of the
// rest, and every text here is short: ranges are left aside, as 14.2 lets a server do.
func whole(r *http.Request) *http.Request {
	for _, name := range []string{"If-None-Match", "If-Match"} {
		if lines := r.Header.Values(name); len(lines) > 1 {
			r.Header.Set(name, strings.Join(lines, ", "))
		}
	}
	r.Header.Del("Range")
	return r
}
