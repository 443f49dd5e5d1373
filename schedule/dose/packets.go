package dose

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// The codes of what is told of packets. They are stable.
const (
	WarnEmpty    = "packet-empty"    // it will not last for a piece of work
	WarnPast     = "packet-past"     // it is past its date at a piece of work
	WarnStrength = "packet-strength" // what it says of its strength says nothing of what the recipe writes
)

// packets tells which will not last and which are past their date, each at the first work to come that this is of.
func (f *filler) packets() {
	slices.SortStableFunc(f.uses, func(a, b use) int { return cmp.Compare(a.stage.Start, b.stage.Start) })
	for i := range f.p.Packets {
		k := &f.p.Packets[i]
		left, counted := f.left(k)
		var empty, past bool
		for _, u := range f.uses {
			if u.packet != k {
				continue
			}
			day := u.stage.Start.DateIn(f.p.Kitchen.Zone)
			if took, ok := resources.InUnit(big.NewRat(u.dose.Taken(), millionths), u.dose.Unit, k.Holds.Unit); counted && ok {
				left.Sub(left, took)
			}
			if u.stage.Start < f.p.From {
				continue
			}
			if !empty && counted && left.Sign() < 0 {
				empty = true
				f.warn(WarnEmpty, u, "%s will not last for the %s of %s on %s: open the next by then.", named(k, resources.FormatAmount(k.Holds)), u.stage.Stage, u.batch, f.when(u))
			}
			if !past && k.UseBy != (resources.Date{}) && k.UseBy.Before(day) {
				past = true
				f.warn(WarnPast, u, "%s is past its date, %s, at the %s of %s on %s.", named(k, ""), k.UseBy, u.stage.Stage, u.batch, f.when(u))
			}
		}
	}
}

// left is what was in a packet, less what batches took of which the plan knows no more; false where nobody said how
// much it holds.
func (f *filler) left(k *schedule.Packet) (*big.Rat, bool) {
	left := k.Holds.Rat()
	for _, u := range f.plan.Used {
		if u.What != k.What || u.From != k.From {
			continue
		}
		if took, ok := resources.InUnit(big.NewRat(u.Amount, millionths), u.Unit, k.Holds.Unit); ok {
			left.Sub(left, took)
		}
	}
	return left, !k.Holds.IsZero()
}

// named is what a packet is called: "The rennet R-55 (50 mL)".
func named(k *schedule.Packet, holds string) string {
	s := "The open " + k.What
	if k.Lot != "" {
		s = "The " + k.What + " " + k.Lot
	}
	if holds != "" {
		s += " (" + holds + ")"
	}
	return s
}

// strengthSaysNothing tells once of a packet that its strength is not of what a recipe writes.
func (f *filler) strengthSaysNothing(b *schedule.Batch, t *schedule.Task, n *schedule.Need, s resources.Strength) {
	key := fmt.Sprintln(b.Cheese, n.What, n.Stage, s)
	if t.Start < f.p.From || slices.Contains(f.told, key) {
		return
	}
	f.told = append(f.told, key)
	f.warn(WarnStrength, use{stage: t}, "The %s that is open has %s; the recipe of %s writes %s and does not say for which strength, so its dose stays as it is.",
		n.What, resources.FormatStrength(s), b.Cheese, resources.FormatAmount(n.Amount))
}

func (f *filler) warn(code string, u use, format string, args ...any) {
	f.found = append(f.found, schedule.Warning{Code: code, At: u.stage.Start, Text: fmt.Sprintf(format, args...)})
}

// when writes when a piece of work begins.
func (f *filler) when(u use) string { return resources.ShowMoment(u.stage.Start, f.p.Kitchen.Zone) }
