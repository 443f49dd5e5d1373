package demo_test

import (
	"fmt"
	"slices"

	"ripeby/schedule"
)

// checkBegun: what began stays exactly as it was, and what began is never planned
// again: it goes on, or it is over.
func (s *season) checkBegun(before *schedule.Plan) {
	s.t.Helper()
	told := map[string]bool{}
	for _, b := range s.p.Begun {
		told[b.ID] = true
	}
	now := map[string]*schedule.Batch{}
	for i := range s.plan.Batches {
		now[s.plan.Batches[i].ID] = &s.plan.Batches[i]
	}
	for _, old := range before.Batches {
		b := now[old.ID]
		if b == nil || old.Stages[0].Start >= s.p.From {
			continue
		}
		if !b.Begun {
			s.t.Errorf("%s: got it planned again, want it under way", old.ID)
		}
		for i := 0; i < len(b.Stages) && b.Stages[i].Begun && !told[b.ID]; i++ {
			got, want := b.Stages[i], old.Stages[i]
			if got.Start != want.Start || got.Work != want.Work || got.Who != want.Who || got.At != want.At {
				s.t.Errorf("%s %s: got %d + %d by %q at %s, want %d + %d by %q at %s as it was", b.ID, got.Stage,
					got.Start, got.Work, got.Who, got.At, want.Start, want.Work, want.Who, want.At)
			}
		}
	}
}

// checkIDs: an id that has gone never comes back, a batch that stayed as it was
// keeps its id, and so its place in the calendar.
func (s *season) checkIDs(before *schedule.Plan) {
	s.t.Helper()
	now := map[string]bool{}
	for _, b := range s.plan.Batches {
		now[b.ID] = true
		if gone, known := s.ids[b.ID]; known && gone {
			s.t.Errorf("%s: got an id that had gone, want a new one", b.ID)
		}
	}
	same := func(a, b *schedule.Batch) bool {
		return a.Cheese == b.Cheese && a.Litres == b.Litres && a.Stages[0].Start == b.Stages[0].Start &&
			a.Stages[len(a.Stages)-1].Ends == b.Stages[len(b.Stages)-1].Ends
	}
	for i := range before.Batches {
		old := &before.Batches[i]
		if slices.Contains(s.lost, old.ID) {
			continue
		}
		for k := range s.plan.Batches {
			if b := &s.plan.Batches[k]; same(old, b) && b.ID != old.ID && !now[old.ID] {
				s.t.Errorf("%s: got the id %s for a batch that stayed as it was", old.ID, b.ID)
			}
		}
		s.ids[old.ID] = !now[old.ID]
	}
}

// checkPromises: in a week without a disturbance no promise is broken that the plan
// before kept.
func (s *season) checkPromises(before *schedule.Plan) {
	s.t.Helper()
	kept := map[string]int{}
	for _, w := range before.Targets {
		if w.Promised {
			kept[fmt.Sprint(w.Target, w.By, w.Want)] = w.Met
		}
	}
	for _, w := range s.plan.Targets {
		if was, known := kept[fmt.Sprint(w.Target, w.By, w.Want)]; known && w.Promised && w.Met < was {
			s.t.Errorf("%s: got %d promised pieces of %s, the plan before had %d", w.Target, w.Met, w.Cheese, was)
		}
	}
}

// checkGiven: nothing is given twice, whatever has left before counted in.
func (s *season) checkGiven() {
	s.t.Helper()
	for i := range s.plan.Batches {
		b := &s.plan.Batches[i]
		r := s.p.Recipe(b.Cheese)
		made := int(int64(b.Litres) * int64(r.Yield.Pieces) / int64(r.Yield.From))
		sum := s.given[b.ID]
		for _, sh := range b.For {
			sum += sh.Pieces
		}
		if sum > made-r.Spare {
			s.t.Errorf("%s: got %d pieces given in all, want at most %d of %d", b.ID, sum, made-r.Spare, made)
		}
	}
	for _, w := range s.plan.Targets {
		if n := s.wants[fmt.Sprintf("%s/%d", w.Target, w.Want)] + w.Met; n > w.Wanted {
			s.t.Errorf("%s: got %d of %s in all, want at most %d", w.Target, n, w.Cheese, w.Wanted)
		}
	}
}
