package judge

import (
	"fmt"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// run is consecutive stages of a batch, first to last, that keep the same kit.
type run struct {
	first, last int
	use         schedule.Use
	box         *schedule.Boxing // for boxes: which kind
}

// runs lists the runs of a recipe's stages up to the given number of stages. A
// stage starts a new run of what the stage before does not use, what it wants
// fresh, and another kind of box.
func runs(r *schedule.Recipe, stages int) []run {
	var out []run
	for i := 0; i < stages; i++ {
		for k, u := range r.Stages[i].Uses {
			if slices.Contains(r.Stages[i].Uses[:k], u) {
				continue
			}
			x := run{first: i, last: i, use: u}
			if u.Kind == schedule.UseBox {
				x.box = boxingOf(r, i)
			}
			if before := x.continues(out, slices.Contains(r.Stages[i].Fresh, u.Kind)); before != nil {
				before.last = i
				continue
			}
			out = append(out, x)
		}
	}
	return out
}

// continues finds the run that x only prolongs; nil when x is a new one.
func (x run) continues(runs []run, fresh bool) *run {
	for k := range runs {
		o := &runs[k]
		sameBox := x.box == o.box || x.box != nil && o.box != nil && *x.box == *o.box
		if !fresh && o.last == x.first-1 && o.use == x.use && sameBox {
			return o
		}
	}
	return nil
}

// count is how many things the run takes.
func (h *hearing) count(l *lot, x run) int {
	switch x.use.Kind {
	case schedule.UseMould:
		return l.batch.Pieces
	case schedule.UseBox:
		if x.box == nil {
			return 0
		}
		return ceilDiv(l.batch.Pieces, x.box.Takes)
	case schedule.UseStation:
		for _, s := range h.kitchen.Stations {
			if s.Name == x.use.Name {
				return perStation(s, l.batch)
			}
		}
	}
	return 1
}

// perStation is how many of a station a batch takes.
func perStation(s resources.Station, b *schedule.Batch) int {
	switch {
	case s.TakesVolume > 0:
		return int((b.Litres + s.TakesVolume - 1) / s.TakesVolume)
	case s.TakesPieces > 0:
		return ceilDiv(b.Pieces, s.TakesPieces)
	}
	return 1
}

// occupation gives the run's span: from its first stage's start until the work of
// the stage after it is done, or until the batch leaves.
func (l *lot) occupation(x run) resources.Span {
	s := resources.Span{From: l.batch.Stages[x.first].Start, Until: l.ends()}
	if x.last+1 < len(l.batch.Stages) {
		s.Until = l.work(x.last + 1).Until
	}
	return s
}

// names lists what the run may be called in the plan.
func (h *hearing) names(l *lot, x run) []string {
	switch x.use.Kind {
	case schedule.UseMould:
		return []string{l.recipe.Mould}
	case schedule.UseBox:
		if x.box == nil {
			return nil
		}
		return []string{x.box.Name}
	case schedule.UseStation:
		return []string{x.use.Name}
	}
	if x.first < l.begun {
		return h.begunPot(l, x)
	}
	return h.largePots(x.use.Name, l.batch.Litres)
}

// largePots lists the pots that hold so much: all of them, or the one named.
func (h *hearing) largePots(name string, litres resources.Millilitres) []string {
	var out []string
	for _, p := range h.kitchen.Pots {
		if (name == "" || name == p.Name) && p.Holds >= litres {
			out = append(out, p.Name)
		}
	}
	return out
}

// begunPot is the pot of a run that has begun: the one written, else the earlier
// plan's, else the first listed that is large enough.
func (h *hearing) begunPot(l *lot, x run) []string {
	if x.use.Name != "" {
		return []string{x.use.Name}
	}
	if l.past.pot != "" {
		return []string{l.past.pot}
	}
	if old := h.wentTask(l, x.first); old != nil {
		for _, u := range old.Uses {
			if h.potNamed(u.Thing) {
				return []string{u.Thing}
			}
		}
	}
	large := h.largePots("", l.batch.Litres)
	return large[:min(1, len(large))]
}

func (h *hearing) potNamed(name string) bool {
	for _, p := range h.kitchen.Pots {
		if p.Name == name {
			return true
		}
	}
	return false
}

// owned says how many there are and how long one is cleaned; false when the
// kitchen has no such thing.
func (h *hearing) owned(thing string) (count int, clean resources.Minutes, ok bool) {
	k := h.kitchen
	for _, x := range k.Pots {
		if x.Name == thing {
			return x.Count, x.Clean, true
		}
	}
	for _, x := range k.Stations {
		if x.Name == thing {
			return x.Count, x.Clean, true
		}
	}
	for _, x := range k.Moulds {
		if x.Name == thing {
			return x.Count, x.Clean, true
		}
	}
	for _, x := range k.Boxes {
		if x.Name == thing {
			return x.Count, x.Clean, true
		}
	}
	return 0, 0, false
}

// checkRuns: every run of kit stands at its first stage, under the right name,
// with the right count, from its start to its release and its cleaning; and
// nothing else stands there.
func checkRuns(h *hearing) {
	for _, l := range h.lots {
		if !l.sound {
			continue
		}
		all := runs(l.recipe, len(l.batch.Stages))
		for i := range l.batch.Stages {
			left := slices.Clone(l.batch.Stages[i].Uses)
			for _, x := range all {
				if x.first == i && h.count(l, x) > 0 {
					left = h.takeRun(l, x, left)
				}
			}
			for _, u := range left {
				if u.Count != 0 {
					h.failStage("kit-unknown", l, i, u.Thing, "got %d of %q, want nothing: no run of it starts here", u.Count, u.Thing)
				}
			}
		}
	}
}

// takeRun finds the entry for a run among those that stand at its stage, checks
// it, and gives the rest.
func (h *hearing) takeRun(l *lot, x run, entries []schedule.Occupied) []schedule.Occupied {
	names := h.names(l, x)
	at := slices.IndexFunc(entries, func(u schedule.Occupied) bool { return slices.Contains(names, u.Thing) })
	if at < 0 {
		if x.use.Kind == schedule.UsePot && x.first < l.begun && len(names) == 0 {
			// A begun batch too large for every pot: it has happened, in whatever pot.
			return slices.DeleteFunc(entries, func(u schedule.Occupied) bool { return h.potNamed(u.Thing) })
		}
		h.failStage("kit-missing", l, x.first, "", "got nothing of %q, want it: its use starts here", names)
		return entries
	}
	got, want := entries[at], schedule.Occupied{Thing: entries[at].Thing, Count: h.count(l, x)}
	s := l.occupation(x)
	want.From, want.Until = s.From, s.Until
	_, clean, _ := h.owned(got.Thing)
	want.CleanUntil = want.Until.Add(clean)
	if got.Count != want.Count {
		h.failStage("kit-count", l, x.first, got.Thing, "got %d, want %d", got.Count, want.Count)
	}
	if got.From != want.From || got.Until != want.Until || got.CleanUntil != want.CleanUntil {
		h.failStage("kit-span", l, x.first, got.Thing, "got %s to %s, clean at %s; want %s to %s, clean at %s",
			h.when(got.From), h.when(got.Until), h.when(got.CleanUntil), h.when(want.From), h.when(want.Until), h.when(want.CleanUntil))
	}
	return slices.Delete(entries, at, at+1)
}

// checkKitCounts: at no moment is more in use or being cleaned than there is.
func checkKitCounts(h *hearing) {
	claims := map[string][]claim{}
	var things []string
	add := func(thing string, c claim) {
		if _, known := claims[thing]; !known {
			things = append(things, thing)
		}
		claims[thing] = append(claims[thing], c)
	}
	for i := range h.plan.Stock {
		s := &h.plan.Stock[i]
		kind, boxes := h.stockBoxes(i)
		if _, clean, ok := h.owned(kind); ok {
			add(kind, claim{span: resources.Span{From: min(s.Packed, h.from-1), Until: s.Ends.Add(clean)}, count: boxes})
		}
	}
	for _, l := range h.lots {
		for i := 0; l.sound && i < len(l.batch.Stages); i++ {
			for _, u := range l.batch.Stages[i].Uses {
				span := resources.Span{From: u.From, Until: u.CleanUntil}
				if h.keptForever(l, i, u.Thing) {
					span.Until = forever
				}
				add(u.Thing, claim{span, u.Count, l.planned(i), l.batch.ID, l.batch.Stages[i].Stage})
				// In use for no time at all it still has to be there.
				if have, _, ok := h.owned(u.Thing); ok && l.begun == 0 && u.Count > have && span.From >= span.Until {
					h.failStage("kit-over", l, i, u.Thing, "got %d of %s in use, want at most %d", u.Count, u.Thing, have)
				}
			}
		}
	}
	for _, thing := range things {
		have, _, ok := h.owned(thing)
		if !ok {
			continue
		}
		for _, o := range overloads(claims[thing], have) {
			h.found = append(h.found, Violation{Rule: "kit-over", Batch: o.batch, Stage: o.stage, Thing: thing, At: o.span.From,
				Text: fmt.Sprintf("got %d of %s in use or being cleaned, want at most %d", o.taken, thing, have)})
		}
	}
}

// keptForever reports whether a stuck batch still has the thing whose run starts at
// stage i: the run goes on past its last begun stage.
func (h *hearing) keptForever(l *lot, i int, thing string) bool {
	if !l.stuck {
		return false
	}
	for _, x := range runs(l.recipe, len(l.batch.Stages)) {
		if x.first == i && x.last == len(l.batch.Stages)-1 && slices.Contains(h.names(l, x), thing) {
			return true
		}
	}
	return false
}
