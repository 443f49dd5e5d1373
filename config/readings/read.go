package readings

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"time"

	"ripeby/config"
	"ripeby/config/fault"
	"ripeby/resources"
)

// Read gives the readings of the months that a span of time touches, below a kitchen folder, in the order of
// the files; those of other months are not opened. What cannot be read, a line or a file, is told among the
// faults, and all else holds.
func Read(fsys fs.FS, zone *time.Location, span resources.Span) (lines []Line, faults fault.Faults) {
	last := (max(span.Until-1, span.From)).DateIn(zone)
	for day := span.From.DateIn(zone); ; day = nextMonth(day) {
		name := monthOf(day)
		text, err := config.ReadRegularFS(fsys, path.Join(Folder, name), MaxBytes)
		switch {
		case errors.Is(err, fs.ErrNotExist):
		case err != nil:
			faults = append(faults, fault.Fault{File: below(name), What: config.WithoutPath(err).Error()})
		default:
			some, bad := month(below(name), text, zone)
			lines, faults = append(lines, some...), append(faults, bad...)
		}
		if day.Year == last.Year && day.Month == last.Month {
			return lines, faults.Sorted()
		}
	}
}

// nextMonth is the first of the month after a day's.
func nextMonth(day resources.Date) resources.Date {
	day.Day = 1
	return resources.Date{Year: day.AddDays(31).Year, Month: day.AddDays(31).Month, Day: 1}
}

// month reads the text of a file.
func month(file string, text []byte, zone *time.Location) (lines []Line, faults fault.Faults) {
	text = bytes.TrimPrefix(text, []byte("\ufeff"))
	p := parser{zone: zone}
	more := 0 // a file of another kind has a fault a line
	for nr := 1; len(text) > 0; nr++ {
		row, rest, ended := bytes.Cut(text, []byte("\n"))
		text = rest
		line, read, bad := p.parse(string(row))
		if !ended && !whole(string(row)) {
			read, bad = false, &fault.Fault{What: "this line was cut short while it was written, and counts for nothing; if it is right, end it with a line break", Got: fault.Clip(string(row))}
		}
		switch {
		case read:
			lines = append(lines, line)
		case bad == nil:
		case len(faults) < fault.Max:
			bad.File, bad.Line = file, nr
			faults = append(faults, *bad)
		default:
			more++
		}
	}
	if more > 0 {
		faults = append(faults, fault.Fault{File: file, What: fmt.Sprintf("%d more lines cannot be read (limit %d); these come first", more, fault.Max)})
	}
	return lines, faults
}
