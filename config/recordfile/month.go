package recordfile

import (
	"bytes"
	"fmt"
	"strings"
	"time"
	"unicode/utf8"

	"ripeby/config/fault"
	"ripeby/schedule/record"
)

// Month is what one file of the record says.
type Month struct {
	Entries []record.Entry // those that can be read, in the order of the file
	// Cut are the lines that end before their closing brace does: a full disk, a pulled
	// plug. They stay where they are, and count for nothing.
	Cut    []fault.Fault
	Faults fault.Faults // every line that is whole and cannot be read
}

// Read reads a file of the record line by line; name is what faults call it.
func Read(name string, text []byte, zone *time.Location) Month {
	var m Month
	text = bytes.TrimPrefix(text, []byte("\ufeff"))
	for number := 1; len(text) > 0; number++ {
		line, rest, _ := bytes.Cut(text, []byte("\n"))
		text = rest
		r := reader{file: name, number: number, line: string(bytes.TrimSuffix(line, []byte("\r"))), zone: zone}
		r.read(&m)
		m.Faults = append(m.Faults, r.faults...)
	}
	return m
}

// read reads one line. A power cut may leave zeros where the end of a line was to be.
func (r *reader) read(m *Month) {
	torn := strings.HasSuffix(r.line, "\x00")
	r.line = strings.TrimRight(r.line, "\x00")
	if trimmed := strings.TrimSpace(r.line); trimmed == "" || trimmed[0] == '#' || trimmed == "---" {
		if torn {
			m.Cut = append(m.Cut, r.cut())
		}
		return
	}
	n, cut, flaw := scan(r.line)
	switch {
	case cut:
		m.Cut = append(m.Cut, r.cut())
	case len(r.line) > MaxLine:
		r.fault(0, fault.Fault{What: fmt.Sprintf("this entry is longer than the limit of %d bytes", MaxLine)})
	case flaw != nil:
		r.fault(flaw.at, fault.Fault{What: flaw.what, Want: flaw.want})
	default:
		if at := notText(r.line); at >= 0 {
			r.fault(at, fault.Fault{What: fmt.Sprintf("the byte 0x%02x is not UTF-8 or steers a terminal; save the file as UTF-8", r.line[at])})
			return
		}
		if e := r.entry(n); len(r.faults) == 0 {
			m.Entries = append(m.Entries, e)
		}
	}
}

func (r *reader) cut() fault.Fault {
	return fault.Fault{File: r.file, Line: r.number, What: "this line was cut short before its closing brace, and counts for nothing; say again what it said, or complete it where it stands"}
}

// notText finds what no text has: a byte that is not UTF-8, or a control character other
// than a tab. -1 for none.
func notText(line string) int {
	for at, r := range line {
		if r == utf8.RuneError {
			if _, n := utf8.DecodeRuneInString(line[at:]); n == 1 {
				return at
			}
		}
		if r < ' ' && r != '\t' || r == 0x7f {
			return at
		}
	}
	return -1
}
