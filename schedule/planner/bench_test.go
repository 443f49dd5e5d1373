package planner_test

import (
	"context"
	"fmt"
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/planner"
)

// seasonKitchen is twelve weeks of two cheeses, about thirty batches: a stall every
// Saturday, a shop every Wednesday, two promised orders a month.
func seasonKitchen(zone *time.Location) *schedule.Problem {
	hold := func(least, best, most resources.Minutes) *schedule.Hold {
		return &schedule.Hold{Least: least, Best: best, Most: most, HasBest: true}
	}
	hands := func(fixed, perLitre, perPiece int) *schedule.Hands {
		return &schedule.Hands{Fixed: rate(1000 * fixed), PerLitre: rate(perLitre), PerPiece: rate(perPiece)}
	}
	cold := func(place string) schedule.At { return schedule.At{Kind: schedule.AtPlace, Place: place} }
	const h, d = resources.Hour, resources.Day
	bloomy := schedule.Recipe{Name: "Bloomy", Code: "B", Milk: "cow", Yield: schedule.Yield{Pieces: 10, From: litres(5)}, Spare: 1, Mould: "ring",
		Batch: schedule.BatchSize{Least: litres(4), Most: litres(12), Step: litres(1), Serves: 1}, Box: &schedule.Boxing{Name: "box", Takes: 8}, Keeps: 6 * d,
		Stages: []schedule.Stage{
			{Name: "make", Hands: hands(35, 1000, 0), Uses: []schedule.Use{usePot}},
			{Name: "set", Hold: hold(20*h, 24*h, 30*h), Uses: []schedule.Use{usePot}},
			{Name: "ladle", Hands: hands(15, 0, 1500), Hold: hold(20*h, 24*h, 30*h), Uses: []schedule.Use{useMould}},
			{Name: "ripen", Hands: hands(10, 0, 500), Hold: hold(7*d, 10*d, 14*d), At: cold("cave"), Uses: []schedule.Use{useBox},
				Care: &schedule.Care{Do: "turn", Every: 2, Hands: 5}},
			{Name: "pack", Hands: hands(10, 0, 500), At: cold("fridge"), Uses: []schedule.Use{useBox}},
		}}
	fresh := schedule.Recipe{Name: "Fresh", Code: "F", Milk: "cow", Yield: schedule.Yield{Pieces: 5, From: litres(3)}, Spare: 1,
		Batch: schedule.BatchSize{Least: litres(6), Most: litres(12), Step: litres(1), Serves: 1}, Box: &schedule.Boxing{Name: "box", Takes: 10}, Keeps: 5 * d,
		Stages: []schedule.Stage{
			{Name: "make", Hands: hands(30, 1000, 0), Hold: hold(14*h, 18*h, 24*h), Uses: []schedule.Use{usePot}},
			{Name: "hang", Hands: hands(15, 1000, 0), Hold: hold(8*h, 12*h, 18*h), Uses: []schedule.Use{useOf("hook")}},
			{Name: "fill", Hands: hands(20, 0, 1500), Hold: hold(8*h, 12*h, 24*h), At: cold("fridge"), Uses: []schedule.Use{useBox}},
			{Name: "pack", Hands: hands(10, 0, 500), At: cold("fridge"), Uses: []schedule.Use{useBox}},
		}}
	p := &schedule.Problem{From: at(zone, 2027, time.May, 3, 6, 0), Recipes: []schedule.Recipe{bloomy, fresh}}
	p.Kitchen = resources.Kitchen{Name: "Season", TimeZone: zone.String(), Zone: zone, Step: 5, Room: 20_000,
		People: []resources.Person{
			{Name: "Orla", MostPerDay: 5 * h, Hours: []resources.Hours{{Days: resources.Daily, From: clock(6, 0), Until: clock(9, 0)}, {Days: resources.Daily, From: clock(17, 0), Until: clock(21, 30)}},
				RatherNot: []resources.Hours{{Days: resources.Daily, From: clock(20, 30), Until: clock(21, 30)}}},
			{Name: "Finn", MostPerDay: resources.NoLimit, Hours: []resources.Hours{{Days: resources.Weekdays(0).With(time.Tuesday).With(time.Saturday), From: clock(9, 0), Until: clock(13, 0)}}},
		},
		Round:    &resources.Round{At: clock(7, 0), For: 20},
		Pots:     []resources.Pot{{Name: "tall pot", Holds: litres(12), Count: 2, Clean: 30}},
		Stations: []resources.Station{{Name: "hook", Count: 3, TakesVolume: litres(4)}},
		Moulds:   []resources.Mould{{Name: "ring", Count: 24, Clean: 60}},
		Boxes:    []resources.Box{{Name: "box", Count: 12, Size: sized(40, 30, 12), Clean: 15}},
		Cold: []resources.ColdPlace{{Name: "fridge", Temperature: 4_000, Shelves: []resources.Shelf{{Name: "top", Size: sized(60, 41, 26)}, {Name: "low", Size: sized(60, 41, 26)}}},
			{Name: "cave", Temperature: 11_000, Boxes: 8}},
		Milk: []resources.Milk{{Name: "cow", Days: resources.Weekdays(0).With(time.Tuesday).With(time.Friday), Ready: clock(7, 30), Most: litres(40), Keeps: 2 * d, Order: 2 * d}},
	}
	for week := 2; week < 14; week++ { // nothing bloomy is ripe before
		day := p.From.DateIn(zone).AddDays(7 * week)
		add := func(name string, by resources.Moment, wants ...schedule.Want) {
			p.Targets = append(p.Targets, schedule.Target{Name: fmt.Sprintf("%s %d", name, week), By: by, Wants: wants})
		}
		add("Stall", day.AddDays(5).At(clock(7, 0), zone), schedule.Want{Cheese: "Bloomy", Pieces: 16, Price: 650}, schedule.Want{Cheese: "Fresh", Pieces: 12, Price: 420})
		add("Shop", day.AddDays(2).At(clock(16, 0), zone), schedule.Want{Cheese: "Bloomy", Pieces: 6, Price: 500}, schedule.Want{Cheese: "Fresh", Pieces: 5, Price: 350})
		if week%2 == 1 {
			add("Order", day.AddDays(6).At(clock(12, 0), zone), schedule.Want{Cheese: "Bloomy", Pieces: 6, Price: 700, Promised: true})
		}
	}
	return p
}

// BenchmarkSeason plans the season and reports the plan's score beside how far it
// may be from the best: gap is the bound's distance in the first part in which
// there is one, at is that part (0 for none).
func BenchmarkSeason(b *testing.B) {
	for _, budget := range []int64{30_000_000, 120_000_000} {
		b.Run(fmt.Sprintf("work=%d", budget), func(b *testing.B) {
			p := seasonKitchen(time.UTC)
			var plan *schedule.Plan
			b.ReportAllocs()
			for b.Loop() {
				var err error
				if plan, err = planner.Plan(context.Background(), p, planner.Options{Budget: budget}); err != nil {
					b.Fatal(err)
				}
			}
			s := plan.Score
			b.ReportMetric(float64(s.PromisedShort+s.Short), "short")
			b.ReportMetric(float64(s.Batches), "batches")
			b.ReportMetric(float64(s.Litres)/1000, "litres")
			b.ReportMetric(float64(s.Bother), "bother")
			score, bound := parts(s), parts(plan.Proof.Bound)
			gap, at := int64(0), 0
			for i := range score {
				if score[i] != bound[i] {
					gap, at = score[i]-bound[i], i+1
					break
				}
			}
			b.ReportMetric(float64(gap), "gap")
			b.ReportMetric(float64(at), "gap-at-part")
		})
	}
}

// The season's plan holds too.
func TestTheSeasonHolds(t *testing.T) {
	p := seasonKitchen(zoneNamed(t, "UTC"))
	plan := planFor(t, p, 1_000_000)
	mustHold(t, p, plan)
	if n := plan.Score.Batches; n < 25 || n > 45 {
		t.Errorf("got %d batches, want about thirty", n)
	}
	t.Logf("%+v, proved %s", plan.Score, plan.Proof.Level)
}
