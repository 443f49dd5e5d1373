package planner_test

import (
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// The chain of a small bloomy goat's cheese as it is counted back on paper: 24 h to
// set, 12 h hung, 10 h pressed, 24 h in the moulds, 14 d to ripen (common practice,
// no source).
func paperChain() schedule.Recipe {
	exactly := func(length resources.Minutes) *schedule.Hold {
		return &schedule.Hold{Least: length, Best: length, Most: length, HasBest: true}
	}
	return schedule.Recipe{Name: "Paper", Code: "P", Yield: schedule.Yield{Pieces: 10, From: litres(5)}, Mould: "small mould",
		Batch: schedule.BatchSize{Least: litres(4), Most: litres(4), Step: litres(1), Serves: 1}, Keeps: 6 * resources.Day,
		Stages: []schedule.Stage{
			{Name: "set", Hold: exactly(24 * resources.Hour)},
			{Name: "hang", Hold: exactly(12 * resources.Hour)},
			{Name: "press", Hold: exactly(10 * resources.Hour)},
			{Name: "mould", Hold: exactly(24 * resources.Hour)},
			{Name: "ripen", Hold: exactly(14 * resources.Day)},
			{Name: "pack"},
		}}
}

// paperKitchen wants eight pieces at each of the moments.
func paperKitchen(zone *time.Location, from resources.Moment, by ...resources.Moment) *schedule.Problem {
	p := &schedule.Problem{From: from, Recipes: []schedule.Recipe{paperChain()}}
	p.Kitchen = resources.Kitchen{Name: "Paper", TimeZone: zone.String(), Zone: zone, Step: 1,
		People: []resources.Person{{Name: "Nell", MostPerDay: resources.NoLimit, Hours: []resources.Hours{{Days: resources.Daily, Until: clock(24, 0)}}}},
		Moulds: []resources.Mould{{Name: "small mould", Count: 8}}}
	for i, m := range by {
		p.Targets = append(p.Targets, schedule.Target{Name: "Market " + string(rune('A'+i)), By: m,
			Wants: []schedule.Want{{Cheese: "Paper", Pieces: 8, Price: 100}}})
	}
	return p
}

// at is a local moment.
func at(zone *time.Location, y int, mo time.Month, d, h, min int) resources.Moment {
	return dayOf(y, mo, d).At(clock(h, min), zone)
}

// Counted back by hand: 16 d 22 h in all, elapsed whatever the clocks do. Dublin's
// go forward on 28 March 2027, Hobart's back on 4 April (IANA time zone database
// 2025b, files europe and australasia).
func TestThePaperChainIsCountedBack(t *testing.T) {
	dublin, hobart := zoneNamed(t, "Europe/Dublin"), zoneNamed(t, "Australia/Hobart")
	tests := []struct {
		name           string
		zone           *time.Location
		from, by, want resources.Moment
	}{
		{"no change between", dublin, at(dublin, 2027, time.January, 20, 9, 0), at(dublin, 2027, time.February, 14, 9, 0), at(dublin, 2027, time.January, 28, 11, 0)},
		{"an hour lost", dublin, at(dublin, 2027, time.March, 12, 9, 0), at(dublin, 2027, time.April, 5, 9, 0), at(dublin, 2027, time.March, 19, 10, 0)},
		{"an hour twice", hobart, at(hobart, 2027, time.March, 20, 9, 0), at(hobart, 2027, time.April, 10, 9, 0), at(hobart, 2027, time.March, 24, 12, 0)},
	}
	for _, c := range tests {
		t.Run(c.name, func(t *testing.T) {
			p := paperKitchen(c.zone, c.from, c.by)
			plan := planFor(t, p, smallBudget)
			mustHold(t, p, plan)
			if len(plan.Batches) != 1 {
				t.Fatalf("got %d batches, want 1", len(plan.Batches))
			}
			b := &plan.Batches[0]
			if b.Stages[0].Start != c.want {
				t.Errorf("begins %v, want %v", b.Stages[0].Start.In(c.zone), c.want.In(c.zone))
			}
			if last := &b.Stages[len(b.Stages)-1]; last.Start != c.by {
				t.Errorf("packed %v, want %v", last.Start.In(c.zone), c.by.In(c.zone))
			}
			if b.Litres != 4000 || b.Pieces != 8 {
				t.Errorf("got %d pieces from %d mL, want 8 from 4000", b.Pieces, b.Litres)
			}
			if plan.Score.Bother != 0 || plan.Proof.Level != schedule.LevelAll {
				t.Errorf("bother %d, proved %s; want 0, all", plan.Score.Bother, plan.Proof.Level)
			}
		})
	}
}

// Eight pieces fill eight moulds from the minute of moulding until the work of the
// next stage is done. With a minute of work at each, that is 24 h and 2 min; cleaning
// comes on top. So one set of moulds takes two makes that far apart and no nearer,
// and never two in a day; two sets take both.
func TestOneSetOfMouldsTakesOneMakeADay(t *testing.T) {
	zone := zoneNamed(t, "Europe/Dublin")
	tests := []struct {
		name          string
		moulds        int
		apart, clean  resources.Minutes
		work, wantMet int
	}{
		{"less than a day", 8, 23 * resources.Hour, 0, 1, 8},
		{"less than a day, two sets", 16, 23 * resources.Hour, 0, 1, 16},
		{"a day, with a minute of work", 8, 24 * resources.Hour, 0, 1, 8},
		{"a day and the work but one minute", 8, 24*resources.Hour + 1, 0, 1, 8},
		{"a day and the work", 8, 24*resources.Hour + 2, 0, 1, 16},
		{"a day and the work, no time to clean", 8, 24*resources.Hour + 2, 30, 1, 8},
		{"a day, the work and half the cleaning", 8, 24*resources.Hour + 17, 30, 1, 8},
		{"a day, the work and the cleaning", 8, 24*resources.Hour + 32, 30, 1, 16},
		{"a day, two sets", 16, 24 * resources.Hour, 30, 1, 16},
		{"a day, half an hour of work", 8, 24 * resources.Hour, 0, 30, 8},
	}
	for _, c := range tests {
		t.Run(c.name, func(t *testing.T) {
			by := at(zone, 2027, time.February, 14, 9, 0)
			p := paperKitchen(zone, at(zone, 2027, time.January, 20, 9, 0), by, by.Add(c.apart))
			p.Kitchen.Moulds[0].Count, p.Kitchen.Moulds[0].Clean = c.moulds, c.clean
			r := &p.Recipes[0]
			r.Keeps = 0 // each make is for its own market
			work := &schedule.Hands{Fixed: rate(1000 * c.work)}
			r.Stages[3].Hands, r.Stages[4].Hands = work, work
			r.Stages[3].Uses = []schedule.Use{useMould}
			plan := planFor(t, p, smallBudget)
			mustHold(t, p, plan)
			met := 0
			for _, w := range plan.Targets {
				met += w.Met
			}
			if met != c.wantMet {
				t.Errorf("%d moulds, %d min apart, %d min of cleaning: got %d pieces, want %d", c.moulds, c.apart, c.clean, met, c.wantMet)
			}
		})
	}
}
