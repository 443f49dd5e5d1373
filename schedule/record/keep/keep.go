package keep

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
	"ripeby/schedule/record/follows"
)

// Kept is what is to be done when a plan is put in force.
type Kept struct {
	Batches []schedule.KeptBatch // to be kept, in the order of ids
	// Never are batches of which something was kept though they have not begun by the plan, or what
	// said so was struck: what was assumed of those was wrong.
	Never []string
	// Taken are batches whose id another batch had, of which something was kept: a plan that leaves
	// the earlier one out of account begins its numbers anew. What was made stays.
	Taken []string
}

// Batches gives what is to be kept now that a plan is put in force: every batch that has begun,
// those too that were over or lost before the plan began. before gives what was kept of a batch,
// nil for nothing.
func Batches(where *follows.Position, plan *schedule.Plan, before func(id string) *schedule.KeptBatch) (out Kept) {
	for i := range where.Lives {
		l := &where.Lives[i]
		k := keeping{p: where.Problem, life: l, b: l.Batch, before: before(l.Batch.ID)}
		if b := plan.Batch(k.b.ID); b != nil && b.Begun && !l.Lost {
			k.b, k.coming, k.carried = *b, b.For, plan.Carries
		}
		if l.Lost { // what was to come of it never will
			k.b.Stages = slices.DeleteFunc(slices.Clone(k.b.Stages), func(t schedule.Task) bool { return !t.Begun })
		}
		switch {
		case len(k.b.Stages) == 0:
		case k.another():
			out.Taken = append(out.Taken, k.b.ID)
		default:
			out.Batches = append(out.Batches, k.batch())
		}
	}
	not := slices.Clone(where.Never)
	for i := range plan.Batches {
		b := &plan.Batches[i]
		if was := where.Problem.Earlier.Batch(b.ID); !b.Begun && was != nil && was.Begun {
			not = append(not, b.ID)
		}
	}
	for _, id := range not {
		if before(id) != nil {
			out.Never = append(out.Never, id)
		}
	}
	slices.SortFunc(out.Batches, func(a, b schedule.KeptBatch) int { return schedule.CompareIDs(a.ID, b.ID) })
	return out
}

// another reports whether what was kept under the batch's id is of another one: the plan before
// does not know the batch, and what was kept was made at another time.
func (k *keeping) another() bool {
	old := k.before
	if old == nil || len(old.Stages) == 0 || k.p.Earlier.Batch(k.b.ID) != nil {
		return false
	}
	apart := k.b.Stages[0].Start.Sub(old.Stages[0].Start)
	return old.Cheese != k.b.Cheese || apart > resources.Day || apart < -resources.Day
}

// keeping is one batch while it is put together.
type keeping struct {
	p       *schedule.Problem // as the record leaves it
	life    *follows.Life
	b       schedule.Batch // as the new plan has it, else as it went
	coming  []schedule.Share
	carried []schedule.Carry // by the new plan, whatever batch they are of
	before  *schedule.KeptBatch
}

func (k *keeping) batch() schedule.KeptBatch {
	out := schedule.KeptBatch{Kitchen: k.p.Kitchen.Name, TimeZone: k.p.Kitchen.TimeZone,
		ID: k.b.ID, Lot: k.b.Lot, Cheese: k.b.Cheese, Lost: k.life.Lost, Litres: k.b.Litres, Pieces: k.b.Pieces + k.b.Gone, Spare: k.b.Spare,
		Counted: k.life.Counted, Milk: k.milk(), Recipe: k.recipe(), Stages: k.stages(), For: k.shares(), Carries: k.carries()}
	if e := k.life.OffPlan; e != nil {
		out.OffPlan = &schedule.MadeOffPlan{ID: out.ID, Cheese: out.Cheese, Nr: e.Nr, At: e.At}
	}
	if old := k.before; old != nil {
		if out.Lot == "" {
			out.Lot = old.Lot
		}
		if out.OffPlan == nil {
			out.OffPlan = old.OffPlan
		}
		if out.Counted == nil {
			out.Counted = old.Counted
		}
		if out.Milk == nil {
			out.Milk = old.Milk
		}
	}
	out.Pieces = needs.Made(&out, out.Litres, k.life.First)
	out.UseBy = k.useBy(&out)
	for _, said := range []struct {
		what    string
		assumed bool
	}{{"litres", !k.life.Litres}, {"pieces", !k.life.Pieces}, {"milk", out.Milk != nil && !k.life.Milk}} {
		if said.assumed {
			out.Assumed = append(out.Assumed, said.what)
		}
	}
	return out
}

// milk is what the batch drew on.
func (k *keeping) milk() *schedule.KeptMilk {
	d := k.b.Milk
	if d == nil {
		return nil
	}
	out := &schedule.KeptMilk{Draw: *d, Day: d.Collect.DateIn(k.p.Kitchen.Zone)}
	if m := k.p.Supply(d.Supply); m != nil {
		out.Day = schedule.CollectionDay(m, d.Collect, k.p.Kitchen.Zone)
	} else if k.before != nil && k.before.Milk != nil && k.before.Milk.Draw == *d {
		out.Day = k.before.Milk.Day
	}
	return out
}

// useBy is the date until which the maker holds it to be good: that of the packing plus keeps;
// none of what was lost.
func (k *keeping) useBy(out *schedule.KeptBatch) resources.Date {
	if out.Lost {
		return resources.Date{}
	}
	if r := k.p.Recipe(out.Cheese); r != nil {
		return out.Packed().Add(r.Keeps).DateIn(k.p.Kitchen.Zone)
	}
	if k.before != nil {
		return k.before.UseBy
	}
	return resources.Date{}
}
