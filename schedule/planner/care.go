package planner

import (
	"fmt"

	"ripeby/resources"
	"ripeby/schedule"
)

// addCare lists, for every batch, the care that falls due from the planning start
// on, and the daily rounds in which it is done.
func (pl *Stated) addCare(plan *schedule.Plan) {
	p := pl.p
	last := p.From
	for i := range plan.Batches {
		for k := range plan.Batches[i].Stages {
			last = max(last, plan.Batches[i].Stages[k].Ends)
		}
	}
	today := p.From.DateIn(p.Kitchen.Zone)
	blocks := p.Kitchen.Rounds(resources.Span{From: today.Start(p.Kitchen.Zone), Until: last + 1})
	blockOf := map[resources.Date]int{}
	for i, b := range blocks {
		blockOf[b.Span.From.DateIn(p.Kitchen.Zone)] = i
	}
	due := make([][]schedule.RoundCare, len(blocks))
	watched := make([]bool, len(blocks))
	for i := range plan.Batches {
		b := &plan.Batches[i]
		b.Care = []schedule.CareDay{}
		for k := range b.Stages {
			pl.careOf(b, k, today, blocks, blockOf, due, watched)
		}
	}
	for i, b := range blocks {
		if b.Span.From < p.From || (!watched[i] && len(due[i]) == 0) {
			continue
		}
		plan.Rounds = append(plan.Rounds, schedule.RoundBlock{Start: b.Span.From, Minutes: b.Span.Length(),
			Who: p.Kitchen.People[b.Person].Name, Care: due[i]})
		total := resources.Minutes(0)
		for _, c := range due[i] {
			total += c.Hands
		}
		if total > b.Span.Length() {
			pl.note("round-too-short", b.Span.From, "The care due on %s takes %s; the round has %s. Allow more time that day.",
				b.Span.From.DateIn(p.Kitchen.Zone), resources.FormatMinutes(total), resources.FormatMinutes(b.Span.Length()))
		}
	}
}

// careOf adds the care of one stage of a batch.
func (pl *Stated) careOf(b *schedule.Batch, k int, today resources.Date, blocks []resources.DatedRound,
	blockOf map[resources.Date]int, due [][]schedule.RoundCare, watched []bool) {
	zone := pl.p.Kitchen.Zone
	recipe := pl.p.Recipe(b.Cheese)
	t := &b.Stages[k]
	care := recipe.Stages[k].Care
	if care == nil || t.Hold == 0 {
		return
	}
	began := t.Start.Add(t.Work)
	for i := range blocks {
		if at := blocks[i].Span.From; began <= at && at < t.Ends {
			watched[i] = true
		}
	}
	first, end := began.DateIn(zone), t.Ends.DateIn(zone)
	var bare []resources.Date // days without a round
	for d := first.AddDays(care.Every); d.Before(end); d = d.AddDays(care.Every) {
		if d.Before(today) {
			continue
		}
		i, has := blockOf[d]
		if has && blocks[i].Span.From < pl.p.From {
			continue // that round is over
		}
		b.Care = append(b.Care, schedule.CareDay{Day: d, Do: care.Do, Hands: care.Hands})
		if !has {
			bare = append(bare, d)
			continue
		}
		due[i] = append(due[i], schedule.RoundCare{Batch: b.ID, Do: care.Do, Hands: care.Hands})
	}
	if len(bare) > 0 {
		pl.note("care-without-round", bare[0].Start(zone), "%s of %s falls due on %s without a round: fit it in when you can.",
			care.Do, b.ID, dayList(bare))
	}
}

// dayList names up to four days, and else how many there are between which.
func dayList(days []resources.Date) string {
	if len(days) > 4 {
		return fmt.Sprintf("%d days from %s to %s", len(days), days[0], days[len(days)-1])
	}
	text := ""
	for i, d := range days {
		if i > 0 {
			text += ", "
		}
		text += d.String()
	}
	return text
}
