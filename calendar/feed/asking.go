package feed

import (
	"errors"
	"net/http"
	"strconv"

	"ripeby/calendar/ask"
	"ripeby/calendar/cold"
	"ripeby/resources"
)

// askingAt is the part of the page on which something is asked; forms of it are sent below, to sayingAt.
const askingAt = "ask"

// asking answers with the page on which something is asked, or with that of one question.
func (s *Server) asking(w http.ResponseWriter, r *http.Request, v *View, rest []string) {
	v.Part, v.Title = askingAt, "Ask"
	if len(rest) == 0 {
		v.Ask = s.shownAt(v, "")
		s.draw("ask.html", v).Send(w, r)
		return
	}
	if len(rest) == 1 {
		v.Ask = s.shownAt(v, rest[0])
	}
	if v.Ask == nil {
		v.Ask = s.shownAt(v, "")
		v.Ask.Wrong = []string{"That question is not kept any more. Ask it again."}
		s.draw("ask.html", v).SendAs(w, r, http.StatusNotFound)
		return
	}
	v.Title = v.Ask.Card.Text
	s.draw("asked.html", v).Send(w, r)
}

// shownAt is what the desk shows to who writes; nil where the question is not kept.
func (s *Server) shownAt(v *View, card string) *ask.Shown {
	return s.desk.Show(v.Address, v.Problem, v.Plan, cold.Names(&v.Problem.Kitchen), card)
}

// ask answers for a form of that page. Nothing is worked out while it is: the answer leads to a page that
// has it when it is there.
func (s *Server) ask(w http.ResponseWriter, r *http.Request, token string) {
	b, a, sent := s.received(w, r, token, askingAt)
	if sent == nil {
		return
	}
	v := s.viewOf(b, a)
	if !v.Asks {
		refuse(w, http.StatusNotFound, notFound)
		return
	}
	form := ask.Form{Values: sent.Values}
	if often := s.tooOften(a); often != nil {
		w.Header().Set("Retry-After", strconv.Itoa(often.Seconds()))
		s.notTaken(w, r, v, form, ask.Refused(often.Error()), http.StatusTooManyRequests)
		return
	}
	heard, why := form.Heard(a)
	if why != nil {
		s.notTaken(w, r, v, form, why, http.StatusUnprocessableEntity)
		return
	}
	to, err := s.desk.Hear(v.Writer, heard)
	switch {
	case errors.As(err, &why):
		s.notTaken(w, r, v, form, why, http.StatusConflict)
	case err != nil:
		s.opt.Say("what was asked for may not have been written: " + detailsOf(err))
		s.notTaken(w, r, v, form, ask.Refused("It may not have been written, and the terminal where ripeby serves tells why. See whether it is there before you say it again."), http.StatusInternalServerError)
	default:
		s.leadTo(w, a.Path()+askingAt+to)
	}
}

// notTaken shows the form as it was filled in, with what is wrong with it.
func (s *Server) notTaken(w http.ResponseWriter, r *http.Request, v *View, form ask.Form, why *ask.Refusal, status int) {
	v.Part, v.Title = askingAt, "Not taken"
	v.Ask = s.shownAt(v, "")
	v.Ask.Fill(form, why)
	answer := s.draw("ask.html", v)
	w.Header().Set("Cache-Control", "no-store")
	answer.Policy = writingPolicy
	answer.SendAs(w, r, status)
}

// Why asks why the target of that name, as the page has it, which leaves at a moment, is short, where
// something may be asked; nil elsewhere.
func (v *View) Why(name string, at resources.Moment) *ask.Button {
	if !v.Asks {
		return nil
	}
	return ask.WhyShort(v.Address, v.Plan, name, at)
}
