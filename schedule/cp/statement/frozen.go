package statement

import (
	"slices"

	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/packing"
	"ripeby/schedule/cp/usage"
)

// What stays as it is while only a segment of the plan is stated ([search.Plan.CutOut]): jobs
// that do not change, what is under way and stock. It counts as taken.
//
//	frozen   ████▄▄▄▄██▄▄▄▄▄▄█████
//	stated        ?  ? ?? ?

// taken is so many units gone between two ticks, rounded as what is planned would be,
// and cut off where nothing is planned.
func (k *Statement) taken(from, until int, units int64) global.Taken {
	return global.Taken{From: k.Grid.Down(max(from, k.Model.From)), Until: min(k.Grid.Up(min(until, k.Model.Horizon+k.Model.Step)), k.last), Units: int32(min(units, 1<<20))}
}

// frozenHeld is what is held of a pool, and what of it has been planned: what has begun
// may hold more than there is.
func (k *Statement) frozenHeld(pool int) (all, planned []global.Taken) {
	if k.frozen == nil {
		return nil, nil
	}
	for _, o := range k.frozen.Pools[pool] {
		t := k.taken(o.From, o.Until, int64(o.Amount))
		all = append(all, t)
		if !o.Begun {
			planned = append(planned, t)
		}
	}
	return all, planned
}

// frozenWork is when a worker is busy.
func (k *Statement) frozenWork(worker int) []global.Taken {
	if k.frozen == nil {
		return nil
	}
	var out []global.Taken
	for _, b := range k.frozen.Busy[worker] {
		out = append(out, k.taken(b.From, b.Until, 1))
	}
	return out
}

// frozenLoad is the work, in steps, that already counts on a worker's day.
func (k *Statement) frozenLoad(worker, day int) int32 {
	if k.frozen == nil {
		return 0
	}
	return k.Grid.Long(k.frozen.Load[worker][day])
}

// frozenDrawn is what has been drawn of an intake.
func (k *Statement) frozenDrawn(intake int) int64 {
	if k.frozen == nil {
		return 0
	}
	return k.frozen.Drawn[intake]
}

// frozenBegun reports whether boxes stand in a space since before the planning start.
func (k *Statement) frozenBegun(space int) bool {
	return k.frozen != nil && slices.ContainsFunc(k.frozen.Spaces[space], func(v usage.Visit) bool { return v.Begun })
}

// frozenVisits is what the boxes that stand in a space take of it, each visit so many
// units; where closings are heeded, without what stands there in spite of them.
func (k *Statement) frozenVisits(space int, heed bool, units func(*usage.Visit) int64) []global.Taken {
	if k.frozen == nil {
		return nil
	}
	var out []global.Taken
	for i := range k.frozen.Spaces[space] {
		if v := &k.frozen.Spaces[space][i]; !heed || !v.Begun {
			out = append(out, k.taken(v.From, v.Until, units(v)))
		}
	}
	return out
}

// frozenStays are the frozen boxes that share a moment with some of the list; they
// stay where they stand.
func (p *Placing) frozenStays(space int, list []packing.Stay) []packing.Stay {
	if p.st.frozen == nil {
		return nil
	}
	var out []packing.Stay
	for i := range p.st.frozen.Spaces[space] {
		v := &p.st.frozen.Spaces[space][i]
		met := false
		for _, s := range list {
			met = met || v.From < s.Until && s.From < v.Until
		}
		if met && len(v.Stacks) > 0 {
			out = append(out, packing.Stay{From: v.From, Until: v.Until, Kind: v.Kind, Boxes: v.Boxes, Known: v.Stacks, Given: true, Fixed: true})
		}
	}
	return out
}

// frozenCounts are the frozen boxes in a space that is counted.
func (p *Placing) frozenCounts(space int) []packing.Stay {
	if p.st.frozen == nil {
		return nil
	}
	var out []packing.Stay
	for i := range p.st.frozen.Spaces[space] {
		v := &p.st.frozen.Spaces[space][i]
		out = append(out, packing.Stay{From: v.From, Until: v.Until, Boxes: v.Boxes, Given: true})
	}
	return out
}
