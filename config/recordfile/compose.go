package recordfile

import (
	"strings"
	"time"

	"ripeby/config/fault"
	"ripeby/schedule/record"
)

// Pairs are keys and values as somebody gives them by word of mouth, a form or a command
// line: all of them texts. They are read as a line would be, so that what is wrong with a
// value is said in the same words wherever it is given.
type Pairs struct{ w lineWriter }

// Text adds a value; one that is empty is left out.
func (p *Pairs) Text(key, value string) { p.w.text(key, value) }

// In adds braces; empty ones are left out.
func (p *Pairs) In(key string, in Pairs) {
	if len(in.w.pairs) > 0 {
		p.w.braces(key, &in.w)
	}
}

// Named adds braces whose keys are names.
func (p *Pairs) Named(name, value string) { p.w.add(p.w.quote(name), p.w.quote(value)) }

// List adds a list of braces; an empty one is left out.
func (p *Pairs) List(key string, all []Pairs) {
	var parts []string
	for _, in := range all {
		parts = append(parts, "{"+strings.Join(in.w.pairs, ", ")+"}")
	}
	if len(parts) > 0 {
		p.w.add(key, "["+strings.Join(parts, ", ")+"]")
	}
}

// Entry makes an entry of them. The faults have no place: there is no line yet.
func (p *Pairs) Entry(zone *time.Location) (record.Entry, fault.Faults) {
	m := Read("", []byte("- {"+strings.Join(p.w.pairs, ", ")+"}"), zone)
	for i := range m.Faults {
		m.Faults[i].Line, m.Faults[i].Column = 0, 0
	}
	if len(m.Entries) != 1 {
		return record.Entry{}, m.Faults
	}
	e := m.Entries[0]
	e.File, e.Line = "", 0
	return e, nil
}

// Each adds a list of single values; an empty one is left out.
func (p *Pairs) Each(key string, values []string) {
	var parts []string
	for _, v := range values {
		parts = append(parts, p.w.quote(v))
	}
	if len(parts) > 0 {
		p.w.add(key, "["+strings.Join(parts, ", ")+"]")
	}
}
