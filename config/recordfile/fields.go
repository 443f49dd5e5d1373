package recordfile

import (
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"ripeby/config/fault"
	"ripeby/config/keys"
	"ripeby/resources"
)

// reader reads one line.
type reader struct {
	file   string
	number int // of the line, from 1
	line   string
	zone   *time.Location
	faults fault.Faults
}

// fault adds to what is wrong, at an offset of the line.
func (r *reader) fault(at int, f fault.Fault) {
	f.File, f.Line, f.Column = r.file, r.number, utf8.RuneCountInString(r.line[:min(at, len(r.line))])+1
	r.faults = append(r.faults, f)
}

// fields are braces whose keys are all known and none given twice.
type fields struct {
	r     *reader
	label string // what stands before a key in a fault: "drew, "
	at    int
	keys  *keys.Mapping // all that it may have
	got   map[string]node
}

// fields takes braces apart.
func (r *reader) fields(n node, label string, known *keys.Mapping) fields {
	names := known.Names()
	f := fields{r: r, label: label, at: n.at, keys: known, got: map[string]node{}}
	for _, p := range n.pairs {
		_, twice := f.got[p.key]
		switch {
		case !slices.Contains(names, p.key):
			r.fault(p.at, unknownKey(label, p.key, names))
		case twice:
			r.fault(p.at, fault.Fault{What: label + "this key stands in the line already", Got: fault.Clip(p.key)})
		default:
			f.got[p.key] = p.value
		}
	}
	return f
}

// unknownKey says what is wrong with a key: it is said of something else, or misspelt.
func unknownKey(label, key string, known []string) fault.Fault {
	if of := saidOf(key); label == "" && of != "" {
		return fault.Fault{What: "this is said of " + of, Got: key, Want: "it in an entry of its own"}
	}
	f := fault.Fault{What: label + "there is no such key", Got: fault.Clip(key), Near: fault.Nearest(key, known)}
	if f.Near == "" && label == "" {
		f.Near = fault.Nearest(key, allKeys)
	}
	if f.Near == "" {
		f.Want = "one of " + strings.Join(known, ", ") + "; or, if it is a part of a text, put the text in quotation marks"
	}
	return f
}

func (f *fields) has(key string) bool { _, ok := f.got[key]; return ok }

// fault complains of a key's value, or where there is none of all that it would stand in.
func (f *fields) fault(key string, one fault.Fault) {
	at := f.at
	if n, ok := f.got[key]; ok {
		at = n.at
	}
	one.What = f.label + key + ": " + one.What
	f.r.fault(at, one)
}

// need complains where a key is not there.
func (f *fields) need(key string) bool {
	if !f.has(key) {
		f.fault(key, fault.Fault{What: "this is missing", Want: key + ": " + exampleOf(key)})
	}
	return f.has(key)
}

// read reads a key's single value; ok is false where it is not there or after a fault.
func read[T any](f *fields, key string, parse func(string) (T, error)) (v T, ok bool) {
	n, ok := f.got[key]
	if !ok {
		return v, false
	}
	return readNode(f, key, n, parse)
}

// readNode reads one single value that stands under a key.
func readNode[T any](f *fields, key string, n node, parse func(string) (T, error)) (v T, ok bool) {
	wrong := func(one fault.Fault) (T, bool) {
		one.What = f.label + key + ": " + one.What
		f.r.fault(n.at, one)
		return v, false
	}
	switch {
	case n.kind != single:
		return wrong(fault.Fault{What: "a single value is wanted here", Want: key + ": " + exampleOf(key)})
	case n.text == "" && !n.quoted:
		return wrong(fault.Fault{What: "nothing stands after the colon", Want: key + ": " + exampleOf(key) + ", or leave the key out"})
	}
	v, err := parse(n.text)
	if err != nil {
		one := fault.OfQuantity(err)
		if one.Want == "" && one.Near == "" {
			one.Want = exampleOf(key)
		}
		return wrong(fault.Suggested(one, n.text, parse))
	}
	return v, true
}

// isTrue reads a fact that can only be true: what is no more is struck, or said by its
// opposite.
func (f *fields) isTrue(key string) bool {
	v, ok := read(f, key, fault.Truth)
	if ok && !v {
		f.fault(key, fault.Fault{What: "only true is said; strike the entry that said so, or leave this out", Got: "false", Want: key + ": true"})
	}
	return v
}

// inner takes the braces under a key apart; false where they are not there or after a
// fault.
func (f *fields) inner(key string) (fields, bool) {
	n, ok := f.got[key]
	if !ok {
		return fields{}, false
	}
	if n.kind != braces {
		f.fault(key, fault.Fault{What: "keys and values in braces are wanted here", Got: fault.Clip(n.text), Want: key + ": " + exampleOf(key)})
		return fields{}, false
	}
	return f.r.fields(n, f.label+key+", ", f.keys.Key(key).In), true
}

// each takes a list of braces apart.
func (f *fields) each(key string) (all []fields) {
	n, ok := f.got[key]
	switch {
	case !ok:
		return nil
	case n.kind != list:
		f.fault(key, fault.Fault{What: "a list is wanted here", Got: fault.Clip(n.text), Want: key + ": " + exampleOf(key)})
		return nil
	case len(n.items) > MaxList || len(n.items) == 0:
		f.fault(key, fault.Fault{What: fmt.Sprintf("a list here has from 1 to %d entries", MaxList), Want: key + ": " + exampleOf(key)})
		return nil
	}
	for _, item := range n.items {
		if item.kind != braces {
			f.r.fault(item.at, fault.Fault{What: f.label + key + ": keys and values in braces are wanted here", Got: fault.Clip(item.text), Want: key + ": " + exampleOf(key)})
			continue
		}
		all = append(all, f.r.fields(item, f.label+key+", ", f.keys.Key(key).In))
	}
	return all
}

// text reads a text as it was written, of at most so many characters.
func text(most int) func(string) (string, error) {
	return func(text string) (string, error) {
		switch {
		case strings.TrimSpace(text) == "":
			return "", fault.Fault{What: "a text is wanted here, and this is none", Got: text}
		case utf8.RuneCountInString(text) > most:
			return "", fault.Fault{What: fmt.Sprintf("a text here has at most %d characters, and this has %d", most, utf8.RuneCountInString(text)), Got: fault.Clip(text)}
		}
		return text, nil
	}
}

// amount reads a number and its unit, as it was written.
func amount(written string) (string, error) {
	digits := strings.TrimLeft(written, "0123456789")
	rest := strings.TrimSpace(strings.TrimLeft(strings.TrimPrefix(digits, "."), "0123456789"))
	if digits == written || rest == "" {
		return "", fault.Fault{What: "a number and its unit are wanted here", Got: fault.Clip(written)}
	}
	return text(MaxText)(written)
}

func (r *reader) moment(text string) (resources.Moment, error) {
	return resources.ParseMoment(text, r.zone)
}

// edge reads where a time begins or ends: a moment, or a date, of which the first minute
// begins it and the last ends it.
func (r *reader) edge(end bool) func(string) (resources.Moment, error) {
	return func(text string) (resources.Moment, error) {
		day, err := resources.ParseDate(text)
		switch {
		case err != nil && strings.Contains(text, ":"):
			return r.moment(text)
		case err != nil:
			return 0, err
		case end:
			day = day.AddDays(1)
		}
		return day.Start(r.zone), nil
	}
}
