package fault

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"ripeby/resources"
)

// Max is how many faults are listed; a last one says how many more there are.
const Max = 200

// Fault is one thing that is wrong with a kitchen folder.
type Fault struct {
	File         string // below the folder; "--from" for the planning start
	Line, Column int    // from 1; 0 when the fault has no place in the file
	What         string // what is wrong, in the maker's words
	Got          string // what was written; "" when What says it
	Want         string // how to write it; "" when What says it
	Near         string // the nearest known key or name; "" when none is near
	Missing      bool   // the file is not there
	Asked        bool   // it is taken when it is said again
}

// Error gives the fault in one line: "kitchen.yaml:12:5: …; write …".
func (f Fault) Error() string {
	var b strings.Builder
	b.WriteString(f.File)
	if f.Line > 0 {
		fmt.Fprintf(&b, ":%d", f.Line)
	}
	if f.Column > 0 {
		fmt.Fprintf(&b, ":%d", f.Column)
	}
	b.WriteString(": " + f.What)
	if f.Got != "" {
		fmt.Fprintf(&b, ": got %q", f.Got)
	}
	if f.Want != "" {
		b.WriteString("; write " + f.Want)
	}
	if f.Near != "" {
		fmt.Fprintf(&b, "; did you mean %q?", f.Near)
	}
	return strings.Map(seen, b.String())
}

// seen keeps a fault on its line: a name may hold a line break, a tab or what
// steers a terminal, which is shown as a question mark.
func seen(r rune) rune {
	if unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) || r == '\u2028' || r == '\u2029' {
		return '?'
	}
	return r
}

// Faults is everything that is wrong with a folder: file by file in the order in
// which they are read, and within a file from top to bottom.
type Faults []Fault

// Error gives one line a fault.
func (f Faults) Error() string {
	lines := make([]string, len(f))
	for i, one := range f {
		lines[i] = one.Error()
	}
	return strings.Join(lines, "\n")
}

// Unwrap lets errors.As find a single [Fault].
func (f Faults) Unwrap() []error {
	errs := make([]error, len(f))
	for i, one := range f {
		errs[i] = one
	}
	return errs
}

// Sorted puts each file's faults in the order of its lines, files staying in the
// order in which they were first complained of, and cuts the list at Max
// with a last entry that says so.
func (f Faults) Sorted() Faults {
	rank := map[string]int{}
	for _, one := range f {
		if _, ok := rank[one.File]; !ok {
			rank[one.File] = len(rank)
		}
	}
	slices.SortStableFunc(f, func(a, b Fault) int {
		return cmp.Or(cmp.Compare(rank[a.File], rank[b.File]), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	if len(f) > Max {
		rest := len(f) - Max
		f = append(f[:Max:Max], Fault{File: f[Max].File,
			What: fmt.Sprintf("%d more faults are not listed (limit %d); these come first", rest, Max)})
	}
	return f
}

// OfQuantity turns what a Parse function has to say into a fault without a
// place.
func OfQuantity(err error) Fault {
	switch e := err.(type) {
	case *resources.QuantityError:
		return Fault{What: e.What, Got: Clip(e.Got), Want: e.Want}
	case Fault:
		return e
	}
	return Fault{What: err.Error()}
}

// Clip keeps what somebody wrote short enough for one line.
func Clip(text string) string {
	const most = 60
	if r := []rune(text); len(r) > most {
		return string(r[:most]) + "…"
	}
	return text
}
