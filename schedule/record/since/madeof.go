package since

import (
	"ripeby/schedule"
	"ripeby/schedule/record"
	"ripeby/schedule/record/follows"
)

// MadeOf is what a plan of a problem remembers of what it was made from. The problem is the folder's,
// without what follows from its record.
func MadeOf(p *schedule.Problem, all *record.Book) *schedule.MadeOf {
	known, _ := all.Until(p.From)
	out := &schedule.MadeOf{Things: p.Things()}
	for _, e := range all.All() {
		out.Entry = max(out.Entry, e.Nr)
	}
	for _, e := range known.All() {
		if e.Nr == 0 && e.At >= p.From.Add(-follows.Remembered) {
			out.Lines = append(out.Lines, follows.InShort(e))
		}
	}
	for i := range p.Targets {
		if t := &p.Targets[i]; t.Packed != 0 {
			out.Packed = append(out.Packed, schedule.PackedBy{Target: t.Name, By: t.By, Before: t.Packed})
		}
	}
	return out
}
