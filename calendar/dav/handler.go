package dav

import (
	"cmp"
	"net/http"
	"slices"
	"strings"
)

// noName is what the kitchen is called that has no name.
const noName = "Kitchen"

// ServeHTTP answers a request. Whoever hands it on has looked at the host.
func (h *Handler) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	if !hidden(r, h.opt.Secure) {
		// Not 401, after which the password would be sent.
		w.Header().Set("Connection", "close")
		sendText(w, http.StatusForbidden, notHidden)
		return
	}
	if err := http.NewCrossOriginProtection().Check(r); err != nil {
		w.Header().Set("Connection", "close")
		sendText(w, http.StatusForbidden, "This was sent from another site, and nothing was written.")
		return
	}
	if !slices.Contains(methods, r.Method) {
		w.Header().Set("Connection", "close")
		w.Header().Set("Allow", strings.Join(methods, ", "))
		sendText(w, http.StatusMethodNotAllowed, "This is not done here. Tasks come from the plan, and are ticked.")
		return
	}
	r.Body = http.MaxBytesReader(w, r.Body, mostBody)
	w.Header().Set("DAV", spoken)
	if strings.TrimSuffix(r.URL.Path, "/") == WellKnown {
		w.Header().Set("Location", Root) // RFC 6764, 5
		sendText(w, http.StatusMovedPermanently, "The tasks are at "+Root+".")
		return
	}
	if r.Method == http.MethodOptions { // programs ask so before they have a password
		h.options(w)
		return
	}
	p, ok := h.whoAsks(w, r)
	if !ok {
		return
	}
	at, f := p.placeOf(r.URL.Path)
	if f == nil {
		f = h.answer(w, r, p, at)
	}
	if f != nil {
		f.send(w)
	}
}

// spoken is what is spoken here (RFC 4918, 10.1; RFC 4791, 5.1).
const spoken = "1, 3, calendar-access"

// options says what is done here.
func (h *Handler) options(w http.ResponseWriter) {
	w.Header().Set("Allow", strings.Join(methods, ", "))
	w.Header().Set("Content-Length", "0")
	w.WriteHeader(http.StatusOK)
}

// answer answers one of the methods; REPORT is the last.
func (h *Handler) answer(w http.ResponseWriter, r *http.Request, p *person, at place) *fault {
	switch r.Method {
	case http.MethodPut:
		return h.put(w, r, p, at)
	case http.MethodDelete:
		return h.remove(p, at)
	}
	v, f := h.viewOf(p, "")
	if f != nil {
		return f
	}
	if at.kind == memberKind && v.shelf.todos[at.member] == nil {
		return refused(http.StatusNotFound, "This task is not in the plan any more.")
	}
	switch r.Method {
	case http.MethodGet, http.MethodHead:
		return v.get(w, r, at)
	case "PROPFIND":
		return v.propfind(w, r, at)
	case "PROPPATCH":
		return v.proppatch(w, r, at)
	}
	return v.report(w, r, at)
}

// viewOf is what an answer tells of; back is a member that is put back as it was, "" for none.
func (h *Handler) viewOf(p *person, back string) (*view, *fault) {
	h.mu.Lock()
	defer h.mu.Unlock()
	s, seen, f := h.shelfOf(p, back)
	if f != nil {
		return nil, f
	}
	return &view{person: p, kitchen: cmp.Or(s.problem.Kitchen.Name, noName), shelf: s, seen: seen}, nil
}

// get answers with the text of a task.
func (v *view) get(w http.ResponseWriter, r *http.Request, at place) *fault {
	if at.kind != memberKind {
		sendText(w, http.StatusOK, "Here are tasks for calendar programs. The page for people is at your writing address.")
		return nil
	}
	tag := v.seen.Members[at.member].etag()
	w.Header().Set("ETag", tag)
	if slices.Contains(tagsOf(r.Header.Values("If-None-Match")), tag) || r.Header.Get("If-None-Match") == "*" { // RFC 9110, 13.1.2
		w.WriteHeader(http.StatusNotModified)
		return nil
	}
	w.Header().Set("Last-Modified", modified(v.shelf.todos[at.member]))
	w.Header().Set("Content-Type", memberType)
	sendBytes(w, http.StatusOK, v.shelf.todos[at.member].Text)
	return nil
}

// tagsOf are the tags that a condition lists. A weak one is taken for a strong one: none here is weak.
func tagsOf(lines []string) (all []string) {
	for _, tag := range strings.Split(strings.Join(lines, ","), ",") {
		all = append(all, strings.TrimPrefix(strings.TrimSpace(tag), "W/"))
	}
	return all
}
