package planner_test

import (
	"testing"

	"pgregory.net/rapid"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/testrun"
)

// A kitchen with one thing fewer is never better than the bound of the kitchen with
// it: whatever can be planned without it can be planned with it.
func TestFewerThingsNeverBeatTheBound(t *testing.T) {
	taken := map[string]int{}
	testrun.Checks(t, 30)
	rapid.Check(t, func(t *rapid.T) {
		p := kitchens().Draw(t, "kitchen")
		// What has happened may stand in what is taken away, and a round frees whom it
		// no longer finds: only new batches and free hours are sure to lose.
		p.Begun, p.Stock, p.Kitchen.Round = nil, nil, nil
		with := planFor(t, p, smallBudget)
		without := *p
		what := takeAway(&maker{t: t, p: &without})
		if what == "" {
			t.Skip("nothing can be taken away")
		}
		taken[what]++
		less := planFor(t, &without, smallBudget)
		if part := beats(less.Score, with.Score, with.Proof.Bound); part != "" {
			t.Errorf("without one %s the plan has %s of %+v, below the bound %+v of the plan with it, %+v",
				what, part, less.Score, with.Proof.Bound, with.Score)
		}
	})
	t.Logf("taken away: %v", taken)
}

// takeAway takes one thing from the kitchen and says which; "" when it is not there.
func takeAway(m *maker) string {
	k := &m.p.Kitchen
	switch m.n("what", 0, 6) {
	case 0:
		k.Moulds = append([]resources.Mould(nil), k.Moulds...)
		k.Moulds[0].Count--
		return "mould"
	case 1:
		k.Boxes = append([]resources.Box(nil), k.Boxes...)
		k.Boxes[m.n("which box", 0, 1)].Count--
		return "box"
	case 2:
		k.Pots = append([]resources.Pot(nil), k.Pots...)
		for i := range k.Pots {
			if k.Pots[i].Count > 1 {
				k.Pots[i].Count--
				return "pot"
			}
		}
	case 3:
		k.Stations = append([]resources.Station(nil), k.Stations...)
		for i := range k.Stations {
			if k.Stations[i].Count > 1 {
				k.Stations[i].Count--
				return "station"
			}
		}
	case 4:
		k.Cold = append([]resources.ColdPlace(nil), k.Cold...)
		for i := range k.Cold {
			switch c := &k.Cold[i]; {
			case len(c.Shelves) > 1:
				c.Shelves = c.Shelves[1:]
				return "shelf"
			case c.Boxes > 1:
				c.Boxes--
				return "place for a box"
			}
		}
	case 5:
		k.People = append([]resources.Person(nil), k.People...)
		k.People[0].Hours = append([]resources.Hours(nil), k.People[0].Hours...)
		for i := range k.People[0].Hours {
			if h := &k.People[0].Hours[i]; h.Until > h.From+60 {
				h.Until -= 60
				return "hour"
			}
		}
	case 6:
		k.Milk = append([]resources.Milk(nil), k.Milk...)
		for i := range k.Milk {
			if k.Milk[i].Most > 1000 {
				k.Milk[i].Most -= 1000
				return "litre of milk"
			}
		}
	}
	return ""
}

// beats names the part in which a score is better than the bound of another, which
// holds for a part as far as the earlier parts are that other's; "" for none.
func beats(score, other, bound schedule.Score) string {
	names := []string{"promised short", "late", "short", "batches", "moved", "litres", "bother", "make starts"}
	s, o, b := parts(score), parts(other), parts(bound)
	for i := range s {
		if s[i] < b[i] {
			return names[i]
		}
		if s[i] != o[i] {
			return ""
		}
	}
	return ""
}

// parts are the eight parts of a score, each to be small.
func parts(s schedule.Score) [8]int64 {
	return [8]int64{int64(s.PromisedShort), s.Late, int64(s.Short), int64(s.Batches), int64(s.Moved), int64(s.Litres), s.Bother, -s.MakeStarts}
}
