package feed

import (
	"errors"
	"fmt"
	"mime"
	"net/http"
	"strconv"

	"ripeby/calendar/address"
	"ripeby/calendar/said"
)

// How much a form may bring: many times what the page's own forms do.
const (
	mostForm   = 16 << 10 // bytes
	mostFields = 80       // 60 of a recipe's measures among them
)

// sayingAt is where forms are sent, below a writing address.
const sayingAt = "say"

// isSaying reports whether a path is one that forms are sent to.
func isSaying(parts []string) bool {
	return len(parts) == 3 && parts[0] == "w" && parts[2] == sayingAt
}

// isAsking reports whether a path is one that questions are sent to.
func isAsking(parts []string) bool {
	return len(parts) == 4 && parts[0] == "w" && parts[2] == askingAt && parts[3] == sayingAt
}

// received reads a form that was sent to a writing address. Where it is none that may be looked at that is
// answered, and the form is nil: so is what was sent from another site, and what only loads an answer again,
// which leads back below the address.
func (s *Server) received(w http.ResponseWriter, r *http.Request, token, back string) (b *board, a address.Address, form *said.Form) {
	b = s.board.Load()
	a, ok := s.known(w, b, token)
	if !ok {
		return b, a, nil
	}
	if a.Kind != address.Writing {
		refuse(w, http.StatusNotFound, notFound)
		return b, a, nil
	}
	w.Header().Set("Content-Security-Policy", writingPolicy)
	if r.Method != http.MethodPost {
		s.leadTo(w, a.Path()+back)
		return b, a, nil
	}
	w.Header().Set(outcome, refused)
	if err := http.NewCrossOriginProtection().Check(r); err != nil {
		refuse(w, http.StatusForbidden, "this was sent from another site, and nothing was written")
		return b, a, nil
	}
	form, err := formOf(w, r)
	if err != nil {
		w.Header().Set("Connection", "close")
		refuse(w, http.StatusBadRequest, "nothing was written: "+err.Error())
		return b, a, nil
	}
	return b, a, form
}

// say answers for a form. What is written is shown by the page itself, to which the answer leads:
// to ask for that again, as when going back, says nothing a second time.
func (s *Server) say(w http.ResponseWriter, r *http.Request, token string) {
	b, a, form := s.received(w, r, token, "")
	if form == nil {
		return
	}
	if often := s.tooOften(a); often != nil {
		w.Header().Set("Retry-After", strconv.Itoa(often.Seconds()))
		w.Header().Set(outcome, later)
		s.notSaid(w, r, b, a, form, &said.Refusal{Lines: []string{often.Error()}}, http.StatusTooManyRequests)
		return
	}
	if warning, ok := form.Seen(a); ok {
		if err := s.markSeen(a.Person, warning); err != nil {
			s.opt.Say("what was seen is not written: " + err.Error())
			w.Header().Set(outcome, later)
			s.notSaid(w, r, b, a, form, &said.Refusal{Lines: []string{"It was not written, and the terminal where ripeby serves tells why. The warning stays."}}, http.StatusInternalServerError)
			return
		}
		s.isWritten(w, r, a, form)
		return
	}
	saying, why := form.Saying(a)
	if why != nil {
		s.notSaid(w, r, b, a, form, why, http.StatusUnprocessableEntity)
		return
	}
	heard, err := s.put(a, saying)
	var refusal *said.Refusal
	switch {
	case errors.As(err, &refusal) && refusal.Said:
		s.notSaid(w, r, b, a, form, refusal, http.StatusConflict)
	case errors.As(err, &refusal) && refusal.Later: // a phone keeps it
		w.Header().Set("Retry-After", "10")
		w.Header().Set(outcome, later)
		s.notSaid(w, r, b, a, form, refusal, http.StatusServiceUnavailable)
	case errors.As(err, &refusal):
		s.notSaid(w, r, b, a, form, refusal, http.StatusUnprocessableEntity)
	case errors.Is(err, said.ErrBusy):
		w.Header().Set("Retry-After", "2")
		w.Header().Set(outcome, later)
		s.notSaid(w, r, b, a, form, &said.Refusal{Lines: []string{"Somebody else is saying something just now. Say it once more."}}, http.StatusServiceUnavailable)
	case err != nil:
		w.Header().Set(outcome, later) // its word is looked for first, so that it is written once
		s.notSaid(w, r, b, a, form, &said.Refusal{Lines: []string{"It may not have been written, and the terminal where ripeby serves tells why. See on the page whether it is there before you say it again."}},
			http.StatusInternalServerError)
	case heard.Other != "":
		s.notSaid(w, r, b, a, form, &said.Refusal{Said: true, Lines: []string{
			"With this form something else was said already: " + heard.Other + ". To say it otherwise, take that back first."}}, http.StatusConflict)
	default:
		s.isWritten(w, r, a, form)
	}
}

// isWritten answers that what was said is, to a page's script or to a browser without one.
func (s *Server) isWritten(w http.ResponseWriter, r *http.Request, a address.Address, form *said.Form) {
	w.Header().Set(outcome, written)
	if form.Values.Get(said.Quiet) != "" {
		w.Header().Set("Cache-Control", "no-store")
		w.WriteHeader(http.StatusNoContent)
		return
	}
	s.leadTo(w, a.Path())
}

// put has the kitchen write down what somebody says at an address, and shows it.
func (s *Server) put(a address.Address, saying said.Saying) (said.Heard, error) {
	heard, err := s.kitchen.Say(saying)
	s.hear()
	var refusal *said.Refusal
	switch {
	case errors.Is(err, said.ErrBusy), errors.As(err, &refusal) && refusal.Later:
		s.taps.Back(a.Token)
	case err != nil && !errors.As(err, &refusal):
		s.opt.Say("what was said may not have been written: " + detailsOf(err))
	case err == nil && heard.Other == "" && !heard.Before:
		s.meant.Store(a.Token, heard)
	}
	return heard, err
}

// tooOften counts one thing more that somebody says; nil where it may be.
func (s *Server) tooOften(a address.Address) *said.TooOften {
	if wait := s.taps.Wait(a.Token, s.opt.Now()); wait > 0 {
		return &said.TooOften{Wait: wait}
	}
	return nil
}

// outcome is the header that tells a page's script what came of something that was said: a status alone may be
// from whatever lies between, such as a network that wants a password first.
const outcome = "Ripeby-Said"

// What came of it: it is in the record, it never will be, or it is to be sent again. Where the header is missing
// nobody of the kitchen has answered.
const (
	written = "written"
	refused = "refused"
	later   = "later"
)

// leadTo leads to a page, to be asked for.
func (s *Server) leadTo(w http.ResponseWriter, path string) {
	w.Header().Set("Cache-Control", "no-store")
	w.Header().Set("Location", path)
	w.WriteHeader(http.StatusSeeOther)
}

// notSaid answers with why nothing was written, and how to go on.
func (s *Server) notSaid(w http.ResponseWriter, r *http.Request, b *board, a address.Address, form *said.Form, why *said.Refusal, status int) {
	v := s.viewOf(b, a)
	v.Title = "Not written down"
	v.NotSaid = &NotSaidView{Refusal: why}
	if !why.Said && !why.Stale {
		v.NotSaid.Form = form.Fields()
	}
	answer := s.draw("notsaid.html", v)
	w.Header().Set("Cache-Control", "no-store")
	answer.Policy = writingPolicy
	answer.SendAs(w, r, status)
}

// formOf reads a form, no more of it than there may be.
func formOf(w http.ResponseWriter, r *http.Request) (*said.Form, error) {
	kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type"))
	if err != nil || kind != "application/x-www-form-urlencoded" {
		return nil, errors.New("this is no form of the page")
	}
	r.Body = http.MaxBytesReader(w, r.Body, mostForm)
	if err := r.ParseForm(); err != nil {
		return nil, errors.New("the form cannot be read, or is too large")
	}
	n := 0
	for name, values := range r.PostForm {
		if n += len(values); n > mostFields || len(values) > 1 {
			return nil, fmt.Errorf("the form gives %q more than once, or too much", name)
		}
	}
	return &said.Form{Values: r.PostForm}, nil
}
