package judge

import (
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// chain gives a cheese of holds only (24 h set, 12 h hung, 10 h pressed, 24 h in
// moulds, 14 d ripening: common practice, no source) and a plan of one batch, its
// stages at the local times given, leaving the moment it is packed.
func chain(t *testing.T, zoneName, from, by string, starts []string) (*schedule.Problem, *schedule.Plan) {
	t.Helper()
	zone := zoneOf(t, zoneName)
	r := schedule.Recipe{Name: "Plain round", Code: "PR", Yield: schedule.Yield{Pieces: 1, From: 1_000}, Keeps: resources.Day,
		Batch: schedule.BatchSize{Least: 4_000, Most: 4_000, Step: 1_000}}
	b := schedule.Batch{Cheese: r.Name, Litres: 4_000, Pieces: 4}
	holds := []resources.Minutes{24 * hours, 12 * hours, 10 * hours, 24 * hours, 14 * resources.Day, 0}
	for i, name := range []string{"set", "hang", "press", "mould", "ripen", "pack"} {
		s := schedule.Stage{Name: name}
		if holds[i] > 0 {
			s.Hold = hold(holds[i], holds[i], holds[i])
		}
		r.Stages = append(r.Stages, s)
		task := taskOf(name, clock(t, zone, starts[i]), 0, "", holds[i], "room")
		task.Revised = clock(t, zone, from)
		b.Stages = append(b.Stages, task)
	}
	first := clock(t, zone, starts[0])
	b.ID = "PR-" + first.In(zone).Format("060102") + "-1"
	leaves := clock(t, zone, by)
	b.For = []schedule.Share{{Target: "Stall", By: leaves, Pieces: 4}}
	p := &schedule.Problem{From: clock(t, zone, from), Recipes: []schedule.Recipe{r},
		Kitchen: resources.Kitchen{Name: "Reed Farm", TimeZone: zoneName, Zone: zone, Step: 5},
		Targets: []schedule.Target{{Name: "Stall", By: leaves, Wants: []schedule.Want{{Cheese: r.Name, Pieces: 4, Price: 100}}}}}
	plan := &schedule.Plan{Kitchen: "Reed Farm", TimeZone: zoneName, From: p.From, Outcome: schedule.Met, Batches: []schedule.Batch{b},
		Targets:    []schedule.WantResult{{Target: "Stall", By: leaves, Cheese: r.Name, Price: 100, Wanted: 4, Met: 4}},
		LastNumber: []schedule.NumberUsed{{Day: b.ID[:9], Last: 1}},
		Score:      schedule.Score{Batches: 1, Litres: 4_000, MakeStarts: int64(first - p.From)}}
	plan.Proof = schedule.Proof{Best: true, Level: schedule.LevelAll, Bound: plan.Score}
	return p, plan
}

// 16 d 22 h before the stall, counted by hand on the clock of the place: an hour
// earlier by the clock where it went forward since, an hour later where it went
// back. Changes of 2027: Dublin 28 March and 31 October, Hobart 4 April and 3
// October (tz database, rules EU and AT).
func TestChainsOfHoldsAcrossClockChanges(t *testing.T) {
	for _, x := range []struct {
		name, zone, from, by string
		starts               []string
	}{
		{"Dublin, no change between", "Europe/Dublin", "2027-01-20 06:00", "2027-02-14 09:00",
			[]string{"2027-01-28 11:00", "2027-01-29 11:00", "2027-01-29 23:00", "2027-01-30 09:00", "2027-01-31 09:00", "2027-02-14 09:00"}},
		{"Dublin, forward", "Europe/Dublin", "2027-03-10 06:00", "2027-04-03 09:00",
			[]string{"2027-03-17 10:00", "2027-03-18 10:00", "2027-03-18 22:00", "2027-03-19 08:00", "2027-03-20 08:00", "2027-04-03 09:00"}},
		{"Dublin, back", "Europe/Dublin", "2027-10-10 06:00", "2027-11-06 09:00",
			[]string{"2027-10-20 12:00", "2027-10-21 12:00", "2027-10-22 00:00", "2027-10-22 10:00", "2027-10-23 10:00", "2027-11-06 09:00"}},
		{"Hobart, back", "Australia/Hobart", "2027-03-10 06:00", "2027-04-10 09:00",
			[]string{"2027-03-24 12:00", "2027-03-25 12:00", "2027-03-26 00:00", "2027-03-26 10:00", "2027-03-27 10:00", "2027-04-10 09:00"}},
		{"Hobart, forward", "Australia/Hobart", "2027-09-10 06:00", "2027-10-09 09:00",
			[]string{"2027-09-22 10:00", "2027-09-23 10:00", "2027-09-23 22:00", "2027-09-24 08:00", "2027-09-25 08:00", "2027-10-09 09:00"}},
	} {
		t.Run(x.name, func(t *testing.T) {
			p, plan := chain(t, x.zone, x.from, x.by, x.starts)
			expect(t, p, plan, "")
		})
	}
}

// Hours are wall-clock time, so they move with the change while holds do not: half
// an hour of work before the chain and half an hour after it, at either side of
// Dublin's change, lie in windows that look an hour apart.
func TestHoursMoveWithTheClock(t *testing.T) {
	for _, x := range []struct {
		name, zone, from, by string
		starts               []string
		opens, closes        resources.Clock // of the first day's window
		want                 string
	}{
		{"Dublin, by the clock of March", "Europe/Dublin", "2027-03-10 06:00", "2027-04-03 09:00",
			[]string{"2027-03-17 10:00", "2027-03-18 10:00", "2027-03-18 22:00", "2027-03-19 08:00", "2027-03-20 08:00", "2027-04-03 09:00"}, hm(9, 30), hm(10, 0), ""},
		{"Dublin, by elapsed days", "Europe/Dublin", "2027-03-10 06:00", "2027-04-03 09:00",
			[]string{"2027-03-17 10:00", "2027-03-18 10:00", "2027-03-18 22:00", "2027-03-19 08:00", "2027-03-20 08:00", "2027-04-03 09:00"}, hm(10, 30), hm(11, 0), "outside-hours"},
		{"Hobart, by the clock of March", "Australia/Hobart", "2027-03-10 06:00", "2027-04-10 09:00",
			[]string{"2027-03-24 12:00", "2027-03-25 12:00", "2027-03-26 00:00", "2027-03-26 10:00", "2027-03-27 10:00", "2027-04-10 09:00"}, hm(11, 30), hm(12, 0), ""},
	} {
		t.Run(x.name, func(t *testing.T) {
			p, plan := chain(t, x.zone, x.from, x.by, x.starts)
			// Half an hour of work ends when the set begins; the packing lasts from 09:00 to 09:30.
			work := schedule.Stage{Name: "make", Hands: hands(30, 0, 0)}
			p.Recipes[0].Stages = append([]schedule.Stage{work}, p.Recipes[0].Stages...)
			b := &plan.Batches[0]
			first := taskOf("make", b.Stages[0].Start-30, 30, "Una", 0, "room")
			first.Revised = p.From
			b.Stages = append([]schedule.Task{first}, b.Stages...)
			p.Recipes[0].Stages[6].Hands = hands(30, 0, 0)
			pack := &b.Stages[6]
			pack.Work, pack.Who, pack.Ends = 30, "Una", pack.Start+30
			b.For[0].By, p.Targets[0].By, plan.Targets[0].By = pack.Ends, pack.Ends, pack.Ends
			p.Kitchen.People = []resources.Person{{Name: "Una", MostPerDay: resources.NoLimit, Hours: []resources.Hours{
				{Days: resources.Weekdays(0).With(time.Wednesday), From: x.opens, Until: x.closes},
				{Days: resources.Weekdays(0).With(time.Saturday), From: hm(9, 0), Until: hm(9, 30)}}}}
			reseal(p, plan)
			expect(t, p, plan, x.want)
		})
	}
}

// A turn every day falls due on each local date between, also on the one of 23
// hours and when 24 hours would miss one.
func TestCareFallsDueByLocalDays(t *testing.T) {
	p, plan := chain(t, "Europe/Dublin", "2027-10-10 06:00", "2027-11-06 09:00",
		[]string{"2027-10-20 12:00", "2027-10-21 12:00", "2027-10-22 00:00", "2027-10-22 10:00", "2027-10-23 10:00", "2027-11-06 09:00"})
	p.Recipes[0].Stages[4].Care = &schedule.Care{Do: "turn", Every: 4, Hands: 5}
	for _, n := range []int{27, 31, 4} {
		month := time.October
		if n == 4 {
			month = time.November
		}
		plan.Batches[0].Care = append(plan.Batches[0].Care, schedule.CareDay{Day: resources.Date{Year: 2027, Month: month, Day: n}, Do: "turn", Hands: 5})
	}
	plan.Warnings = []schedule.Warning{{Code: "care-without-round"}}
	expect(t, p, plan, "")
	plan.Batches[0].Care[1].Day.Day = 30
	expect(t, p, plan, "care")
}
