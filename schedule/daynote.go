package schedule

import "ripeby/resources"

// RoundNote is all that a calendar says about the round of one day.
type RoundNote struct {
	TimeZone string
	Start    resources.Moment
	Minutes  resources.Minutes
	Who      string
	Jobs     []RoundJob
}

// RoundJob is the care of one batch in a round. At is where the batch is then, ""
// when the plan does not say.
type RoundJob struct {
	Batch, Cheese string
	Pieces        int
	Do            string
	Hands         resources.Minutes
	At            string
}

// RoundNote gives the note of the plan's round i.
func (p *Plan) RoundNote(i int) RoundNote {
	r := &p.Rounds[i]
	n := RoundNote{TimeZone: p.TimeZone, Start: r.Start, Minutes: r.Minutes, Who: r.Who}
	for _, c := range r.Care {
		job := RoundJob{Batch: c.Batch, Do: c.Do, Hands: c.Hands}
		for k := range p.Batches {
			if b := &p.Batches[k]; b.ID == c.Batch {
				job.Cheese, job.Pieces, job.At = b.Cheese, b.Pieces, placeAt(b, r.Start)
				break
			}
		}
		n.Jobs = append(n.Jobs, job)
	}
	return n
}

// placeAt is where the batch is at the moment.
func placeAt(b *Batch, at resources.Moment) string {
	for _, t := range b.Stages {
		if t.Start <= at && at < t.Ends {
			return t.At
		}
	}
	return ""
}

// TargetNote is all that a calendar says about one target.
type TargetNote struct {
	TimeZone string
	Target   string
	By       resources.Moment
	Wants    []WantNote
}

// WantNote is one want of a target and where its pieces come from.
type WantNote struct {
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

// TargetNotes gives one note a target, in the order in which the plan first names
// them. Targets of the same name that leave at different moments are different.
func (p *Plan) TargetNotes() []TargetNote {
	var notes []TargetNote
	at := map[targetKey]int{}
	for _, w := range p.Targets {
		key := targetKey{w.Target, w.By}
		i, known := at[key]
		if !known {
			i = len(notes)
			at[key] = i
			notes = append(notes, TargetNote{TimeZone: p.TimeZone, Target: w.Target, By: w.By})
		}
		notes[i].Wants = append(notes[i].Wants, WantNote{
			Cheese: w.Cheese, Promised: w.Promised, Wanted: w.Wanted, Met: w.Met,
			Short: w.Short, Because: w.Because, From: p.sources(w),
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
func (p *Plan) sources(w WantResult) []Source {
	var from []Source
	for _, s := range p.Stock {
		if n := piecesFor(s.For, w); n > 0 {
			from = append(from, Source{Packed: s.Packed, Pieces: n})
		}
	}
	for _, b := range p.Batches {
		if n := piecesFor(b.For, w); n > 0 {
			from = append(from, Source{Batch: b.ID, Pieces: n})
		}
	}
	return from
}

// piecesFor adds up the shares that go to the want.
func piecesFor(shares []Share, w WantResult) int {
	n := 0
	for _, s := range shares {
		if s.Target == w.Target && s.By == w.By && s.Want == w.Want {
			n += s.Pieces
		}
	}
	return n
}
