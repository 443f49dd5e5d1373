package list

import (
	"cmp"
	"fmt"
	"hash/fnv"
	"slices"

	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/chance"
)

// Target is one target of a plan.
type Target struct {
	Name string // of one that repeats with its date
	By   resources.Moment
}

// Targets are all that pieces of the plan leave for or have left for, in the order of moments.
func Targets(plan *schedule.Plan) (all []Target) {
	for _, t := range plan.Targets {
		all = append(all, Target{t.Target, t.By})
	}
	for _, b := range plan.Batches {
		all = append(all, ofShares(b.For, b.Left)...)
	}
	for _, b := range plan.Past {
		all = append(all, ofShares(b.For, b.Left)...)
	}
	for _, s := range slices.Concat(plan.Stock, plan.PastStock) {
		all = append(all, ofShares(s.For, s.Left)...)
	}
	slices.SortFunc(all, func(x, y Target) int { return cmp.Or(cmp.Compare(x.By, y.By), cmp.Compare(x.Name, y.Name)) })
	return slices.Compact(all)
}

// Key is what a target is known by in an address, which may not hold every name.
func (t Target) Key() string {
	h := fnv.New64a()
	fmt.Fprint(h, t.By, " ", t.Name)
	return fmt.Sprintf("%016x", h.Sum64())
}

// WithKey gives the target of a key; not ok where there is none.
func WithKey(plan *schedule.Plan, key string) (Target, bool) {
	all := Targets(plan)
	i := slices.IndexFunc(all, func(t Target) bool { return t.Key() == key })
	if i < 0 {
		return Target{}, false
	}
	return all[i], true
}

// TargetShown is a target as a list of them shows it. Key is what it is known by in an address, Word one for how
// often all of it is there in time, "" where that is not known.
type TargetShown struct {
	Key, Name, When, Word string
	By                    resources.Moment
}

// mostComing is how many targets are offered.
const mostComing = 30

// Coming are the targets from a day on, the nearest first, at most 30.
func Coming(p *schedule.Problem, plan *schedule.Plan, chances []chance.Want, from resources.Date) (out []TargetShown) {
	for _, t := range Targets(plan) {
		if t.By >= from.Start(p.Kitchen.Zone) && len(out) < mostComing {
			out = append(out, TargetShown{t.Key(), words.Printable(t.Name), words.StampOf(p, t.By), t.word(chances), t.By})
		}
	}
	return out
}

// word is that of its want which is met least often; "" where none is known.
func (t Target) word(of []chance.Want) string {
	var least *chance.Want
	for i := range of {
		w := &of[i]
		if w.Target == t.Name && w.By == t.By && (least == nil || w.Share() < least.Share()) {
			least = w
		}
	}
	switch {
	case least == nil:
		return ""
	case least.Short > 0:
		return "short"
	}
	return least.Word()
}

func ofShares(coming []schedule.Share, left []schedule.LeftShare) (all []Target) {
	for _, s := range coming {
		all = append(all, Target{s.Target, s.By})
	}
	for _, l := range left {
		all = append(all, Target{l.Target, l.By})
	}
	return all
}

// Find gives the target of a name. Of one that repeats, without its date, the first that does not lie
// before now is meant, else the last. Not ok where there is none.
func Find(plan *schedule.Plan, name string, now resources.Moment) (found Target, ok bool) {
	for _, t := range Targets(plan) {
		if t.Name != name && schedule.Undated(t.Name) != name {
			continue
		}
		if found, ok = t, true; t.By >= now {
			break
		}
	}
	return found, ok
}
