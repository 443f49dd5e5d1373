package main

import (
	"ripeby/resources"
	"ripeby/schedule"
)

// worth is what plans are compared by, first to last and each to be small: how many batches
// nothing carries on, then the parts of the score in the planner's measures. Stages moved
// are left out, since nothing is stated that an earlier plan has.
type worth [8]int64

// Some of its parts, by their places.
const (
	partBatches = 4
	partLitres  = 5
	partStarts  = 7
)

// partNames are its parts in the order in which they count.
var partNames = [len(worth{})]string{"batches stuck", "promised short", "late", "short", "batches", "litres", "bother", "make starts"}

// worthOf is what a score is worth when so many batches are stuck.
func worthOf(x schedule.Score, stuck int) worth {
	return worth{int64(stuck), int64(x.PromisedShort), x.Late, int64(x.Short), int64(x.Batches), int64(x.Litres), x.Bother, -x.MakeStarts}
}

// stuckIn is how many batches of a plan nothing carries on: they list no more than has begun.
func stuckIn(p *schedule.Problem, plan *schedule.Plan) int {
	n := 0
	for _, b := range plan.Batches {
		if r := p.Recipe(b.Cheese); b.Begun && r != nil && len(b.Stages) < len(r.Stages) {
			n++
		}
	}
	return n
}

// scoreOf puts parts in the model's measures into a score, those that are not there being 0.
func (s *statement) scoreOf(parts []int64) schedule.Score {
	var all [len(worth{})]int64
	copy(all[:], parts)
	x := schedule.Score{PromisedShort: resources.Money(all[1]), Late: all[2], Short: resources.Money(all[3]), Batches: int(all[partBatches]),
		Litres: resources.Millilitres(all[partLitres]) * s.measure, Bother: all[6]}
	if len(parts) == len(all) {
		x.MakeStarts = all[partBatches]*int64(s.zero-s.p.From) + all[partStarts]*int64(s.step)
	}
	return x
}

// worthOf puts parts in the model's measures into the planner's.
func (s *statement) worthOf(parts []int64) worth {
	stuck := 0
	if len(parts) > 0 {
		stuck = int(parts[0])
	}
	return worthOf(s.scoreOf(parts), stuck)
}

// measured puts what a plan is worth into the model's measures.
func (s *statement) measured(x schedule.Score, stuck int) []int64 {
	n := int64(x.Batches)
	return []int64{int64(stuck), int64(x.PromisedShort), x.Late, int64(x.Short), n, int64(x.Litres / max(1, s.measure)), x.Bother,
		(x.MakeStarts - n*int64(s.zero-s.p.From)) / int64(s.step)}
}
