package planner

import (
	"fmt"
	"slices"
	"strings"

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
	var bare bareCare
	watched := make([]bool, len(blocks))
	for i := range plan.Batches {
		b := &plan.Batches[i]
		b.Care = []schedule.CareDay{}
		for k := range b.Stages {
			pl.careOf(b, k, today, blocks, blockOf, due, watched, &bare)
		}
	}
	pl.noteBare(bare)
	var tooShort []resources.Date
	var longest resources.Minutes
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
			tooShort, longest = append(tooShort, b.Span.From.DateIn(p.Kitchen.Zone)), max(longest, total)
		}
	}
	if len(tooShort) > 0 {
		pl.note("round-too-short", tooShort[0].Start(p.Kitchen.Zone), "The round has %s, and the care due takes longer on %s: up to %s. Allow more time then.",
			resources.FormatMinutes(p.Kitchen.Round.For), dayList(tooShort), resources.FormatMinutes(longest))
	}
}

// bareCare is care on days without a round: what of which batch, and the days.
type bareCare struct {
	what []string
	days []resources.Date
}

// noteBare says in one line what falls due on days without a round, and why there is none.
func (pl *Stated) noteBare(bare bareCare) {
	if len(bare.days) == 0 {
		return
	}
	slices.SortFunc(bare.days, func(a, b resources.Date) int { return b.DaysUntil(a) })
	days := slices.Compact(bare.days)
	why := "the kitchen has none"
	if r := pl.p.Kitchen.Round; r != nil {
		why = "nobody's hours cover it then"
	}
	pl.note("care-without-round", days[0].Start(pl.p.Kitchen.Zone), "There is no round on %s (%s). Due on such days: %s; fit it in when you can.",
		dayList(days), why, someOf(bare.what))
}

// someOf names the first few of a list and how many more there are.
func someOf(list []string) string {
	const most = 4
	if len(list) > most+1 {
		return fmt.Sprintf("%s and %d more", strings.Join(list[:most], ", "), len(list)-most)
	}
	return strings.Join(list, ", ")
}

// careOf adds the care of one stage of a batch.
func (pl *Stated) careOf(b *schedule.Batch, k int, today resources.Date, blocks []resources.DatedRound,
	blockOf map[resources.Date]int, due [][]schedule.RoundCare, watched []bool, bare *bareCare) {
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
	found := false // a day without a round
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
			bare.days, found = append(bare.days, d), true
			continue
		}
		due[i] = append(due[i], schedule.RoundCare{Batch: b.ID, Do: care.Do, Hands: care.Hands})
	}
	if found {
		bare.what = append(bare.what, care.Do+" of "+b.ID)
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
