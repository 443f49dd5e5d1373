package orders

import (
	"bytes"
	"fmt"
	"unicode/utf8"

	"ripeby/config"
	"ripeby/schedule"
)

// Read is what a file of orders holds.
type Read struct {
	Targets []config.NewTarget // what is to be written, in the order of the file
	Taken   int                // lines that are orders in them
	Refused config.Faults      // of each other line, in their order; at most [fault.Max] and how many more
}

// Of reads the text of a file of orders for a kitchen that was loaded, whose targets.yaml has
// the text targets. Name is what the file is called in faults. The error is [config.Faults]:
// of the file where nothing of it can be taken, or of targets.yaml.
func Of(text []byte, name string, kitchen *schedule.Problem, targets []byte) (*Read, error) {
	there, taken, err := config.ReadTargets(targets, kitchen)
	if err != nil {
		return nil, err
	}
	t := &table{file: name}
	if err := t.read(text); err != nil {
		return nil, config.Faults{*err}
	}
	var orders []order
	for i := range t.lines {
		o, bad := t.order(&t.lines[i], kitchen)
		if bad != nil {
			t.refuse(t.lines[i].nr, *bad)
			continue
		}
		orders = append(orders, o)
	}
	b := book{table: t, zone: kitchen.Kitchen.Zone, there: there, taken: taken}
	made, n := b.targets(orders)
	return &Read{Targets: made, Taken: n, Refused: t.refused.Sorted()}, nil
}

// readable gives the text as the reader of lines wants it, without a mark at the beginning and
// with a line feed at each line's end, or the fault of the whole file.
func (t *table) readable(text []byte) ([]byte, *config.Fault) {
	if len(text) > MaxBytes {
		return nil, t.whole(0, config.Fault{What: fmt.Sprintf("this file is larger than the limit of %d bytes; split it", MaxBytes)})
	}
	text = bytes.TrimPrefix(text, []byte("\ufeff")) // some spreadsheets write it in front of UTF-8
	if at := notUTF8(text); at >= 0 {
		return nil, t.whole(1+bytes.Count(text[:at], []byte("\n")), config.Fault{What: "this is not text in UTF-8; save it anew from the spreadsheet as CSV in UTF-8"})
	}
	if !bytes.Contains(text, []byte("\n")) {
		text = bytes.ReplaceAll(text, []byte("\r"), []byte("\n")) // as old machines end lines
	}
	return text, nil
}

// notUTF8 is where a text is none in UTF-8, -1 where it is. Bytes of nothing come with UTF-16,
// and in no text.
func notUTF8(text []byte) int {
	for at := 0; at < len(text); {
		r, size := utf8.DecodeRune(text[at:])
		if r == utf8.RuneError && size <= 1 || r == 0 {
			return at
		}
		at += size
	}
	return -1
}
