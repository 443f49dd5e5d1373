package feed

import (
	"ripeby/calendar/said"
	"ripeby/calendar/seen"
	"ripeby/calendar/standing"
)

// WarningView is a warning of the plan, with the form on which who writes here answers it.
type WarningView struct {
	Text string
	Form *FormView // nil at an address to read at
}

// warningsShown is how many warnings begin the page at a time; all stand on the page of how the plan stands.
const warningsShown = 8

// warned are the warnings of today and later that who writes here has not answered; at an address to read
// at all of them, for who reads there is not known. more is how many there are besides.
func (v *View) warned() (all []WarningView, more int) {
	for _, w := range v.Plan.Warnings {
		past := w.At != 0 && w.At.DateIn(v.Problem.Kitchen.Zone).DaysUntil(v.today()) > 0
		if past || v.Writer != "" && v.seen.Has(v.Writer, w) {
			continue
		}
		if len(all) == warningsShown {
			more++
			continue
		}
		text := standing.WarningText(v.Problem, w)
		all = append(all, WarningView{text, v.form(said.About{Warning: seen.KeyOf(w)}, text, ButtonView{"seen", "Seen"})})
	}
	return all, more
}

// markSeen keeps that somebody has seen a warning of the plan.
func (s *Server) markSeen(person, warning string) error {
	s.seeing.Lock()
	defer s.seeing.Unlock()
	b := s.board.Load()
	if b.made == nil || !inKitchen(b.made.Problem, person) {
		return nil // nothing was asked
	}
	next := b.seen.With(person, warning, b.made.Plan.Warnings)
	if err := next.Keep(s.store); err != nil {
		return err
	}
	s.change(func(b *board) { b.seen = next })
	return nil
}
