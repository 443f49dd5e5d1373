package config

import (
	"fmt"
	"slices"

	"ripeby/config/keys"
	"ripeby/resources"
	"ripeby/schedule"
)

// targets reads targets.yaml: an empty file has none.
func (l *loader) targets(p *page) {
	if p.root == nil {
		return
	}
	known := keys.Targets()
	o, ok := p.object(p.root, wholeFile, known.Example, known)
	if !ok {
		return
	}
	for _, f := range o.objects("targets", "target") {
		l.target(f, &l.targetsAt)
		if len(l.problem.Targets) > MaxTargets {
			f.page.faultAt(f.node, Fault{What: fmt.Sprintf("with every repetition written out, the targets up to this one are more than the limit of %d", MaxTargets)})
			return
		}
	}
}

// target reads one entry and adds what it stands for.
func (l *loader) target(f *object, names *register) {
	var t schedule.Target
	var named bool
	t.Name, named = names.claim(f, "name", nameText)
	t.Packed, _ = take(f, "packed", resources.ParseMinutes)
	t.Wants = l.wants(f)
	if len(t.Wants) == 0 && f.get("want") == nil {
		l.warn("target-empty", fmt.Sprintf("%s wants no cheese", t.Name), 0)
	}
	if f.get("every") != nil || f.get("until") != nil || f.get("except") != nil {
		l.repeated(f, t, names, named)
		return
	}
	by, ok := l.by(f)
	if !ok || !l.fromKnown {
		return
	}
	t.By = by
	if from, feast := l.feastPlannedFrom(f, by); feast && l.problem.From.DateIn(l.problem.Kitchen.Zone).Before(from) {
		l.warn("target-later", fmt.Sprintf("%s is %s, more than %d weeks ahead, and is left out; it is planned from %s on",
			t.Name, resources.FormatMoment(by, l.problem.Kitchen.Zone), l.feastAhead(), from), by)
		return
	}
	if by < l.problem.From {
		l.warn(schedule.WarnTargetPast, fmt.Sprintf("%s was due %s, before the planning start, and is left out",
			t.Name, resources.FormatMoment(by, l.problem.Kitchen.Zone)), by)
		return
	}
	if l.inHorizon(f, "by", by) {
		l.problem.Targets = append(l.problem.Targets, t)
	}
}

// by reads the moment at which a target leaves.
func (l *loader) by(f *object) (resources.Moment, bool) {
	n := f.get("by")
	if n == nil {
		f.missing("by")
		return 0, false
	}
	if _, ok := scalarText(n); ok {
		m, ok := value(f, "by", l.moment)
		return m, ok && l.zoneKnown
	}
	o, ok := f.inner("by")
	if !ok {
		return 0, false
	}
	date, ok1 := take(o, "feast", feast)
	days, ok2 := take(o, "days", whole(-maxFeastDays, maxFeastDays))
	c, ok3 := take(o, "time", resources.ParseClock)
	if !ok1 || !ok2 || !ok3 || !l.zoneKnown || !l.fromKnown {
		return 0, false
	}
	return feastMoment(date, days, c, l.problem.Kitchen.Zone, l.problem.From), true
}

// inHorizon refuses a target that is too far ahead.
func (l *loader) inHorizon(f *object, key string, by resources.Moment) bool {
	if by.Sub(l.problem.From) <= MaxHorizonDays*resources.Day {
		return true
	}
	f.fault(key, Fault{What: fmt.Sprintf("this is further ahead of the planning start, %s, than the limit of %d days; take the target out, or plan from a later moment (--from)",
		resources.FormatMoment(l.problem.From, l.problem.Kitchen.Zone), MaxHorizonDays),
		Got: clip(shownText(f, key))})
	return false
}

// shownText is what is written under a key, if it is a single value.
func shownText(f *object, key string) string {
	if n := f.get(key); n != nil {
		if text, ok := scalarText(n); ok {
			return text
		}
	}
	return ""
}

// wants reads what leaves with a target.
func (l *loader) wants(f *object) []schedule.Want {
	var all []schedule.Want
	for i, o := range f.objects("want", "want") {
		o.label = fmt.Sprintf("%s, want %d", f.label, i+1)
		var w schedule.Want
		var ok1, ok2, ok3, ok4 bool
		w.Cheese, ok1 = l.cheese(o)
		w.Pieces, ok2 = take(o, "pieces", whole(1, MaxPieces))
		w.Price, ok3 = take(o, "price", resources.ParseMoney)
		w.Promised, ok4 = take(o, "promised", truth)
		same := func(v schedule.Want) bool {
			return v.Cheese == w.Cheese && v.Price == w.Price && v.Promised == w.Promised
		}
		if ok1 && ok2 && ok3 && ok4 && slices.ContainsFunc(all, same) {
			o.page.faultAt(o.node, Fault{What: o.label + ": two wants of one target differ in cheese, price or promise; add their pieces up"})
		}
		all = append(all, w)
	}
	return all
}

// unwrittenPrice is what a piece is worth of which nothing is said.
func unwrittenPrice() resources.Money {
	wants := keys.Targets().Key("targets").In.Key("want").In
	price, _ := resources.ParseMoney(wants.Key("price").Default)
	return price
}

// cheese reads the name of a recipe.
func (l *loader) cheese(o *object) (string, bool) {
	name, ok := take(o, "cheese", nameText)
	if !ok {
		return "", false
	}
	names := namesOf(l.problem.Recipes, func(r schedule.Recipe) string { return r.Name })
	return name, o.knownName(o.get("cheese"), "cheese", name, "recipe", names, !l.recipesUnsure)
}
