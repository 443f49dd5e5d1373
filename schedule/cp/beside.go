package cp

import (
	"slices"

	"ripeby/schedule/cp/global"
)

// What stays as it is while only a stretch of the plan is stated (horizon.go): jobs
// that do not change, what is under way and stock. It counts as taken.
//
//	beside   ████▄▄▄▄██▄▄▄▄▄▄█████
//	stated        ?  ? ?? ?

// taken is so many units gone between two ticks, rounded as what is planned would be,
// and cut off where nothing is planned.
func (k *asked) taken(from, until int, units int64) global.Taken {
	return global.Taken{From: k.g.down(max(from, k.m.From)), Until: min(k.g.up(min(until, k.m.Horizon+k.m.Step)), k.last), Units: int32(min(units, 1<<20))}
}

// heldBeside is what is held of a pool, and what of it has been planned: what has begun
// may hold more than there is.
func (k *asked) heldBeside(pool int) (all, planned []global.Taken) {
	if k.froze == nil {
		return nil, nil
	}
	for _, o := range k.froze.pools[pool] {
		t := k.taken(o.from, o.until, int64(o.amount))
		all = append(all, t)
		if !o.fact {
			planned = append(planned, t)
		}
	}
	return all, planned
}

// busyBeside is when a worker is busy.
func (k *asked) busyBeside(worker int) []global.Taken {
	if k.froze == nil {
		return nil
	}
	var out []global.Taken
	for _, b := range k.froze.busy[worker] {
		out = append(out, k.taken(b.from, b.until, 1))
	}
	return out
}

// loadBeside is the work, in steps, that already counts on a worker's day.
func (k *asked) loadBeside(worker, day int) int32 {
	if k.froze == nil {
		return 0
	}
	return k.g.long(k.froze.load[worker][day])
}

// drawnBeside is what has been drawn of an intake.
func (k *asked) drawnBeside(intake int) int64 {
	if k.froze == nil {
		return 0
	}
	return k.froze.drawn[intake]
}

// factsBeside reports whether boxes stand in a space since before the planning start.
func (k *asked) factsBeside(space int) bool {
	return k.froze != nil && slices.ContainsFunc(k.froze.spaces[space], func(v visit) bool { return v.fact })
}

// standBeside is what the boxes that stand in a space take of it, each visit so many
// units; where closings are heeded, without what stands there in spite of them.
func (k *asked) standBeside(space int, heed bool, units func(*visit) int64) []global.Taken {
	if k.froze == nil {
		return nil
	}
	var out []global.Taken
	for i := range k.froze.spaces[space] {
		if v := &k.froze.spaces[space][i]; !heed || !v.fact {
			out = append(out, k.taken(v.from, v.until, units(v)))
		}
	}
	return out
}

// standersBeside are the boxes beside that share a moment with some of the list; they
// stay where they stand.
func (p *putting) standersBeside(space int, list []stander) []stander {
	if p.k.froze == nil {
		return nil
	}
	var out []stander
	for i := range p.k.froze.spaces[space] {
		v := &p.k.froze.spaces[space][i]
		met := false
		for _, s := range list {
			met = met || v.from < s.until && s.from < v.until
		}
		if met && len(v.stacks) > 0 {
			out = append(out, stander{from: v.from, until: v.until, boxes: v.boxes, known: v.stacks, fact: true})
		}
	}
	return out
}

// countedBeside are the boxes beside in a space that is counted.
func (p *putting) countedBeside(space int) []stander {
	if p.k.froze == nil {
		return nil
	}
	var out []stander
	for i := range p.k.froze.spaces[space] {
		v := &p.k.froze.spaces[space][i]
		out = append(out, stander{from: v.from, until: v.until, boxes: v.boxes, fact: true})
	}
	return out
}
