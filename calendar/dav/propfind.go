package dav

import (
	"net/http"
)

// propfind answers what a place is, and with a depth what is in it (RFC 4918, 9.1). There is little enough for
// the depth "infinity".
func (v *view) propfind(w http.ResponseWriter, r *http.Request, at place) *fault {
	deep := mostSteps
	switch r.Header.Get("Depth") {
	case "0":
		deep = 0
	case "1":
		deep = 1
	case "", "infinity":
	default:
		return refused(http.StatusBadRequest, "the depth is 0, 1 or infinity")
	}
	body, err := readXML(r.Body)
	if err != nil {
		return asFault(err)
	}
	if body != nil && body.name != davName("propfind") {
		return refused(http.StatusBadRequest, "the body is no propfind")
	}
	a, f := askedBy(body)
	if f != nil {
		return f
	}
	all := of(davName("multistatus"))
	for _, inner := range v.within(at, deep) {
		all.kids = append(all.kids, v.answer(inner, a, false))
	}
	sendXML(w, http.StatusMultiStatus, all)
	return nil
}

// mostSteps is how deep things lie below the root.
const mostSteps = 4

// within are a place and what is in it, so many steps down.
func (v *view) within(at place, deep int) []place {
	all := []place{at}
	if deep == 0 || at.kind == memberKind {
		return all
	}
	if at.kind != tasksKind {
		return append(all, v.within(place{kind: at.kind + 1}, deep-1)...)
	}
	for _, name := range v.seen.there() {
		all = append(all, place{memberKind, name})
	}
	return all
}

// proppatch keeps no property: each is refused by itself, and the request as a whole is not (RFC 4918, 9.2).
// Programs that would colour or name the collection then do so on their own side; some give up where all is
// refused.
func (v *view) proppatch(w http.ResponseWriter, r *http.Request, at place) *fault {
	body, err := readXML(r.Body)
	if err != nil {
		return asFault(err)
	}
	if body == nil || body.name != davName("propertyupdate") {
		return refused(http.StatusBadRequest, "the body is no propertyupdate")
	}
	var names []element
	for i := range body.kids {
		if p := body.kids[i].kid(davName("prop")); p != nil {
			for _, e := range p.kids {
				names = append(names, of(e.name))
			}
		}
	}
	if len(names) == 0 {
		return refused(http.StatusBadRequest, "the propertyupdate names no property")
	}
	sendXML(w, http.StatusMultiStatus, of(davName("multistatus"), of(davName("response"), href(v.pathOf(at)),
		of(davName("propstat"), of(davName("prop"), names...), statusLine(http.StatusForbidden),
			of(davName("error"), of(davName("cannot-modify-protected-property"))),
			saying(davName("responsedescription"), "Names and colours come from the kitchen, and are not kept here.")))))
	return nil
}
