package dav

import (
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"
)

// report answers a question about the tasks (RFC 3253, 3.6). The depth does not matter: there is no collection
// within another one.
func (v *view) report(w http.ResponseWriter, r *http.Request, at place) *fault {
	body, err := readXML(r.Body)
	if err != nil {
		return asFault(err)
	}
	if body == nil || !slices.Contains(reports, body.name) || at.kind < homeKind {
		return broken(http.StatusForbidden, davName("supported-report"), "This is no report that is answered here.")
	}
	a, f := askedBy(body)
	if f != nil {
		return f
	}
	all := of(davName("multistatus"))
	switch body.name.Local {
	case "calendar-query":
		f = v.query(&all, body, a, at)
	case "calendar-multiget":
		v.multiget(&all, body, a)
	default:
		f = v.sync(&all, body, a, at)
	}
	if f == nil {
		sendXML(w, http.StatusMultiStatus, all)
	}
	return f
}

// query answers with the tasks that a filter lets through (RFC 4791, 7.8).
func (v *view) query(all *element, body *element, a asked, at place) *fault {
	filter, f := filterOf(body.kid(caldavName("filter")))
	if f != nil {
		return f
	}
	names := v.seen.there()
	if at.kind == memberKind {
		names = []string{at.member}
	}
	for _, name := range names {
		lets, f := filter.lets(v.shelf.todos[name].Text, v.shelf.problem.Kitchen.Zone)
		if f != nil {
			return f
		}
		if lets {
			all.kids = append(all.kids, v.answer(place{memberKind, name}, a, true))
		}
	}
	return nil
}

// multiget answers with the tasks that are named, in that order; 404 for those that are not there (RFC 4791,
// 7.9).
func (v *view) multiget(all *element, body *element, a asked) {
	for _, e := range body.kids {
		if e.name != davName("href") {
			continue
		}
		text := strings.TrimSpace(e.text)
		path := ""
		if u, err := url.Parse(text); err == nil {
			path = u.Path
		}
		at, f := v.placeOf(path)
		if f != nil || at.kind != memberKind || v.shelf.todos[at.member] == nil {
			all.kids = append(all.kids, missing(text))
			continue
		}
		all.kids = append(all.kids, v.answer(at, a, true))
	}
}

// sync answers with what has changed since a token was given out (RFC 6578, 3.2): what is gone too, but for
// the first time, where a program knows none of it. Of more than somebody wants at a time the first part is sent, with a token that goes on from there.
func (v *view) sync(all *element, body *element, a asked, at place) *fault {
	if at.kind != tasksKind {
		return broken(http.StatusForbidden, davName("supported-report"), "Only of the collection it is told what has changed.")
	}
	token := ""
	if e := body.kid(davName("sync-token")); e != nil {
		token = strings.TrimSpace(e.text)
	}
	seen := v.seen
	names := seen.there()
	if token != "" {
		nr, upTo, ok := seen.since(token)
		if !ok {
			return broken(http.StatusForbidden, davName("valid-sync-token"), "This is too long ago; all is to be fetched once.")
		}
		names = seen.changed(nr, upTo)
	}
	most, f := limitOf(body)
	if f != nil {
		return f
	}
	next := seen.last().token("")
	if most > 0 && most < len(names) {
		// RFC 6578, 3.6: 507 for the collection itself says that there is more.
		if st := slices.IndexFunc(seen.States, func(st state) bool { return st.Nr == seen.Members[names[most-1]].Nr }); st >= 0 {
			next, names = seen.States[st].token(names[most-1]), names[:most]
			all.kids = append(all.kids, of(davName("response"), href(v.tasks()), statusLine(http.StatusInsufficientStorage),
				of(davName("error"), of(davName("number-of-matches-within-limits")))))
		} else {
			return broken(http.StatusForbidden, davName("number-of-matches-within-limits"), "So few at a time cannot be told; ask without a limit.") // RFC 6578, 3.7
		}
	}
	for _, name := range names {
		if seen.Members[name].Gone {
			all.kids = append(all.kids, missing(v.tasks()+name))
			continue
		}
		all.kids = append(all.kids, v.answer(place{memberKind, name}, a, true))
	}
	all.kids = append(all.kids, saying(davName("sync-token"), next))
	return nil
}

// limitOf is how many a request wants at the most; 0 for all.
func limitOf(body *element) (int, *fault) {
	limit := body.kid(davName("limit"))
	if limit == nil || limit.kid(davName("nresults")) == nil { // RFC 5323, 5.17
		return 0, nil
	}
	n, err := strconv.Atoi(strings.TrimSpace(limit.kid(davName("nresults")).text))
	if err != nil || n < 1 {
		return 0, refused(http.StatusBadRequest, "nresults is a number from 1 on")
	}
	return n, nil
}
