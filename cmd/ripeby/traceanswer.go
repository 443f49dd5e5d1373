package main

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/measured"
	"ripeby/schedule/record"
	"ripeby/schedule/record/trace"
)

// traced tells answers of the trace.
type traced struct {
	p     *program
	known *trace.Archive
	zone  *time.Location
	width int
}

// traceCaution stands under every answer.
const traceCaution = "This is what was written down and planned; it says nothing of whether a cheese is safe. " +
	"Where something may be wrong with a lot, your local rules come first: for whom to tell, what to take back and what to keep."

// write tells answers to people.
func (t *traced) write(answers []*trace.Answer) {
	for i, a := range answers {
		if i > 0 {
			t.line("")
		}
		switch a.Kind {
		case trace.OfBatch:
			for _, b := range a.Batches {
				t.batch(b)
			}
		default:
			t.line(heading(a, answers) + ":")
			t.collections(a)
			t.packets(a)
			t.neighbours("Made", a.Made)
			t.passed(a)
			t.balances(a)
			t.entries(a.Entries)
			if len(a.Collections)+len(a.Packets)+len(a.Made)+len(a.Passed)+len(a.Loose)+len(a.Entries) == 0 {
				t.line("  Nothing is known to have been collected, made or to have left then.")
			}
		}
	}
	t.line("")
	t.paragraph(traceCaution)
}

// heading is what was asked, and what it was understood as where it means several things.
func heading(a *trace.Answer, all []*trace.Answer) string {
	for _, other := range all {
		if other.Asked == a.Asked && other.Kind != a.Kind {
			return a.Asked + ", " + string(a.Kind)
		}
	}
	return a.Asked
}

func (t *traced) line(text string) { line(t.p.out, text) }

// paragraph writes a text over as many lines as it takes. All are indented as its first is, those
// of an indented one after the first further.
func (t *traced) paragraph(text string) {
	indent, further := "", ""
	if strings.HasPrefix(text, "  ") {
		indent, further = "  ", "    "
	}
	_, _ = fmt.Fprintln(t.p.out, indent+wrapped(plain(text), t.width-len(indent), further))
}

// at writes a moment; "" for none.
func (t *traced) at(m resources.Moment) string {
	if m == 0 {
		return ""
	}
	return resources.FormatMoment(m, t.zone)
}

// name is what a batch is called: its lot, and its id where that is another.
func traceName(n trace.Neighbour) string {
	switch {
	case n.ID == "":
		return "a batch that has no number yet"
	case n.Lot == "":
		return n.ID + " (no lot yet)"
	case n.Lot == n.ID:
		return n.ID
	}
	return n.Lot + " (" + n.ID + " in the plan)"
}

// batch tells all of one batch.
func (t *traced) batch(b *trace.Batch) {
	head := []string{traceName(b.Neighbour)}
	if b.Kept == nil && b.Lot == "" && b.ID != "" {
		head[0] = b.ID // which of the two it is nobody knows
	}
	if b.Cheese != "" {
		head = append(head, b.Cheese)
	}
	if b.Litres > 0 {
		head = append(head, litres(b.Litres))
	}
	if b.Kept != nil && b.Kept.UseBy != (resources.Date{}) {
		head = append(head, "use by "+b.Kept.UseBy.String()+" by the maker's own estimate")
	}
	if b.Balance.Lost {
		head = append(head, "lost")
	}
	t.paragraph(strings.Join(head, ", "))
	if b.Kept == nil {
		t.paragraph("  Nothing was kept of it with a plan: this is what the record says.")
	}
	t.back(b)
	t.stages(b)
	t.measured(b)
	t.forward(b)
	t.balance(&b.Balance)
	t.neighbours("Made just before", b.Before)
	t.neighbours("Made just after", b.After)
	t.entries(b.Entries)
}

// back tells what is one step back: milk, packets, who.
func (t *traced) back(b *trace.Batch) {
	t.line("")
	t.line("One step back")
	switch m := b.Milk; {
	case m != nil:
		text := fmt.Sprintf("  Milk: %s, collection of %s (%s)", m.Supply, m.Day, known(m.Known))
		if len(m.Lots) > 0 {
			text += "; the supplier's lot: " + schedule.Listed(m.Lots)
		} else {
			text += "; no lot of the supplier's was said"
		}
		t.paragraph(text)
	case b.Kept != nil && b.Kept.Recipe != nil && b.Kept.Recipe.Milk == "":
		t.line("  Milk: always to hand, by the recipe")
	default:
		t.line("  Milk: not known")
	}
	for _, k := range b.Packets {
		t.paragraph("  " + packetText(k))
	}
	t.wentIn(b.Kept)
	var who, kit []string
	for i := range b.Stages {
		s := &b.Stages[i]
		if s.Known == trace.Planned {
			continue
		}
		who = append(who, s.Who)
		for _, u := range s.Uses {
			kit = append(kit, u.Thing)
		}
	}
	for _, list := range []struct {
		head  string
		names []string
	}{{"Who", who}, {"Kit", kit}} {
		if names := once(slices.DeleteFunc(list.names, func(s string) bool { return s == "" })); len(names) > 0 {
			t.paragraph("  " + list.head + ": " + schedule.Listed(names))
		}
	}
}

// wentIn tells what the plan had go in at the stages that have begun.
func (t *traced) wentIn(b *schedule.KeptBatch) {
	if b == nil {
		return
	}
	for i := range b.Stages {
		s := &b.Stages[i]
		for k := 0; s.Begun && k < len(s.Needs); k++ {
			t.paragraph(fmt.Sprintf("  Went in at %s, as planned: %s", s.Stage, words.Unglue(words.DoseLine(&s.Needs[k], words.Printable, words.Unglue))))
		}
	}
}

// known says how something is known.
func known(k trace.Known) string {
	switch k {
	case trace.Said:
		return "said"
	case trace.Assumed:
		return "assumed: nobody said"
	case trace.Planned:
		return "planned: not come when the plan was last kept"
	}
	return "not known"
}

// stages tells real times beside planned ones.
func (t *traced) stages(b *trace.Batch) {
	if len(b.Stages) == 0 {
		return
	}
	rows := [][]string{{"Stage", "Planned", "Began", "Done", "Who", "Where", "Known"}}
	for i := range b.Stages {
		s := &b.Stages[i]
		began, done := t.at(s.Start), t.at(s.Done)
		if s.Known == trace.Planned {
			began, done = "", ""
		} else if b.Kept == nil && s.Began == nil {
			began = "" // only the record knows of it, and says when it was done
		} else if s.Start.DateIn(t.zone) == s.Done.DateIn(t.zone) {
			done = s.Done.In(t.zone).Format("15:04")
		}
		rows = append(rows, []string{s.Name, t.at(s.Planned), began, done, s.Who, s.At, knownBy(s)})
	}
	t.line("")
	t.line("How it went")
	t.table(rows)
	if b.Kept == nil {
		return
	}
	for _, c := range b.Kept.Carries {
		to := "to the " + c.To
		if c.To == c.From {
			to = "to another shelf of it"
		}
		t.paragraph(fmt.Sprintf("  Carried while in %s, as it was closed: out of the %s %s, planned for %s, %s. Nobody says when it was done.", c.Stage, c.From, to, t.at(c.Start), c.Who))
	}
}

// measured tells what was written down of what the recipe asks for at the stages that have begun.
func (t *traced) measured(b *trace.Batch) {
	headed := false
	for i := range b.Measured {
		r := &b.Measured[i]
		if s := b.Kept.Stage(r.Stage); len(r.Said) == 0 && !s.Begun {
			continue
		}
		if !headed {
			t.line("")
			t.line("What was measured")
			headed = true
		}
		head := "  " + r.Stage + ": "
		if len(r.Said) == 0 {
			t.paragraph(head + measured.Line(&r.Measure) + ": nothing was written down")
		}
		for k := range r.Said {
			s := &r.Said[k]
			text := measured.Outside(&r.Measure, s.Is)
			if text == "" {
				text = r.What + " " + s.Is
				if limits := measured.Limits(&r.Measure); limits != "" {
					text += " (the recipe has " + limits + ")"
				}
			}
			text += "; " + t.at(s.At)
			if s.Who != "" {
				text += ", " + s.Who
			}
			if s.Nr > 0 {
				text += fmt.Sprintf(", entry %d", s.Nr)
			}
			t.paragraph(head + text)
		}
	}
}

// knownBy says how a stage is known, with the entries that say it.
func knownBy(s *trace.Stage) string {
	text := string(s.Known)
	var by []string
	for _, e := range []*record.Entry{s.Began, s.Did} {
		if e != nil {
			by = append(by, entryName(e))
		}
	}
	if s.Known == trace.Said && len(by) == 0 {
		by = append(by, schedule.SaidByBegun)
	}
	if len(by) > 0 {
		text += ", " + strings.Join(by, ", ")
	}
	return text
}

// entryName is the number of an entry, else where it stands.
func entryName(e *record.Entry) string {
	if e.Nr > 0 {
		return fmt.Sprintf("entry %d", e.Nr)
	}
	return fmt.Sprintf("%s:%d", e.File, e.Line)
}

// table writes rows in columns.
func (t *traced) table(rows [][]string) {
	wide := make([]int, len(rows[0]))
	for _, r := range rows {
		for i, cell := range r {
			wide[i] = max(wide[i], words.Wide(cell))
		}
	}
	for _, r := range rows {
		text := " "
		for i, cell := range r {
			text += " " + cell + strings.Repeat(" ", wide[i]-words.Wide(cell)+1)
		}
		t.line(strings.TrimRight(text, " "))
	}
}

// forward tells what is one step forward: what left, for whom.
func (t *traced) forward(b *trace.Batch) {
	t.line("")
	t.line("One step forward")
	if len(b.Leavings) == 0 {
		t.line("  Nothing of it is known to have left, or was to.")
	}
	for i := range b.Leavings {
		t.paragraph("  " + t.leaving(&b.Leavings[i]))
	}
}

// leaving is what left for one target, in a sentence.
func (t *traced) leaving(l *trace.Leaving) string {
	text := fmt.Sprintf("%s, %s: ", t.at(l.By), l.Target)
	if l.Known == trace.Planned {
		return text + fmt.Sprintf("%s planned; not come when the plan was last kept", schedule.Counted(l.Planned, "piece"))
	}
	text += schedule.Counted(l.Pieces, "piece")
	if l.Planned != l.Pieces {
		text += fmt.Sprintf(" of %d planned", l.Planned)
	}
	if l.To != "" {
		text += " to " + l.To
	}
	if l.Took != nil {
		text += " (said, " + entryName(l.Took) + ")"
	} else {
		text += " (" + known(l.Known) + ")"
	}
	if l.Back > 0 {
		text += fmt.Sprintf("; %d came back (%s)", l.Back, entryName(l.BackBy))
	}
	return text
}

// neighbours lists batches in short.
func (t *traced) neighbours(head string, list []trace.Neighbour) {
	if len(list) == 0 {
		return
	}
	t.line("")
	t.line(head)
	for _, n := range list {
		t.line("  " + t.neighbour(n))
	}
}

func (t *traced) neighbour(n trace.Neighbour) string {
	text := traceName(n)
	if n.Cheese != "" {
		text += ", " + n.Cheese
	}
	if n.Made != 0 {
		text += fmt.Sprintf(", made %s (%s)", t.at(n.Made), n.Known)
	}
	return text
}

// collections lists the milk of a day or of a supply.
func (t *traced) collections(a *trace.Answer) {
	for _, c := range a.Collections {
		t.line("")
		head := fmt.Sprintf("%s, collection of %s", c.Supply, c.Day)
		if len(c.Lots) > 0 {
			head += "; the supplier's lot: " + schedule.Listed(c.Lots)
		}
		t.paragraph(head)
		t.paragraph(milkText(c))
		for _, n := range c.Batches {
			t.line("  " + t.neighbour(n))
		}
		if len(c.Batches) == 0 {
			t.line("  No batch is known to have drawn on it.")
		}
		t.p.listed(c.Entries, t.known, t.zone)
	}
}

// passed lists what left.
func (t *traced) passed(a *trace.Answer) {
	if len(a.Passed)+len(a.Loose) == 0 {
		return
	}
	t.line("")
	t.line("Left")
	for i := range a.Passed {
		x := &a.Passed[i]
		t.paragraph(fmt.Sprintf("  %s, %s: %s", traceName(x.Batch), x.Batch.Cheese, t.leaving(&x.Leaving)))
	}
	for _, e := range a.Loose {
		t.paragraph(fmt.Sprintf("  Of no batch that is known, such as stock: some of what %s says.", entryName(e)))
	}
}

// entries lists what was said, struck entries marked.
func (t *traced) entries(all record.Entries) {
	if len(all) == 0 {
		return
	}
	t.line("")
	t.line("Said of it")
	t.p.listed(all, t.known, t.zone)
}
