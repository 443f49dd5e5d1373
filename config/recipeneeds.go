package config

import (
	"fmt"
	"slices"
	"strings"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
)

// pers are the four ways of writing how much goes in.
var pers = []struct {
	key string
	per schedule.NeedPer
}{{"per_litre", schedule.PerLitre}, {"per_piece", schedule.PerPiece}, {"per_curd", schedule.PerCurd}, {"fixed", schedule.PerBatch}}

// needsOf reads what goes into a cheese. Stages that were not read whole name nobody to put it in.
func needsOf(o *object, stages []schedule.Stage) (all []schedule.Need) {
	nodes := o.objects("needs", "need")
	if len(nodes) > MaxNeeds {
		o.fault("needs", Fault{What: fmt.Sprintf("%d needs are more than the limit of %d", len(nodes), MaxNeeds)})
		return nil
	}
	for _, f := range nodes {
		var n schedule.Need
		n.What, _ = take(f, "what", nameText)
		n.Stage, _ = take(f, "stage", nameText)
		stageWithWork(f, n.Stage, "put it in", stages)
		if slices.ContainsFunc(all, func(m schedule.Need) bool { return n.What != "" && m.What == n.What && m.Stage == n.Stage }) {
			f.fault("what", Fault{What: "this goes in at this stage already; write it once", Got: clip(n.What)})
		}
		if perOf(f, &n) {
			n.Strength, _ = either(f, "strength", resources.Strength{}, resources.ParseStrength)
			checkStrength(f, &n)
		}
		all = append(all, n)
	}
	return all
}

// stageWithWork sees that somebody is there to do something, such as to put it in.
func stageWithWork(f *object, name, do string, stages []schedule.Stage) {
	if name == "" || len(stages) == 0 || !f.knownName(f.get("stage"), "stage", name, "stage", namesOf(stages, func(s schedule.Stage) string { return s.Name }), true) {
		return
	}
	i := slices.IndexFunc(stages, func(s schedule.Stage) bool { return s.Name == name })
	if needs.HasWork(&stages[i]) {
		return
	}
	with := Fault{What: "nobody works in this stage, so nobody is there to " + do, Got: clip(name)}
	for k := i; k >= 0; k-- { // the last work before it
		if needs.HasWork(&stages[k]) {
			with.Want = "stage: " + stages[k].Name
			break
		}
	}
	f.fault("stage", with)
}

// perOf reads how much, of which exactly one way is written; false after a fault.
func perOf(f *object, n *schedule.Need) bool {
	var written []string
	sound := true
	for _, w := range pers {
		if f.get(w.key) == nil {
			sound = sound && !f.meant[w.key]
			continue
		}
		written = append(written, w.key)
		amount, ok := value(f, w.key, resources.ParseAmount)
		n.Per, n.Amount, sound = w.per, amount, sound && ok
		if share := amount.Unit == resources.Percent; ok && share != (w.per == schedule.PerCurd) {
			fault := Fault{What: "of the curd so many per cent are taken", Got: resources.FormatAmount(amount), Want: "per_curd: 1.5 %"}
			if share {
				fault = Fault{What: "per cent are of the curd's weight alone", Got: resources.FormatAmount(amount), Want: "per_curd: " + resources.FormatAmount(amount)}
			}
			f.fault(w.key, fault)
			sound = false
		}
	}
	if n.Amount.Unit == resources.Percent && n.Amount.Num > 100*n.Amount.Den {
		f.fault("per_curd", Fault{What: "this is more than all of the curd", Got: resources.FormatAmount(n.Amount), Want: "per_curd: 1.5 %"})
		sound = false
	}
	switch {
	case len(written) > 1:
		f.fault(written[1], Fault{What: "how much is written once, and here stands " + strings.Join(written, " and "), Want: "only one of per_litre, per_piece, per_curd, fixed"})
		return false
	case len(written) == 0 && sound:
		f.page.faultAt(f.node, Fault{What: f.label + " does not say how much", Want: "one of per_litre: 4.5 IMCU, per_piece: 1.2 g, per_curd: 1.5 %, fixed: 1 sachet"})
	}
	return sound && len(written) == 1
}

// checkStrength sees that an amount goes by its strength.
func checkStrength(f *object, n *schedule.Need) {
	if n.Strength.IsZero() || n.Amount.Unit == n.Strength.Holds.Unit || n.Amount.Unit == n.Strength.In {
		return
	}
	f.fault("strength", Fault{What: fmt.Sprintf("the amount, %s, is neither in %s nor in %s", resources.FormatAmount(n.Amount), n.Strength.Holds.Unit, resources.UnitWord(n.Strength.In, true)),
		Got: resources.FormatStrength(n.Strength), Want: "an amount in " + n.Strength.Holds.Unit + ", or a strength in " + n.Amount.Unit})
}
