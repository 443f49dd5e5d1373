package heard

import (
	"slices"

	"ripeby/calendar/said"
	"ripeby/calendar/week"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/measured"
)

// Measures are what a batch's recipe asks for, as the plan has it, with what was said of each.
func (b *Beside) Measures(batch string) []measured.Row {
	of := b.Plan.Batch(batch)
	if of == nil || b.Told == nil {
		return nil
	}
	var all []schedule.Measured
	for _, r := range b.Told.Measured {
		if r.Batch == batch {
			all = append(all, schedule.Measured{What: r.What, Is: r.Is, Stage: r.Stage, At: r.At, Who: r.Who, Nr: r.Nr})
		}
	}
	return measured.Rows(of.Measures(), b.began(of), all)
}

// began is when a stage of a batch began by what was said of late, else by the plan.
func (b *Beside) began(of *schedule.Batch) func(string) resources.Moment {
	return func(stage string) resources.Moment {
		t := of.Stage(stage)
		for i := range b.Told.Lately {
			switch w := &b.Told.Lately[i]; {
			case w.Batch != of.ID:
			case w.Began == stage:
				return w.At
			case w.Did == stage:
				return w.At.Add(-t.Work)
			}
		}
		return t.Start
	}
}

// MeasuredFacts are what was measured at a stage: what lies outside the recipe's limits with what it says of that, and
// all else as it was written.
func (b *Beside) MeasuredFacts(batch, stage string) (all []week.Fact) {
	rows := b.Measures(batch)
	for i := range rows {
		if rows[i].Stage != stage {
			continue
		}
		for _, s := range rows[i].Said {
			text := measured.Outside(&rows[i].Measure, s.Is)
			if text == "" {
				text = rows[i].What + " " + s.Is
			}
			all = append(all, week.Fact{Label: "Measured", Text: words.Printable(text) + "," + b.By(&said.Word{At: s.At, Who: s.Who})})
		}
	}
	return all
}

// placeReadings is how many readings of a place are told.
const placeReadings = 5

// InPlace is what was measured in a cold place, the last first, with when and by whom.
func (b *Beside) InPlace(place string) (all []string) {
	if b.Told == nil {
		return nil
	}
	for _, r := range slices.Backward(b.Told.Measured) {
		if r.Place == place && r.At <= b.Now && len(all) < placeReadings {
			all = append(all, words.Printable(r.What+" "+r.Is)+","+b.By(&said.Word{At: r.At, Who: r.Who}))
		}
	}
	return all
}
