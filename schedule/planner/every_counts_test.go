package planner_test

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"ripeby/resources"
	"ripeby/schedule"
)

// everyCounts is what the kitchens and their plans were like.
type everyCounts struct {
	all, passed int
	count       map[string]int
	batches     [mostGivers + 1]int
	differ      [8]int         // by the first part that is not the best
	unlike      map[int]string // kitchens whose plan is not the best
	unproved    []int          // kitchens whose plan is the best, without a proof
}

func (n *everyCounts) note(what string, has bool) {
	if has {
		n.count[what]++
	}
}

func (n *everyCounts) String() string {
	text := fmt.Sprintf("of %d kitchens (%d passed over)", n.all, n.passed)
	for _, what := range []string{"short", "promised short", "something fought over", "kit fought over", "people fought over", "cold fought over", "milk fought over",
		"begun", "carried", "overdue or stuck", "late", "stuck", "settled", "moved", "late and moved", "one of the earlier plan's", "overdue and kit fought over", "stock", "on shelves", "in a shared stack", "late, in a shared stack", "late and moved, in a shared stack", "better for shared stacks", "said", "a look", "a hold that goes on", "another start than planned", "never began", "taken on, under way", "taken from another", "taken for later", "in a counted place", "carried away", "to be carried later", "a new place not needed", "no place to carry to", "milk drawn", "two cheeses", "with more work", "equal in all parts", "proved best"} {
		text += fmt.Sprintf("\n  %-22s %5d  %5.1f%%", what, n.count[what], 100*float64(n.count[what])/float64(max(1, n.all)))
	}
	text += fmt.Sprintf("\n  by number of new batches: %v\n  not the best, by the first part that differs: %v", n.batches, n.differ)
	for _, number := range slices.Sorted(maps.Keys(n.unlike)) {
		text += fmt.Sprintf("\n    %d: %s", number, n.unlike[number])
	}
	slices.Sort(n.unproved)
	return text + fmt.Sprintf("\n  the best, but not proved: %d, the first %v", len(n.unproved), n.unproved[:min(20, len(n.unproved))])
}

// add takes up what was counted apart.
func (n *everyCounts) add(o *everyCounts) {
	n.all, n.passed = n.all+o.all, n.passed+o.passed
	for what, count := range o.count {
		n.count[what] += count
	}
	for i := range n.batches {
		n.batches[i] += o.batches[i]
	}
	for i := range n.differ {
		n.differ[i] += o.differ[i]
	}
	maps.Copy(n.unlike, o.unlike)
	n.unproved = append(n.unproved, o.unproved...)
}

// like counts what the best plan has in it.
func (n *everyCounts) like(e *everyPlan) {
	n.all++
	n.batches[e.best.Batches]++
	n.note("short", e.best.PromisedShort+e.best.Short > 0)
	n.note("promised short", e.best.PromisedShort > 0)
	n.note("begun", len(e.under) > 0)
	n.note("stock", len(e.p.Stock) > 0)
	n.note("carried", slices.ContainsFunc(e.under, func(b everyBegun) bool { return b.earlier != nil }))
	n.note("overdue or stuck", e.best.stuck > 0 || e.isOverdue())
	n.note("late", e.best.Late > 0)
	n.note("stuck", e.best.stuck > 0)
	n.note("settled", e.told.until > 0)
	n.note("moved", e.best.Moved > 0)
	n.note("late and moved", e.best.Moved > 0 && e.best.Late > 0)
	n.note("one of the earlier plan's", slices.ContainsFunc(e.as, func(of int) bool { return of >= 0 }))
	shelves, counted, milk, cheeses := false, false, false, map[int]bool{}
	for i, w := range e.ways {
		shelves = shelves || len(w.stays) > 0
		for _, c := range w.claims {
			counted = counted || e.things[c.thing].side == sideCold
		}
		if kind := &e.kinds[e.set[i]]; kind.slot < 0 {
			cheeses[kind.recipe] = true
			milk = milk || w.draw != nil
		}
	}
	n.note("on shelves", shelves)
	shared := e.sharesSpots()
	n.note("in a shared stack", shared)
	n.note("late, in a shared stack", shared && e.best.Late > 0)
	n.note("late and moved, in a shared stack", shared && e.best.Late > 0 && e.best.Moved > 0)
	n.said(e)
	n.note("better for shared stacks", shared && e.stacksMatter(e.best))
	n.note("in a counted place", counted)
	for _, x := range e.sitters {
		n.note("no place to carry to", x.shut && x.to == "")
		n.note("a new place not needed", x.shut && x.to != "" && !e.carries(x))
		n.note("carried away", e.carries(x) && !x.later())
		n.note("to be carried later", e.carries(x) && x.later())
	}
	n.note("milk drawn", milk)
	n.note("two cheeses", len(cheeses) > 1)
}

// fights counts what is fought over.
func (n *everyCounts) fights(e *everyPlan, best everyScore) {
	some := false
	for _, x := range []struct {
		what string
		of   [sides]bool
	}{
		{"kit fought over", [sides]bool{sideKit: true}}, {"people fought over", [sides]bool{sideWork: true}},
		{"cold fought over", [sides]bool{sideCold: true}}, {"milk fought over", [sides]bool{sideMilk: true}},
	} {
		fought := e.foughtOver(best, x.of)
		n.note(x.what, fought)
		if x.of[sideKit] {
			n.note("overdue and kit fought over", fought && e.best.Late > 0)
		}
		some = some || fought
	}
	n.note("something fought over", some || e.foughtOver(best, [sides]bool{true, true, true, true}))
}

// outline is a plan in short: of each batch the hours from the planning start at which
// its stages begin and it leaves, by whom, and who gets how many pieces.
func outline(plan *schedule.Plan) string {
	var b strings.Builder
	fmt.Fprintf(&b, "  %+v, proved %s: %+v", plan.Score, plan.Proof.Level, plan.Proof.Bound)
	hours := func(m resources.Moment) float64 { return float64(m-plan.From) / 60 }
	for _, x := range plan.Batches {
		fmt.Fprintf(&b, "\n  %s %d mL:", x.ID, x.Litres)
		for _, t := range x.Stages {
			fmt.Fprintf(&b, " %.1f %s%s", hours(t.Start), t.Who, strings.TrimSuffix(" "+t.At, " room"))
			for _, u := range t.Uses {
				fmt.Fprintf(&b, " %dx%s-%.1f", u.Count, u.Thing, hours(u.CleanUntil))
			}
			b.WriteString(",")
		}
		fmt.Fprintf(&b, " leaves %.1f", hours(x.Stages[len(x.Stages)-1].Ends))
		for _, s := range x.For {
			fmt.Fprintf(&b, ", %d for %s.%d", s.Pieces, s.Target, s.Want)
		}
	}
	for _, x := range plan.Stock {
		fmt.Fprintf(&b, "\n  stock of %s leaves %.1f", x.Cheese, hours(x.Ends))
		for _, s := range x.For {
			fmt.Fprintf(&b, ", %d for %s.%d", s.Pieces, s.Target, s.Want)
		}
	}
	return b.String()
}

// drawn is a kitchen in short, to be looked at.
func drawn(p *schedule.Problem) string {
	var b strings.Builder
	k := p.Kitchen
	k.Zone = nil
	if k.Round != nil {
		fmt.Fprintf(&b, "  round %+v\n", *k.Round)
		k.Round = nil
	}
	fmt.Fprintf(&b, "  from %d: %+v\n", p.From, k)
	for _, r := range p.Recipes {
		fmt.Fprintf(&b, "  %s: %v L, yield %+v, milk %q, keeps %d, spare %d, box %+v\n", r.Name, r.Batch, r.Yield, r.Milk, r.Keeps, r.Spare, *r.Box)
		for _, s := range r.Stages {
			fmt.Fprintf(&b, "    %s:", s.Name)
			if s.Hands != nil {
				fmt.Fprintf(&b, " hands %+v %v", *s.Hands, s.Who)
			}
			if s.Hold != nil {
				fmt.Fprintf(&b, " hold %+v", *s.Hold)
			}
			if s.Box != nil {
				fmt.Fprintf(&b, " box %+v", *s.Box)
			}
			fmt.Fprintf(&b, " at %+v uses %+v fresh %v\n", s.At, s.Uses, s.Fresh)
		}
	}
	fmt.Fprintf(&b, "  targets %+v\n  begun %+v\n  stock %+v\n  ordered %+v", p.Targets, p.Begun, p.Stock, p.Ordered)
	return b.String()
}
