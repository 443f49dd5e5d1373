package keep

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// stages are those of the batch. When a stage was planned for is what the last plan before it
// began had: that plan's, or what was kept of it since.
func (k *keeping) stages() []schedule.KeptStage {
	var out []schedule.KeptStage
	for i := range k.b.Stages {
		t := &k.b.Stages[i]
		s := schedule.KeptStage{Stage: t.Stage, Begun: t.Begun, Start: t.Start, Work: t.Work, Who: t.Who,
			Hold: t.Hold, Ends: t.Ends, At: t.At, Uses: t.Uses, Needs: t.Needs, Measures: t.Measures}
		if s.At == "" {
			s.At = "room"
		}
		old := k.before.Stage(t.Stage)
		if len(s.Uses) == 0 && t.Begun && old != nil { // a plan that has nothing of it left to sell forgets its kit
			s.Uses = old.Uses
		}
		if len(s.Needs) == 0 && t.Begun && old != nil { // and one whose recipe has another name now what went in
			s.Needs = old.Needs
		}
		s.Planned = k.planned(t, old)
		if t.Begun {
			s.Said = k.said(t, old)
		}
		out = append(out, s)
	}
	for i := range out { // of what is no longer in the plan the hold lasted until the next stage
		if s := &out[i]; s.Begun && i+1 < len(out) && out[i+1].Begun {
			s.Ends = out[i+1].Start
			s.Hold = s.Ends.Sub(s.Start.Add(s.Work))
		} else if over := s.Start.Add(s.Work); s.Ends < over {
			s.Ends = over.Add(s.Hold)
		}
	}
	return out
}

// planned is the start by the last plan before the stage began; 0 where no plan had it.
func (k *keeping) planned(t *schedule.Task, old *schedule.KeptStage) resources.Moment {
	if !t.Begun {
		return t.Start
	}
	if e := k.p.Earlier; e != nil {
		if was := e.Batch(k.b.ID).Stage(t.Stage); was != nil && !was.Begun {
			return was.Start
		}
	}
	if old != nil {
		return old.Planned
	}
	return 0
}

// said is who said when a stage was. What begun.yaml once said is kept, though it says so no more,
// for as long as the stage is still taken to have been then.
func (k *keeping) said(t *schedule.Task, old *schedule.KeptStage) string {
	for i := range k.life.Batch.Stages {
		if k.life.Batch.Stages[i].Stage == t.Stage && k.life.Said[i] != "" {
			return k.life.Said[i]
		}
	}
	if i := slices.IndexFunc(k.p.Begun, func(b schedule.Begun) bool { return b.ID == k.b.ID }); i >= 0 {
		if slices.ContainsFunc(k.p.Begun[i].Stages, func(s schedule.BegunStage) bool { return s.Stage == t.Stage }) {
			return schedule.SaidByBegun
		}
	}
	if old != nil && old.Said == schedule.SaidByBegun && old.Start == t.Start {
		return old.Said
	}
	return ""
}
