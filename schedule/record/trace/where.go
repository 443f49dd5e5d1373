package trace

import (
	"ripeby/resources"
	"ripeby/schedule/record"
)

// Place is where something stands.
type Place struct {
	Name  string // "room" or a cold place
	Shelf string // "" where nobody said which
	Since resources.Moment
	Known Known
}

// where is where a batch stands by what was said last, else by its last stage that has come and what was
// to be carried since; nil where nobody knows.
func (a *Archive) where(s *source) *Place {
	var at *Place
	stage := ""
	for _, t := range a.stages(s) {
		if t.Known != Planned && t.At != "" {
			at, stage = &Place{Name: t.At, Since: t.Start, Known: Assumed}, t.Name
		}
	}
	if s.kept != nil {
		for _, c := range s.kept.Carries {
			if at != nil && c.Stage == stage {
				at = &Place{Name: c.To, Since: c.Start, Known: Assumed}
			}
		}
	}
	said := a.standing(s.entries).With(func(e *record.Entry) bool { return e.Batch.Stands.Given }).Latest()
	if said != nil && (at == nil || said.At >= at.Since) {
		v := said.Batch.Stands.Value
		at = &Place{Name: v.Place, Shelf: v.Shelf, Since: said.At, Known: Said}
	}
	return at
}
