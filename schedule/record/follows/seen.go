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
