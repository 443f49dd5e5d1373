package main

import (
	"fmt"
	"strconv"

	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record/trace"
)

// packetText is a packet that went into a batch, and how that is known.
func packetText(k trace.Packet) string {
	text := words.Capital(k.What) + ": "
	if k.By == nil {
		return text + fmt.Sprintf("no packet is known to have been open at %s, where its recipe has it go in", k.Stage)
	}
	if k.Lot == "" {
		text += "no lot was said"
	} else {
		text += "lot " + k.Lot
	}
	if k.Known == trace.Assumed {
		text += fmt.Sprintf(" (assumed: %s, %s)", openThen(k.Stage), entryName(k.By))
	}
	return text
}

// openThen says why a packet is taken to have gone into a batch.
func openThen(stage string) string {
	if stage == "" {
		return "open while it was made"
	}
	return "open at " + stage + ", where its recipe has it go in"
}

// milkText is how much milk came of a collection, and how much of it is known to be used.
func milkText(c *trace.Collection) string {
	if !c.Came.Given {
		return fmt.Sprintf("  Nobody said how much came; %s of it are known to be used.", litres(c.Used))
	}
	text := fmt.Sprintf("  came %s = used %s + not accounted for %s", litres(c.Came.Value), litres(c.Used), litres(max(c.Came.Value-c.Used, 0)))
	if c.Used > c.Came.Value {
		text = fmt.Sprintf("  came %s, and %s are known to be used: %s more than came.", litres(c.Came.Value), litres(c.Used), litres(c.Used-c.Came.Value))
	}
	return text
}

// packets lists packets, and which batches they went into.
func (t *traced) packets(a *trace.Answer) {
	for _, k := range a.Packets {
		t.line("")
		head := words.Capital(k.What) + ", no lot was said"
		switch {
		case k.Unsaid:
			head = words.Capital(k.What) + ", while no packet is known to have been open"
		case k.Lot != "":
			head = words.Capital(k.What) + ", lot " + k.Lot
		}
		if k.Opened != nil {
			head += fmt.Sprintf(", opened %s (%s)", t.at(k.Opened.At), entryName(k.Opened))
		}
		if k.UseBy != (resources.Date{}) {
			head += ", use by " + k.UseBy.String()
		}
		t.paragraph(head)
		for _, u := range k.Batches {
			text := "  " + t.neighbour(u.Batch)
			switch {
			case k.Unsaid:
				text += "; its recipe has it go in at " + u.Stage
			case u.Known == trace.Assumed:
				text += "; assumed: " + openThen(u.Stage)
			default:
				text += "; said with it"
			}
			t.paragraph(text)
		}
		if len(k.Beside) > 0 {
			t.paragraph("  Made while it was open, by recipes that say what goes in but not this; ask whether it did:")
			for _, n := range k.Beside {
				t.paragraph("  " + t.neighbour(n))
			}
		}
		if len(k.Batches) == 0 && a.Kind == trace.OfPacket {
			t.line("  No batch is known to have had of it.")
		}
	}
}

// balance tells what became of the pieces.
func (t *traced) balance(b *trace.Balance) {
	t.line("")
	t.line("Pieces")
	if !b.Known {
		t.paragraph(fmt.Sprintf("  How many were made is not known; %d are said to be gone, %d left for targets, %d came back.", b.Gone, b.Took, b.Back))
		return
	}
	t.paragraph(fmt.Sprintf("  made %d = gone %d + left for targets %d - came back %d + still here %d + not accounted for %d", b.Made, b.Gone, b.Took, b.Back, b.Left, b.Gap))
	switch {
	case b.Counted == 0 && b.Left > 0:
		t.line("  Nobody has counted them: all that is not accounted for otherwise is taken to be here.")
	case b.Counted != 0:
		t.line("  Last counted " + t.at(b.Counted) + ".")
	}
	switch {
	case b.Gap < 0:
		t.line(fmt.Sprintf("  That is %d more than were made: something was put down twice, or not counted.", -b.Gap))
	case b.Gap > 0:
		t.paragraph(fmt.Sprintf("  Not accounted for: %s fewer counted than there would be by all that was said.", schedule.Counted(b.Gap, "piece")))
	}
	if b.Where != nil {
		t.paragraph("  What is here stands in the " + t.place(b.Where))
	}
	t.weights(b.Weights)
}

// place says where something stands, since when, and how that is known.
func (t *traced) place(p *trace.Place) string {
	text := p.Name
	if p.Shelf != "" {
		text += ", " + p.Shelf
	}
	return text + fmt.Sprintf(", since %s (%s)", t.at(p.Since), known(p.Known))
}

// weights tells the balance by weight; nothing where nobody weighed.
func (t *traced) weights(w *trace.Weights) {
	if w == nil {
		return
	}
	mass := resources.FormatMass
	t.paragraph(fmt.Sprintf("  by weight: made %s = gone %s + left for targets %s - came back %s + still here %s + not accounted for %s",
		mass(w.Made), mass(w.Gone), mass(w.Took), mass(w.Back), mass(w.Left), mass(w.Gap)))
	text := fmt.Sprintf("  Weighed %s, %s", t.at(w.Last.At), entryName(w.Last))
	if w.First != w.Last {
		text = fmt.Sprintf("  First weighed %s, %s; last %s, %s", t.at(w.First.At), entryName(w.First), t.at(w.Last.At), entryName(w.Last))
	}
	t.paragraph(text + fmt.Sprintf(": %s of %s. What left is taken to weigh what its pieces did when last weighed; water that dried off is not accounted for.",
		mass(w.Last.Batch.Weight.Value), schedule.Counted(w.Pieces, "piece")))
}

// balances tells in a row a batch what became of the pieces of several, and of all together.
func (t *traced) balances(a *trace.Answer) {
	if len(a.Balances) == 0 {
		return
	}
	rows := [][]string{{"Lot", "Made", "Gone", "Left", "Back", "Here", "Gap", "Where what is here stands"}}
	var sum trace.Balance
	whole := true
	for i := range a.Balances {
		b := &a.Balances[i]
		row := []string{traceName(b.Batch), "?", strconv.Itoa(b.Gone), strconv.Itoa(b.Took), strconv.Itoa(b.Back), "?", "?", ""}
		if b.Known {
			row[1], row[5], row[6] = strconv.Itoa(b.Made), strconv.Itoa(b.Left), strconv.Itoa(b.Gap)
		}
		if b.Where != nil {
			row[7] = words.Join(", ", b.Where.Name, b.Where.Shelf)
		}
		rows = append(rows, row)
		whole = whole && b.Known
		sum.Made, sum.Gone, sum.Took, sum.Back, sum.Left, sum.Gap = sum.Made+b.Made, sum.Gone+b.Gone, sum.Took+b.Took, sum.Back+b.Back, sum.Left+b.Left, sum.Gap+b.Gap
	}
	if n := len(a.Balances); n > 1 && whole {
		rows = append(rows, []string{"All of them", strconv.Itoa(sum.Made), strconv.Itoa(sum.Gone), strconv.Itoa(sum.Took), strconv.Itoa(sum.Back), strconv.Itoa(sum.Left), strconv.Itoa(sum.Gap), ""})
	}
	t.line("")
	t.line("Pieces: made = gone + left - back + here + gap, which is not accounted for")
	t.table(rows)
}
