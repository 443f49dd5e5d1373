package schedule

import "ripeby/resources"

// Measure is what a recipe has looked at and written down at a stage. From and To are the recipe's own limits, zero
// where it has none; Else is what it says where what is measured lies outside them, "" for nothing. No plan goes by
// it, and nothing is judged by it but what the recipe says.
type Measure struct {
	What, Stage string
	From, To    resources.Reading
	Else        string
}

// Unit is what a number is written in that is measured: "" where it has no unit, or where the recipe has no limit
// that would say so.
func (m *Measure) Unit() string {
	if m.From.IsZero() {
		return m.To.Unit
	}
	return m.From.Unit
}

// Measured is one thing that somebody said was measured of a batch, as written.
type Measured struct {
	What, Is string
	Stage    string // with which it was said; "" where it was said alone
	At       resources.Moment
	Who      string // "" where nobody is named
	Nr       int    // of the entry; 0 where it has none
}

// MeasuresAt are those of one stage; nil for none.
func (r *Recipe) MeasuresAt(stage string) (all []Measure) {
	for _, m := range r.Measures {
		if m.Stage == stage {
			all = append(all, m)
		}
	}
	return all
}

// Measures are those of all stages of a batch.
func (b *Batch) Measures() (all []Measure) {
	for i := range b.Stages {
		all = append(all, b.Stages[i].Measures...)
	}
	return all
}

// Measures are those of all stages of a batch that is kept.
func (b *KeptBatch) Measures() (all []Measure) {
	for i := range b.Stages {
		all = append(all, b.Stages[i].Measures...)
	}
	return all
}
