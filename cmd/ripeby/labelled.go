package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"ripeby/calendar/label"
	"ripeby/config/fault"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record/trace"
)

// labelled finds the batches whose labels are asked for, and what is known of them.
type labelled struct {
	known   *trace.Archive
	problem *schedule.Problem
	plan    *schedule.Plan
	now     time.Time
	say     func(string)
}

// find answers a lot, an id or a target. A batch that the plan alone knows has no lot yet.
func (l labelled) find(word string) ([]label.Lot, error) {
	answers, err := l.known.Ask([]string{word})
	var unknown *trace.Unknown
	planned := l.plan.Named(word)
	if planned == nil && (err != nil || answers[0].Kind != trace.OfBatch || answers[0].Batches[0].Kept == nil) {
		if lot, ok, err := l.ofStock(word); ok {
			return []label.Lot{lot}, err
		}
	}
	switch {
	case errors.As(err, &unknown) && planned != nil:
		return nil, l.noLot(planned.ID)
	case errors.As(err, &unknown):
		if gifts := l.stockFor(word); len(gifts) > 0 {
			return l.ofTarget(&trace.Answer{}, word)
		}
		if waits := l.waiting(word, 0); len(waits) > 0 {
			return nil, l.noLot(waits...)
		}
		near := ""
		if n := fault.Nearest(word, unknown.Among); n != "" {
			near = fmt.Sprintf("; did you mean %q?", n)
		}
		return nil, wrong("there is no batch or target %q of which labels could be printed%s", fault.Clip(word), near)
	case err != nil:
		return nil, other("%w", err)
	}
	switch a := answers[0]; a.Kind {
	case trace.OfBatch:
		lot, err := l.lot(a.Batches[0])
		return []label.Lot{lot}, err
	case trace.OfTarget:
		return l.ofTarget(a, word)
	}
	return nil, wrong("%q is neither a batch nor a target; ripeby trace tells of it which lots there are", fault.Clip(word))
}

// noLot says that batches have no lot yet, and why that is no fault.
func (l labelled) noLot(ids ...string) error {
	has := "has"
	if len(ids) > 1 {
		has = "have"
	}
	return wrong("%s %s no lot yet, so there is nothing to write on a label: a lot is given when a make is said to have begun, or else at packing, by the next ripeby plan",
		schedule.Listed(ids), has)
}

// waiting are the batches that a target is to have at a moment, 0 for any, and that have no lot.
func (l labelled) waiting(target string, by resources.Moment) (ids []string) {
	for _, b := range l.plan.Batches {
		if b.Lot == "" && slices.ContainsFunc(b.For, func(s schedule.Share) bool {
			return (s.Target == target || strings.HasPrefix(s.Target, target+" 2")) && (by == 0 || s.By == by)
		}) {
			ids = append(ids, b.ID)
		}
	}
	return ids
}

// lot is what is known of a batch: packed as the record has it, else as it is planned.
func (l labelled) lot(b *trace.Batch) (label.Lot, error) {
	switch {
	case b.Balance.Lost:
		return label.Lot{}, wrong("%s is lost: it has no labels", b.ID)
	case b.Lot == "":
		return label.Lot{}, l.noLot(b.ID)
	case b.Kept == nil || len(b.Stages) == 0:
		return label.Lot{}, wrong("nothing was kept of %s but what the record says, so it is not known when it was packed", b.ID)
	}
	last := b.Stages[len(b.Stages)-1]
	out := label.Lot{Lot: b.Lot, Cheese: b.Cheese, Packed: last.Done, IsPacked: last.Known != trace.Planned}
	if b.Kept.Recipe != nil {
		out.Keeps = b.Kept.Recipe.Keeps
	}
	out.Labels = b.Balance.Made
	counted := false
	for _, e := range b.Entries {
		if l.known.StruckBy(e) != nil || !slices.Contains(b.Kept.Names(), e.Subject.Name) {
			continue
		}
		packing := e.Batch.Did == last.Name || out.IsPacked && e.At >= last.Start
		if e.Batch.Pieces.Given && packing && !counted {
			out.Labels, counted = e.Batch.Pieces.Value, true
		}
		if e.Batch.Gone.Given && !counted {
			out.Labels = max(0, out.Labels-e.Batch.Gone.Value)
		}
		if e.Batch.Weight.Given && packing {
			out.Weighed, out.Of = e.Batch.Weight.Value, e.Batch.Pieces.Or(out.Labels)
		}
	}
	if out.Of == 0 {
		out.Weighed = 0
	}
	return out, nil
}

// ofTarget are the batches that give to a target, each with as many labels as it gives: the next time
// that it is held, else the last.
func (l labelled) ofTarget(a *trace.Answer, word string) (lots []label.Lot, err error) {
	var by resources.Moment
	next := func(m resources.Moment) {
		if now := resources.MomentOf(l.now); by == 0 || by < now && m > by || m >= now && m < by {
			by = m
		}
	}
	for _, x := range a.Passed {
		next(x.By)
	}
	gifts := l.stockFor(word)
	for _, g := range gifts {
		next(g.by)
	}
	for _, x := range a.Passed {
		if x.By != by || x.Batch.Lot == "" { // what has no lot is told below
			continue
		}
		answers, err := l.known.Ask([]string{x.Batch.ID})
		if err != nil {
			return nil, other("%w", err)
		}
		lot, err := l.lot(answers[0].Batches[0])
		if err != nil {
			return nil, err
		}
		if lot.Labels = x.Pieces; x.Known == trace.Planned {
			lot.Labels = x.Planned
		}
		lots = addLabels(lots, lot)
	}
	if lots, err = l.stockLots(lots, gifts, by); err != nil {
		return nil, err
	}
	waits := l.waiting(word, by)
	switch {
	case len(lots) > 0 && len(waits) > 0:
		l.say("mind that there are no labels yet of what comes from " + schedule.Listed(waits) + ", for want of a lot")
	case len(lots) == 0 && len(waits) > 0:
		return nil, l.noLot(waits...)
	case len(lots) == 0:
		return nil, wrong("nothing with a lot goes to %s", fault.Clip(word))
	}
	return lots, nil
}
