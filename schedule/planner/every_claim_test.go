package planner_test

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// leaves is when a way's cheese leaves the kitchen; served says whether with a target.
func (w *everyWay) leaves() resources.Moment { return max(w.end, -w.end) }
func (w *everyWay) served() bool             { return w.end > 0 }

// kit claims people and kit for the way that is being tried, pots apart.
func (l *lister) kit(claims []everyClaim) {
	w := &l.now
	for i, who := range w.who {
		if who < 0 {
			continue
		}
		work := resources.Span{From: w.starts[i], Until: w.starts[i].Add(w.works[i])}
		claims = append(claims, everyClaim{l.named["person "+l.p.Kitchen.People[who].Name], work.From, work.Until, 1, i >= len(l.fixed)})
		if t, day := l.dayOfWork(who, work.From); t >= 0 {
			claims = append(claims, everyClaim{t, day, day + 1, int64(w.works[i]), i >= len(l.fixed)})
		}
	}
	for _, run := range l.runs {
		if run.use.Kind != schedule.UsePot {
			name, count, clean := l.owned(run)
			claims = append(claims, l.claim(run, name, count, clean))
		}
	}
	w.pots = w.pots[:0]
	l.anyPots(0, claims)
}

// claim is the occupation of one run.
func (l *lister) claim(run everyRun, name string, count int, clean resources.Minutes) everyClaim {
	until := l.now.leaves()
	if next := run.last + 1; next < len(l.now.starts) {
		until = l.now.starts[next].Add(l.now.works[next])
	}
	return everyClaim{l.named[name], l.now.starts[run.first], until.Add(clean), int64(count), run.first >= len(l.fixed)}
}

// owned is what a run takes: its name, how many, and how long one is cleaned.
func (l *lister) owned(run everyRun) (string, int, resources.Minutes) {
	k := &l.p.Kitchen
	switch run.use.Kind {
	case schedule.UseMould:
		at := slices.IndexFunc(k.Moulds, func(m resources.Mould) bool { return m.Name == l.r.Mould })
		return l.r.Mould, l.pieces, k.Moulds[at].Clean
	case schedule.UseBox:
		at := slices.IndexFunc(k.Boxes, func(b resources.Box) bool { return b.Name == run.box.Name })
		return run.box.Name, filled(run.box, l.pieces), k.Boxes[at].Clean
	}
	at := slices.IndexFunc(k.Stations, func(s resources.Station) bool { return s.Name == run.use.Name })
	s, count := k.Stations[at], 1
	if s.TakesVolume > 0 {
		count = int((l.litres + s.TakesVolume - 1) / s.TakesVolume)
	}
	if s.TakesPieces > 0 {
		count = (l.pieces + s.TakesPieces - 1) / s.TakesPieces
	}
	return s.Name, count, s.Clean
}

// filled is how many boxes so many pieces fill.
func filled(b *schedule.Boxing, pieces int) int { return (pieces + b.Takes - 1) / b.Takes }

// anyPots tries every pot for the runs from k on.
func (l *lister) anyPots(k int, claims []everyClaim) {
	for k < len(l.runs) && l.runs[k].use.Kind != schedule.UsePot {
		k++
	}
	if k == len(l.runs) {
		l.now.at = l.now.at[:0]
		l.anyPlaces(0, claims, nil)
		return
	}
	run := l.runs[k]
	for _, pot := range l.p.Kitchen.Pots {
		known := ""
		if l.begun != nil && run.first < len(l.fixed) && run.use.Name == "" {
			known = l.begun.potOf(l.p, run.first)
		}
		has := known != ""
		switch {
		case has && pot.Name != known, !has && pot.Holds < l.litres, run.use.Name != "" && run.use.Name != pot.Name:
			continue
		}
		l.now.pots = append(l.now.pots, pot.Name)
		l.anyPots(k+1, append(slices.Clip(claims), l.claim(run, pot.Name, 1, pot.Clean)))
		l.now.pots = l.now.pots[:len(l.now.pots)-1]
		if run.first < len(l.fixed) {
			return // as it was: the pot written, or the first listed
		}
	}
}

// anyPlaces tries every place for the stays from stage i on.
func (l *lister) anyPlaces(i int, claims []everyClaim, stays []everyStay) {
	if i == len(l.now.starts) {
		l.keep(claims, stays)
		return
	}
	at := l.r.Stages[i].At
	next := i + 1 // the first stage of another stay
	for next < len(l.now.starts) && l.now.works[next] == 0 && l.r.Stages[next-1].Hold != nil && l.r.Stages[next-1].Hold.Most > 0 {
		next++
	}
	places := []string{"room"}
	if at.Kind != schedule.AtRoom {
		places = coldIn(&l.p.Kitchen, at)
	}
	if i < len(l.fixed) {
		done := len(l.fixed) - 1
		if at.Kind != schedule.AtRoom {
			places = l.begun.stoodAt(i, i <= done && done < next, places)
		}
		if x := l.mine(); x != nil && i <= done && done < next && x.to != "" && !x.later() {
			places = []string{x.to}
		}
	}
	for _, place := range places {
		before := len(l.now.at)
		for k := i; k < next; k++ {
			l.now.at = append(l.now.at, place)
			if k > i && next < len(l.fixed) { // it is over, and was carried meanwhile
				l.now.at[k] = l.begun.stoodAt(k, false, []string{place, l.begun.earlierAt(k)})[0]
			}
		}
		moreClaims, moreStays, open := l.stay(i, next, place)
		if done := len(l.fixed) - 1; i <= done && done < next {
			c, s := l.kept(l.mine())
			moreClaims, moreStays = append(moreClaims, c...), append(moreStays, s...)
		}
		if open {
			l.anyPlaces(next, append(slices.Clip(claims), moreClaims...), append(slices.Clip(stays), moreStays...))
		}
		l.now.at = l.now.at[:before]
	}
}

// stay is the space that stages i up to next take in a place; not open when that is
// closed meanwhile.
func (l *lister) stay(i, next int, place string) ([]everyClaim, []everyStay, bool) {
	from, until := l.now.starts[i].Add(l.now.works[i]), l.now.leaves()
	if next < len(l.now.starts) {
		until = l.now.starts[next]
	}
	planned := i >= len(l.fixed)
	if place == "room" || until <= from || !planned && until <= l.from {
		return nil, nil, true
	}
	box := boxingAt(l.r, i)
	claims, stays, open := l.space(place, box.Name, filled(box, l.pieces), resources.Span{From: from, Until: until}, i, planned)
	if !planned {
		stays = l.mine().standsAt(place, stays)
	}
	return claims, stays, open
}

// space is so many boxes in a cold place for a time.
func (e *everyWorld) space(place, box string, count int, stay resources.Span, stage int, planned bool) ([]everyClaim, []everyStay, bool) {
	k := &e.p.Kitchen
	at := slices.IndexFunc(k.Cold, func(c resources.ColdPlace) bool { return c.Name == place })
	closed := func(spans []resources.Span) bool { return slices.ContainsFunc(spans, stay.Overlaps) }
	if planned && closed(k.Cold[at].Taken) {
		return nil, nil, false
	}
	if !k.Cold[at].Measured() {
		return []everyClaim{{e.named[place], stay.From, stay.Until, int64(count), planned}}, nil, true
	}
	s := everyStay{place: at, boxes: count, from: stay.From, until: stay.Until, stage: stage, planned: planned, now: !planned && stay.From <= e.from}
	s.box = slices.IndexFunc(k.Boxes, func(b resources.Box) bool { return b.Name == box })
	for i, shelf := range k.Cold[at].Shelves {
		if !closed(shelf.Taken) {
			s.open |= 1 << i
		}
	}
	return nil, []everyStay{s}, count > 0
}

// keep adds the way that is being tried to the list.
func (l *lister) keep(claims []everyClaim, stays []everyStay) {
	w := l.now
	w.starts, w.works, w.who = slices.Clone(w.starts), slices.Clone(w.works), slices.Clone(w.who)
	w.at, w.pots = slices.Clone(w.at), slices.Clone(w.pots)
	w.claims, w.stays = slices.Clone(claims), slices.Clone(stays)
	l.out = append(l.out, w)
}

// stockWays lists when an entry of stock can leave: with each target it keeps for, or
// with none when it no longer keeps.
func (e *everyWorld) stockWays(entry int) []everyWay {
	s := &e.p.Stock[entry]
	r := e.p.Recipe(s.Cheese)
	ends := append(e.leaving(s.Cheese, s.Packed, r.Keeps), -s.Packed.Add(r.Keeps))
	kind := ""
	for i := range r.Stages {
		if b := boxingAt(r, i); b != nil {
			kind = b.Name
		}
	}
	var out []everyWay
	for _, end := range ends {
		w := everyWay{packed: s.Packed, end: end}
		stay := resources.Span{From: min(s.Packed, e.from-1), Until: w.leaves()}
		if kind != "" && s.Boxes > 0 {
			at := slices.IndexFunc(e.p.Kitchen.Boxes, func(b resources.Box) bool { return b.Name == kind })
			w.claims = append(w.claims, everyClaim{e.named[kind], stay.From, stay.Until.Add(e.p.Kitchen.Boxes[at].Clean), int64(s.Boxes), false})
			if s.At != "room" && w.leaves() >= e.from {
				at, x := s.At, e.sitter(-1, entry)
				if x != nil && x.to != "" && !x.later() {
					at = x.to
				}
				claims, stays, _ := e.space(at, kind, s.Boxes, stay, 0, false)
				stays = x.standsAt(at, stays)
				moreClaims, moreStays := e.kept(x)
				w.claims, w.stays = append(append(w.claims, claims...), moreClaims...), append(stays, moreStays...)
			}
		}
		out = append(out, w)
	}
	return out
}
