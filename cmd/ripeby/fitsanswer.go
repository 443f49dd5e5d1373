package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/planner/whatif"
)

// fitAnswer is the answer to one order, as it is told.
type fitAnswer struct {
	problem *schedule.Problem
	order   *whatif.Order
	fit     *whatif.Fit
	moves   []schedule.Move
	width   int
	work    int64  // that it may take
	as      string // the options that choose the kitchen
	taken   string // the name under which the order was written down
	refused bool   // it should have been, and does not fit
}

func (a *fitAnswer) zone() *time.Location { return a.problem.Kitchen.Zone }

// longerWork is how many times the work of an answer that was not found is offered next.
const longerWork = 8

// asked names the order: "24 Alder drum by Sat 27 Mar 2027 07:00".
func (a *fitAnswer) asked() string {
	return fmt.Sprintf("%d %s by %s", a.order.Pieces, a.order.Cheese, moment(a.order.By, a.zone()))
}

// first is the answer in a sentence or two.
func (a *fitAnswer) first() string {
	switch a.fit.Outcome {
	case whatif.FitsAsItIs:
		return a.asked() + a.fits(" fits", " fit") + ", and nothing that is planned moves."
	case whatif.FitsIfMoved:
		return fmt.Sprintf("%s%s if %s. All other targets get what they got.", a.asked(), a.fits(" fits", " fit"), a.movedText())
	case whatif.FitsNot:
		return strings.TrimSpace(a.asked() + a.fits(" does not fit. ", " do not fit. ") + a.fit.Because)
	}
	return fmt.Sprintf("No way was found to have %s, and none is ruled out.", a.asked())
}

// headed is lines under a heading.
type headed struct {
	heading string
	lines   []string
}

// lists are what follows the answer, as far as there is something of it.
func (a *fitAnswer) lists() []headed {
	return slices.DeleteFunc([]headed{{"What moves", a.moveLines()}, {"Where they come from", a.sourceLines()}, {"Instead", a.insteadLines()}},
		func(l headed) bool { return len(l.lines) == 0 })
}

// write tells the answer to a person.
func (a *fitAnswer) write(w io.Writer) {
	tell := func(text string) { say(w, a.width, text) }
	text := a.first()
	if a.fit.Outcome == whatif.FitsUnknown {
		text += fmt.Sprintf(" Ask for longer with --work %d.", longerWork*a.work)
	}
	tell(text)
	if a.fit.Plan != nil {
		say(w, a.width, settledText(a.problem, a.fit.Plan))
	}
	for _, l := range a.lists() {
		_, _ = io.WriteString(w, "\n"+l.heading+":\n")
		for _, text := range l.lines {
			item(w, a.width, text)
		}
	}
	switch {
	case a.taken != "":
		line(w, "")
		tell(fmt.Sprintf("Written into targets.yaml as %s. Plan again with: ripeby plan%s", a.taken, a.as))
	case a.refused:
		line(w, "")
		tell("Nothing was written into targets.yaml.")
	}
}

// soonText is what is known before it is proved, in one line.
func (a *fitAnswer) soonText(f *whatif.Fit) string {
	text := fmt.Sprintf("Not found to fit; %s by then", schedule.Counted(f.Most, "piece"))
	if f.Ready != 0 && !a.rests(f) {
		text += fmt.Sprintf(", %s by %s", a.all(), a.short(f.Ready))
	}
	return text + "; looking for more, and for the reason"
}

// rests reports whether what can be packed in time leaves later, for its hold after packing.
func (a *fitAnswer) rests(f *whatif.Fit) bool { return f.Ready.Add(a.order.Packed) <= a.order.By }

// fits chooses the word for one piece or for several.
func (a *fitAnswer) fits(one, several string) string {
	return plural(a.order.Pieces, one, several)
}

// movedText counts what moves.
func (a *fitAnswer) movedText() string {
	return schedule.Counted(len(a.moves), "task") + " " + plural(len(a.moves), "moves", "move")
}

// moveLines say what each task that moves was and is.
func (a *fitAnswer) moveLines() []string {
	var out []string
	for _, m := range a.moves {
		was, now := a.short(m.From), a.short(m.To)
		text := fmt.Sprintf("%s %s, %s: ", m.Stage, m.Cheese, m.Batch)
		switch {
		case m.From != m.To:
			text += now + " instead of " + was
		default:
			text += now + " as before"
		}
		if m.Who != m.Now {
			text += fmt.Sprintf(", %s instead of %s", orNobody(m.Now), orNobody(m.Who))
		}
		if m.Place != m.PlaceTo {
			text += fmt.Sprintf(", in %s instead of %s", m.PlaceTo, m.Place)
		}
		out = append(out, text)
	}
	return out
}

func orNobody(who string) string {
	if who == "" {
		return "nobody"
	}
	return who
}

func (a *fitAnswer) short(m resources.Moment) string { return resources.ShowMoment(m, a.zone()) }

// sourceLines say which batches and stock the pieces come from, and when a new one begins.
func (a *fitAnswer) sourceLines() []string {
	if a.fit.Plan == nil {
		return nil
	}
	mine := func(list []schedule.Share) int {
		n := 0
		for _, s := range list {
			if s.Target == a.order.Target && s.By == a.order.By {
				n += s.Pieces
			}
		}
		return n
	}
	var out []string
	for _, s := range a.fit.Plan.Stock {
		if n := mine(s.For); n > 0 {
			out = append(out, fmt.Sprintf("%s from stock packed %s", schedule.Counted(n, "piece"), a.short(s.Packed)))
		}
	}
	for i := range a.fit.Plan.Batches {
		b := &a.fit.Plan.Batches[i]
		was := a.problem.Earlier.Batch(b.ID)
		known := was != nil
		grown := ""
		if known && was.Litres != b.Litres {
			grown = fmt.Sprintf(", of %s instead of %s", litres(b.Litres), litres(was.Litres))
		}
		if n := mine(b.For); n > 0 {
			first, last := &b.Stages[0], &b.Stages[len(b.Stages)-1]
			text := fmt.Sprintf("%s from %s%s: ", schedule.Counted(n, "piece"), b.ID, grown)
			if !known {
				text = fmt.Sprintf("%s from a new batch, %s of %s: ", schedule.Counted(n, "piece"), b.ID, litres(b.Litres))
			}
			out = append(out, text+fmt.Sprintf("%s %s, %s %s", first.Stage, a.short(first.Start), last.Stage, a.short(last.Start)))
			continue
		}
		switch {
		case grown != "":
			out = append(out, b.ID+grown+", since pieces of others go to this order")
		case !known:
			out = append(out, fmt.Sprintf("a new batch, since pieces of others go to this order, %s of %s: %s %s", b.ID, litres(b.Litres), b.Stages[0].Stage, a.short(b.Stages[0].Start)))
		}
	}
	return out
}

// insteadLines say what could be had where the order cannot.
func (a *fitAnswer) insteadLines() []string {
	if a.fit.Plan != nil {
		return nil
	}
	var out []string
	switch {
	case a.fit.Most > 0 && a.fit.MostSure:
		out = append(out, fmt.Sprintf("%s by then, and no more", schedule.Counted(a.fit.Most, "piece")))
	case a.fit.Most > 0:
		out = append(out, fmt.Sprintf("%s by then; perhaps more", schedule.Counted(a.fit.Most, "piece")))
	}
	packed := fmt.Sprintf("%s can be packed by %s", a.all(), a.short(a.fit.Ready))
	if a.rests(a.fit) {
		packed += " and leave by " + a.short(a.fit.Leaves)
	}
	switch {
	case a.fit.Ready != 0 && a.fit.ReadySure: // they might be if they left at another time, and made room so much sooner
		out = append(out, fmt.Sprintf("%s; no sooner, if %s at %s", packed, a.fits("it leaves", "they leave"), a.order.By.In(a.zone()).Format("15:04")))
	case a.fit.Ready != 0:
		out = append(out, packed+"; perhaps sooner")
	default:
		out = append(out, fmt.Sprintf("no day was found for %s in the %d days after", a.all(), whatif.LaterDays))
	}
	return out
}

// all names what was ordered, once it has been named.
func (a *fitAnswer) all() string { return a.fits("it", "all of them") }

// fitJSON is the answer for a program. Keys are only ever added.
type fitJSON struct {
	Schema       string     `json:"schema"`
	Cheese       string     `json:"cheese"`
	Pieces       int        `json:"pieces"`
	By           string     `json:"by"`
	Answer       string     `json:"answer"`
	Because      *string    `json:"because"`
	Moves        []moveJSON `json:"moves"`
	From         []string   `json:"from"`
	Most         *int       `json:"most"`
	MostSure     bool       `json:"most_sure"`
	Earliest     *string    `json:"earliest"`
	EarliestSure bool       `json:"earliest_sure"`
	Leaves       string     `json:"earliest_leaves,omitempty"` // where it rests after packing
	Accepted     bool       `json:"accepted"`
	SettledUntil *string    `json:"settled_until"` // null where nothing is settled, or there is no plan
	SettledMoved int        `json:"settled_moved"`
	SettledNew   int        `json:"settled_new"`
}

type moveJSON struct {
	Batch string `json:"batch"`
	Stage string `json:"stage"`
	Was   string `json:"was"`
	Start string `json:"start"`
	Who   string `json:"who"`
	At    string `json:"at"`
}

// answerWords are the values of answer.
func answerWords() map[whatif.FitOutcome]string {
	return map[whatif.FitOutcome]string{whatif.FitsAsItIs: "fits", whatif.FitsIfMoved: "fits_if_moved",
		whatif.FitsNot: "does_not_fit", whatif.FitsUnknown: "not_known"}
}

// json tells the answer to a program.
func (a *fitAnswer) json(w io.Writer) error {
	at := func(m resources.Moment) string { return m.In(a.zone()).Format(time.RFC3339) }
	out := fitJSON{Schema: "ripeby/fits/1", Cheese: a.order.Cheese, Pieces: a.order.Pieces, By: at(a.order.By),
		Answer: answerWords()[a.fit.Outcome], Moves: []moveJSON{}, From: a.sourceLines(), Accepted: a.taken != ""}
	if out.From == nil {
		out.From = []string{}
	}
	for _, m := range a.moves {
		out.Moves = append(out.Moves, moveJSON{m.Batch, m.Stage, at(m.From), at(m.To), m.Now, m.PlaceTo})
	}
	if a.fit.Plan != nil && !a.problem.Settled().Empty() {
		until := at(a.problem.Settled().Until)
		out.SettledUntil = &until
		out.SettledMoved, out.SettledNew = settledCount(a.problem, a.fit.Plan)
	}
	if a.fit.Plan == nil {
		if a.fit.Because != "" {
			out.Because = &a.fit.Because
		}
		out.Most, out.MostSure = &a.fit.Most, a.fit.MostSure
		if a.fit.Ready != 0 {
			text := at(a.fit.Ready)
			out.Earliest, out.EarliestSure = &text, a.fit.ReadySure
			if a.rests(a.fit) {
				out.Leaves = at(a.fit.Leaves)
			}
		}
	}
	return printJSON(w, out)
}
