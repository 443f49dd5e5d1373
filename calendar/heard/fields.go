package heard

import (
	"ripeby/calendar/said"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/measured"
)

// Field is where what a recipe asks for is filled in.
type Field struct {
	Name               string // of the field
	What, Limits, Unit string
	Digits             bool // a phone may show digits alone
}

// Fields are those of a stage of a batch, as the plan has them.
func (b *Beside) Fields(batch, stage string) []Field {
	t := b.Plan.Batch(batch).Stage(stage)
	if t == nil {
		return nil
	}
	return fieldsOf(t.Measures)
}

// BlankFields are those of what is not written down yet of a stage that was said to be done.
func (b *Beside) BlankFields(w *said.Word) []Field {
	if w.Did == "" || w.Batch == "" {
		return nil
	}
	return fieldsOf(measured.Blank(b.Measures(w.Batch), w.Did))
}

func fieldsOf(measures []schedule.Measure) (all []Field) {
	for i := range measures {
		m := &measures[i]
		all = append(all, Field{Name: said.MeasureField(m.What, m.Unit()), What: words.Printable(m.What), Limits: words.Printable(measured.Limits(m)),
			Unit: words.Printable(m.Unit()), Digits: digitsAlone(m)})
	}
	return all
}

// digitsAlone reports whether a number alone is wanted that is not below 0: keys for digits have no minus.
func digitsAlone(m *schedule.Measure) bool {
	isNumber := !m.From.IsZero() || !m.To.IsZero()
	return isNumber && m.From.Num >= 0 && m.To.Num >= 0 && m.Unit() != resources.Celsius && m.Unit() != resources.Fahrenheit
}
