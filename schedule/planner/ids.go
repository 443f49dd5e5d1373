package planner

import (
	"sort"

	"ripeby/resources"
	"ripeby/schedule"
)

// giveIDs gives every new batch its id: that of the earlier plan's batch which is
// recognisably the same, else a number never used before.
func (pl *Stated) giveIDs(plan *schedule.Plan) {
	used := pl.p.NumbersGiven()
	pl.keepIDs(plan)
	for i := range plan.Batches {
		b := &plan.Batches[i]
		if b.ID != "" {
			continue
		}
		b.ID = used.Next(pl.p.Recipe(b.Cheese).LotDay(b.Stages[0].Start.DateIn(pl.p.Kitchen.Zone)))
	}
	plan.LastNumber = used.List()
}

// match is a new batch and one of the earlier plan that may be the same.
type match struct {
	batch, earlier int
	stay           int // stages that begin when they did
	shared         int // pieces for targets that both serve
	apart          resources.Minutes
}

// keepIDs gives new batches that the engine has left without one the ids of the earlier plan's batches
// of the same cheese, which moves nothing more: most stages that do not move first, whatever goes to whom, so that nothing is said
// to move that stays; then most in common of what they serve, then the nearest make.
func (pl *Stated) keepIDs(plan *schedule.Plan) {
	e := pl.p.Earlier
	if e == nil {
		return
	}
	taken := map[string]bool{}
	for i := range plan.Batches {
		taken[plan.Batches[i].ID] = true
	}
	for _, id := range pl.p.Lost {
		taken[id] = true
	}
	var all []match
	for i := range plan.Batches {
		for k := range e.Batches {
			a, b := &plan.Batches[i], &e.Batches[k]
			if a.ID != "" || taken[b.ID] || a.Cheese != b.Cheese || !pl.mayBeAgain(b) {
				continue
			}
			m := match{i, k, staying(a, b), commonPieces(a, b), a.Stages[0].Start.Sub(b.Stages[0].Start)}
			if m.apart < 0 {
				m.apart = -m.apart
			}
			if m.shared > 0 || m.apart <= 2*resources.Day {
				all = append(all, m)
			}
		}
	}
	sort.SliceStable(all, func(i, k int) bool {
		if all[i].stay != all[k].stay {
			return all[i].stay > all[k].stay
		}
		if all[i].shared != all[k].shared {
			return all[i].shared > all[k].shared
		}
		return all[i].apart < all[k].apart
	})
	for _, m := range all {
		id := e.Batches[m.earlier].ID
		if plan.Batches[m.batch].ID == "" && !taken[id] {
			plan.Batches[m.batch].ID, taken[id] = id, true
		}
	}
}

// staying is how many stages of two batches begin at the same moment.
func staying(a, b *schedule.Batch) int {
	n := 0
	for i := range min(len(a.Stages), len(b.Stages)) {
		if a.Stages[i].Start == b.Stages[i].Start {
			n++
		}
	}
	return n
}

// commonPieces is how many pieces two batches give to the same wants.
func commonPieces(a, b *schedule.Batch) int {
	n := 0
	for _, x := range a.For {
		for _, y := range b.For {
			if x.Target == y.Target && x.Want == y.Want {
				n += min(x.Pieces, y.Pieces)
			}
		}
	}
	return n
}
