package week

import (
	"slices"
	"testing"

	"ripeby/calendar/sample"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

func TestMilkToOrderAndCollect(t *testing.T) {
	p := sample.Kitchen()
	zone := p.Kitchen.Zone
	at := func(s string) resources.Moment { return sample.At(zone, s) }
	draw := func(id, supply, collect string, litres resources.Millilitres) schedule.Batch {
		return schedule.Batch{ID: id, Litres: litres, Milk: &schedule.Draw{Supply: supply, Collect: at(collect)}}
	}
	p.Kitchen.Milk = append(p.Kitchen.Milk, resources.Milk{Name: "own goats"}) // no need to order
	plan := &schedule.Plan{From: at("2027-03-14 06:00"), Batches: []schedule.Batch{
		draw("A", "Hill Farm cow", "2027-03-16 07:30", 8_000),
		draw("B", "own goats", "2027-03-16 07:30", 2_500),
		draw("C", "Hill Farm cow", "2027-03-16 07:30", 4_750),
		draw("D", "Hill Farm cow", "2027-03-19 07:30", 10_000),
		draw("E", "Hill Farm cow", "2027-03-15 07:30", 6_000), // its order moment is past
		draw("F", "Hill Farm cow", "2027-03-12 07:30", 6_000), // drawn already
		draw("G", "Hill Farm cow", "2027-03-30 07:30", 6_000), // order 2 days ahead, across the clock change
		{ID: "H", Litres: 3_000},
	}}
	p.Ordered = []schedule.Ordered{
		{Milk: "Hill Farm cow", Day: resources.Date{Year: 2027, Month: 3, Day: 19}, Litres: 6_000},
		{Milk: "Hill Farm cow", Day: resources.Date{Year: 2027, Month: 3, Day: 15}, Litres: 6_000},
	}
	var got []string
	for _, j := range schedule.MilkJobs(p, plan) {
		verb := "collect"
		if j.Order {
			verb = "order"
		}
		got = append(got, words.Unglue(words.Stamp(j.At, zone)+" "+verb+" "+words.Litres(j.Litres)+" "+j.Supply))
	}
	want := []string{
		"Fri 12 Mar 07:30 collect 6 L Hill Farm cow",
		"Sun 14 Mar 07:30 order 12.75 L Hill Farm cow",
		"Mon 15 Mar 07:30 collect 6 L Hill Farm cow",
		"Tue 16 Mar 07:30 collect 12.75 L Hill Farm cow",
		"Tue 16 Mar 07:30 collect 2.5 L own goats",
		"Wed 17 Mar 07:30 order 4 L Hill Farm cow", // 10 L less 6 L ordered
		"Fri 19 Mar 07:30 collect 10 L Hill Farm cow",
		"Sun 28 Mar 07:30 order 6 L Hill Farm cow",
		"Tue 30 Mar 07:30 collect 6 L Hill Farm cow",
	}
	if !slices.Equal(got, want) {
		t.Errorf("got\n%q\nwant\n%q", got, want)
	}
}
