package keep

import (
	"cmp"
	"slices"

	"ripeby/schedule"
)

// shares are what the batch was for and is for, by moment: what left long ago as it was kept, what
// has left since the plan before, and what is to come.
func (k *keeping) shares() []schedule.KeptShare {
	var out []schedule.KeptShare
	add := func(s schedule.KeptShare) {
		same := func(o schedule.KeptShare) bool { return o.Target == s.Target && o.By == s.By && o.Want == s.Want }
		if i := slices.IndexFunc(out, same); i < 0 {
			out = append(out, s)
		}
	}
	for _, s := range k.life.Gone {
		add(s)
	}
	if k.before != nil {
		for _, s := range k.before.For {
			if s.Gone {
				add(s)
			}
		}
	}
	for _, s := range k.coming {
		add(schedule.KeptShare{Share: s})
	}
	slices.SortStableFunc(out, func(a, b schedule.KeptShare) int {
		return cmp.Or(cmp.Compare(a.By, b.By), cmp.Compare(a.Target, b.Target), cmp.Compare(a.Want, b.Want))
	})
	return out
}
