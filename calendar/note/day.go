package note

import (
	"ripeby/resources"
	"ripeby/schedule"
)

// Round is all that a calendar says about the round of one day.
type Round struct {
	TimeZone string
	Start    resources.Moment
	Minutes  resources.Minutes
	Who      string
	Jobs     []Job
}

// Job is the care of one batch in a round. At is where the batch is then, ""
// when the plan does not say.
type Job struct {
	Batch, Cheese string
	Pieces        int
	Do            string
	Hands         resources.Minutes
	At            string
}

// OfRound gives the note of the plan's round i.
func OfRound(plan *schedule.Plan, i int) Round {
	r := &plan.Rounds[i]
	n := Round{TimeZone: plan.TimeZone, Start: r.Start, Minutes: r.Minutes, Who: r.Who}
	for _, c := range r.Care {
		job := Job{Batch: c.Batch, Do: c.Do, Hands: c.Hands}
		for k := range plan.Batches {
			if b := &plan.Batches[k]; b.ID == c.Batch {
				job.Cheese, job.Pieces, job.At = b.Cheese, b.Pieces, placeAt(plan, b, r.Start)
				break
			}
		}
		n.Jobs = append(n.Jobs, job)
	}
	return n
}

// placeAt is where the batch is at the moment.
func placeAt(plan *schedule.Plan, b *schedule.Batch, at resources.Moment) string {
	for i, t := range b.Stages {
		if t.Start <= at && at < t.Ends {
			place, _ := plan.StandsAt(b, i, at)
			return place
		}
	}
	return ""
}

// Target is all that a calendar says about one target.
type Target struct {
	TimeZone string
	Target   string
	By       resources.Moment
	Wants    []Want
}

// Want is one want of a target and where its pieces come from.
type Want struct {
	Cheese             string
	Promised           bool
	Wanted, Met, Short int
	Because            string
	From               []Source
}

// Source is where pieces for a want come from: a batch, or stock of which only
// the packing is known.
type Source struct {
	Batch  string           // "" for stock
	Packed resources.Moment // of stock; 0 for a batch
	Pieces int
}

// OfTargets gives one note a target, in the order in which the plan first names
// them. Targets of the same name that leave at different moments are different.
func OfTargets(plan *schedule.Plan) []Target {
	var notes []Target
	at := map[targetKey]int{}
	for _, w := range plan.Targets {
		key := targetKey{w.Target, w.By}
		i, known := at[key]
		if !known {
			i = len(notes)
			at[key] = i
			notes = append(notes, Target{TimeZone: plan.TimeZone, Target: w.Target, By: w.By})
		}
		notes[i].Wants = append(notes[i].Wants, Want{
			Cheese: w.Cheese, Promised: w.Promised, Wanted: w.Wanted, Met: w.Met,
			Short: w.Short, Because: w.Because, From: sources(plan, w),
		})
	}
	return notes
}

// targetKey tells targets apart within one plan.
type targetKey struct {
	name string
	by   resources.Moment
}

// sources gives what serves a want, stock first.
func sources(plan *schedule.Plan, w schedule.WantResult) []Source {
	var from []Source
	for _, s := range plan.Stock {
		if n := piecesFor(s.For, w); n > 0 {
			from = append(from, Source{Packed: s.Packed, Pieces: n})
		}
	}
	for _, b := range plan.Batches {
		if n := piecesFor(b.For, w); n > 0 {
			from = append(from, Source{Batch: b.ID, Pieces: n})
		}
	}
	return from
}

// piecesFor adds up the shares that go to the want.
func piecesFor(shares []schedule.Share, w schedule.WantResult) int {
	n := 0
	for _, s := range shares {
		if s.Target == w.Target && s.By == w.By && s.Want == w.Want {
			n += s.Pieces
		}
	}
	return n
}
