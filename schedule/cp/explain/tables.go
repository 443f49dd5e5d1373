package explain

import (
	"maps"
	"reflect"
	"slices"

	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/statement"
)

// Tables is what has been worked out of the chains of a model with the kitchen to
// themselves. A model with the same families, workers and intakes has the same ones, so that
// to ask about many models that are alike costs little more than to ask about one.
type Tables struct {
	of     *problem.Model
	chains map[chain.Key]*chain.Costs
	open   map[problem.Delivery]int // slots that have been needed
}

// Tables is what an inquiry has worked out so far. It does not change any more, so that
// others may use it at the same time.
func (q *Inquiry) Tables() *Tables {
	t := &Tables{of: q.r.plan.Model, chains: maps.Clone(q.r.s.Prep.Chains), open: maps.Clone(q.r.count.Open)}
	maps.DeleteFunc(t.chains, func(k chain.Key, _ *chain.Costs) bool { return k.Begun >= 0 })
	return t
}

// lend gives the tables to what is prepared for a model, where they are its own, and counts
// as many slots as were needed before.
func (t *Tables) lend(m *problem.Model, to *chain.Prepared, count statement.Counts) {
	if t != nil && t.holdFor(m) {
		maps.Copy(to.Chains, t.chains)
		maps.Copy(count.Open, t.open)
	}
}

// holdFor reports whether the chains of a model are those of the one that the tables are of.
func (t *Tables) holdFor(m *problem.Model) bool {
	o := t.of
	if o.Step != m.Step || o.From != m.From || o.Horizon != m.Horizon || len(o.Families) != len(m.Families) {
		return false
	}
	type pair struct {
		a, b *int32
		n    int
	}
	costs := map[pair]bool{} // modes share them, and they are long
	sameCosts := func(a, b []int32) bool {
		if len(a) != len(b) || len(a) == 0 {
			return len(a) == len(b)
		}
		key := pair{&a[0], &b[0], len(a)}
		same, known := costs[key]
		if !known {
			same = slices.Equal(a, b)
			costs[key] = same
		}
		return same
	}
	sameLags := func(a, b *problem.Lag) bool {
		return a.Least == b.Least && a.Most == b.Most && sameCosts(a.Cost, b.Cost)
	}
	sameTurns := func(a, b problem.Turn) bool { return a.From == b.From && sameLags(a.Lag, b.Lag) }
	sameActs := func(a, b problem.Activity) bool {
		return a.Work == b.Work && slices.Equal(a.Workers, b.Workers) && sameLags(&a.Lag, &b.Lag) && slices.EqualFunc(a.Lag.Turns, b.Lag.Turns, sameTurns)
	}
	sameModes := func(a, b problem.Mode) bool {
		return a.Amount == b.Amount && slices.EqualFunc(a.Acts, b.Acts, sameActs)
	}
	sameFamilies := func(a, b problem.Family) bool {
		return a.Keeps == b.Keeps && a.Supply == b.Supply && slices.EqualFunc(a.Modes, b.Modes, sameModes)
	}
	return slices.EqualFunc(o.Families, m.Families, sameFamilies) && reflect.DeepEqual(o.Workers, m.Workers) && slices.Equal(o.Intakes, m.Intakes)
}
