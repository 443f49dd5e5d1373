package ask

import (
	"net/url"
	"slices"
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
