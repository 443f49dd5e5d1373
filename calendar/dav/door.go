package dav

import (
	"net"
	"net/http"
	"net/netip"
	"strings"
	"sync"
	"time"

	"ripeby/calendar/address"
)

// hidden reports whether nobody on the way can read a request: it came by https, or from this machine. What
// comes from this machine for another name was handed on by a server of the maker's own; it must speak https
// with the phone then.
func hidden(r *http.Request, secure bool) bool {
	if r.TLS != nil {
		return true
	}
	if !isLoopback(r.RemoteAddr) {
		return false
	}
	if by := r.Header.Get("X-Forwarded-Proto"); by != "" {
		return strings.EqualFold(by, "https")
	}
	return secure || isLoopback(r.Host)
}

// isLoopback reports whether a host, with a port or without, is this machine.
func isLoopback(host string) bool {
	if h, _, err := net.SplitHostPort(host); err == nil {
		host = h
	}
	if strings.EqualFold(strings.TrimSuffix(host, "."), "localhost") {
		return true
	}
	ip, err := netip.ParseAddr(strings.Trim(host, "[]"))
	return err == nil && ip.Unmap().IsLoopback()
}

const notHidden = "Tasks are for https, or for this machine alone: whoever can listen in on the network could read the password. Nothing was asked for."

// What was tried in vain from one address: so often in a minute, of so many addresses at a time.
const (
	triesAMinute = 30
	mostRemotes  = 256
)

// door counts what was tried in vain. A right password is never held up, for behind another server all
// phones have one address.
type door struct {
	mu    sync.Mutex
	tries map[string]*tried
}

type tried struct {
	since time.Time
	times int
}

// vain counts one more, and reports whether there were too many.
func (d *door) vain(remote string, now time.Time) bool {
	if host, _, err := net.SplitHostPort(remote); err == nil {
		remote = host
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.tries == nil {
		d.tries = map[string]*tried{}
	}
	t := d.tries[remote]
	if t == nil || now.Sub(t.since) >= time.Minute {
		d.makeRoom(now)
		t = &tried{since: now}
		d.tries[remote] = t
	}
	t.times++
	return t.times > triesAMinute
}

// makeRoom forgets what is over, and the oldest where that is not enough.
func (d *door) makeRoom(now time.Time) {
	oldest := ""
	for remote, t := range d.tries {
		if now.Sub(t.since) >= time.Minute {
			delete(d.tries, remote)
		} else if oldest == "" || t.since.Before(d.tries[oldest].since) {
			oldest = remote
		}
	}
	if len(d.tries) >= mostRemotes {
		delete(d.tries, oldest)
	}
}

// person is who asks.
type person struct {
	address.Address
	id     string // in paths
	sheets string
}

// whoAsks goes by the password alone, which is the token of a writing address: 130 random bits that belong to one
// person. A name with an @ or odd letters is not sent alike by all programs, so it is not looked at.
func (h *Handler) whoAsks(w http.ResponseWriter, r *http.Request) (*person, bool) {
	_, password, given := r.BasicAuth()
	book := h.desk.Book()
	a, standing := book.Find(strings.TrimSpace(password))
	if given && standing == address.InUse && a.Kind == address.Writing {
		return &person{a, idOf(a.Person), h.sheetsOf(book, a.Person)}, true
	}
	text := "The password is the last part of the address of your own writing page."
	if given && standing == address.Revoked {
		text = "This password has been taken back. Ask in the kitchen for the new one."
	}
	if given && h.door.vain(r.RemoteAddr, h.opt.Now()) {
		(&fault{status: http.StatusTooManyRequests, text: "Too many wrong passwords came from here. Try again in a minute.", wait: 60}).send(w)
		return nil, false
	}
	w.Header().Set("WWW-Authenticate", `Basic realm="ripeby tasks", charset="UTF-8"`)
	sendText(w, http.StatusUnauthorized, text)
	return nil, false
}

// sheetsOf is where the sheets are that somebody's own calendar leads to; "" for none.
func (h *Handler) sheetsOf(book *address.Book, name string) string {
	for _, a := range book.Addresses {
		if a.Kind == address.OnePerson && a.Person == name {
			return h.opt.Link(a.SheetsPath())
		}
	}
	return ""
}
