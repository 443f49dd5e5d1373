package config

import (
	"fmt"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
)

// checkStages holds each stage, and each against those before it, to the rules
// that need the whole recipe. nodes are the objects of the stages.
func (l *loader) checkStages(r *schedule.Recipe, nodes []*object) {
	for i := range r.Stages {
		l.checkKit(r, &r.Stages[i], nodes[i])
		l.checkPlace(r, i, nodes[i])
		l.checkNobody(r, i, nodes[i])
		l.checkWarmth(r, i, nodes[i])
	}
	last := len(r.Stages) - 1
	for i, s := range r.Stages {
		if s.Care != nil && s.Hold == nil && i != last {
			nodes[i].fault("care", Fault{What: "care falls due during a hold, and this stage has none"})
		}
		if s.Hands == nil && s.Hold == nil && i != last {
			l.warn("stage-empty", fmt.Sprintf("%s, stage %q has neither work nor a hold, so it takes no time", r.Name, s.Name), 0)
		}
	}
	if h := r.Stages[last].Hold; h != nil && h.Least > r.Keeps {
		nodes[last].fault("hold", Fault{What: fmt.Sprintf("the last hold is at least %s, but the cheese keeps only %s from packing",
			resources.FormatMinutes(h.Least), resources.FormatMinutes(r.Keeps))})
	}
}

// uses reports whether a stage occupies a kind of kit.
func uses(s *schedule.Stage, kind schedule.UseKind) bool {
	return slices.ContainsFunc(s.Uses, func(u schedule.Use) bool { return u.Kind == kind })
}

// checkKit sees that moulds and boxes that are used are named somewhere, and that
// there are pots where a pot is used.
func (l *loader) checkKit(r *schedule.Recipe, s *schedule.Stage, f *object) {
	if uses(s, schedule.UseMould) && r.Mould == "" {
		f.fault("uses", Fault{What: "the stage uses moulds, but the recipe names none", Want: "mould: small ring (beside name and keeps)"})
	}
	if uses(s, schedule.UseBox) && needs.BoxOf(r, s) == nil {
		f.fault("uses", Fault{What: "the stage uses boxes, but the recipe names none", Want: "box: {name: ripening box, takes: 8} (beside name and keeps)"})
	}
	if s.Box != nil && !uses(s, schedule.UseBox) {
		f.fault("box", Fault{What: "the stage names a box but does not use it", Want: "uses: [box]"})
	}
	if uses(s, schedule.UsePot) && l.sure["pots"] && len(l.problem.Kitchen.Pots) == 0 {
		f.fault("uses", Fault{What: "the stage uses a pot, but kitchen.yaml has none", Want: "pots: [{name: tall pot, holds: 10 L}] in kitchen.yaml"})
	}
}

// checkPlace sees that what stands in a cold place stands there in boxes, and that
// at least one possible place can take the box: a counted place takes any box, a
// measured one only a box whose size is known.
func (l *loader) checkPlace(r *schedule.Recipe, i int, f *object) {
	s := &r.Stages[i]
	if s.At.Kind == schedule.AtRoom {
		return
	}
	if !uses(s, schedule.UseBox) {
		f.fault("at", Fault{What: "what stands in a cold place stands there in boxes, but the stage does not use box", Want: "uses: [box]"})
		return
	}
	b := needs.BoxOf(r, s)
	if b == nil || !l.sure["boxes"] || !l.sure["cold"] {
		return
	}
	at := slices.IndexFunc(l.problem.Kitchen.Boxes, func(k resources.Box) bool { return k.Name == b.Name })
	if at < 0 || l.problem.Kitchen.Boxes[at].Size != (resources.Size{}) {
		return
	}
	places := l.placesOf(s.At)
	if len(places) > 0 && !slices.ContainsFunc(places, func(c resources.ColdPlace) bool { return !c.Measured() }) {
		f.fault("at", Fault{What: fmt.Sprintf("%q is measured by its shelves, so the size of %q must be known", places[0].Name, b.Name),
			Want: "size: 40 x 30 x 12 cm at the box in kitchen.yaml"})
	}
}

// checkNobody sees that a stage without work that follows a hold leaves all where
// it is, since nobody is there to move anything.
func (l *loader) checkNobody(r *schedule.Recipe, i int, f *object) {
	s := &r.Stages[i]
	if i == 0 || s.Hands != nil || r.Stages[i-1].Hold == nil || r.Stages[i-1].Hold.Most == 0 {
		return
	}
	before := &r.Stages[i-1]
	because := fmt.Sprintf("nobody is there to move anything when the hold of %q ends (this stage has no hands)", before.Name)
	if len(s.Fresh) > 0 {
		f.fault("fresh", Fault{What: because + ", so nothing can be fresh"})
	}
	if !sameKit(r, before, s) {
		f.fault("uses", Fault{What: because + ", so it must use the same kit"})
	}
	if !l.shareAPlace(r, i) {
		f.fault("at", Fault{What: because + ", so it must be at the same place"})
	}
}

// sameKit reports whether two stages occupy the same, in any order.
func sameKit(r *schedule.Recipe, a, b *schedule.Stage) bool {
	if len(a.Uses) != len(b.Uses) {
		return false
	}
	for _, u := range a.Uses {
		if !slices.Contains(b.Uses, u) {
			return false
		}
	}
	x, y := needs.BoxOf(r, a), needs.BoxOf(r, b)
	return x == nil && y == nil || x != nil && y != nil && *x == *y
}

// shareAPlace reports whether stage i, which has no work, can be where the stages
// before it are that it forms one stay with.
func (l *loader) shareAPlace(r *schedule.Recipe, i int) bool {
	first := i - 1
	for first > 0 && r.Stages[first].Hands == nil && r.Stages[first-1].Hold != nil && r.Stages[first-1].Hold.Most > 0 {
		first--
	}
	chain := r.Stages[first : i+1]
	room := 0
	for _, s := range chain {
		if s.At.Kind == schedule.AtRoom {
			room++
		}
	}
	if room > 0 || !l.sure["cold"] {
		return room == 0 || room == len(chain)
	}
	return slices.ContainsFunc(l.problem.Kitchen.Cold, func(c resources.ColdPlace) bool {
		for _, s := range chain {
			if !slices.ContainsFunc(l.placesOf(s.At), func(o resources.ColdPlace) bool { return o.Name == c.Name }) {
				return false
			}
		}
		return true
	})
}
