package note

import (
	"reflect"
	"slices"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// Caution is one caution of a day, with the cheeses that it is about.
type Caution struct {
	Text    string
	Cheeses []string
}

// Cautions are the cautions of a plan's days. Each day's stand with its first piece of work, once
// for all of the day: a calendar in which they stood with every piece would have them overlooked.
type Cautions struct{ everybody, own map[stageKey][]Caution }

// CautionsOf works out which cautions stand where, by the local days of a zone.
func CautionsOf(plan *schedule.Plan, zone *time.Location) Cautions {
	var all []stageIn
	for k := range plan.Batches {
		b := &plan.Batches[k]
		for i := range b.Stages {
			if b.Stages[i].Work > 0 {
				all = append(all, stageIn{b, i})
			}
		}
	}
	slices.SortStableFunc(all, func(x, y stageIn) int { return int(x.task().Start - y.task().Start) })
	type day struct {
		date resources.Date
		who  string
	}
	c := Cautions{map[stageKey][]Caution{}, map[stageKey][]Caution{}}
	first, ownFirst := map[day]stageKey{}, map[day]stageKey{}
	for _, at := range all {
		t := at.task()
		date := t.Start.DateIn(zone)
		for _, of := range []struct {
			day   day
			first map[day]stageKey
			at    map[stageKey][]Caution
		}{{day{date, ""}, first, c.everybody}, {day{date, t.Who}, ownFirst, c.own}} {
			k, known := of.first[of.day]
			if !known {
				k = stageKey{at.batch.ID, t.Stage}
				of.first[of.day] = k
			}
			of.at[k] = at.addTo(of.at[k], plan)
		}
	}
	return c
}

// Of are the cautions that stand with a stage's work, in everybody's calendar or in that of who does
// it.
func (c Cautions) Of(batch, stage string, own bool) []Caution {
	if own {
		return c.own[stageKey{batch, stage}]
	}
	return c.everybody[stageKey{batch, stage}]
}

// same reports whether the same cautions stand with a stage's work.
func (c *Cautions) same(o *Cautions, at stageKey) bool {
	return reflect.DeepEqual(c.everybody[at], o.everybody[at]) && reflect.DeepEqual(c.own[at], o.own[at])
}

func (at stageIn) task() *schedule.Task { return &at.batch.Stages[at.stage] }

// addTo adds what is to be minded from this work until the next: the cautions of these stages, and
// with a batch's first and last work those of the cheese as a whole. Each text stands once.
func (at stageIn) addTo(cautions []Caution, plan *schedule.Plan) []Caution {
	b := at.batch
	next := at.stage + 1
	for next < len(b.Stages) && b.Stages[next].Work == 0 {
		next++
	}
	whole := next == len(b.Stages) || !anyWork(b.Stages[:at.stage])
	for _, c := range plan.Cautions {
		of := func(t schedule.Task) bool { return t.Stage == c.Stage }
		if c.Cheese != b.Cheese || c.Stage == "" && !whole || c.Stage != "" && !slices.ContainsFunc(b.Stages[at.stage:next], of) {
			continue
		}
		i := slices.IndexFunc(cautions, func(o Caution) bool { return o.Text == c.Text })
		if i < 0 {
			i = len(cautions)
			cautions = append(cautions, Caution{Text: c.Text})
		}
		if !slices.Contains(cautions[i].Cheeses, c.Cheese) {
			cautions[i].Cheeses = append(cautions[i].Cheeses, c.Cheese)
		}
	}
	return cautions
}
