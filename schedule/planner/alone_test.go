package planner_test

import (
	"fmt"
	"testing"
	"time"

	"pgregory.net/rapid"

	"ripeby/resources"
	"ripeby/schedule"
)

// tinyKitchens draws kitchens with one cheese, one target of one want and nothing
// under way, small enough to try every plan of one batch.
func tinyKitchens() *rapid.Generator[*schedule.Problem] {
	return rapid.Custom(func(t *rapid.T) *schedule.Problem {
		m := &maker{t: t, p: &schedule.Problem{}, plenty: 1}
		k := &m.p.Kitchen
		k.Name, k.TimeZone, k.Zone, k.Room = "Reed Farm", "UTC", zoneNamed(t, "UTC"), 20_000
		k.Step = pick[resources.Minutes](m, "step", 60, 30)
		m.p.From = dayOf(2027, time.March, 1).At(clock(m.n("from", 0, 23), 0), k.Zone)
		for i := range m.n("people", 1, 2) {
			k.People = append(k.People, m.tinyPerson(i))
		}
		for i := range m.n("pots", 1, 2) {
			k.Pots = append(k.Pots, resources.Pot{Name: fmt.Sprintf("pot %d", i+1), Holds: litres(m.n("holds", 3, 6)), Count: 1, Clean: m.cleaning()})
		}
		k.Stations = []resources.Station{{Name: "hook", Count: 2, TakesVolume: litres(m.n("hook takes", 2, 4)), Clean: m.cleaning()},
			{Name: "press", Count: 2, TakesPieces: 4, Clean: m.cleaning()}, {Name: "tub", Count: 1, Clean: m.cleaning()}}
		k.Moulds = []resources.Mould{{Name: "ring", Count: m.n("rings", 4, 14), Clean: m.cleaning()}}
		k.Boxes = []resources.Box{{Name: "box", Count: m.n("boxes", 2, 4), Clean: m.cleaning()}}
		k.Cold = []resources.ColdPlace{{Name: "cave", Temperature: 11_000, Boxes: m.n("cave boxes", 1, 4)}}
		if m.chance("taken", 15) {
			at := m.p.From.Add(minutes(60 * m.n("taken from", 0, 60)))
			k.Cold[0].Taken = []resources.Span{{From: at, Until: at.Add(minutes(60 * m.n("taken for", 1, 10)))}}
		}
		k.Milk = []resources.Milk{{Name: "milk", Days: resources.Daily, Ready: clock(m.n("ready", 0, 20), 30), Most: litres(m.n("most milk", 3, 9)),
			Keeps: minutes(60 * m.n("milk keeps", 1, 30)), Order: minutes(60 * pick(m, "order", 0, 12, 24))}}
		m.p.Recipes = []schedule.Recipe{m.tinyRecipe()}
		m.p.Targets = []schedule.Target{{Name: "Stall", By: m.p.From.Add(minutes(60 * m.n("by", 5, 70))), Packed: minutes(pick(m, "packed", 0, 0, 90)),
			Wants: []schedule.Want{{Cheese: "Tiny", Pieces: m.n("pieces", 1, 9), Price: 300, Promised: m.chance("promised", 30)}}}}
		return m.p
	})
}

func (m *maker) tinyPerson(i int) resources.Person {
	p := resources.Person{Name: fmt.Sprintf("Person %d", i+1), MostPerDay: resources.NoLimit}
	from := clock(m.n("hours from", 0, 20), 0)
	p.Hours = []resources.Hours{{Days: resources.Daily, From: from, Until: from + 60*resources.Clock(m.n("hours", 2, 14))}}
	if p.Hours[0].Until > clock(24, 0) {
		p.Hours[0].Until -= clock(24, 0)
	}
	if m.chance("rather not?", 50) {
		at := clock(m.n("rather from", 0, 21), 10)
		p.RatherNot = []resources.Hours{{Days: resources.Daily, From: at, Until: at + 120}}
	}
	if m.chance("most per day?", 25) {
		p.MostPerDay = minutes(m.n("most per day", 60, 300))
	}
	return p
}

func (m *maker) tinyRecipe() schedule.Recipe {
	r := schedule.Recipe{Name: "Tiny", Code: "T", Yield: schedule.Yield{Pieces: m.n("yield", 1, 2), From: litres(1)}, Mould: "ring",
		Box: &schedule.Boxing{Name: "box", Takes: m.n("box takes", 3, 6)}, Keeps: minutes(60 * m.n("keeps", 1, 40)),
		Batch: schedule.BatchSize{Least: litres(3), Most: litres(3 + m.n("sizes", 0, 2)), Step: litres(1), Serves: m.n("serves", 1, 3)}}
	if m.chance("milk?", 50) {
		r.Milk = "milk"
	}
	if m.chance("spare?", 30) {
		r.Spare = 1
	}
	n := m.n("stages", 2, 4)
	for i := range n {
		s := schedule.Stage{Name: fmt.Sprintf("stage %d", i+1), Uses: []schedule.Use{usePot}}
		after := i > 0 && r.Stages[i-1].Hold != nil && r.Stages[i-1].Hold.Most > 0
		switch {
		case i > 0 && after && m.chance("no work", 30):
			s.Uses, s.At = r.Stages[i-1].Uses, r.Stages[i-1].At
		default:
			s.Hands = &schedule.Hands{Fixed: rate(1000 * m.n("fixed", 10, 80)), PerPiece: rate(pick(m, "per piece", 0, 2500))}
			if i > 0 {
				s.Uses = [][]schedule.Use{{usePot}, {useOf("hook")}, {useOf("press")}, {useOf("tub")}, {useMould}, {useBox}, {useBox}}[m.n("kit", 0, 6)]
			}
			if s.Uses[0] == useBox && m.chance("cold", 60) {
				s.At = schedule.At{Kind: schedule.AtPlace, Place: "cave"}
			}
			if s.Uses[0] == useBox && m.chance("fresh", 30) {
				s.Fresh = []schedule.UseKind{schedule.UseBox}
			}
			if m.chance("who?", 20) {
				s.Who = []string{"Person 1"}
			}
		}
		if i < n-1 && m.chance("hold?", 70) {
			h := &schedule.Hold{Least: minutes(30 * m.n("least", 0, 12))}
			h.Most = h.Least + minutes(30*m.n("width", 2, 8))
			if h.HasBest = m.chance("best?", 70); h.HasBest {
				h.Best = h.Least + minutes(m.n("best", 0, int(h.Most-h.Least)))
			}
			s.Hold = h
		}
		r.Stages = append(r.Stages, s)
	}
	return r
}

// oneIsEnough reports whether every size of batch could meet the only want: then
// no plan needs more than one, and what is known of one is known of all.
func oneIsEnough(p *schedule.Problem) bool {
	r, w := &p.Recipes[0], &p.Targets[0].Wants[0]
	least := int(int64(r.Batch.Least)*int64(r.Yield.Pieces)/int64(r.Yield.From)) - r.Spare
	return w.Pieces <= least && (w.Pieces >= r.Batch.Serves || w.Promised)
}

// One batch beside nothing else is placed as well as it can be, and the plan says so.
func TestOneBatchAloneIsBest(t *testing.T) {
	made, proved, all := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		p := tinyKitchens().Draw(t, "kitchen")
		plan := planFor(t, p, smallBudget)
		mustHold(t, p, plan)
		want := bestByHand(p)
		all++
		if plan.Score.Batches > 1 {
			if plan.Score.Compare(want) > 0 {
				t.Errorf("got %+v with several batches, one gives %+v", plan.Score, want)
			}
			return // more than can be tried by hand
		}
		made += plan.Score.Batches
		if plan.Score != want {
			t.Errorf("got %+v, by hand %+v", plan.Score, want)
		}
		if len(p.Kitchen.Cold[0].Taken) == 0 && oneIsEnough(p) {
			proved++
			if plan.Proof.Level != schedule.LevelAll {
				t.Errorf("got %+v proved up to %s, bound %+v; want all of it", plan.Score, plan.Proof.Level, plan.Proof.Bound)
			}
		}
	})
	t.Logf("of %d kitchens %d make one batch, %d must be proved", all, made, proved)
}
