package schedule

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Batch finds a batch by its id; nil for none, and of no plan.
func (p *Plan) Batch(id string) *Batch {
	if p == nil {
		return nil
	}
	for i := range p.Batches {
		if p.Batches[i].ID == id {
			return &p.Batches[i]
		}
	}
	return nil
}

// BatchOrPast finds a batch by its id, one too of which nothing is left to sell; nil for none, and of no plan.
func (p *Plan) BatchOrPast(id string) *Batch {
	if b := p.Batch(id); b != nil || p == nil {
		return b
	}
	for i := range p.Past {
		if p.Past[i].ID == id {
			return &p.Past[i]
		}
	}
	return nil
}

// Named finds a batch by any of its names; nil for none, and of no plan.
func (p *Plan) Named(name string) *Batch {
	if p == nil {
		return nil
	}
	at := slices.IndexFunc(p.Batches, func(b Batch) bool { return slices.Contains(b.Names(), name) })
	if at < 0 {
		return nil
	}
	return &p.Batches[at]
}

// Stage finds a batch's stage by its name; nil for none, and of no batch.
func (b *Batch) Stage(name string) *Task {
	if b == nil {
		return nil
	}
	for i := range b.Stages {
		if b.Stages[i].Stage == name {
			return &b.Stages[i]
		}
	}
	return nil
}

// Names are those by which a batch is spoken of: its id, and its lot where that is another.
func (b *Batch) Names() []string {
	if b.Lot == "" || b.Lot == b.ID {
		return []string{b.ID}
	}
	return []string{b.ID, b.Lot}
}

// Warned reports whether the plan has a warning of a code that names a batch. One id may
// be the beginning of another, or its end.
func (p *Plan) Warned(code, id string) bool {
	for i := range p.Warnings {
		if w := &p.Warnings[i]; w.Code == code && names(w.Text, id) {
			return true
		}
	}
	return false
}

// names reports whether a text holds an id that is not part of a longer one.
func names(text, id string) bool {
	part := func(r rune) bool { return r != utf8.RuneError && (unicode.IsLetter(r) || unicode.IsDigit(r)) }
	for at := 0; ; {
		n := strings.Index(text[at:], id)
		if n < 0 || id == "" {
			return false
		}
		at += n
		before, _ := utf8.DecodeLastRuneInString(text[:at])
		after, _ := utf8.DecodeRuneInString(text[at+len(id):])
		if !part(before) && !part(after) {
			return true
		}
		at += len(id)
	}
}
