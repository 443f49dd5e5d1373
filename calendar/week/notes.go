package week

import (
	"fmt"
	"strings"

	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

// notes are the texts under the tables.
type notes struct {
	short    []schedule.WantResult // of the week's targets
	warnings []schedule.Warning    // of the week's moments
	cautions []cautionNote
}

// cautionNote is one caution for all the week's cheeses that it holds for alike.
type cautionNote struct {
	code, stage, text string
	cheeses           []string
}

// section is a titled list under the tables.
type section struct {
	title string
	lines []string
}

// The titles of what is not to be overlooked.
const (
	missingTitle = "Missing"
	watchTitle   = "Watch"
)

// gatherNotes picks what belongs to the week.
func (s *oneWeek) gatherNotes() notes {
	var n notes
	for _, w := range s.plan.Targets {
		if w.Short > 0 && s.holds(w.By) {
			n.short = append(n.short, w)
		}
	}
	for _, w := range s.plan.Warnings {
		if w.At != 0 && s.holds(w.At) {
			n.warnings = append(n.warnings, w)
		}
	}
	n.cautions = s.cautions()
	return n
}

func (s *oneWeek) holds(m resources.Moment) bool { return s.span.From <= m && m < s.span.Until }

// cautions are those of the cheeses that are in the kitchen in the week, a
// stage's only when the stage is under way in it.
func (s *oneWeek) cautions() []cautionNote {
	type place struct{ cheese, stage string }
	here := map[place]bool{}
	for i := range s.plan.Batches {
		b := &s.plan.Batches[i]
		for _, t := range b.Stages {
			if t.Start < s.span.Until && t.Ends >= s.span.From {
				here[place{b.Cheese, ""}], here[place{b.Cheese, t.Stage}] = true, true
			}
		}
	}
	for _, st := range s.plan.Stock {
		if st.Packed < s.span.Until && st.Ends >= s.span.From {
			here[place{st.Cheese, ""}] = true
		}
	}
	var notes []cautionNote
	for _, c := range schedule.Cautions(s.problem) {
		if here[place{c.Cheese, c.Stage}] {
			notes = addCaution(notes, c)
		}
	}
	return notes
}

// addCaution adds the cheese to the note that says the same, if there is one.
func addCaution(notes []cautionNote, c schedule.Caution) []cautionNote {
	for i := range notes {
		n := &notes[i]
		if n.code == c.Code && n.stage == c.Stage && n.text == c.Text {
			n.cheeses = append(n.cheeses, c.Cheese)
			return notes
		}
	}
	return append(notes, cautionNote{c.Code, c.Stage, c.Text, []string{c.Cheese}})
}

// title is the week in words, and period its days.
func (s *oneWeek) title(n *cellPen) string {
	y, w := s.first.ISOWeek()
	return fmt.Sprintf("%s, week %d of %d (%s)", n.Name(s.problem.Kitchen.Name), w, y, isoWeek(s.first))
}

func (s *oneWeek) period(n *cellPen) string {
	return fmt.Sprintf("%s to %s, local time (%s)", words.Day(s.first),
		words.Midnight(s.days[6].date).Format("Mon 2 Jan 2006"), n.Text(s.zone.String()))
}

// summary is the week's hands-on time, in all and by person.
func (s *oneWeek) summary(n *cellPen) string {
	jobs, rounds := 0, 0
	var all resources.Minutes
	by := map[string]resources.Minutes{}
	var people []string // in the order in which they come up
	for _, d := range s.days {
		for _, r := range d.rows {
			switch r.kind {
			case rowWork:
				jobs++
			case rowRound:
				rounds++
			case rowLook, rowCarry:
			default:
				continue
			}
			if _, known := by[r.who]; !known {
				people = append(people, r.who)
			}
			by[r.who] += r.minutes
			all += r.minutes
		}
	}
	if len(people) == 0 {
		return ""
	}
	shares := make([]string, len(people))
	for i, who := range people {
		shares[i] = n.Name(who) + " " + words.Length(by[who])
	}
	counts := words.Count(jobs, "job", "jobs")
	if rounds > 0 {
		counts += " and " + words.Count(rounds, "round", "rounds")
	}
	return fmt.Sprintf("%s, %s by hand: %s.", counts, words.Length(all), strings.Join(shares, ", "))
}

// nothing says that the week is empty and which week has work next.
func (s *oneWeek) nothing(n *cellPen) []string {
	if s.next == nil {
		if s.last == nil {
			return []string{"No work this week, and none in any other week of the plan."}
		}
		return []string{"No work this week.", "The last work of the plan: " + s.when(s.last, n) + "."}
	}
	return []string{"No work this week.", "Next work: " + s.when(s.next, n) + "."}
}

// when tells a row's moment and week.
func (s *oneWeek) when(r *row, n *cellPen) string {
	d := r.at.DateIn(n.Zone)
	return fmt.Sprintf("%s %s, in week %s", words.Midnight(d).Format("Mon 2 Jan 2006"), words.Clock(r.at, n.Zone), isoWeek(d))
}

// MissingText says how much of a want is missing and why, after what names it. The reason
// is given apart, as it may be printed.
func MissingText(named string, w *schedule.WantResult, because string) string {
	return words.Unglue(missingLine(named, w, because))
}

func missingLine(named string, w *schedule.WantResult, because string) string {
	line := fmt.Sprintf("%s: %d of %s missing", named, w.Short, words.Count(w.Wanted, "piece", "pieces"))
	if w.Promised {
		line += " (promised)"
	}
	return line + sentence(because)
}

// sections are the lists under the tables; empty ones are left out.
func (s *oneWeek) sections(n *cellPen) []section {
	var short, warnings, cautions []string
	for _, w := range s.notes.short {
		short = append(short, missingLine(n.Name(w.Target)+", "+n.Name(w.Cheese), &w, n.Text(w.Because)))
	}
	for _, w := range s.notes.warnings {
		warnings = append(warnings, words.Stamp(w.At, n.Zone)+": "+n.Text(w.Text))
	}
	for _, c := range s.notes.cautions {
		names := make([]string, len(c.cheeses))
		for i, cheese := range c.cheeses {
			names[i] = n.Name(cheese)
		}
		where := strings.Join(names, ", ")
		if c.stage != "" {
			where += ", " + n.Name(c.stage)
		}
		cautions = append(cautions, where+": "+n.Text(c.text))
	}
	if len(cautions) > 0 {
		cautions = append(cautions, "These are usual cautions, not limits that make a cheese safe. Local rules come first.")
	}
	all := []section{{"Milk", s.milkTexts(n)}, {missingTitle, short}, {watchTitle, warnings}, {"Cautions", cautions}}
	var some []section
	for _, section := range all {
		if len(section.lines) > 0 {
			some = append(some, section)
		}
	}
	return some
}

// cutNote says that names were shortened.
const cutNote = "Long names are shortened here (...). CSV and plan.json hold them whole."
