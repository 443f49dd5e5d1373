package ask

import (
	"net/url"
	"slices"
	"strconv"
	"strings"
	"time"

	"ripeby/calendar/address"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

// Shown is what a page shows of a desk, for one address.
type Shown struct {
	Action  string // where forms are sent
	Root    string // what links begin with
	Cheeses []string
	Soon    []Choice // targets to come, the soonest first
	Boxes   []string
	Places  []string
	Short   []Choice // targets to come that are short
	Settled string   // until when nothing moves without need; "" where nothing is settled
	Cards   []CardShown
	Card    *CardShown // the one that the page is of; nil for none
	Change  *ChangeShown

	Filled url.Values // what was filled in, and is to be put right
	Wrong  []string   // why it is

	address address.Address
	changes int
	zone    *time.Location
}

// Choice is something to be chosen: what is sent, and what is read.
type Choice struct{ Value, Text string }

// CardShown is a question as it is shown.
type CardShown struct {
	Card
	Text  string // what was asked
	State string
	Holds bool // the answer is good still
	Asked string
	For   string // of one that is worked on: how long
}

// Soon reports whether the card changes by itself.
func (c CardShown) Soon() bool { return !c.Over() }

// ChangeShown is what was written last.
type ChangeShown struct {
	Text string
	Nr   int
}

// noon is when they leave on a day of which no more is said.
const noon = resources.Clock(12 * 60)

// choicesMost is how many targets are offered.
const choicesMost = 12

// Show gives what a page shows of a desk to an address, beside the plan in force. Of a question where its
// card is named; nil where there is none of that name.
func (d *Desk) Show(a address.Address, p *schedule.Problem, plan *schedule.Plan, places []string, card string) *Shown {
	s := &Shown{Root: a.Path(), Action: a.Path() + "ask/say", Places: places, address: a, zone: p.Kitchen.Zone, Filled: url.Values{}}
	for i := range p.Recipes {
		s.Cheeses = append(s.Cheeses, p.Recipes[i].Name)
	}
	for _, b := range p.Kitchen.Boxes {
		s.Boxes = append(s.Boxes, b.Name)
	}
	s.targets(p, plan, resources.MomentOf(d.now()))
	if p.Kitchen.Settled > 0 {
		s.Settled = words.StampOf(p, max(plan.From, resources.MomentOf(d.now())).Add(p.Kitchen.Settled))
	}
	for _, c := range d.Cards() {
		if shown := s.card(c, p, d.now()); c.ID == card {
			_, shown.Holds = d.Card(card)
			s.Card = &shown
			s.Filled = c.Question.filled()
		} else {
			s.Cards = append(s.Cards, shown)
		}
	}
	if card != "" && s.Card == nil {
		return nil
	}
	var last *Change
	if last, s.changes = d.Last(); last != nil {
		s.Change = &ChangeShown{words.Printable(last.Text+", "+s.stamp(p, last.By)) + " (" + s.byAt(last.Who, last.At) + ")", last.Nr}
	}
	return s
}

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

// targets fills in the targets to come.
func (s *Shown) targets(p *schedule.Problem, plan *schedule.Plan, now resources.Moment) {
	type leaving struct {
		name string
		by   resources.Moment
	}
	wants := slices.DeleteFunc(slices.Clone(plan.Targets), func(w schedule.WantResult) bool { return w.By < now })
	slices.SortStableFunc(wants, func(a, b schedule.WantResult) int { return int(a.By - b.By) })
	seen := map[leaving]bool{}
	short := map[leaving]bool{}
	for i := range wants {
		w := &wants[i]
		of := leaving{w.Target, w.By}
		text := words.Printable(w.Target) + ", " + words.StampOf(p, w.By)
		if !seen[of] && len(s.Soon) < choicesMost {
			s.Soon = append(s.Soon, Choice{resources.FormatMoment(w.By, s.zone), text})
		}
		if w.Short > 0 && !short[of] && len(s.Short) < choicesMost {
			s.Short = append(s.Short, Choice{w.Target, text})
			short[of] = true
		}
		seen[of] = true
	}
}

// byAt is who did something, and when.
func (s *Shown) byAt(who string, at time.Time) string {
	return words.Printable(who) + ", " + words.Clock(resources.MomentOf(at), s.zone)
}

// stamp is a moment that was filled in as the page names it, of a day its noon; what is none is as it is.
func (s *Shown) stamp(p *schedule.Problem, text string) string {
	if day, err := resources.ParseDate(text); err == nil {
		return words.StampOf(p, day.At(noon, s.zone))
	}
	if by, err := resources.ParseMoment(text, s.zone); err == nil {
		return words.StampOf(p, by)
	}
	return text
}

// card is a question as it is shown.
func (s *Shown) card(c Card, p *schedule.Problem, now time.Time) CardShown {
	q := c.Question
	q.By = s.stamp(p, q.By)
	out := CardShown{Card: c, Text: words.Printable(q.Text()), Asked: s.byAt(c.Who, c.Asked)}
	switch c.State {
	case Waiting:
		out.State = "Waits its turn"
		if c.Ahead > 0 {
			out.State += ", with " + schedule.Counted(c.Ahead, "question") + " before it"
		}
	case Working:
		out.State = "Being worked out"
		if c.Progress != "" {
			out.State += ": " + words.Printable(c.Progress)
		}
		out.For = schedule.Counted(max(int(now.Sub(c.Began).Seconds()), 0), "second")
	case Stopped:
		out.State = "Stopped, without an answer"
	case NotAnswered:
		out.State = "Not answered"
	case Answered:
		if out.State = "Answered"; c.Promised {
			out.State = "Promised"
		}
	}
	return out
}

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

// AskWhy asks, from an address, why a target is short.
func AskWhy(a address.Address, target string) Button {
	return Button{Sealed: Sealed{Verb: string(Why), Key: seal(a, string(Why), "", 0)}, Action: a.Path() + "ask/say",
		Question: Question{Kind: Why, Target: target}, Text: "Why, and what would help?", Of: words.Printable(target)}
}

// Why asks why a target is short.
func (s *Shown) Why(target string) Button { return AskWhy(s.address, target) }

// Question is one of a kind of which nothing more is said.
func (s *Shown) Question(kind Kind) Question { return Question{Kind: kind} }

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
