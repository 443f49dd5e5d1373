package keep

import "ripeby/schedule"

// carries are those that were kept and have happened since, and those that the new plan has to come. A
// stage tells of the last one only, and not where from: so what was kept is gone by.
func (k *keeping) carries() (out []schedule.KeptCarry) {
	if k.before != nil {
		for _, c := range k.before.Carries {
			if t := k.b.Stage(c.Stage); t != nil && c.Start <= t.Carried {
				out = append(out, c)
			}
		}
	}
	for i := range k.carried {
		if c := &k.carried[i]; c.Batch == k.b.ID {
			out = append(out, schedule.KeptCarry{Stage: c.Stage, Start: c.Start, Who: c.Who, From: c.From, To: c.To})
		}
	}
	return out
}
