package note

import (
	"reflect"

	"ripeby/schedule"
)

// reviseStays numbers stays in the cold: those of batches at their first stage, by
// batch id and stage; those of stock by cheese and packing. What an earlier plan
// did not number counts as new.
func reviseStays(plan, earlier *schedule.Plan) {
	type known struct {
		note Stay
		edition
	}
	before := map[stageKey]known{}
	for k := range earlier.Batches {
		b := &earlier.Batches[k]
		for i, t := range b.Stages {
			if n, ok := OfStay(earlier, b, i); ok {
				before[stageKey{b.ID, t.Stage}] = known{n, edition{t.StaySequence, t.StayRevised}}
			}
		}
	}
	for k := range plan.Batches {
		b := &plan.Batches[k]
		for i := range b.Stages {
			t := &b.Stages[i]
			t.StaySequence, t.StayRevised = 0, 0
			n, ok := OfStay(plan, b, i)
			if !ok {
				continue
			}
			e := edition{0, plan.From}
			if old, had := before[stageKey{b.ID, t.Stage}]; had && old.moment != 0 {
				if e = old.edition; !reflect.DeepEqual(n, old.note) {
					e = e.next(plan.From)
				}
			}
			t.StaySequence, t.StayRevised = e.number, e.moment
		}
	}
	reviseStock(plan, earlier)
}

func reviseStock(plan, earlier *schedule.Plan) {
	oldNotes, oldOf := OfStock(earlier)
	before := map[stockKey]int{}
	editions := make([]edition, len(oldNotes))
	for i, k := range oldOf {
		if k >= 0 {
			s := &earlier.Stock[i]
			before[stockKey{s.Cheese, s.Packed}] = k
			editions[k] = edition{s.Sequence, s.Revised}
		}
	}
	notes, noteOf := OfStock(plan)
	for i, k := range noteOf {
		s := &plan.Stock[i]
		s.Sequence, s.Revised = 0, 0
		if k < 0 {
			continue
		}
		e := edition{0, plan.From}
		if old, had := before[stockKey{s.Cheese, s.Packed}]; had && editions[old].moment != 0 {
			if e = editions[old]; !reflect.DeepEqual(notes[k], oldNotes[old]) {
				e = e.next(plan.From)
			}
		}
		s.Sequence, s.Revised = e.number, e.moment
	}
}
