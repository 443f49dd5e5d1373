package trace

import (
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
)

// Made is what is known of a batch that was kept, for whoever learns from it.
type Made struct {
	*schedule.KeptBatch
	Said    record.Entries        // of the batch itself, that are not struck, in the order of writing
	Lost    bool                  // by what was kept, or said since
	Left    resources.Moment      // when pieces of it left first; 0 where none have
	Weighed []Weighed             // in the order of moments
	Filled  resources.Millilitres // how much milk went into it
	// FilledSaid tells that somebody said so, or that its make went as planned.
	FilledSaid bool
}

// Weighed is one weighing of all that there was of a batch.
type Weighed struct {
	At     resources.Moment
	Weight resources.Milligrams
	Pieces int    // that there were
	Stage  string // the last that was said until then; "" for none
}

// Made gives every batch that was kept, in the order in which they were made.
func (a *Archive) Made() (out []Made) {
	for _, s := range a.sources {
		if s.kept != nil {
			out = append(out, a.madeOf(s))
		}
	}
	return out
}

func (a *Archive) madeOf(s *source) Made {
	of := a.standing(s.entries).With(func(e *record.Entry) bool {
		return e.Subject.Kind == record.OfBatch || e.Subject.Kind == record.OfCheese
	})
	m := Made{KeptBatch: s.kept, Said: of, Lost: s.kept.Lost, Filled: of.Litres(s.kept.Litres)}
	for _, e := range of {
		m.Lost = m.Lost || e.Batch.Lost
		m.FilledSaid = m.FilledSaid || e.Batch.Litres.Given
	}
	if stages := a.stages(s); len(stages) > 0 {
		m.FilledSaid = m.FilledSaid || stages[0].Known == Said
	}
	leavings := a.leavings(s)
	for _, l := range leavings {
		if l.Pieces > 0 && (m.Left == 0 || l.By < m.Left) {
			m.Left = l.By
		}
	}
	all, _ := made(s, of)
	for _, e := range of.With(func(e *record.Entry) bool { return e.Batch.Weight.Value > 0 }).ByTime() {
		pieces, _ := here(s, of, leavings, all, e.At)
		m.Weighed = append(m.Weighed, Weighed{At: e.At, Weight: e.Batch.Weight.Value, Pieces: pieces, Stage: saidUntil(of, e)})
	}
	return m
}

// saidUntil is the last stage of which somebody said, until a weighing or with it, that it began or was done.
func saidUntil(of record.Entries, weighing *record.Entry) string {
	stage := ""
	for _, e := range of.ByTime() {
		for _, name := range []string{e.Batch.Began, e.Batch.Did} {
			if name != "" && e.At <= weighing.At {
				stage = name
			}
		}
	}
	return stage
}
