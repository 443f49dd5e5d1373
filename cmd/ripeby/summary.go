package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// summary tells a plan in a few sentences: what is met, how good that is known to
// be, what is short and why, and what to mind.
type summary struct {
	plan    *schedule.Plan
	zone    *time.Location
	width   int
	stopped bool // planning was ended by Ctrl-C
}

// write prints the summary.
func (s summary) write(w io.Writer) {
	s.sentence(w, s.plan.Kitchen+", planned from "+moment(s.plan.From, s.zone))
	line(w, "")
	s.sentence(w, s.outcome())
	s.sentence(w, s.proof())
	if s.stopped {
		s.sentence(w, "Planning was stopped early; this is the best plan found by then.")
	}
	if b := s.plan.Score.Bother; b > 0 {
		s.sentence(w, fmt.Sprintf("Bother: %d (per cent that holds are off their best, and work at times people would rather not).", b))
	}
	s.short(w)
	s.notes(w)
}

func (s summary) sentence(w io.Writer, text string) {
	if text != "" {
		_, _ = io.WriteString(w, wrapped(plain(text), s.width, "")+"\n")
	}
}

// item prints one entry of a list.
func (s summary) item(w io.Writer, text string) {
	_, _ = io.WriteString(w, wrapped("- "+plain(text), s.width, "  ")+"\n")
}

// outcome is the first sentence.
func (s summary) outcome() string {
	score := s.plan.Score
	makes := counted(score.Batches, "batch") + ", " + litres(score.Litres) + " of milk"
	if score.Batches == 0 {
		makes = "no new batch"
	}
	wanted, short, promised := 0, 0, 0
	for _, t := range s.plan.Targets {
		wanted += t.Wanted
		short += t.Short
		if t.Promised {
			promised += t.Short
		}
	}
	switch {
	case wanted == 0:
		return "Nothing is wanted from the planning start on: " + makes + "."
	case s.plan.Outcome == schedule.Met:
		return "Everything wanted is met: " + makes + "."
	}
	text := fmt.Sprintf("Short by %d of the %s wanted, worth %s", short, counted(wanted, "piece"), money(score.PromisedShort+score.Short))
	if promised > 0 {
		text += fmt.Sprintf("; %d of them promised, worth %s", promised, money(score.PromisedShort))
	}
	return text + ". What can be met takes " + makes + "."
}

// part is one part of the score in words: what is proved when its bound is
// reached, and what is open when it is not.
type part struct {
	level  schedule.Level
	proved string
	open   string
}

// parts gives the six parts. A part that is as good as can be by itself (nothing
// short, no batches) needs no words.
func (s summary) parts() []part {
	a, b := s.plan.Score, s.plan.Proof.Bound
	unless := func(trivial bool, text string) string {
		if trivial {
			return ""
		}
		return text
	}
	return []part{
		{schedule.LevelPromisedShort, unless(a.PromisedShort == 0, "has more of what is promised"),
			"whether more of what is promised can be met" + leastShort(b.PromisedShort)},
		{schedule.LevelShort, unless(a.Short == 0, "meets more of the other wants"),
			"whether more can be met" + leastShort(b.Short)},
		{schedule.LevelBatches, unless(a.Batches == 0, "needs fewer batches"),
			fmt.Sprintf("whether fewer batches would do (at least %d)", b.Batches)},
		{schedule.LevelLitres, unless(a.Litres == 0, "needs less milk"),
			fmt.Sprintf("whether less milk would do (at least %s)", litres(b.Litres))},
		{schedule.LevelBother, unless(a.Bother == 0, "gives less bother"),
			fmt.Sprintf("whether it can be done with less bother (at least %d)", b.Bother)},
		{schedule.LevelAll, unless(a.Batches == 0, "makes the cheese later"),
			fmt.Sprintf("whether the cheese could be made later (by at most %s over all batches)",
				length(resources.Minutes(b.MakeStarts-a.MakeStarts)))},
	}
}

// leastShort tells a bound on what is short, when there is one.
func leastShort(m resources.Money) string {
	if m == 0 {
		return ""
	}
	return " (at least " + money(m) + " worth will be short)"
}

// proof says how good the plan is known to be.
func (s summary) proof() string {
	if s.plan.Proof.Level == schedule.LevelAll && s.plan.Score.Batches == 0 && s.plan.Outcome == schedule.Met && s.plan.Score.Bother == 0 {
		return ""
	}
	var proved []string
	open := ""
	parts := s.parts()
	if s.plan.Proof.Level == schedule.LevelNone {
		open = parts[0].open
		parts = nil
	}
	for i, p := range parts {
		if p.proved != "" {
			proved = append(proved, p.proved)
		}
		if p.level == s.plan.Proof.Level {
			if i+1 < len(parts) {
				open = parts[i+1].open
			}
			break
		}
	}
	text := ""
	switch last := len(proved) - 1; {
	case last > 0:
		text = "Proved: no plan " + strings.Join(proved[:last], ", ") + " or " + proved[last] +
			", the first of these counting most. "
	case last == 0:
		text = "Proved: no plan " + proved[0] + ". "
	}
	if open != "" {
		text += "Not proved: " + open + "."
		if !s.stopped {
			text += " More work (--work) may tell."
		}
	}
	return strings.TrimSpace(text)
}

// short lists what is short and why.
func (s summary) short(w io.Writer) {
	heading := "Short:"
	for _, t := range s.plan.Targets {
		if t.Short == 0 {
			continue
		}
		if heading != "" {
			line(w, "")
			line(w, heading)
			heading = ""
		}
		promised := ""
		if t.Promised {
			promised = " promised"
		}
		s.item(w, fmt.Sprintf("%s, %s: %d of %d%s %s. %s", t.Target, moment(t.By, s.zone), t.Met, t.Wanted, promised, t.Cheese, t.Because))
	}
}

// notes lists the warnings, and says where the cautions stand: they are long, and
// the week tables have those of each week in full.
func (s summary) notes(w io.Writer) {
	for i, n := range s.plan.Warnings {
		if i == 0 {
			line(w, "")
			line(w, "Warnings:")
		}
		s.item(w, n.Text)
	}
	var cheeses []string
	for _, c := range s.plan.Cautions {
		if !slices.Contains(cheeses, c.Cheese) {
			cheeses = append(cheeses, c.Cheese)
		}
	}
	if len(cheeses) > 0 {
		line(w, "")
		s.sentence(w, counted(len(s.plan.Cautions), "food-safety caution")+" for "+strings.Join(cheeses, ", ")+
			": they stand under the week tables and in plan.json. Local rules come first.")
	}
}
