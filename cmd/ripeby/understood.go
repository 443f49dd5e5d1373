package main

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/measured"
)

// understood prints a problem in the words of its folder, so that a maker sees
// what ripeby made of it.
type understood struct {
	problem *schedule.Problem
	earlier *schedule.Plan // nil for none
	edition string         // of the time zone rules
	// entered takes each line, with what it is about; first says that it is the first of its kind.
	entered func(heading, text string, first bool)
}

func (u understood) write() {
	u.kitchen()
	u.kit()
	u.cold()
	u.milk()
	u.cheeses()
	u.targets()
	u.begun()
}

// entry enters one thing, the i-th of its kind.
func (u understood) entry(i int, heading, text string) { u.entered(heading, text, i == 0) }

func (u understood) kitchen() {
	k := u.problem.Kitchen
	u.entry(0, "Kitchen", k.Name)
	u.entry(0, "Time zone", k.TimeZone+", rules "+u.edition)
	u.entry(0, "From", moment(u.problem.From, k.Zone)+", in steps of "+length(k.Step))
	u.entry(0, "Make room", degrees(k.Room))
	for i, r := range k.Rooms {
		if i > 0 {
			u.entry(1, "Make room", fmt.Sprintf("%s from %s on", degrees(r.Is), day(r.From)))
		}
	}
	settled := "nothing: what is planned may move at any plan"
	if k.Settled > 0 {
		settled = "what is planned for the next " + length(k.Settled) + " moves only of need"
	}
	u.entry(0, "Settled", settled)
	unsaid := "what nobody speaks of counts as done as planned"
	if k.UnsaidWaits {
		unsaid = "what nobody speaks of counts as not begun"
	}
	u.entry(0, "Unsaid", unsaid)
	if !k.Scale.IsZero() {
		u.entry(0, "Scale", "shows steps of "+resources.FormatAmount(k.Scale))
	}
	u.entry(0, "Ahead", fmt.Sprintf("what repeats without end is planned for %s", schedule.Counted(k.Ahead, "week")))
	for i, person := range k.People {
		text := fmt.Sprintf("%s: %s a week", person.Name, hoursLong(weekly(person.Hours)))
		if person.MostPerDay != resources.NoLimit {
			text += ", at most " + length(person.MostPerDay) + " a day"
		}
		if n := len(person.Away); n > 0 {
			text += ", away " + schedule.Counted(n, "time")
		}
		u.entry(i, "People", text)
	}
	if r := k.Round; r != nil {
		u.entry(0, "Round", resources.FormatClock(r.At)+" for "+length(r.For))
	}
	for i, b := range k.Businesses {
		text := b.Name
		if b.Address != "" {
			text += ", " + b.Address
		}
		u.entry(i, "Businesses", text)
	}
	if l := k.Labels; l != nil {
		text := resources.FormatArea(l.Size) + " on a roll"
		if s := l.Sheet; s != nil {
			text = fmt.Sprintf("%s on %s, %d x %d a sheet", resources.FormatArea(l.Size), s.Name, s.Columns, s.Rows)
		}
		u.entry(0, "Labels", text)
	}
}

// weekly is how long the windows are open in a week, where they overlap counted
// once.
func weekly(hours []resources.Hours) resources.Minutes {
	const week = 7 * resources.Day
	var open [week]bool
	for _, h := range hours {
		until := h.Until
		if until <= h.From {
			until += 24 * 60
		}
		for day := time.Sunday; day <= time.Saturday; day++ {
			for m := h.From; h.Days.Has(day) && m < until; m++ {
				open[(resources.Minutes(day)*resources.Day+resources.Minutes(m))%week] = true
			}
		}
	}
	var total resources.Minutes
	for _, o := range open {
		if o {
			total++
		}
	}
	return total
}

func (u understood) kit() {
	k := u.problem.Kitchen
	for i, t := range k.Pots {
		u.entry(i, "Pots", fmt.Sprintf("%d x %s, holds %s%s", t.Count, t.Name, litres(t.Holds), cleaning(t.Clean)))
	}
	for i, t := range k.Stations {
		takes := "one a batch"
		switch {
		case t.TakesVolume > 0:
			takes = "each takes " + litres(t.TakesVolume)
		case t.TakesPieces > 0:
			takes = "each takes " + schedule.Counted(t.TakesPieces, "piece")
		}
		u.entry(i, "Stations", fmt.Sprintf("%d x %s, %s%s", t.Count, t.Name, takes, cleaning(t.Clean)))
	}
	for i, t := range k.Moulds {
		u.entry(i, "Moulds", fmt.Sprintf("%d x %s%s", t.Count, t.Name, cleaning(t.Clean)))
	}
	for i, t := range k.Boxes {
		measure := "not measured: counted places only"
		if t.Size != (resources.Size{}) {
			measure = size(t.Size) + stacked(t.Stack)
		}
		u.entry(i, "Boxes", fmt.Sprintf("%d x %s, %s%s", t.Count, t.Name, measure, cleaning(t.Clean)))
	}
}

// stacked says on what boxes may stand, where it is not what is usual.
func stacked(s resources.Stacking) string {
	switch s {
	case resources.StackBatch:
		return ", stacked within a batch"
	case resources.StackNo:
		return ", not stacked"
	}
	return ""
}

func cleaning(d resources.Minutes) string {
	if d == 0 {
		return ""
	}
	return ", cleaning " + length(d)
}

func (u understood) cold() {
	i := 0
	for _, c := range u.problem.Kitchen.Cold {
		text := fmt.Sprintf("%s, %s", c.Name, degrees(c.Temperature))
		if !c.Measured() {
			text += ", " + schedule.Counted(c.Boxes, "box")
		}
		u.entry(i, "Cold", text+closed(c.Taken))
		i++
		for _, s := range c.Shelves {
			u.entry(i, "Cold", "  "+s.Name+", "+size(s.Size)+closed(s.Taken))
		}
	}
}

func closed(taken []resources.Span) string {
	if len(taken) == 0 {
		return ""
	}
	return ", taken " + schedule.Counted(len(taken), "time")
}

func (u understood) milk() {
	for i, m := range u.problem.Kitchen.Milk {
		var days []string
		for d := 1; d <= 7; d++ { // weeks begin on Monday
			if day := time.Weekday(d % 7); m.Days.Has(day) {
				days = append(days, day.String()[:3])
			}
		}
		text := fmt.Sprintf("%s: %s at %s, keeps %s", m.Name, strings.Join(days, ", "), resources.FormatClock(m.Ready), length(m.Keeps))
		if m.Most != resources.NoLimit {
			text += ", at most " + litres(m.Most)
		}
		if m.Standing > 0 {
			text += ", " + litres(m.Standing) + " without an order"
		}
		if m.Order > 0 {
			text += ", ordered " + length(m.Order) + " ahead"
		}
		if n := len(m.Closed); n > 0 {
			text += ", no collection " + schedule.Counted(n, "time")
		}
		u.entry(i, "Milk", text)
	}
}

// cheeses tells each recipe and how long it takes from the start of the make to
// the start of packing, work of the smallest and the largest batch included.
func (u understood) cheeses() {
	for i, r := range u.problem.Recipes {
		text := fmt.Sprintf("%s (%s): %s to %s in steps of %s, %s from %s",
			r.Name, r.Code, litres(r.Batch.Least), litres(r.Batch.Most), litres(r.Batch.Step),
			schedule.Counted(r.Yield.Pieces, "piece"), litres(r.Yield.From))
		u.entry(i, "Cheeses", text)
		least, most := holds(r)
		u.entry(1, "Cheeses", fmt.Sprintf("  %s, holds %s to %s in all; keeps %s once packed",
			schedule.Counted(len(r.Stages), "stage"), length(least), length(most), length(r.Keeps)))
		if r.Cost > 0 {
			u.entry(1, "Cheeses", "  costs "+money(r.Cost)+" a piece to make")
		}
		for _, s := range r.Stages {
			if text := setText(&s); text != "" {
				u.entry(1, "Cheeses", "  "+text)
			}
		}
		for _, n := range r.Needs {
			u.entry(1, "Cheeses", "  "+needText(&n))
		}
		for k := range r.Measures {
			u.entry(1, "Cheeses", "  "+measureText(&r.Measures[k]))
		}
		if text := onLabel(&r.Label); text != "" {
			u.entry(1, "Cheeses", "  label: "+text)
		}
	}
}

// setText is what a recipe says of when a hold is ready; "" where it says nothing.
func setText(s *schedule.Stage) string {
	h := s.Hold
	if h == nil || h.Ready == 0 && h.GoesBy == (schedule.GoesBy{}) && h.Varies == 0 {
		return ""
	}
	text := s.Name + ":"
	if h.Ready > 0 {
		text += " ready after " + length(h.Ready)
	}
	if by := h.GoesBy; by != (schedule.GoesBy{}) {
		text += fmt.Sprintf(" at %s, %s times as long in this kitchen", degrees(by.Temperature), resources.FormatFactor(by.Times))
	}
	if h.Varies > 0 {
		text += ", one batch varies by " + resources.FormatPercent(h.Varies)
	}
	return text
}

// needText is what goes in, as the recipe has it.
func needText(n *schedule.Need) string {
	per := map[schedule.NeedPer]string{schedule.PerBatch: "a batch", schedule.PerLitre: "a litre", schedule.PerPiece: "a piece", schedule.PerCurd: "of the curd"}[n.Per]
	text := fmt.Sprintf("%s at %s: %s %s", n.What, n.Stage, resources.FormatAmount(n.Amount), per)
	if !n.Strength.IsZero() {
		text += ", of " + resources.FormatStrength(n.Strength)
	}
	return text
}

// measureText is what is to be looked at, as the recipe has it.
func measureText(m *schedule.Measure) string {
	text := "measure at " + m.Stage + ": " + measured.Line(m)
	if m.Else != "" {
		text += ", else: " + m.Else
	}
	return text
}

// onLabel is what a recipe says of its label, but for longer texts.
func onLabel(l *schedule.Label) string {
	var parts []string
	if l.Milk != "" {
		parts = append(parts, string(l.Milk)+" milk")
	}
	if l.Weight > 0 {
		parts = append(parts, resources.FormatMass(l.Weight))
	}
	if l.GTIN != "" {
		parts = append(parts, "GTIN "+string(l.GTIN))
	}
	if l.BestBefore {
		parts = append(parts, "best before")
	}
	return strings.Join(parts, ", ")
}

// holds adds up the least and the most of all holds but the last, which lasts
// until the cheese leaves.
func holds(r schedule.Recipe) (least, most resources.Minutes) {
	for _, s := range r.Stages[:max(len(r.Stages)-1, 0)] {
		if s.Hold != nil {
			least += s.Hold.Least
			most += s.Hold.Most
		}
	}
	return least, most
}

func (u understood) targets() {
	if len(u.problem.Targets) == 0 {
		u.entry(0, "Targets", "none from the planning start on")
	}
	for i, t := range u.problem.Targets {
		var wants []string
		for _, w := range t.Wants {
			text := fmt.Sprintf("%d %s at %s", w.Pieces, w.Cheese, money(w.Price))
			if w.Promised {
				text += " (promised)"
			}
			wants = append(wants, text)
		}
		u.entry(i, "Targets", fmt.Sprintf("%s  %s: %s", moment(t.By, u.problem.Kitchen.Zone), t.Name, strings.Join(wants, ", ")))
	}
}

func (u understood) begun() {
	p, zone := u.problem, u.problem.Kitchen.Zone
	for i, b := range p.Begun {
		text := fmt.Sprintf("%s %s, %s", b.ID, b.Cheese, litres(b.Litres))
		if n := len(b.Stages); n > 0 {
			text += fmt.Sprintf(": %s since %s", b.Stages[n-1].Stage, moment(b.Stages[n-1].Start, zone))
		}
		u.entry(i, "Begun", text)
	}
	for i, s := range p.Stock {
		u.entry(i, "Stock", fmt.Sprintf("%d %s, packed %s", s.Pieces, s.Cheese, moment(s.Packed, zone)))
	}
	for i, o := range p.Ordered {
		u.entry(i, "Ordered", fmt.Sprintf("%s of %s for %s", litres(o.Litres), o.Milk, day(o.Day)))
	}
	for i, id := range p.Lost {
		if !u.knows(id) {
			id += ", which the earlier plan does not have"
		}
		u.entry(i, "Lost", id)
	}
}

// knows reports whether a batch is in the earlier plan; one that no plan has is
// perhaps a slip of the finger.
func (u understood) knows(id string) bool {
	return u.earlier != nil && slices.ContainsFunc(u.earlier.Batches, func(b schedule.Batch) bool { return b.ID == id })
}
