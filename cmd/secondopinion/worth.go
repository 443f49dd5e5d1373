package main

import (
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
)

// worth is what plans are compared by, first to last and each to be small: how many batches
// nothing carries on, then the parts of the score in the planner's measures.
type worth [9]int64

// Some of its parts, by their places.
const (
	partBatches = 4
	partMoved   = 5
	partLitres  = 6
	partBother  = 7
	partStarts  = 8
)

// partNames are its parts in the order in which they count.
var partNames = [len(worth{})]string{"batches stuck", "promised short", "late", "short", "batches", "moved", "litres", "bother", "make starts"}

// tenthOf is one tenth of lateness in a worth: of plans that are as late the one with fewer holds
// past their most comes first, so each of those counts one on top.
const tenthOf = 1000

// overdue is what a plan's score does not tell: how many batches nothing carries on, and how many
// holds run past their most.
type overdue struct{ stuck, past int }

// worthOf is what a score is worth beside that.
func worthOf(x schedule.Score, o overdue) worth {
	return worth{int64(o.stuck), int64(x.PromisedShort), x.Late*tenthOf + int64(o.past), int64(x.Short), int64(x.Batches), int64(x.Moved), int64(x.Litres), x.Bother, -x.MakeStarts}
}

// overdueIn is so much of a plan. What nothing carries on lists no more than has begun; holds that
// were over before the planning start, and the store after packing, do not count.
func overdueIn(p *schedule.Problem, plan *schedule.Plan) overdue {
	var o overdue
	for _, b := range plan.Batches {
		r := p.Recipe(b.Cheese)
		if !b.Begun || r == nil {
			continue
		}
		stuck := len(b.Stages) < len(r.Stages)
		if stuck {
			o.stuck++
		}
		for i, t := range b.Stages {
			runs := stuck && i == len(b.Stages)-1
			if i < len(r.Stages)-1 && !runs && t.Ends >= p.From && t.Hold > needs.HoldOf(r, i, p.Kitchen.Step).Most {
				o.past++
			}
		}
	}
	return o
}

// scoreOf puts parts in the model's measures into a score, those that are not there being 0.
func (s *statement) scoreOf(parts []int64) schedule.Score {
	var all [len(worth{})]int64
	copy(all[:], parts)
	x := schedule.Score{PromisedShort: resources.Money(all[1]), Late: all[2] / tenthOf, Short: resources.Money(all[3]), Batches: int(all[partBatches]),
		Moved: int(all[partMoved]), Litres: resources.Millilitres(all[partLitres]) * s.measure, Bother: all[partBother]}
	if len(parts) == len(all) {
		x.MakeStarts = all[partBatches]*int64(s.zero-s.p.From) + all[partStarts]*int64(s.step)
	}
	return x
}

// worthOf puts parts in the model's measures into the planner's.
func (s *statement) worthOf(parts []int64) worth {
	var o overdue
	if len(parts) > 0 {
		o.stuck = int(parts[0])
	}
	if len(parts) > 2 {
		o.past = int(parts[2] % tenthOf)
	}
	return worthOf(s.scoreOf(parts), o)
}

// measured puts what a plan is worth into the model's measures.
func (s *statement) measured(x schedule.Score, o overdue) []int64 {
	n := int64(x.Batches)
	return []int64{int64(o.stuck), int64(x.PromisedShort), x.Late*tenthOf + int64(o.past), int64(x.Short), n, int64(x.Moved), int64(x.Litres / s.measure), x.Bother,
		(x.MakeStarts - n*int64(s.zero-s.p.From)) / int64(s.step)}
}

// overdue is that part of a worth.
func (w worth) overdue() overdue { return overdue{int(w[0]), int(w[2] % tenthOf)} }

// lateOf is what a hold of so many minutes adds to the lateness in a worth.
func lateOf(h needs.Hold, length resources.Minutes) int64 {
	if length <= h.Most {
		return 0
	}
	return h.Late(length)*tenthOf + 1
}
