package list

import (
	"cmp"
	"regexp"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
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

func ofShares(coming []schedule.Share, left []schedule.LeftShare) (all []Target) {
	for _, s := range coming {
		all = append(all, Target{s.Target, s.By})
	}
	for _, l := range left {
		all = append(all, Target{l.Target, l.By})
	}
	return all
}

// dated is the end of the name of a target that repeats.
var dated = regexp.MustCompile(` \d{4}-\d{2}-\d{2}$`)

// Base is the name of a target without its date.
func Base(name string) string { return dated.ReplaceAllString(name, "") }

// Find gives the target of a name. Of one that repeats, without its date, the first that does not lie
// before now is meant, else the last. Not ok where there is none.
func Find(plan *schedule.Plan, name string, now resources.Moment) (found Target, ok bool) {
	for _, t := range Targets(plan) {
		if t.Name != name && Base(t.Name) != name {
			continue
		}
		if found, ok = t, true; t.By >= now {
			break
		}
	}
	return found, ok
}
