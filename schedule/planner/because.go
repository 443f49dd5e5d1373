package planner

import (
	"fmt"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/needs"
)

// explain writes, for every want that is short, what stands in the way in one sentence, and sets
// how far each stage may slip, and which may not.
func (pl *Stated) explain(plan *schedule.Plan, r *problem.Result) {
	for _, reason := range r.Reasons {
		plan.Targets[reason.Demand].Because = pl.briefly(&reason, plan)
	}
	for i := range r.Jobs {
		pl.slips(&plan.Batches[i], &r.Jobs[i])
		plan.Batches[i].MarkCritical()
	}
}

// Unpriced is why a want without a price is short.
const Unpriced = "No batch is made for it alone, since its price is 0."

// mostLetters is about how long the one sentence of a plan may be.
const mostLetters = 110

// briefly is one sentence that names what stands in the way of one piece more, where facts are
// known that few words can name. Else it says what is known of it: facts that it has no room
// for rule out more as surely as the plan's proof does.
func (pl *Stated) briefly(r *problem.Reason, plan *schedule.Plan) string {
	switch {
	case r.Kind == problem.ReasonProved:
		return pl.provedText(r, plan)
	case r.Kind == problem.ReasonFacts && len(r.Sets[0].Facts) > 0:
		text, much := pl.told(r.Sets[0].Facts, plan, pl.moreThan("", r, plan)+" ruled out by ", func(text string) bool {
			return len([]rune(text)) <= mostLetters && fewWords(text)
		})
		if much >= manyByKind {
			return pl.provedText(r, plan)
		}
		return text
	}
	return pl.Because("", r, plan)
}

// provedText says that one piece more cannot be while the others keep theirs, and who tells why.
// Another want of the same delivery is no other: what it gave up would be there all the same.
func (pl *Stated) provedText(r *problem.Reason, plan *schedule.Plan) string {
	as, w := "with what the kitchen has", &plan.Targets[r.Demand]
	for d := range plan.Targets {
		o := &plan.Targets[d]
		if o.Met > 0 && deliveryOf(o) != deliveryOf(w) {
			as = "unless others get less"
		}
	}
	return fmt.Sprintf("%s proved impossible %s; ripeby why looks for what stands in the way.", pl.moreThan("", r, plan), as)
}

// Because is a sentence or two that name what stands in the way of so many pieces, as
// "9 or more are"; "" for one piece more than the plan gives the reason's want.
func (pl *Stated) Because(what string, r *problem.Reason, plan *schedule.Plan) string {
	w := &plan.Targets[r.Demand]
	by := pl.when(w.By)
	length := func(ticks int) string { return resources.FormatMinutes(resources.Minutes(max(ticks, 0))) }
	switch {
	case r.Kind == problem.ReasonUnpriced:
		return Unpriced
	case r.Kind == problem.ReasonTime:
		return pl.noTime(w, length(r.Least), length(r.Left))
	case r.Kind == problem.ReasonNoMode:
		return pl.noBatch(w.Cheese)
	case r.Kind == problem.ReasonFacts && len(r.Sets[0].Facts) == 0:
		return fmt.Sprintf("No stages of %s fit between %s and %s, whatever the kitchen has.", w.Cheese, pl.when(pl.p.From), by)
	case r.Kind == problem.ReasonFacts:
		return pl.factsText(what, r, plan)
	case r.Kind == problem.ReasonMoments:
		return pl.momentsText(what, r, plan)
	}
	return fmt.Sprintf("No plan was found that has more %s by %s; none is proved impossible. Allow more work with --work.", w.Cheese, by)
}

// momentsText says which things are full, so many times in the time that there is, with what
// others get.
func (pl *Stated) momentsText(more string, r *problem.Reason, plan *schedule.Plan) string {
	if r.Times == 1 {
		return pl.factsText(more, r, plan)
	}
	var kit, others []problem.Fact
	for _, f := range r.Sets[0].Facts {
		if f.Kind == problem.FactPool {
			kit = append(kit, f)
		} else {
			others = append(others, f)
		}
	}
	times := fmt.Sprintf("%d times", r.Times)
	if r.Times == 2 {
		times = "twice"
	}
	text, _ := inDetail(pl.moreThan(more, r, plan)+" ruled out by ", fewWords, func(much detail) string {
		said := pl.factList(kit, plan, much) + ", " + times + " in that time"
		if rest := pl.factList(others, plan, much); rest != "" {
			said += ", and " + rest
		}
		return said
	})
	return text
}

// noTime says that a batch takes longer than there is time, up to when it must be packed.
func (pl *Stated) noTime(w *schedule.WantResult, least, left string) string {
	packed := w.By
	for i := range pl.p.Targets {
		if t := &pl.p.Targets[i]; t.Name == w.Target && t.By == w.By {
			packed = w.By.Add(-t.Packed)
		}
	}
	takes := fmt.Sprintf("%s takes at least %s from make to packing, and ", w.Cheese, least)
	switch {
	case packed <= pl.p.From:
		return takes + fmt.Sprintf("would have to be packed by %s.", pl.when(packed))
	case packed < w.By:
		return takes + fmt.Sprintf("%s is left before %s, by when it must be packed.", left, pl.when(packed))
	}
	return takes + fmt.Sprintf("%s is left before %s.", left, pl.when(packed))
}

// noBatch says what the kitchen lacks for any batch of a cheese.
func (pl *Stated) noBatch(cheese string) string {
	r := pl.p.Recipe(cheese)
	sizes := needs.Sizes(r)
	if len(sizes) == 0 {
		return fmt.Sprintf("No batch size of %s gives more pieces than it keeps for tasting.", cheese)
	}
	c := pl.chains[pl.Family(cheese)]
	for i := range r.Stages {
		st := &r.Stages[i]
		if needs.Work(st, sizes[0], pl.clock.step) > 0 && len(needs.Who(st, &pl.p.Kitchen)) == 0 {
			return fmt.Sprintf("Nobody in kitchen.yaml may do the %s of %s.", st.Name, cheese)
		}
	}
	for _, run := range c.runs {
		if choices, _ := pl.poolsFor(c, run, sizes[0]); len(choices) == 0 {
			return fmt.Sprintf("No pot is large enough for the smallest batch of %s, %s.", cheese, resources.FormatVolume(sizes[0].Litres))
		}
	}
	return fmt.Sprintf("No cold place is right for %s.", cheese)
}
