package demand

import (
	"fmt"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record/trace"
)

// Want is one cheese of the next date of a target that repeats, and what the maker's own sales say of it.
type Want struct {
	Target, Cheese string // the target with its date
	Series         string // the target without it
	By             resources.Moment
	Wanted         int // pieces, promised ones too, for they are sold as well
	Advice
	Cost bool // what a piece costs is written
}

// Wants gives the next date of each target of a plan that repeats, of those from a moment on, where something
// was ever sold there; in the order of moments and as the plan has them.
func Wants(p *schedule.Problem, plan *schedule.Plan, sales []trace.Sale, now resources.Moment) (all []Want) {
	type series struct{ target, cheese string }
	days := map[series][]Day{}
	for _, s := range sales {
		of := series{schedule.Undated(s.Target), s.Cheese}
		days[of] = append(days[of], Day{s.Brought, s.Sold, s.SoldOut})
	}
	prices := map[int]resources.Money{} // by the place in all
	for i := range plan.Targets {
		t := &plan.Targets[i]
		of := series{schedule.Undated(t.Target), t.Cheese}
		if t.By < now || of.target == t.Target || len(days[of]) == 0 {
			continue
		}
		at := slices.IndexFunc(all, func(w Want) bool { return w.Series == of.target && w.Cheese == of.cheese })
		if at >= 0 && all[at].By != t.By {
			continue
		}
		if at < 0 {
			at = len(all)
			all = append(all, Want{Target: t.Target, Cheese: t.Cheese, Series: of.target, By: t.By})
		}
		all[at].Wanted += t.Wanted
		if !t.Promised || prices[at] == 0 {
			prices[at] = t.Price
		}
	}
	for i := range all {
		w := &all[i]
		cost := resources.Money(0)
		keeps := false
		if r := p.Recipe(w.Cheese); r != nil {
			cost, keeps = r.Cost, keepsUntilNext(p, plan, r, w)
		}
		w.Cost = cost > 0
		w.Advice = Advise(days[series{w.Series, w.Cheese}], cost, prices[i], keeps)
	}
	return all
}

// keepsUntilNext reports whether a piece that was packed as late as may be for a target keeps until the next date of it.
func keepsUntilNext(p *schedule.Problem, plan *schedule.Plan, r *schedule.Recipe, w *Want) bool {
	for i := range plan.Targets {
		t := &plan.Targets[i]
		if t.Cheese != w.Cheese || t.By <= w.By || schedule.Undated(t.Target) != w.Series {
			continue
		}
		ahead := resources.Minutes(0)
		for k := range p.Targets {
			if p.Targets[k].Name == w.Target {
				ahead = p.Targets[k].Packed
			}
		}
		return t.By.Sub(w.By)+ahead <= r.Keeps
	}
	return false
}

// Says is what is told of it, in a sentence or two without a last full stop.
func (w *Want) Says() string {
	sold := fmt.Sprintf("%d to %d sold", w.Low, w.High)
	if w.Low == w.High {
		sold = fmt.Sprintf("%d sold", w.Low)
	}
	text := fmt.Sprintf("%s there: %s", schedule.Counted(w.Days, "market day"), sold)
	switch {
	case w.SoldOut == w.Days:
		text += ", each time all of it"
	case w.SoldOut > 0:
		text += fmt.Sprintf(", all of it on %d of them", w.SoldOut)
	}
	switch {
	case w.Days < FewestDays:
		return text + fmt.Sprintf("; after %d of them they tell how many to bring", FewestDays)
	case !w.Cost:
		return text + "; with a cost in the recipe they tell how many to bring"
	case w.AllThatKeep:
		return text + fmt.Sprintf(". By your own sales %d or more: what is left over would sell next time, if it keeps, is kept cold and your rules let it be sold again", w.Pieces)
	case w.AtLeast:
		return text + fmt.Sprintf(". By your own sales at least %d: no day shows that it would be too many", w.Pieces)
	case w.Pieces == 0:
		return text + ". By your own sales none: it brings no more than it costs"
	}
	return text + fmt.Sprintf(". By your own sales %d", w.Pieces)
}
