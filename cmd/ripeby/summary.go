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
	stopped bool  // planning was ended by Ctrl-C
	work    int64 // units of work that planning might have taken

	settled *resources.Span // the time in which nothing moves without need; nil without an earlier plan
	saves   string          // what moving more would save
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
		text := fmt.Sprintf("Bother: %s, one for each per cent that a hold is off its best and one for each 5 minutes of work at a time somebody would rather not", schedule.Counted(int(b), "point"))
		if s.settled != nil && !s.settled.Empty() && len(s.plan.Changes) > 0 {
			text += ", and 3 for each task after the settled days that was planned otherwise"
		}
		s.sentence(w, text+".")
	}
	if late := s.plan.Score.Late; late > 0 {
		s.sentence(w, fmt.Sprintf("Late: %s, one for each tenth of a hold's longest time by which a begun batch waits past it, and 1,000 for each that cannot go on.", schedule.Counted(int(late), "point")))
	}
	s.moved(w)
	s.short(w)
	s.starts(w)
	s.notes(w)
}

func (s summary) sentence(w io.Writer, text string) {
	if text != "" {
		say(w, s.width, text)
	}
}

// item prints one entry of a list.
func (s summary) item(w io.Writer, text string) {
	item(w, s.width, text)
}

// outcome is the first sentence.
func (s summary) outcome() string {
	score := s.plan.Score
	makes := schedule.Counted(score.Batches, "batch") + ", " + litres(score.Litres) + " of milk"
	if score.Batches == 0 {
		makes = "no new batch"
	}
	wanted, met, short, promised := 0, 0, 0, 0
	for _, t := range s.plan.Targets {
		wanted += t.Wanted
		met += t.Met
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
	text := fmt.Sprintf("Short by %d of the %s wanted, worth %s", short, schedule.Counted(wanted, "piece"), money(score.PromisedShort+score.Short))
	switch {
	case promised == short:
		text += ", all of them promised"
	case promised > 0:
		text += fmt.Sprintf("; %d of them promised, worth %s", promised, money(score.PromisedShort))
	}
	if met == 0 {
		return text + ". Nothing can be met."
	}
	return text + ". What can be met takes " + makes + "."
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
			promised = "promised "
		}
		s.item(w, fmt.Sprintf("%s, %s: %d of %s of %s missing. %s", t.Target, moment(t.By, s.zone), t.Short,
			schedule.Counted(t.Wanted, promised+"piece"), t.Cheese, t.Because))
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
		s.sentence(w, schedule.Counted(len(s.plan.Cautions), "food-safety caution")+" for "+strings.Join(cheeses, ", ")+
			": they stand under the week tables and in plan.json. Local rules come first.")
	}
}
