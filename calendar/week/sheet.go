package week

import (
	"fmt"
	"slices"

	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

// SheetShown is all that a plan knows of one batch.
type SheetShown struct {
	ID, Cheese string
	Facts      []Fact
	Stages     []StageShown
	Care, For  []string
	Cautions   []string
}

// StageShown is one stage of a batch.
type StageShown struct {
	Name                string
	Facts               []Fact
	Begun, Sharp, Hands bool
}

// ShowSheet gives the sheet of a batch of the plan.
func ShowSheet(p *schedule.Problem, plan *schedule.Plan, b *schedule.Batch) (*SheetShown, error) {
	n, err := wholeNames(p)
	if err != nil {
		return nil, err
	}
	s := &SheetShown{ID: n.Name(b.ID), Cheese: n.Name(b.Cheese), Facts: []Fact{{"Milk", words.Litres(b.Litres)}}}
	if b.Milk != nil {
		s.Facts[0].Text += " of " + n.Name(b.Milk.Supply) + ", collected " + words.Stamp(b.Milk.Collect, n.Zone)
	}
	pieces := words.Count(b.Pieces, "piece", "pieces")
	if b.Spare > 0 {
		pieces += fmt.Sprintf(", %d%sspare", b.Spare, words.Glue)
	}
	if b.Gone > 0 {
		pieces += fmt.Sprintf(", %d%sgone already", b.Gone, words.Glue)
	}
	s.Facts = append(s.Facts, Fact{"Makes", pieces})
	if len(b.Stages) > 0 {
		s.Facts = append(s.Facts, Fact{"Begins", words.Stamp(b.Stages[0].Start, n.Zone)}, Fact{"Ends", words.Stamp(b.Stages[len(b.Stages)-1].Ends, n.Zone)})
	}
	if b.Begun {
		s.Facts = append(s.Facts, Fact{"State", "begun"})
	}
	for i := range b.Stages {
		s.Stages = append(s.Stages, n.showStage(&b.Stages[i]))
	}
	for _, c := range b.Care {
		line := words.Day(c.Day) + ": " + n.Name(c.Do)
		if c.Hands > 0 {
			line += ", " + words.Length(c.Hands)
		}
		s.Care = append(s.Care, line)
	}
	s.For = n.showShares(b.For)
	s.Cautions = n.showCautions(plan, b)
	return s, nil
}

func (n *cellPen) showStage(t *schedule.Task) StageShown {
	s := StageShown{Name: n.Name(t.Stage), Begun: t.Begun, Sharp: t.Critical && !t.Begun, Hands: t.Work > 0}
	add := func(label, text string) { s.Facts = append(s.Facts, Fact{label, text}) }
	add("Begins", words.Stamp(t.Start, n.Zone))
	if t.Work > 0 {
		add("By hand", words.Join(", ", words.Length(t.Work), n.Name(t.Who)))
	}
	if t.Hold > 0 {
		add("Rests", words.Length(t.Hold)+", until "+words.Stamp(t.Ends, n.Zone))
	}
	add("Where", words.Where(t, n.Name))
	for i := range t.Needs {
		add("Goes in", n.dose(&t.Needs[i]))
	}
	if len(t.Measures) > 0 {
		add("Measure", n.measures(t.Measures))
	}
	for _, u := range t.Uses {
		text := n.kit([]schedule.Occupied{u}) + ", in use until " + words.Stamp(u.Until, n.Zone)
		if u.CleanUntil > u.Until {
			text += ", clean by " + words.Latest(u.CleanUntil, u.Until.DateIn(n.Zone), n.Zone)
		}
		add("With", text)
	}
	add("May begin", n.slip(t))
	return s
}

// slip says how far a stage may move.
func (n *cellPen) slip(t *schedule.Task) string {
	from, until := min(t.Start, t.SlipFrom), max(t.Start, t.SlipUntil)
	switch {
	case t.Begun:
		return "it has begun"
	case t.SlipFrom == 0 && t.SlipUntil == 0:
		return "not known"
	case t.Critical && from < t.Start:
		return "from " + words.Stamp(from, n.Zone) + ", and no later than planned, or a target breaks: " + words.Sharp
	case t.Critical:
		return "no later than planned, or a target breaks: " + words.Sharp
	case from == until:
		return "at this moment only"
	}
	return "from " + words.Stamp(from, n.Zone) + " to " + words.Stamp(until, n.Zone)
}

// showShares adds up what goes to each target, in the order in which they come up.
func (n *cellPen) showShares(shares []schedule.Share) []string {
	type target struct {
		name string
		by   resources.Moment
	}
	var seen []target
	var lines []string
	for _, s := range shares {
		at := target{s.Target, s.By}
		if slices.Contains(seen, at) {
			continue
		}
		seen = append(seen, at)
		if r, ok := shareRow(shares, s.Target, s.By); ok {
			lines = append(lines, n.Name(s.Target)+", "+words.Stamp(s.By, n.Zone)+": "+amountText(&r))
		}
	}
	return lines
}

// showCautions are the cautions of a batch's cheese and of its stages.
func (n *cellPen) showCautions(plan *schedule.Plan, b *schedule.Batch) []string {
	var lines []string
	for _, c := range plan.Cautions {
		if c.Cheese != b.Cheese {
			continue
		}
		text := n.Text(c.Text)
		if c.Stage != "" {
			text = n.Name(c.Stage) + ": " + text
		}
		lines = append(lines, text)
	}
	return lines
}
