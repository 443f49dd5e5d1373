package trace

import (
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
)

// Known is how something is known.
type Known string

// The ways in which something is known.
const (
	Said    Known = "said"    // by somebody: in the record, or in begun.yaml
	Assumed Known = "assumed" // nobody said so: as planned
	Planned Known = "planned" // it had not come when a plan was last kept
)

// Stage is one stage of a batch: when it was to be, and when it was.
type Stage struct {
	Name    string
	Planned resources.Moment // the start by the last plan before it began; 0 where no plan had it
	Start   resources.Moment
	Done    resources.Moment // when its work was over
	Who     string
	At      string // "room" or a cold place; "" where it is not known
	Known   Known
	Uses    []schedule.Occupied
	// Began and Did are the entries that say so; nil where none does.
	Began, Did *record.Entry
}

// stages are those of a batch, in order: of one that only the record knows of those that it
// names.
func (a *Archive) stages(s *source) (out []Stage) {
	of := a.standing(s.entries).With(func(e *record.Entry) bool {
		return e.Subject.Kind == record.OfBatch || e.Subject.Kind == record.OfCheese
	})
	if s.kept == nil {
		return stagesSaid(of)
	}
	over := resources.Moment(0) // when the last stage that was said was over
	for i := range s.kept.Stages {
		k := &s.kept.Stages[i]
		t := Stage{Name: k.Stage, Planned: k.Planned, Start: k.Start, Done: k.Start.Add(k.Work), Who: k.Who, At: k.At, Uses: k.Uses, Known: Planned}
		t.Began, _ = of.Began(k.Stage).First()
		t.Did, _ = of.Did(k.Stage).First()
		switch {
		case t.Began != nil || t.Did != nil:
			t.said(k, over)
		case k.Begun && k.Said == schedule.SaidByBegun:
			t.Known = Said
		case k.Begun:
			t.Known = Assumed // so is what was said when the plan was kept, and has been struck since
		}
		if t.Known == Said {
			over = t.Done
		}
		out = append(out, t)
	}
	return out
}

// said takes over what entries say of a stage: a start; or that the work was done, less its work,
// but not before the last stage that was said was over.
func (t *Stage) said(k *schedule.KeptStage, over resources.Moment) {
	t.Known = Said
	switch {
	case t.Began != nil:
		t.Start, t.Done = t.Began.At, t.Began.At.Add(k.Work)
	case k.Begun && k.Said == schedule.SaidByRecord && k.Start <= t.Did.At:
		t.Start = k.Start
	default:
		t.Start = min(max(t.Did.At.Add(-k.Work), over), t.Did.At)
	}
	if t.Did != nil {
		t.Done = max(t.Did.At, t.Start)
	}
	for _, e := range []*record.Entry{t.Began, t.Did} {
		if e != nil && e.Who != "" {
			t.Who = e.Who
		}
	}
}

// stagesSaid are the stages that entries name, in the order in which they were.
func stagesSaid(of record.Entries) (out []Stage) {
	for _, e := range of.ByTime() {
		for _, name := range []string{e.Batch.Began, e.Batch.Did} {
			known := func(t *Stage) bool { return t.Name == name }
			if name == "" || find(out, known) != nil {
				continue
			}
			t := Stage{Name: name, Known: Said}
			t.Began, _ = of.Began(name).First()
			t.Did, _ = of.Did(name).First()
			t.said(&schedule.KeptStage{}, 0)
			out = append(out, t)
		}
	}
	return out
}

// find gives the first of a list that fits; nil for none.
func find[T any](list []T, fits func(*T) bool) *T {
	for i := range list {
		if fits(&list[i]) {
			return &list[i]
		}
	}
	return nil
}
