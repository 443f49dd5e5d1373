package main

import (
	"slices"
	"strings"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/measured"
	"ripeby/schedule/record"
)

// looked is what is to be measured of a batch, as the plan in force has it, or as it was kept, and when its stages
// began or are to.
type looked struct {
	names  []string
	all    []schedule.Measure
	starts map[string]resources.Moment
	work   map[string]resources.Minutes
}

// lookedAt finds a batch by any of its names; nil where nobody knows it.
func (k *recordKitchen) lookedAt(name string) *looked {
	if k.plan != nil {
		for _, batches := range [][]schedule.Batch{k.plan.Batches, k.plan.Past} {
			for i := range batches {
				b := &batches[i]
				if !slices.Contains(b.Names(), name) {
					continue
				}
				l := newLooked(b.Names(), b.Measures())
				for _, t := range b.Stages {
					l.starts[t.Stage], l.work[t.Stage] = t.Start, t.Work
				}
				return l
			}
		}
	}
	for i := range k.kept {
		b := &k.kept[i]
		if !slices.Contains(b.Names(), name) {
			continue
		}
		l := newLooked(b.Names(), b.Measures())
		for _, s := range b.Stages {
			l.starts[s.Stage], l.work[s.Stage] = s.Start, s.Work
		}
		return l
	}
	return nil
}

func newLooked(names []string, all []schedule.Measure) *looked {
	return &looked{names, all, map[string]resources.Moment{}, map[string]resources.Minutes{}}
}

// began is when a stage began by what was said, else by the plan.
func (l *looked) began(said record.Entries) func(stage string) resources.Moment {
	return func(stage string) resources.Moment {
		if e, _ := said.Began(stage).First(); e != nil {
			return e.At
		}
		if e, _ := said.Did(stage).First(); e != nil {
			return e.At.Add(-l.work[stage])
		}
		return l.starts[stage]
	}
}

// askedOf are the names of what is to be measured of the batch that a command line begins with.
func (k *recordKitchen) askedOf(args []string) (names []string) {
	if len(args) == 0 {
		return nil
	}
	if l := k.lookedAt(args[0]); l != nil {
		for _, m := range l.all {
			names = append(names, m.What)
		}
	}
	return names
}

// measured says of an entry what of what it measured lies outside the recipe's limits, and of a stage that was done
// what is not written down yet.
func (k *recordKitchen) measured(e *record.Entry) (outside []string, blank []schedule.Measure) {
	if e.Subject.Kind != record.OfBatch {
		return nil, nil
	}
	l := k.lookedAt(e.Subject.Name)
	if l == nil {
		return nil, nil
	}
	said := append(k.said.Of(record.OfBatch, l.names...).With(func(o *record.Entry) bool { return o.Nr == 0 || !slices.Contains(e.Strikes, o.Nr) }), e)
	for _, s := range (record.Entries{e}).Measured() {
		if m := measured.Find(l.all, l.began(said), &s); m != nil {
			if text := measured.Outside(m, s.Is); text != "" {
				outside = append(outside, text)
			}
		}
	}
	if e.Batch.Did != "" {
		blank = measured.Blank(measured.Rows(l.all, l.began(said), said.Measured()), e.Batch.Did)
	}
	return outside, blank
}

// stillBlank says what is not written down yet of a stage, and how it is said.
func (k *recordKitchen) stillBlank(e *record.Entry, blank []schedule.Measure) string {
	sample := blank[0].What + " …"
	if unit := blank[0].Unit(); unit != "" {
		sample += " " + unit
	}
	return "Not written down yet of " + e.Batch.Did + ": " + measured.Lines(blank) + ". Say it with: ripeby record" + kitchen{folder: k.folder}.as() +
		" measured " + e.Subject.Name + ` "` + sample + `"`
}

// measuredOnThePage says before what an entry means for the plan what lies outside, and what is not written down.
func (k *recordKitchen) measuredOnThePage(e *record.Entry, means string) string {
	outside, blank := k.measured(e)
	var parts []string
	for _, text := range outside {
		parts = append(parts, strings.TrimSuffix(text, ".")+".")
	}
	if len(blank) > 0 {
		parts = append(parts, "Not written down yet: "+measured.Lines(blank)+".")
	}
	if means != "" {
		parts = append(parts, means)
	}
	return strings.Join(parts, " ")
}
