package follows

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
)

// Remembered is how long ago a line without a number may be of by which a plan knows it again.
const Remembered = 60 * resources.Day

// InShort names what an entry says, wherever it stands.
func InShort(e *record.Entry) string {
	said := *e
	said.File, said.Line = "", 0
	return schedule.InShort(said)
}

// seenBefore reports whether the plan before knew an entry; no where it does not remember.
func (f *follower) seenBefore(e *record.Entry) bool {
	b := f.p.Earlier
	switch {
	case b == nil || b.MadeOf == nil || e.At > b.From:
		return false
	case e.Nr > 0:
		return e.Nr <= b.MadeOf.Entry
	}
	return e.At < b.From.Add(-Remembered) || slices.Contains(b.MadeOf.Lines, InShort(e))
}

// asBefore has a batch that is remembered give no more than it did by the plan before, where that knew how
// much was taken: the rest was of what keeps no longer and is forgotten. A count that was struck since
// may have hidden what it gave.
func (f *follower) asBefore(list []taking, all []holder, took, back *record.Entry) {
	if !f.seenBefore(took) {
		return
	}
	again := 0
	if back != nil && f.seenBefore(back) {
		again = back.Target.Back.Value
	}
	for i := range list {
		t := &list[i]
		h := all[slices.IndexFunc(all, func(h holder) bool { return h.id == t.holder })]
		k := slices.IndexFunc(h.left, func(l schedule.LeftShare) bool {
			return l.Target == took.Subject.Full() && l.By == t.by && l.Want == t.want
		})
		if k >= 0 && !f.countStruck(h.names) {
			t.took = min(t.took, h.left[k].Pieces+again)
		}
	}
}

// countStruck reports whether a count of pieces was taken back.
func (f *follower) countStruck(names []string) bool {
	counts := func(l record.Entries) int {
		return len(l.Of(record.OfBatch, names...).With(func(e *record.Entry) bool { return e.Batch.Pieces.Given }))
	}
	return counts(f.all) > counts(f.entries)
}
