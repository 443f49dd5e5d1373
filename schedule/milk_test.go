package schedule_test

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// milkPlan is a plan from Monday 1 March 2027, 06:00, of batches that draw so much on the
// collection of a day of March at 07:30.
func milkPlan(from string, draws ...schedule.Batch) *schedule.Plan {
	return &schedule.Plan{From: milkAt(from), Batches: draws}
}

func milkAt(text string) resources.Moment {
	at, err := time.Parse("2006-01-02 15:04", text)
	if err != nil {
		panic(err)
	}
	return resources.MomentOf(at)
}

func drawing(id, supply, collect string, litres resources.Millilitres) schedule.Batch {
	return schedule.Batch{ID: id, Cheese: "Ash button", Litres: litres, Milk: &schedule.Draw{Supply: supply, Collect: milkAt(collect)}}
}

// told says jobs in short: what, when, and for which batches.
func told(jobs []schedule.MilkJob) []string {
	var out []string
	for _, j := range jobs {
		text := "collect"
		if j.Order {
			text = "order"
		}
		text += fmt.Sprintf(" %s %s %d+%d", j.At.In(time.UTC).Format("02 15:04"), j.Supply, j.Litres, j.Known)
		for _, d := range j.Draws {
			text += " " + d.Batch
		}
		out = append(out, text)
	}
	return out
}

// What is ordered for a day is known to come, a collection at midnight is the old day's,
// and what was due before the plan begins is not asked for.
func TestMilkJobsByWhatIsKnown(t *testing.T) {
	p := &schedule.Problem{Kitchen: resources.Kitchen{Zone: time.UTC, Milk: []resources.Milk{
		{Name: "cow", Days: resources.Daily, Ready: 450, Order: resources.Day, Most: resources.NoLimit},
		{Name: "late", Days: resources.Daily, Ready: 24 * 60, Order: resources.Day, Most: resources.NoLimit},
		{Name: "own", Days: resources.Daily, Ready: 450, Most: resources.NoLimit},
	}}}
	for _, day := range []int{3, 4} {
		for _, milk := range []string{"cow", "late"} {
			p.Ordered = append(p.Ordered, schedule.Ordered{Milk: milk, Day: resources.Date{Year: 2027, Month: 3, Day: day}, Litres: 8_000})
		}
	}
	plan := milkPlan("2027-03-01 07:30",
		drawing("A", "cow", "2027-03-02 07:30", 9_000),  // to be ordered this very moment
		drawing("B", "cow", "2027-03-03 07:30", 5_000),  // less than was ordered
		drawing("C", "cow", "2027-03-03 07:30", 3_000),  // just as much
		drawing("D", "cow", "2027-03-04 07:30", 12_000), // more
		drawing("E", "late", "2027-03-04 00:00", 9_000), // of the third
		drawing("F", "own", "2027-03-02 07:30", 2_000),  // without an order
		drawing("G", "gone", "2027-03-02 07:30", 1_000), // of a supply that is no more
		drawing("H", "cow", "2027-03-01 07:30", 4_000),  // its order moment is past
		schedule.Batch{ID: "I", Litres: 2_000},
	)
	want := []string{
		"order 01 07:30 cow 9000+0 A", "collect 01 07:30 cow 4000+0 H",
		"collect 02 07:30 cow 9000+0 A", "collect 02 07:30 gone 1000+0 G", "collect 02 07:30 own 2000+0 F",
		"order 03 00:00 late 1000+8000 E", "order 03 07:30 cow 4000+8000 D",
		"collect 03 07:30 cow 8000+8000 B C", "collect 04 00:00 late 9000+8000 E", "collect 04 07:30 cow 12000+8000 D",
	}
	if got := told(schedule.MilkJobs(p, plan)); !slices.Equal(got, want) {
		t.Errorf("got\n%q\nwant\n%q", got, want)
	}
}

// Milk that stands comes without an order, what was ordered or came takes its place, and
// what only the plan before had ordered is marked.
func TestMilkJobsOfWhatStands(t *testing.T) {
	day := func(d int) resources.Date { return resources.Date{Year: 2027, Month: 3, Day: d} }
	p := &schedule.Problem{Kitchen: resources.Kitchen{Zone: time.UTC, Milk: []resources.Milk{
		{Name: "cow", Days: resources.Daily, Ready: 450, Order: 2 * resources.Day, Standing: 6_000, Most: resources.NoLimit},
		{Name: "ewe", Days: resources.Daily, Ready: 450, Standing: 6_000, Most: resources.NoLimit}}}, // more of it, whenever asked for
		Ordered: []schedule.Ordered{{Milk: "cow", Day: day(5), Litres: 7_000}, {Milk: "cow", Day: day(6), Litres: 5_000}},
		Came:    []schedule.Came{{Milk: "cow", Day: day(1), Litres: 4_000}}}
	began := drawing("A", "cow", "2027-03-01 07:30", 9_000)
	began.Begun = true
	plan := milkPlan("2027-03-01 08:00", began,
		drawing("B", "cow", "2027-03-02 07:30", 9_000), // of which 3 L only the plan before had ordered
		drawing("C", "cow", "2027-03-04 07:30", 6_000), // stands
		drawing("D", "cow", "2027-03-05 07:30", 9_000), // 7 L are ordered
		drawing("E", "cow", "2027-03-06 07:30", 9_000), // fewer are ordered than stand
		drawing("F", "ewe", "2027-03-07 07:30", 9_000),
	)
	want := []string{"collect 01 07:30 cow 9000+4000 A", "collect 02 07:30 cow 9000+6000 B", "order 03 07:30 cow 2000+7000 D",
		"order 04 07:30 cow 3000+6000 E", "collect 04 07:30 cow 6000+6000 C", "collect 05 07:30 cow 9000+7000 D", "collect 06 07:30 cow 9000+6000 E",
		"order 07 07:30 ewe 3000+6000 F", "collect 07 07:30 ewe 9000+6000 F"}
	jobs := schedule.MilkJobs(p, plan)
	if got := told(jobs); !slices.Equal(got, want) {
		t.Fatalf("got\n%q\nwant\n%q", got, want)
	}
	by := []schedule.KnownBy{schedule.KnownCame, schedule.KnownStanding, schedule.KnownOrdered, schedule.KnownStanding, schedule.KnownStanding, schedule.KnownOrdered, schedule.KnownStanding,
		schedule.KnownStanding, schedule.KnownStanding}
	for i, j := range jobs {
		if j.By != by[i] || j.Assumed != (i == 1) {
			t.Errorf("%s: got known by %q, assumed %v; want %q, %v", told(jobs[i:i+1]), j.By, j.Assumed, by[i], i == 1)
		}
	}
}
