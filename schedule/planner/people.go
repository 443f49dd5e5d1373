package planner

import (
	"ripeby/resources"
	"ripeby/schedule/cp/problem"
)

// addPeople states who can work when: hours less away, with the round's block
// and the looks that were asked for kept free, what they would rather not, and their most per day.
func (pl *Stated) addPeople() {
	k := &pl.p.Kitchen
	zone := k.Zone
	blocks := make([][]resources.Span, len(k.People))
	// The last day's round may lie after the end of what is planned, but counts.
	all := resources.Span{From: pl.within.From.Add(-resources.Day), Until: pl.within.Until.Add(resources.Day)}
	for _, r := range k.Rounds(all) {
		blocks[r.Person] = append(blocks[r.Person], r.Span)
	}
	for _, l := range pl.p.Looks {
		if who := k.PersonNumber(l.Who); who >= 0 {
			blocks[who] = append(blocks[who], resources.Span{From: l.Start, Until: l.Start.Add(l.Minutes)})
		}
	}
	days := resources.Days(pl.within, zone)
	for _, d := range days {
		pl.model.DayStarts = append(pl.model.DayStarts, pl.clock.tick(d.Span(zone).From))
	}
	for i := range k.People {
		person := &k.People[i]
		w := problem.Worker{
			Windows: pl.spans(resources.Subtract(person.Windows(pl.within, zone), blocks[i])),
			Avoid:   pl.spans(person.Avoids(pl.within, zone)),
		}
		if person.MostPerDay != resources.NoLimit {
			w.Days = pl.dayLimits(days, person.MostPerDay, blocks[i])
		}
		pl.model.Workers = append(pl.model.Workers, w)
	}
}

// dayLimits gives each local day its limit less the round of that day.
func (pl *Stated) dayLimits(days []resources.Date, most resources.Minutes, blocks []resources.Span) []problem.Day {
	zone := pl.p.Kitchen.Zone
	rounds := map[resources.Date]int{}
	for _, b := range blocks {
		rounds[b.From.DateIn(zone)] += int(b.Length())
	}
	out := make([]problem.Day, 0, len(days))
	for _, d := range days {
		s := d.Span(zone)
		if s.Empty() {
			continue
		}
		out = append(out, problem.Day{From: pl.clock.tick(s.From), Until: pl.clock.tick(s.Until), Limit: int(most) - rounds[d]})
	}
	return out
}

func (pl *Stated) spans(list []resources.Span) []problem.Span {
	out := make([]problem.Span, len(list))
	for i, s := range list {
		out[i] = problem.Span{From: pl.clock.tick(s.From), Until: pl.clock.tick(s.Until)}
	}
	return out
}
