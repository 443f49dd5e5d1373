package judge

import (
	"slices"
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// zoneOf loads a time zone or fails the test.
func zoneOf(t *testing.T, name string) *time.Location {
	t.Helper()
	zone, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return zone
}

// clock reads "2006-01-02 15:04" in the zone; tests write no skipped or repeated hour
// with it.
func clock(t *testing.T, zone *time.Location, s string) resources.Moment {
	t.Helper()
	at, err := time.ParseInLocation("2006-01-02 15:04", s, zone)
	if err != nil {
		t.Fatal(err)
	}
	return resources.Moment(at.Unix() / 60)
}

// dublin reads "01-02 15:04" of 2027 in Dublin, before the clocks change.
type dublin struct {
	t    *testing.T
	zone *time.Location
}

func (d dublin) at(s string) resources.Moment { return clock(d.t, d.zone, "2027-"+s) }

func cm(n int) resources.Micrometres { return resources.Micrometres(n) * resources.Centimetre }

func box3(w, d, h int) resources.Size {
	return resources.Size{Width: cm(w), Depth: cm(d), Height: cm(h)}
}

// hm is a clock time.
func hm(h, m int) resources.Clock { return resources.Clock(h*60 + m) }

const workdays = resources.Weekdays(0b0111110)

// smallKitchen has two people, one of everything that is counted, a measured
// fridge and a counted cave. Nell is away on Wednesday 10 March.
func smallKitchen(d dublin) resources.Kitchen {
	return resources.Kitchen{
		Name: "Reed Farm", TimeZone: "Europe/Dublin", Zone: d.zone, Step: 5, Room: 20_000,
		People: []resources.Person{
			{Name: "Nell", Hours: []resources.Hours{{Days: resources.Daily, From: hm(6, 0), Until: hm(14, 0)}, {Days: resources.Daily, From: hm(14, 0), Until: hm(22, 0)}},
				RatherNot:  []resources.Hours{{Days: resources.Daily, From: hm(6, 0), Until: hm(7, 0)}},
				MostPerDay: resources.NoLimit,
				Away:       []resources.Span{{From: d.at("03-10 00:00"), Until: d.at("03-11 00:00")}}},
			{Name: "Tom", Hours: []resources.Hours{{Days: workdays, From: hm(12, 0), Until: hm(18, 0)}}, MostPerDay: resources.NoLimit},
		},
		Round:    &resources.Round{At: hm(7, 0), For: 20},
		Pots:     []resources.Pot{{Name: "tall pot", Holds: 10_000, Count: 1, Clean: 20}, {Name: "wide pot", Holds: 9_000, Count: 1}},
		Stations: []resources.Station{{Name: "hook", Count: 4, TakesVolume: 6_000}},
		Moulds:   []resources.Mould{{Name: "small hoop", Count: 16, Clean: 30}},
		Boxes: []resources.Box{{Name: "ripening box", Count: 8, Size: box3(40, 30, 12), Clean: 15},
			{Name: "carton", Count: 20, Size: box3(30, 20, 12)}},
		Cold: []resources.ColdPlace{
			{Name: "fridge", Temperature: 4_000, Shelves: []resources.Shelf{{Name: "top", Size: box3(52, 36, 26)}, {Name: "middle", Size: box3(52, 36, 26)}}},
			{Name: "cave", Temperature: 11_000, Boxes: 3},
			{Name: "cellar", Temperature: 13_000, Boxes: 3},
		},
		Milk: []resources.Milk{{Name: "Farm cow", Days: resources.Weekdays(0).With(time.Tuesday).With(time.Friday), Ready: hm(7, 30), Most: 16_000,
			Keeps: 2 * resources.Day, Order: resources.Day}},
	}
}

var (
	pot     = schedule.Use{Kind: schedule.UsePot}
	mould   = schedule.Use{Kind: schedule.UseMould}
	boxUse  = schedule.Use{Kind: schedule.UseBox}
	hook    = schedule.Use{Kind: schedule.UseStation, Name: "hook"}
	inCold  = schedule.At{Kind: schedule.AtRange, Low: 2_000, High: 6_000}
	hours   = resources.Hour
	withAll = func(u ...schedule.Use) []schedule.Use { return u }
)

func hold(least, best, most resources.Minutes) *schedule.Hold {
	return &schedule.Hold{Least: least, Best: best, Most: most, HasBest: true}
}

func hands(fixed, perLitre, perPiece int) *schedule.Hands {
	return &schedule.Hands{Fixed: resources.Rate(fixed * 1000), PerLitre: resources.Rate(perLitre * 1000), PerPiece: resources.Rate(perPiece * 1000)}
}

// hoop is a bloomy cheese with a stay of two stages, fresh boxes and cartons.
func hoop() schedule.Recipe {
	return schedule.Recipe{Name: "Reed hoop", Code: "RH", Milk: "Farm cow", Yield: schedule.Yield{Pieces: 10, From: 5_000}, Spare: 1,
		Batch: schedule.BatchSize{Least: 4_000, Most: 12_000, Step: 1_000, Serves: 2}, Mould: "small hoop",
		Box: &schedule.Boxing{Name: "ripening box", Takes: 8}, Keeps: 6 * resources.Day,
		Stages: []schedule.Stage{
			{Name: "make", Hands: hands(40, 2, 0), Uses: withAll(pot)},
			{Name: "set", Hold: hold(21*hours, 25*hours, 30*hours), Uses: withAll(pot)},
			{Name: "drain", Hands: hands(20, 2, 0), Hold: hold(9*hours, 12*hours, 16*hours), Uses: withAll(hook)},
			{Name: "mould", Hands: hands(20, 0, 2), Uses: withAll(mould, boxUse)},
			{Name: "chill", Hold: hold(19*hours, 24*hours, 36*hours), At: inCold, Uses: withAll(mould, boxUse)},
			{Name: "rest", Hold: &schedule.Hold{Most: 12 * hours}, At: inCold, Uses: withAll(mould, boxUse)},
			{Name: "ripen", Hands: hands(10, 0, 1), Hold: hold(7*resources.Day, 10*resources.Day, 15*resources.Day), At: inCold,
				Uses: withAll(boxUse), Fresh: []schedule.UseKind{schedule.UseBox}, Care: &schedule.Care{Do: "turn", Every: 2, Hands: 5}},
			{Name: "pack", Hands: hands(10, 0, 1), At: inCold, Uses: withAll(boxUse), Box: &schedule.Boxing{Name: "carton", Takes: 12}},
		}}
}

// tomme is a cheese for the counted cave; only Tom salts it.
func tomme() schedule.Recipe {
	return schedule.Recipe{Name: "Cave tomme", Code: "CT", Yield: schedule.Yield{Pieces: 10, From: 10_000},
		Batch: schedule.BatchSize{Least: 4_000, Most: 10_000, Step: 1_000}, Box: &schedule.Boxing{Name: "ripening box", Takes: 5}, Keeps: 30 * resources.Day,
		Stages: []schedule.Stage{
			{Name: "make", Hands: hands(30, 0, 0), Hold: &schedule.Hold{Most: 6 * hours}, Uses: withAll(pot)},
			{Name: "salt", Hands: hands(20, 0, 0), Hold: &schedule.Hold{Least: 5 * resources.Day, Most: 30 * resources.Day},
				At: schedule.At{Kind: schedule.AtRange, Low: 10_000, High: 14_000}, Uses: withAll(boxUse), Who: []string{"Tom"}},
			{Name: "pack", Hands: hands(10, 0, 0), At: schedule.At{Kind: schedule.AtPlace, Place: "cave"}, Uses: withAll(boxUse)},
		}}
}

// taskOf makes a task; Ends follows, and it may begin neither sooner nor later.
func taskOf(stage string, start resources.Moment, work resources.Minutes, who string, hold resources.Minutes, at string) schedule.Task {
	return schedule.Task{Stage: stage, Start: start, Work: work, Who: who, Hold: hold, Ends: start.Add(work + hold), At: at, SlipFrom: start, SlipUntil: start}
}

// stack is so many boxes on one another.
func stack(shelf string, x, y, w, d, n int) []schedule.Standing {
	var out []schedule.Standing
	for k := 1; k <= n; k++ {
		out = append(out, schedule.Standing{Place: "fridge", Shelf: shelf, X: cm(x), Y: cm(y), Width: cm(w), Depth: cm(d), Layer: k})
	}
	return out
}

func (d dublin) used(thing string, count int, from, until, clean string) schedule.Occupied {
	return schedule.Occupied{Thing: thing, Count: count, From: d.at(from), Until: d.at(until), CleanUntil: d.at(clean)}
}

// firstBatch: 8 L of Tuesday's milk by Nell, worked out by hand.
//
//	make Tue 09:00 60' | set 30 h | drain Wed 16:00 40', 14 h 50 | mould Thu 07:30 55'
//	chill 24 h | rest 1 h 35 | ripen Fri 10:00 30', 10 d | pack Mon 15th 10:30 30' | leaves Sat 20th 07:00
func firstBatch(d dublin) schedule.Batch {
	b := schedule.Batch{ID: "RH-270302-1", Cheese: "Reed hoop", Litres: 8_000, Pieces: 16, Spare: 1,
		Milk: &schedule.Draw{Supply: "Farm cow", Collect: d.at("03-02 07:30")},
		Stages: []schedule.Task{
			taskOf("make", d.at("03-02 09:00"), 60, "Nell", 0, "room"),
			taskOf("set", d.at("03-02 10:00"), 0, "", 30*hours, "room"),
			taskOf("drain", d.at("03-03 16:00"), 40, "Nell", 14*hours+50, "room"),
			taskOf("mould", d.at("03-04 07:30"), 55, "Nell", 0, "room"),
			taskOf("chill", d.at("03-04 08:25"), 0, "", 24*hours, "fridge"),
			taskOf("rest", d.at("03-05 08:25"), 0, "", 95, "fridge"),
			taskOf("ripen", d.at("03-05 10:00"), 30, "Nell", 10*resources.Day, "fridge"),
			taskOf("pack", d.at("03-15 10:30"), 30, "Nell", 4*resources.Day+20*hours, "fridge"),
		},
		For: []schedule.Share{{Target: "Stall", By: d.at("03-20 07:00"), Want: 0, Pieces: 15}},
	}
	b.Stages[0].Uses = []schedule.Occupied{d.used("tall pot", 1, "03-02 09:00", "03-03 16:40", "03-03 17:00")}
	b.Stages[2].Uses = []schedule.Occupied{d.used("hook", 2, "03-03 16:00", "03-04 08:25", "03-04 08:25")}
	b.Stages[3].Uses = []schedule.Occupied{d.used("small hoop", 16, "03-04 07:30", "03-05 10:30", "03-05 11:00"),
		d.used("ripening box", 2, "03-04 07:30", "03-05 10:30", "03-05 10:45")}
	b.Stages[6].Uses = []schedule.Occupied{d.used("ripening box", 2, "03-05 10:00", "03-15 11:00", "03-15 11:15")}
	b.Stages[7].Uses = []schedule.Occupied{d.used("carton", 2, "03-15 10:30", "03-20 07:00", "03-20 07:00")}
	b.Stages[4].BoxesAt = stack("top", 0, 0, 40, 30, 2)
	b.Stages[5].BoxesAt = stack("top", 0, 0, 40, 30, 2)
	b.Stages[6].BoxesAt = stack("middle", 0, 0, 40, 30, 2)
	b.Stages[7].BoxesAt = stack("middle", 0, 0, 30, 20, 2)
	b.Care = d.turns("03-07", "03-09", "03-11", "03-13")
	return b
}

// secondBatch: 8 L of Friday's milk, made by Tom, with no rest in the cold.
func secondBatch(d dublin) schedule.Batch {
	b := schedule.Batch{ID: "RH-270305-1", Cheese: "Reed hoop", Litres: 8_000, Pieces: 16, Spare: 1,
		Milk: &schedule.Draw{Supply: "Farm cow", Collect: d.at("03-05 07:30")},
		Stages: []schedule.Task{
			taskOf("make", d.at("03-05 12:00"), 60, "Tom", 0, "room"),
			taskOf("set", d.at("03-05 13:00"), 0, "", 30*hours, "room"),
			taskOf("drain", d.at("03-06 19:00"), 40, "Nell", 12*hours, "room"),
			taskOf("mould", d.at("03-07 07:40"), 55, "Nell", 0, "room"),
			taskOf("chill", d.at("03-07 08:35"), 0, "", 24*hours, "fridge"),
			taskOf("rest", d.at("03-08 08:35"), 0, "", 0, "fridge"),
			taskOf("ripen", d.at("03-08 08:35"), 30, "Nell", 7*resources.Day, "fridge"),
			taskOf("pack", d.at("03-15 09:05"), 30, "Nell", 4*resources.Day+21*hours+25, "fridge"),
		},
		For: []schedule.Share{
			{Target: "Stall", By: d.at("03-20 07:00"), Want: 0, Pieces: 5},
			{Target: "Stall", By: d.at("03-20 07:00"), Want: 1, Pieces: 6, Promised: 6},
			{Target: "Orders", By: d.at("03-19 15:00"), Want: 0, Pieces: 4, Promised: 4}},
	}
	b.Stages[0].Uses = []schedule.Occupied{d.used("wide pot", 1, "03-05 12:00", "03-06 19:40", "03-06 19:40")}
	b.Stages[2].Uses = []schedule.Occupied{d.used("hook", 2, "03-06 19:00", "03-07 08:35", "03-07 08:35")}
	b.Stages[3].Uses = []schedule.Occupied{d.used("small hoop", 16, "03-07 07:40", "03-08 09:05", "03-08 09:35"),
		d.used("ripening box", 2, "03-07 07:40", "03-08 09:05", "03-08 09:20")}
	b.Stages[6].Uses = []schedule.Occupied{d.used("ripening box", 2, "03-08 08:35", "03-15 09:35", "03-15 09:50")}
	b.Stages[7].Uses = []schedule.Occupied{d.used("carton", 2, "03-15 09:05", "03-20 07:00", "03-20 07:00")}
	b.Stages[4].BoxesAt = stack("top", 0, 0, 40, 30, 2)
	b.Stages[6].BoxesAt = stack("top", 5, 5, 40, 30, 2)
	b.Stages[7].BoxesAt = stack("top", 0, 0, 20, 30, 2)
	b.Care = d.turns("03-10", "03-12", "03-14")
	return b
}

// caveBatch: 10 L for the cave.
func caveBatch(d dublin) schedule.Batch {
	b := schedule.Batch{ID: "CT-270309-1", Cheese: "Cave tomme", Litres: 10_000, Pieces: 10,
		Stages: []schedule.Task{
			taskOf("make", d.at("03-09 09:00"), 30, "Nell", 150, "room"),
			taskOf("salt", d.at("03-09 12:00"), 20, "Tom", 5*resources.Day+23*hours+40, "cave"),
			taskOf("pack", d.at("03-15 12:00"), 10, "Tom", 4*resources.Day+18*hours+50, "cave"),
		},
		For: []schedule.Share{{Target: "Stall", By: d.at("03-20 07:00"), Want: 2, Pieces: 10}},
	}
	b.Stages[0].Uses = []schedule.Occupied{d.used("tall pot", 1, "03-09 09:00", "03-09 12:20", "03-09 12:40")}
	b.Stages[1].Uses = []schedule.Occupied{d.used("ripening box", 2, "03-09 12:00", "03-20 07:00", "03-20 07:15")}
	b.Stages[1].BoxesAt = []schedule.Standing{{Place: "cave"}, {Place: "cave"}}
	b.Stages[2].BoxesAt = []schedule.Standing{{Place: "cave"}, {Place: "cave"}}
	return b
}

func (d dublin) turns(days ...string) []schedule.CareDay {
	var out []schedule.CareDay
	for _, s := range days {
		out = append(out, schedule.CareDay{Day: d.at(s + " 00:00").DateIn(d.zone), Do: "turn", Hands: 5})
	}
	return out
}

func (d dublin) round(on string, batches ...string) schedule.RoundBlock {
	r := schedule.RoundBlock{Start: d.at(on + " 07:00"), Minutes: 20, Who: "Nell"}
	for _, b := range batches {
		r.Care = append(r.Care, schedule.RoundCare{Batch: b, Do: "turn", Hands: 5})
	}
	return r
}

// sound gives a problem and a plan for it that holds, worked out by hand.
func sound(t *testing.T) (dublin, *schedule.Problem, *schedule.Plan) {
	t.Helper()
	d := dublin{t, zoneOf(t, "Europe/Dublin")}
	from := d.at("03-01 06:00")
	p := &schedule.Problem{Kitchen: smallKitchen(d), Recipes: []schedule.Recipe{hoop(), tomme()}, From: from,
		Targets: []schedule.Target{
			{Name: "Stall", By: d.at("03-20 07:00"), Packed: 12 * hours, Wants: []schedule.Want{
				{Cheese: "Reed hoop", Pieces: 20, Price: 650}, {Cheese: "Reed hoop", Pieces: 6, Price: 650, Promised: true},
				{Cheese: "Cave tomme", Pieces: 10, Price: 900}}},
			{Name: "Orders", By: d.at("03-19 15:00"), Wants: []schedule.Want{{Cheese: "Reed hoop", Pieces: 4, Price: 700, Promised: true}}},
		}}
	const a, b = "RH-270302-1", "RH-270305-1"
	plan := &schedule.Plan{Kitchen: "Reed Farm", TimeZone: "Europe/Dublin", From: from, Outcome: schedule.Met,
		Batches: []schedule.Batch{firstBatch(d), secondBatch(d), caveBatch(d)},
		Targets: []schedule.WantResult{
			{Target: "Stall", By: d.at("03-20 07:00"), Want: 0, Cheese: "Reed hoop", Price: 650, Wanted: 20, Met: 20},
			{Target: "Stall", By: d.at("03-20 07:00"), Want: 1, Cheese: "Reed hoop", Price: 650, Promised: true, Wanted: 6, Met: 6},
			{Target: "Stall", By: d.at("03-20 07:00"), Want: 2, Cheese: "Cave tomme", Price: 900, Wanted: 10, Met: 10},
			{Target: "Orders", By: d.at("03-19 15:00"), Want: 0, Cheese: "Reed hoop", Price: 700, Promised: true, Wanted: 4, Met: 4},
		},
		Rounds: []schedule.RoundBlock{d.round("03-06"), d.round("03-07", a), d.round("03-08"), d.round("03-09", a), d.round("03-11", a),
			d.round("03-12", b), d.round("03-13", a), d.round("03-14", b), d.round("03-15")},
		Warnings:   []schedule.Warning{{Code: "care-without-round", Text: "RH-270305-1 is to be turned on 10 March, when nobody does the round."}},
		LastNumber: []schedule.NumberUsed{{Day: "CT-270309", Last: 1}, {Day: "RH-270302", Last: 1}, {Day: "RH-270305", Last: 1}},
	}
	for i := range plan.Batches {
		for k := range plan.Batches[i].Stages {
			plan.Batches[i].Stages[k].Revised = from
		}
		plan.Batches[i].MarkCritical()
	}
	// Bother by hand. First: set 30 h of 21-25-30: 100; drain 14 h 50 of 9-12-16:
	// 170/240 = 70.8: 71; the rest at best. Second: set 100, ripen 7 d of 7-10-15: 100.
	// Make starts: 1 d 3 h, 4 d 6 h, 8 d 3 h after the planning start.
	plan.Score = schedule.Score{Batches: 3, Litres: 26_000, Bother: 371, MakeStarts: 1620 + 6120 + 11_700}
	plan.Proof = schedule.Proof{Best: true, Level: schedule.LevelAll, Bound: plan.Score}
	return d, p, plan
}

// rulesOf lists the rules of violations, each once, sorted.
func rulesOf(vs []Violation) []string {
	var out []string
	for _, v := range vs {
		out = append(out, v.Rule)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// expect checks that the plan breaks exactly the one rule, or none for "".
func expect(t *testing.T, p *schedule.Problem, plan *schedule.Plan, rule string) {
	t.Helper()
	got := Check(p, plan)
	var want []string
	if rule != "" {
		want = []string{rule}
	}
	if !slices.Equal(rulesOf(got), want) {
		t.Errorf("got rules %q, want %q", rulesOf(got), want)
		for _, v := range got {
			t.Log(v)
		}
	}
}

// reseal writes the score that the plan now has, proved, and what is now critical.
func reseal(p *schedule.Problem, plan *schedule.Plan) {
	for i := range plan.Batches {
		plan.Batches[i].MarkCritical()
	}
	plan.Changes = p.Changes(plan)
	p.MarkOverdue(plan)
	for i := range plan.Changes {
		plan.Changes[i].Because = "of something"
	}
	plan.Score = newHearing(p, plan).score()
	plan.Proof = schedule.Proof{Best: true, Level: schedule.LevelAll, Bound: plan.Score}
}
