package planner_test

import (
	"fmt"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// yearKitchen is a small dairy over so many weeks of selling, about three batches a
// week: a fresh cheese, a white rind and a wheel that ripens for five to eight
// weeks; a stall every Saturday, a shop every Wednesday, a promised order of each
// kind once a month. Everything can be had, but the pots, the moulds, the presses
// and the shelves are shared most days.
func yearKitchen(weeks int) *schedule.Problem {
	zone := time.UTC
	p := &schedule.Problem{From: at(zone, 2027, time.January, 4, 6, 0), Recipes: []schedule.Recipe{yearFresh(), yearRind(), yearWheel()}}
	p.Kitchen = yearKit(zone)
	for week := range weeks {
		day := p.From.DateIn(zone).AddDays(7 * week)
		add := func(name string, by resources.Moment, wants ...schedule.Want) {
			t := schedule.Target{Name: fmt.Sprintf("%s %d", name, week+1), By: by}
			for _, w := range wants {
				if week >= yearFirst(w.Cheese) {
					t.Wants = append(t.Wants, w)
				}
			}
			if len(t.Wants) > 0 {
				p.Targets = append(p.Targets, t)
			}
		}
		more := week % 3 // no two weeks running are alike
		add("Shop", day.AddDays(2).At(clock(16, 0), zone),
			schedule.Want{Cheese: "Fresh", Pieces: 6 + more, Price: 350}, schedule.Want{Cheese: "Rind", Pieces: 5, Price: 500},
			schedule.Want{Cheese: "Wheel", Pieces: 1, Price: 2400})
		add("Stall", day.AddDays(5).At(clock(7, 0), zone),
			schedule.Want{Cheese: "Fresh", Pieces: 12, Price: 420}, schedule.Want{Cheese: "Rind", Pieces: 11 + more, Price: 650},
			schedule.Want{Cheese: "Wheel", Pieces: 2, Price: 2600})
		switch week % 4 {
		case 1:
			add("Inn", day.AddDays(3).At(clock(12, 0), zone), schedule.Want{Cheese: "Rind", Pieces: 8, Price: 700, Promised: true})
		case 2:
			add("Hall", day.AddDays(4).At(clock(10, 0), zone), schedule.Want{Cheese: "Wheel", Pieces: 2, Price: 2800, Promised: true})
		case 3:
			add("School", day.AddDays(1).At(clock(11, 0), zone), schedule.Want{Cheese: "Fresh", Pieces: 14, Price: 400, Promised: true})
		}
	}
	return p
}

// yearFirst is the first week in which a cheese made after the start can be sold.
func yearFirst(cheese string) int {
	switch cheese {
	case "Fresh":
		return 1
	case "Rind":
		return 3
	default:
		return 8
	}
}

// yearKit is the dairy's people, kit, cold places and milk.
func yearKit(zone *time.Location) resources.Kitchen {
	const h, d = resources.Hour, resources.Day
	only := func(days ...time.Weekday) resources.Weekdays {
		w := resources.Weekdays(0)
		for _, x := range days {
			w = w.With(x)
		}
		return w
	}
	return resources.Kitchen{Name: "Year", TimeZone: zone.String(), Zone: zone, Step: 5, Room: 20_000,
		People: []resources.Person{
			{Name: "Orla", MostPerDay: 5 * h, Hours: []resources.Hours{{Days: resources.Daily, From: clock(6, 0), Until: clock(9, 30)}, {Days: resources.Daily, From: clock(16, 30), Until: clock(21, 0)}},
				RatherNot: []resources.Hours{{Days: resources.Daily, From: clock(20, 0), Until: clock(21, 0)}}},
			{Name: "Finn", MostPerDay: 4 * h, Hours: []resources.Hours{{Days: only(time.Tuesday, time.Wednesday, time.Friday, time.Saturday), From: clock(8, 0), Until: clock(14, 0)}}},
		},
		Round: &resources.Round{At: clock(7, 0), For: 20},
		Pots: []resources.Pot{{Name: "tall pot", Holds: litres(12), Count: 1, Clean: 30}, {Name: "wide pot", Holds: litres(14), Count: 1, Clean: 30},
			{Name: "kettle", Holds: litres(24), Count: 1, Clean: 45}},
		Stations: []resources.Station{{Name: "hook", Count: 4, TakesVolume: litres(4)}, {Name: "press", Count: 4, TakesPieces: 1, Clean: 20}},
		Moulds:   []resources.Mould{{Name: "ring", Count: 30, Clean: 60}, {Name: "hoop", Count: 5, Clean: 60}},
		Boxes: []resources.Box{{Name: "box", Count: 10, Size: sized(40, 30, 12), Clean: 15},
			{Name: "crate", Count: 18, Size: sized(50, 40, 15), Clean: 30}},
		Cold: []resources.ColdPlace{
			{Name: "fridge", Temperature: 4_000, Shelves: []resources.Shelf{{Name: "top", Size: sized(82, 45, 26)}, {Name: "middle", Size: sized(82, 45, 26)}, {Name: "low", Size: sized(82, 45, 40)}}},
			{Name: "cave", Temperature: 11_000, Boxes: 26}},
		Milk: []resources.Milk{{Name: "cow", Days: only(time.Tuesday, time.Friday), Ready: clock(7, 30), Most: litres(48), Keeps: 2 * d, Order: 2 * d}},
	}
}

func yearHold(least, best, most resources.Minutes) *schedule.Hold {
	return &schedule.Hold{Least: least, Best: best, Most: most, HasBest: true}
}

func yearHands(fixed, perLitre, perPiece int) *schedule.Hands {
	return &schedule.Hands{Fixed: rate(1000 * fixed), PerLitre: rate(perLitre), PerPiece: rate(perPiece)}
}

func yearAt(place string) schedule.At { return schedule.At{Kind: schedule.AtPlace, Place: place} }

func yearFresh() schedule.Recipe {
	const h, d = resources.Hour, resources.Day
	return schedule.Recipe{Name: "Fresh", Code: "F", Milk: "cow", Yield: schedule.Yield{Pieces: 5, From: litres(3)}, Spare: 1,
		Batch: schedule.BatchSize{Least: litres(6), Most: litres(14), Step: litres(1), Serves: 1}, Box: &schedule.Boxing{Name: "box", Takes: 10}, Keeps: 6 * d,
		Stages: []schedule.Stage{
			{Name: "make", Hands: yearHands(30, 1000, 0), Hold: yearHold(14*h, 18*h, 24*h), Uses: []schedule.Use{usePot}},
			{Name: "hang", Hands: yearHands(15, 1000, 0), Hold: yearHold(8*h, 12*h, 18*h), Uses: []schedule.Use{useOf("hook")}},
			{Name: "fill", Hands: yearHands(20, 0, 1500), Hold: yearHold(8*h, 12*h, 24*h), At: yearAt("fridge"), Uses: []schedule.Use{useBox}},
			{Name: "pack", Hands: yearHands(10, 0, 500), At: yearAt("fridge"), Uses: []schedule.Use{useBox}},
		}}
}

func yearRind() schedule.Recipe {
	const h, d = resources.Hour, resources.Day
	return schedule.Recipe{Name: "Rind", Code: "R", Milk: "cow", Yield: schedule.Yield{Pieces: 10, From: litres(5)}, Spare: 1, Mould: "ring",
		Batch: schedule.BatchSize{Least: litres(4), Most: litres(12), Step: litres(1), Serves: 1}, Box: &schedule.Boxing{Name: "box", Takes: 8}, Keeps: 7 * d,
		Stages: []schedule.Stage{
			{Name: "make", Hands: yearHands(35, 1000, 0), Uses: []schedule.Use{usePot}},
			{Name: "set", Hold: yearHold(20*h, 24*h, 30*h), Uses: []schedule.Use{usePot}},
			{Name: "ladle", Hands: yearHands(15, 0, 1500), Hold: yearHold(20*h, 24*h, 30*h), Uses: []schedule.Use{useMould}},
			{Name: "ripen", Hands: yearHands(10, 0, 500), Hold: yearHold(7*d, 10*d, 14*d), At: yearAt("cave"), Uses: []schedule.Use{useBox},
				Care: &schedule.Care{Do: "turn", Every: 2, Hands: 5}},
			{Name: "pack", Hands: yearHands(10, 0, 500), At: yearAt("fridge"), Uses: []schedule.Use{useBox}},
		}}
}

func yearWheel() schedule.Recipe {
	const h, d = resources.Hour, resources.Day
	return schedule.Recipe{Name: "Wheel", Code: "W", Milk: "cow", Yield: schedule.Yield{Pieces: 1, From: litres(6)}, Mould: "hoop",
		Batch: schedule.BatchSize{Least: litres(12), Most: litres(24), Step: litres(6), Serves: 1}, Box: &schedule.Boxing{Name: "crate", Takes: 2}, Keeps: 12 * d,
		Stages: []schedule.Stage{
			{Name: "make", Hands: yearHands(90, 2000, 0), Hold: yearHold(10, 10, 30), Uses: []schedule.Use{usePot}},
			{Name: "press", Hands: yearHands(10, 0, 5000), Hold: yearHold(8*h, 12*h, 18*h), Uses: []schedule.Use{useMould, useOf("press")}},
			{Name: "brine", Hands: yearHands(10, 0, 3000), Hold: yearHold(18*h, 24*h, 30*h)},
			{Name: "ripen", Hands: yearHands(10, 0, 3000), Hold: yearHold(35*d, 45*d, 56*d), At: yearAt("cave"), Uses: []schedule.Use{useBox},
				Care: &schedule.Care{Do: "turn and wipe", Every: 4, Hands: 5}},
			{Name: "pack", Hands: yearHands(10, 0, 4000), At: yearAt("fridge"), Uses: []schedule.Use{useBox}},
		}}
}
