package sheet

import (
	"fmt"
	"slices"

	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
	"ripeby/schedule/record/trace"
)

// care is what is due day by day, with a box to tick for each; where the round of a day was spoken of, what was said.
func (m *maker) care() {
	if m.Planned == nil || m.shown.lost {
		return
	}
	for _, c := range m.Planned.Care {
		do := m.pen.Name(c.Do)
		if c.Hands > 0 {
			do += ", " + words.Length(c.Hands) + " each"
		}
		i := slices.IndexFunc(m.shown.Care, func(x Care) bool { return x.Do == do })
		if i < 0 {
			i = len(m.shown.Care)
			m.shown.Care = append(m.shown.Care, Care{Do: do})
		}
		day := Item{Box: true, Parts: []string{words.Day(c.Day)}}
		if e := m.round(c.Day); e != nil {
			day.Box = false
			if day.Parts[0] += ": done"; e.Round.Skipped {
				day.Parts[0] = words.Day(c.Day) + ": not done"
			}
		}
		m.shown.Care[i].Days = append(m.shown.Care[i].Days, day)
	}
}

func (m *maker) round(day resources.Date) *record.Entry {
	if m.Round == nil {
		return nil
	}
	return m.Round(day)
}

// goes is where its pieces go, or went; what is still planned for one target, of whatever wants, is one line.
func (m *maker) goes() {
	type target struct {
		name string
		by   resources.Moment
	}
	var order []target
	pieces := map[target]int{}
	plan := func(name string, by resources.Moment, n int) {
		at := target{name, by}
		if pieces[at] == 0 {
			order = append(order, at)
		}
		pieces[at] += n
	}
	switch {
	case m.Told != nil && m.Told.Kept != nil:
		for i := range m.Told.Leavings {
			if l := &m.Told.Leavings[i]; l.Known == trace.Planned {
				plan(l.Target, l.By, l.Planned)
			} else {
				m.shown.For = append(m.shown.For, m.left(l))
			}
		}
	case m.Planned != nil:
		for _, s := range m.Planned.For {
			plan(s.Target, s.By, s.Pieces)
		}
	}
	for _, at := range order {
		if !m.shown.lost {
			m.shown.For = append(m.shown.For, m.pen.Name(at.name)+", "+words.Stamp(at.by, m.Zone)+": "+words.Count(pieces[at], "piece", "pieces")+" planned")
		}
	}
}

// left is what left for one target.
func (m *maker) left(l *trace.Leaving) string {
	text := m.pen.Name(l.Target) + ", " + words.Stamp(l.By, m.Zone) + ": " + words.Count(l.Pieces, "piece", "pieces") + " went"
	if l.To != "" {
		text += " to " + m.pen.Name(l.To)
	}
	if l.Known == trace.Assumed {
		text += assumed
	}
	if l.Back > 0 {
		text += fmt.Sprintf("; %d%scame back", l.Back, words.Glue)
	}
	return text
}

// notes are what was written with whatever was said of the batch, of its milk and of what left of it.
func (m *maker) notes() {
	if m.Told == nil {
		return
	}
	for _, e := range m.Told.Entries {
		if e.Note == "" || m.Struck(e) {
			continue
		}
		n := Note{When: m.said(e), Text: m.pen.Text(e.Note), Source: source(e)}
		switch e.Subject.Kind {
		case record.OfMilk:
			n.When += ", of the milk"
		case record.OfTarget:
			n.When += ", of " + m.pen.Name(e.Subject.Name)
		case record.OfPacket:
			n.When += ", of the " + m.pen.Name(e.Subject.Name)
		default:
			if s := m.stageOf(e); s != "" {
				n.When += ", " + m.pen.Name(s)
			}
		}
		m.shown.Notes = append(m.shown.Notes, n)
	}
}

// source is where an entry stands.
func source(e *record.Entry) string {
	if e.Nr > 0 {
		return fmt.Sprintf("entry %d of the record", e.Nr)
	}
	return fmt.Sprintf("%s, line %d", e.File, e.Line)
}

// cautions are the usual ones of the cheese, by the recipe as it is now.
func (m *maker) cautions() {
	var r *schedule.Recipe
	if m.Problem != nil {
		cheese := ""
		if m.Told != nil {
			cheese = m.Told.Cheese
		}
		if m.Planned != nil {
			cheese = m.Planned.Cheese
		}
		r = m.Problem.Recipe(cheese)
	}
	if m.Problem == nil {
		m.shown.Cautions = []string{"The kitchen's folder cannot be read just now: ripeby has no cautions to give. Your local rules hold all the same."}
		return
	}
	if r == nil {
		m.shown.Cautions = []string{"The kitchen's folder has no recipe of this name: ripeby has no cautions to give. Your local rules hold all the same."}
		return
	}
	if m.Planned == nil {
		m.shown.Ends = append(m.shown.Ends, "The cautions are those of the recipe as it is now.")
	}
	for _, c := range schedule.CautionsOf(&m.Problem.Kitchen, r) {
		text := m.pen.Text(c.Text)
		if c.Stage != "" {
			text = m.pen.Name(c.Stage) + ": " + text
		}
		m.shown.Cautions = append(m.shown.Cautions, text)
	}
}

// ends are what is to be known of the sheet itself.
func (m *maker) ends() {
	say := func(text string) { m.shown.Ends = append(m.shown.Ends, text) }
	say("Usual cautions are no limits that make a cheese safe, and what is measured is not judged here. Local rules come first.")
	if m.begun() {
		say("What is marked as assumed nobody said: it is taken to have gone as planned, and a packet to be the one that was open then.")
	}
	for i := range m.stages {
		if len(m.stages[i].needs) > 0 {
			say(words.DosesAreYours + m.otherLitres())
			break
		}
	}
	if m.shown.Lot == "" && !m.shown.lost {
		say("A lot is given when somebody says that the make began, or at packing; until then nothing here is one.")
	}
	if m.Told == nil {
		return
	}
	struck := 0
	for _, e := range m.Told.Entries {
		if m.Struck(e) {
			struck++
		}
	}
	if struck > 0 {
		say("Not counted here: " + words.Count(struck, "entry that was", "entries that were") + " taken back; ripeby trace shows it all.")
	}
}

// otherLitres says for how much milk the amounts are, where another one was said since; "" else.
func (m *maker) otherLitres() string {
	var of resources.Millilitres
	switch {
	case m.Planned != nil:
		of = m.Planned.Litres
	case m.Told.Kept != nil:
		of = m.Told.Kept.Litres
	}
	if m.Told == nil || of == 0 || m.Told.Litres == 0 || m.Told.Litres == of {
		return ""
	}
	return " Amounts are as they were planned, for " + words.Litres(of) + "."
}
