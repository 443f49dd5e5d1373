package schedule

import (
	"fmt"

	"ripeby/resources"
)

// The codes of cautions. They are stable: a code keeps its meaning for ever.
const (
	CautionRawMilk      = "raw-milk"         // a cheese: what raw milk would ask for
	CautionSlowSet      = "slow-set"         // a stage: long and warm before the curd is sour
	CautionNoSet        = "no-set"           // the same stage, where it may last a day or longer
	CautionWarmRipening = "ripening-above-5" // a stage: ripens warmer than food is usually kept cold
	CautionWarmStore    = "store-above-5"    // a stage: packed cheese is kept warmer than that
	CautionKeeps        = "keeps"            // a cheese: how long it keeps is the maker's own estimate
	CautionSoftRipened  = "soft-ripened"     // a cheese: who is usually advised against it
)

// Figures that decide whether a caution applies. They are not safety limits:
// they only choose which reminder is shown.
const (
	// cautionCold is the usual cold holding temperature, 41 °F: FDA Food Code,
	// 3-501.16. United Kingdom guidance names it as the target below the legal 8 °C.
	cautionCold resources.MilliCelsius = 5_000
	// cautionLegalUK is the chill holding limit of England, Wales and Northern
	// Ireland, temperature control regulations; food that must ripen warmer is exempt
	// until it is ripe.
	cautionLegalUK resources.MilliCelsius = 8_000
	// cautionWarm is where staphylococci begin to make toxin, about 10 °C (they grow
	// from 7 to 45 °C): published growth limits for food pathogens.
	cautionWarm resources.MilliCelsius = 10_000
	// cautionLongSet: no set by 12 h is late and wants a look every 3 h. Common
	// practice of makers' help pages.
	cautionLongSet = 12 * resources.Hour
	// cautionNoSet: a curd without a set after 24 h has failed. Common practice, no
	// source.
	cautionNoSet = 24 * resources.Hour
	// cautionRawDays: soft-ripened cheese from milk that is not pasteurised is cured
	// for at least 60 days at not less than 35 °F, 21 CFR 133.182(a). The agency's own
	// staff have said that this does not make such cheese safe.
	cautionRawDays = 60 * resources.Day
	// cautionBloom: the first mould shows at about day 5, by a dairy centre's manual
	// and a study of water activity. A shorter cold hold ripens no rind.
	cautionBloom = 5 * resources.Day
)

// Cautions gives the usual food-safety cautions for the cheeses that the
// problem's targets, begun batches and stock use, in the order of the recipes; a
// cheese's own first, then its stages' in their order. The folder says neither
// what milk is used nor what kind of rind grows, so such texts begin with "if".
// A cheese without a recipe has none.
func Cautions(p *Problem) []Caution {
	used := map[string]bool{}
	for _, t := range p.Targets {
		for _, w := range t.Wants {
			used[w.Cheese] = true
		}
	}
	for _, b := range p.Begun {
		used[b.Cheese] = true
	}
	for _, s := range p.Stock {
		used[s.Cheese] = true
	}
	var all []Caution
	for i := range p.Recipes {
		if r := &p.Recipes[i]; used[r.Name] {
			all = append(all, CautionsOf(&p.Kitchen, r)...)
		}
	}
	return all
}

// CautionsOf are those of one cheese in a kitchen: its own first, then its stages' in their order.
func CautionsOf(k *resources.Kitchen, r *Recipe) []Caution {
	return append(cautionsOfCheese(r), cautionsOfStages(k, r)...)
}

// cautionsOfCheese are those that belong to a cheese as a whole.
func cautionsOfCheese(r *Recipe) []Caution {
	young := leastAge(r) < cautionRawDays
	raw := "If the milk is raw, other rules hold, for the make and for the label; ask your food authority before you sell it."
	if young {
		raw = "If the milk is raw: this cheese can leave before it is 60 days old, which some places (the United States among them) " +
			"do not allow. Ask your food authority before you sell it; 60 days is a rule, not a proof that it is safe."
	}
	cs := []Caution{
		{Code: CautionRawMilk, Cheese: r.Name, Text: raw},
		{Code: CautionKeeps, Cheese: r.Name, Text: fmt.Sprintf("That it keeps %s is the recipe's own estimate, not a tested shelf life. "+
			"The date on the label needs your own study, as your local rules ask.", resources.FormatMinutes(r.Keeps))},
	}
	if young && ripensRind(r) {
		// UK Chief Medical Officer's advice covers raw and pasteurised alike.
		cs = append(cs, Caution{Code: CautionSoftRipened, Cheese: r.Name,
			Text: "If it is soft and mould-ripened: people who are pregnant, elderly or of weak immunity are usually advised not to eat it, " +
				"from pasteurised milk too. Tell your customers, and follow local advice."})
	}
	return cs
}

// leastAge is the least time from the start of the make to the packing; work is
// not counted.
func leastAge(r *Recipe) resources.Minutes {
	var age resources.Minutes
	for i := 0; i+1 < len(r.Stages); i++ {
		if h := r.Stages[i].Hold; h != nil {
			age += h.Least
		}
	}
	return age
}

// ripensRind reports whether a cold hold before the packing may last long enough
// for a rind to grow.
func ripensRind(r *Recipe) bool {
	for i := 0; i+1 < len(r.Stages); i++ {
		s := &r.Stages[i]
		if s.At.Kind != AtRoom && s.Hold != nil && s.Hold.Most >= cautionBloom {
			return true
		}
	}
	return false
}

// cautionsOfStages are those that belong to one stage each.
func cautionsOfStages(k *resources.Kitchen, r *Recipe) []Caution {
	var cs []Caution
	soured := false // a long hold has gone by, or the curd has been cold
	for i := range r.Stages {
		s := &r.Stages[i]
		if s.At.Kind == AtRoom {
			if !soured && s.Hold != nil && s.Hold.Longest(k) >= cautionLongSet && k.WarmestRoom() >= cautionWarm {
				cs = append(cs, slowSet(r, s, s.Hold.Longest(k))...)
				soured = true
			}
			continue
		}
		soured = true
		if place := warmestOf(k, s.At); place != nil && place.Temperature > cautionCold && holds(r, i) {
			cs = append(cs, warmStage(r, i, place))
		}
	}
	return cs
}

// holds reports whether cheese rests at the stage at all: the last one holds
// packed cheese even where no hold is written.
func holds(r *Recipe, i int) bool {
	h := r.Stages[i].Hold
	return i == len(r.Stages)-1 || (h != nil && h.Most > 0)
}

// slowSet is about the first long warm hold, before which the curd is not sour.
func slowSet(r *Recipe, s *Stage, most resources.Minutes) []Caution {
	cs := []Caution{{Code: CautionSlowSet, Cheese: r.Name, Stage: s.Name,
		Text: fmt.Sprintf("It may stand warm for up to %s. A curd that sets or sours late gives staphylococci time to grow: "+
			"look at 12 h, then every 3 h, and follow your own food safety plan.", resources.FormatMinutes(most))}}
	if most >= cautionNoSet {
		cs = append(cs, Caution{Code: CautionNoSet, Cheese: r.Name, Stage: s.Name,
			Text: "A curd that has not set or soured after 24 h is usually counted as failed, and not sold. " +
				"Your local rules and your licence decide."})
	}
	return cs
}

// warmestOf is the warmest cold place that the stage may stand in, the first
// listed of equal ones; nil when there is none.
func warmestOf(k *resources.Kitchen, at At) *resources.ColdPlace {
	var warmest *resources.ColdPlace
	for i := range k.Cold {
		c := &k.Cold[i]
		fits := c.Name == at.Place
		if at.Kind == AtRange {
			fits = at.Low <= c.Temperature && c.Temperature <= at.High
		}
		if fits && (warmest == nil || c.Temperature > warmest.Temperature) {
			warmest = c
		}
	}
	return warmest
}

// warmStage is about a stage at a cold place warmer than usual cold holding.
func warmStage(r *Recipe, i int, place *resources.ColdPlace) Caution {
	c := Caution{Code: CautionWarmRipening, Cheese: r.Name, Stage: r.Stages[i].Name}
	above := "above the 5 °C at which food is usually kept cold"
	if place.Temperature > cautionLegalUK {
		above = "above the 5 °C at which food is usually kept cold, and the 8 °C that some laws allow"
	}
	stands := "It stands in"
	if r.Stages[i].At.Kind == AtRange {
		stands = "It may stand in"
	}
	where := fmt.Sprintf("%s %s, at %s: %s.", stands, place.Name, resources.ShowTemperature(place.Temperature), above)
	if i == len(r.Stages)-1 {
		c.Code = CautionWarmStore
		c.Text = where + " Packed cheese is usually kept colder; your local rules decide."
		return c
	}
	c.Text = where + " Many rules allow this only until the cheese is ripe; yours decide."
	return c
}
