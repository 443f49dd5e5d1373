package dav

import (
	"encoding/xml"
	"errors"
	"net/http"
	"strconv"
)

// fault is why a request is refused: a status, what a program goes by (RFC 4918, 16: a precondition) and a
// sentence for people.
type fault struct {
	status int
	named  *element // the precondition; nil for none
	text   string
	wait   int // seconds until it may be asked again; 0 for not said
}

// Error is the sentence.
func (f *fault) Error() string { return f.text }

func refused(status int, text string) *fault { return &fault{status: status, text: text} }

// broken names a precondition that does not hold.
func broken(status int, name xml.Name, text string) *fault {
	e := of(name)
	return &fault{status: status, named: &e, text: text}
}

// notAllowed is for what nobody may do here (RFC 3744, 7.1.1). Programs that go by it take back what they
// had changed.
func notAllowed(path, privilege, text string) *fault {
	e := of(davName("need-privileges"), of(davName("resource"), href(path), of(davName("privilege"), of(davName(privilege)))))
	return &fault{status: http.StatusForbidden, named: &e, text: text}
}

// isTooLarge reports whether a body has more bytes than it may have.
func isTooLarge(err error) bool {
	var large *http.MaxBytesError
	return errors.As(err, &large)
}

// asFault makes a fault of an error of a body.
func asFault(err error) *fault {
	var f *fault
	switch {
	case errors.As(err, &f):
		return f
	case isTooLarge(err):
		return refused(http.StatusRequestEntityTooLarge, tooLarge)
	}
	return refused(http.StatusBadRequest, err.Error())
}

const tooLarge = "a request has at most 64 KiB here"

// send answers with why nothing was done. What a fault is called stands in an element of DAV:error, and the
// sentence beside it.
func (f *fault) send(w http.ResponseWriter) {
	if f.wait > 0 {
		w.Header().Set("Retry-After", strconv.Itoa(f.wait))
	}
	if f.named == nil {
		sendText(w, f.status, f.text)
		return
	}
	sendXML(w, f.status, of(davName("error"), *f.named, saying(xml.Name{Space: nsOurs, Local: "says"}, f.text)))
}

func sendText(w http.ResponseWriter, status int, text string) {
	w.Header().Set("Content-Type", "text/plain; charset=utf-8")
	sendBytes(w, status, []byte(text+"\n"))
}

func sendXML(w http.ResponseWriter, status int, e element) {
	w.Header().Set("Content-Type", "application/xml; charset=utf-8")
	sendBytes(w, status, document(e))
}

func sendBytes(w http.ResponseWriter, status int, text []byte) {
	w.Header().Set("Cache-Control", "private, no-cache")
	w.Header().Set("Content-Length", strconv.Itoa(len(text)))
	w.WriteHeader(status)
	_, _ = w.Write(text) // a client that went away is no fault
}

// statusLine is a status within an answer about several things (RFC 4918, 14.28).
func statusLine(status int) element {
	return saying(davName("status"), "HTTP/1.1 "+strconv.Itoa(status)+" "+http.StatusText(status))
}

// found answers for one thing: which of the properties that were asked for it has (RFC 4918, 9.1).
func found(path string, has, lacks []element) element {
	r := of(davName("response"), href(path))
	for _, part := range []struct {
		props  []element
		status int
	}{{has, http.StatusOK}, {lacks, http.StatusNotFound}} {
		if len(part.props) > 0 || part.status == http.StatusOK && len(lacks) == 0 {
			r.kids = append(r.kids, of(davName("propstat"), of(davName("prop"), part.props...), statusLine(part.status)))
		}
	}
	return r
}

// missing answers for one thing that is not there.
func missing(path string) element {
	return of(davName("response"), href(path), statusLine(http.StatusNotFound))
}
