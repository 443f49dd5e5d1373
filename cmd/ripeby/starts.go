package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"ripeby/resources"
	"ripeby/schedule"
)

// starts answers "when do I start for this?": for every target, in the order of
// their dates, when the make of each batch that serves it begins.
func (s summary) starts(w io.Writer) {
	targets := targetsOf(s.plan)
	if len(targets) == 0 {
		return
	}
	line(w, "")
	line(w, "When to start:")
	for _, t := range targets {
		s.item(w, fmt.Sprintf("%s, %s: %s.", t.name, resources.ShowMoment(t.by, s.zone), s.servedBy(t)))
	}
}

// target is what a plan's target is known by: its name may come again every week.
type target struct {
	name string
	by   resources.Moment
}

// targetsOf lists the targets of a plan once each, whatever each wants: the earliest
// first, and those of one moment as the plan has them.
func targetsOf(plan *schedule.Plan) []target {
	var all []target
	for _, t := range plan.Targets {
		if k := (target{t.Target, t.By}); !slices.Contains(all, k) {
			all = append(all, k)
		}
	}
	slices.SortStableFunc(all, func(a, b target) int { return int(a.by - b.by) })
	return all
}

// servedBy lists what serves a target, cheese by cheese in the order of its wants.
func (s summary) servedBy(of target) string {
	var cheeses []string
	for _, t := range s.plan.Targets {
		if (target{t.Target, t.By}) == of && !slices.Contains(cheeses, t.Cheese) {
			cheeses = append(cheeses, t.Cheese)
		}
	}
	var out []string
	for _, c := range cheeses {
		switch from := s.sourcesOf(c, of); {
		case len(from) > 0:
			out = append(out, c+" "+strings.Join(from, " and "))
		case !s.wants(c, of):
			out = append(out, c+" has left already")
		default:
			out = append(out, c+" cannot be had")
		}
	}
	return strings.Join(out, "; ")
}

// wants reports whether a target wants anything of a cheese: it does not where it was said what it took.
func (s summary) wants(cheese string, of target) bool {
	return slices.ContainsFunc(s.plan.Targets, func(t schedule.WantResult) bool {
		return t.Cheese == cheese && target{t.Target, t.By} == of && t.Wanted > 0
	})
}

// sourcesOf says of each batch and stock of a cheese that serves a target when it
// starts.
func (s summary) sourcesOf(cheese string, of target) []string {
	serves := func(list []schedule.Share) bool {
		return slices.ContainsFunc(list, func(x schedule.Share) bool { return target{x.Target, x.By} == of })
	}
	var out []string
	started := false // the batch before in the list starts too: the word is said once
	for _, k := range s.plan.Stock {
		if k.Cheese == cheese && serves(k.For) {
			out = append(out, "from stock")
		}
	}
	for _, b := range s.plan.Batches {
		switch {
		case b.Cheese != cheese || !serves(b.For):
		case b.Begun:
			out = append(out, b.ID+" is under way")
		default:
			text := fmt.Sprintf("%s (%s)", resources.ShowMoment(b.Stages[0].Start, s.zone), b.ID)
			if !started {
				text = "starts " + text
			}
			started = true
			out = append(out, text)
		}
	}
	return slices.Compact(out)
}
