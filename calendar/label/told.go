package label

import (
	"fmt"

	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

// told is what a maker is told of the labels of a lot beside them.
func (l *Label) told(p *schedule.Problem) (out []string) {
	say := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	packed := words.Stamp(l.Lot.Packed, p.Kitchen.Zone)
	if l.recipe == nil {
		say("The kitchen has no recipe of this name any more: its label has the name, the lot and the date.")
	}
	if l.Lot.IsPacked {
		say("The date is your own estimate: packed %s, and it keeps for as long as the recipe says. It is no limit up to which a cheese is safe.", packed)
	} else {
		say("It is not packed yet. The date is your own estimate, counted from the packing as planned, %s; print again if that moves. It is no limit up to which a cheese is safe.", packed)
	}
	if l.recipe != nil && l.recipe.Label.Milk == schedule.Raw {
		say("Made with raw milk: the label says so. Some people are told not to eat such cheese; local rules come first.")
	}
	if l.Mean {
		say("The weight is the mean of what was weighed: %s, %s together.", schedule.Counted(l.Lot.Of, "piece"), resources.FormatMass(l.Lot.Weighed))
	} else if m := l.mean(); m > 0 && m < l.Weight {
		say("Weighed, a piece has %s on average (%s, %s together), less than the %s on the label.", resources.FormatMass(m/100*100), schedule.Counted(l.Lot.Of, "piece"), resources.FormatMass(l.Lot.Weighed), resources.FormatMass(l.Weight))
	}
	if t1, t2, ok := Shortfall(l.Weight); ok {
		say("In the EU packs of %s have that weight on average, at most 1 in 40 is under %s, and none under %s (Directive 76/211/EEC). Cheese loses weight while it is kept.",
			resources.FormatMass(l.Weight), resources.FormatMass(t1), resources.FormatMass(t2))
	}
	return out
}
