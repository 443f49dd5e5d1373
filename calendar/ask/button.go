package ask

import (
	"net/url"
	"strconv"
	"strings"

	"ripeby/calendar/address"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

// Sealed is what a form has that nobody fills in.
type Sealed struct {
	Verb, ID, Key string
	Nr            int
}

// Form seals a form of the page.
func (s *Shown) Form(verb, id string) Sealed {
	nr := 0
	switch {
	case verb == SayAdd:
		nr = s.changes // drawn after another was written it is another
	case verb == SayBack && s.Change != nil:
		nr = s.Change.Nr
	}
	return Sealed{verb, id, seal(s.address, verb, id, nr), nr}
}

// Button is a form of one button: it says something of a card or a change, or asks a question.
type Button struct {
	Sealed
	Action   string
	Question Question
	Text, Of string // Of names what it is about, for those who do not see where it stands
}

// Button says something of a card, or of the last change.
func (s *Shown) Button(verb, id, text string) Button {
	return Button{Sealed: s.Form(verb, id), Action: s.Action, Text: text}
}

// Asks asks a question.
func (s *Shown) Asks(q Question, text string) Button {
	return Button{Sealed: s.Form(string(q.Kind), ""), Action: s.Action, Question: q, Text: text}
}

// why asks, from an address, why a target is short.
func why(a address.Address, target string) Button {
	return Button{Sealed: Sealed{Verb: string(Why), Key: seal(a, string(Why), "", 0)}, Action: a.Path() + "ask/say",
		Question: Question{Kind: Why, Target: target}, Text: "Why, and what would help?", Of: words.Printable(target)}
}

// WhyShort asks, from an address, why the target of that name, as a page has it, which leaves at a moment, is
// short; nil where it is not.
func WhyShort(a address.Address, plan *schedule.Plan, name string, at resources.Moment) *Button {
	for i := range plan.Targets {
		if w := &plan.Targets[i]; w.By == at && w.Short > 0 && words.Printable(w.Target) == name {
			b := why(a, w.Target)
			return &b
		}
	}
	return nil
}

// Why asks why a target is short.
func (s *Shown) Why(target string) Button { return why(s.address, target) }

// Question is one of a kind of which nothing more is said.
func (s *Shown) Question(kind Kind) Question { return Question{Kind: kind} }

// filled is a question as it is filled in, to be asked otherwise.
func (q *Question) filled() url.Values {
	v := url.Values{"ask": {string(q.Kind)}}
	set := func(name, text string) { v.Set(name, text) }
	split := func(name, moment string) {
		day, clock, _ := strings.Cut(moment, " ")
		set(name+"-day", day)
		set(name+"-time", clock)
	}
	switch q.Kind {
	case Fits:
		set("cheese", q.Cheese)
		set("pieces", strconv.Itoa(q.Pieces))
		set("name", q.Name)
		set("price", q.Price)
		split("by", q.By)
	case Room:
		set("box", q.Box)
		if strings.ContainsAny(q.Box, "0123456789") {
			set("size", q.Box)
		}
		set("count", strconv.Itoa(q.Count))
		set("in", q.In)
		split("from", q.At)
		split("until", q.Until)
	}
	return v
}

// Value is what was filled in under a name, of the form that says so.
func (s *Shown) Value(verb, name string) string {
	if s.Filled.Get("ask") != verb {
		return ""
	}
	return s.Filled.Get(name)
}

// Rows are the numbers of the rows that a target's cheeses have.
func (s *Shown) Rows() (rows []string) {
	for i := range wantRows {
		rows = append(rows, strconv.Itoa(i+1))
	}
	return rows
}

// Fill has a form shown as it was filled in, and why it was not taken.
func (s *Shown) Fill(f Form, why *Refusal) {
	s.Filled, s.Wrong = f.Values, why.Lines
}
