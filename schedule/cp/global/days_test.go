package global_test

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/kernel"
)

// TestDaysAreLoads: many stretches at once leave the bounds, or find the conflict,
// that one load for each of them does.
func TestDaysAreLoads(t *testing.T) {
	refused, moved := 0, 0
	for seed := range uint64(4000) {
		type view struct {
			ok   bool
			mins []int32
		}
		state := func(together bool) view {
			r := rand.New(rand.NewPCG(seed, 9))
			s := kernel.New()
			size := s.NewVar(0, int32(r.IntN(2)))
			var items []global.Item
			var vars []kernel.Var
			for range 2 + r.IntN(4) {
				low := int32(r.IntN(12))
				x, l := s.NewVar(low, low+int32(r.IntN(5))), s.NewVar(int32(r.IntN(2)), 1)
				w := int32(r.IntN(4))
				items = append(items, global.Item{Weight: global.Amount{By: size, Table: []int32{w, w + int32(r.IntN(3))}}, If: []kernel.Lit{l.Ge(1)}, Start: x, Timed: true})
				vars = append(vars, x, l)
			}
			var list []global.Day
			for from := int32(0); from < 16; {
				until := from + 1 + int32(r.IntN(5))
				list = append(list, global.Day{From: from, Until: until, AtMost: int32(r.IntN(6))})
				from = until + int32(r.IntN(3))
			}
			if together {
				global.AddDays(s, items, list)
			} else {
				for _, d := range list {
					global.AddLoad(s, items, d.AtMost, d.From, d.Until)
				}
			}
			v := view{ok: s.Search(context.Background(), 0) != kernel.Impossible}
			for _, x := range append(vars, size) {
				v.mins = append(v.mins, s.Min(x), s.Max(x))
			}
			return v
		}
		one, many := state(true), state(false)
		if one.ok != many.ok || one.ok && !slices.Equal(one.mins, many.mins) {
			t.Fatalf("seed %d: got %v together, %v one by one", seed, one, many)
		}
		if !one.ok {
			refused++
		}
		moved++
	}
	if refused < 200 || refused > moved-200 {
		t.Errorf("got %d of %d refused: too few of one kind", refused, moved)
	}
}
