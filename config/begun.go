package config

import (
	"fmt"
	"slices"

	"ripeby/config/keys"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
)

// begunFile reads begun.yaml: an empty file says that nothing is under way.
func (l *loader) begunFile(p *page) {
	if p.root == nil {
		return
	}
	known := keys.Begun()
	o, ok := p.object(p.root, wholeFile, known.Example, known)
	if !ok {
		return
	}
	if m, ok := either(o, "as_of", -1, l.moment); ok && o.get("as_of") != nil && l.happened(o, "as_of", m) {
		l.problem.AsOf = &m
	}
	var ids register
	for _, f := range o.objects("begun", "begun batch") {
		l.begun(f, &ids)
	}
	l.stock(o)
	l.ordered(o)
	l.lost(o, ids)
}

// begun reads one batch under way.
func (l *loader) begun(f *object, ids *register) {
	before := len(l.faults)
	var b schedule.Begun
	b.ID, _ = ids.claim(f, "id", nameText)
	b.Cheese, _ = l.cheese(f)
	b.Litres, _ = take(f, "litres", above0(resources.ParseLitres))
	b.Pieces, _ = either(f, "pieces", -1, whole(0, MaxPieces))
	l.has(f, &b)
	r := l.problem.Recipe(b.Cheese)
	if r == nil || !l.sound[b.Cheese] {
		r = nil
	}
	starts := l.starts(f, r)
	if r == nil || len(l.faults) > before || len(f.meant) > 0 {
		return
	}
	if made := needs.Pieces(r, b.Litres); made < 1 {
		f.fault("litres", Fault{What: "so little milk gives no piece of this cheese", Got: resources.FormatLitres(b.Litres)})
		return
	} else if b.Pieces > made {
		f.fault("pieces", Fault{What: fmt.Sprintf("%d pieces are left of a batch that made only %d", b.Pieces, made), Want: fmt.Sprintf("pieces: %d", made)})
		return
	}
	b.Stages = l.prefix(f, r, &b, starts)
	l.problem.Begun = append(l.problem.Begun, b)
}

// has reads the kit and place of a begun batch.
func (l *loader) has(f *object, b *schedule.Begun) {
	o, ok := f.inner("has")
	if !ok {
		return
	}
	k := l.problem.Kitchen
	if b.Pot, ok = o.text("pot"); ok {
		o.knownName(o.get("pot"), "pot", b.Pot, "pot", namesOf(k.Pots, func(p resources.Pot) string { return p.Name }), l.sure["pots"])
	}
	if b.At, ok = o.text("at"); ok {
		l.coldPlace(o, "at", b.At)
	}
}

// coldPlace sees that a cold place exists.
func (l *loader) coldPlace(o *object, key, name string) {
	o.knownName(o.get(key), key, name, "cold place",
		namesOf(l.problem.Kitchen.Cold, func(c resources.ColdPlace) string { return c.Name }), l.sure["cold"])
}

// starts reads when the stages began, by name. With no sound recipe only the
// moments are read.
func (l *loader) starts(f *object, r *schedule.Recipe) map[string]resources.Moment {
	n := f.get("stages")
	if n == nil {
		f.missing("stages")
		return nil
	}
	o, ok := f.page.object(n, f.label+", stages", f.shown("stages"), f.keys.Key("stages").In)
	if !ok {
		return nil
	}
	starts := map[string]resources.Moment{}
	// In the order of the file, so that faults come in the order of the file.
	for i := 0; i+1 < len(o.node.Content); i += 2 {
		key := solid(o.node.Content[i]).Value
		if o.fields[key] == nil {
			continue // complained of already
		}
		if r != nil {
			names := namesOf(r.Stages, func(s schedule.Stage) string { return s.Name })
			if !o.knownName(o.node.Content[i], key, key, "stage", names, true) {
				continue
			}
		}
		m, ok := take(o, key, l.moment)
		if ok && l.happened(o, key, m) {
			starts[key] = m
		}
	}
	return starts
}

// happened sees that a moment of the past is one, and not too long ago.
func (l *loader) happened(o *object, key string, m resources.Moment) bool {
	if !l.fromKnown || !l.zoneKnown {
		return true
	}
	switch from := l.problem.From; {
	case m > from:
		o.fault(key, Fault{What: "this is after the planning start, " + resources.FormatMoment(from, l.problem.Kitchen.Zone) + "; only what has happened stands here, or plan from a later moment with --from",
			Got: shownText(o, key)})
		return false
	case from.Sub(m) > MaxPastDays*resources.Day:
		o.fault(key, Fault{What: fmt.Sprintf("this is longer ago than the limit of %d days", MaxPastDays), Got: shownText(o, key)})
		return false
	}
	return true
}

// prefix puts the begun stages in the recipe's order and sees that none is left
// out and none began before the one ahead of it. A stage without work that must
// follow at once may be left out: it began when the work before it was done.
func (l *loader) prefix(f *object, r *schedule.Recipe, b *schedule.Begun, starts map[string]resources.Moment) []schedule.BegunStage {
	last := -1
	for i, s := range r.Stages {
		if _, ok := starts[s.Name]; ok {
			last = i
		}
	}
	if last < 0 {
		f.fault("stages", Fault{What: "at least the first stage has begun", Want: "stages: {" + r.Stages[0].Name + ": 2027-03-12 07:30}"})
		return nil
	}
	var begun []schedule.BegunStage
	for i, s := range r.Stages[:last+1] {
		start, ok := starts[s.Name]
		if !ok {
			if !followsAtOnce(r, i) {
				f.fault("stages", Fault{What: fmt.Sprintf("%q has begun, so %q before it has begun too; say when", r.Stages[last].Name, s.Name)})
				return nil
			}
			start = l.atOnce(r, i, b, begun, starts)
		}
		if n := len(begun); n > 0 && start < begun[n-1].Start {
			f.fault("stages", Fault{What: fmt.Sprintf("%q begins before %q, which the recipe has ahead of it", s.Name, begun[n-1].Stage)})
			return nil
		}
		begun = append(begun, schedule.BegunStage{Stage: s.Name, Start: start})
	}
	return begun
}

// followsAtOnce reports whether a stage has no work and follows a stage without a
// hold.
func followsAtOnce(r *schedule.Recipe, i int) bool {
	return i > 0 && r.Stages[i].Hands == nil && (r.Stages[i-1].Hold == nil || r.Stages[i-1].Hold.Most == 0)
}

// atOnce gives the start of a stage that was not written: the end of the work
// before it, as planned, or the next written start if that was earlier.
func (l *loader) atOnce(r *schedule.Recipe, i int, b *schedule.Begun, begun []schedule.BegunStage, starts map[string]resources.Moment) resources.Moment {
	z := needs.Size{Litres: b.Litres, Pieces: needs.Pieces(r, b.Litres)}
	if b.Pieces >= 0 {
		z.Pieces = b.Pieces
	}
	m := begun[i-1].Start.Add(needs.Work(&r.Stages[i-1], z, l.problem.Kitchen.Step))
	for _, later := range r.Stages[i+1:] {
		if start, ok := starts[later.Name]; ok {
			return min(m, start)
		}
	}
	return m
}

// lost reads the ids of batches that never were, or are no more.
func (l *loader) lost(o *object, ids register) {
	words, nodes := each(o, "lost", nameText)
	for i, id := range words {
		switch at, under := ids.at[id]; {
		case under:
			o.faultAt(nodes[i], "lost", Fault{What: "this batch stands among the begun ones too, see " + at + "; take it out of one of the two", Got: clip(id)})
		case slices.Contains(words[:i], id):
			o.faultAt(nodes[i], "lost", Fault{What: "this batch is named twice", Got: clip(id)})
		}
	}
	l.problem.Lost = words
}
