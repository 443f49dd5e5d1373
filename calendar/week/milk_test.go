package week

import (
	"slices"
	"strings"
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

// The rows of what stands, was ordered or is only taken as ordered say so, in every form.
func TestMilkRowsTell(t *testing.T) {
	p, plan := sample.Kitchen(), sample.Plan(sample.Kitchen())
	p.Kitchen.Milk[0].Standing = 10_000
	opt := Options{Of: resources.Date{Year: 2027, Month: 3, Day: 14}, Width: 200}
	text := tableText(t, p, plan, opt)
	for _, want := range []string{"8 L", "to collect Tue 16 Mar 07:30, 18 L in all; for BH-270316-1 9 L, BH-270316-2 9 L",
		"- Order by Sun 14 Mar 07:30: 8 L Hill Farm cow, to collect Tue 16 Mar 07:30, 18 L in all."} {
		if !strings.Contains(text, want) {
			t.Errorf("got\n%s\nwant in it %q", text, want)
		}
	}
	plan.From = sample.At(p.Kitchen.Zone, "2027-03-15 06:00")
	opt.Of = resources.Date{Year: 2027, Month: 3, Day: 16}
	text = tableText(t, p, plan, opt)
	for _, want := range []string{"for BH-270316-1 9 L, BH-270316-2 9 L; taken as ordered", "Comes without an order: 10 L. This is taken as ordered."} {
		if !strings.Contains(text, want) {
			t.Errorf("got\n%s\nwant in it %q", text, want)
		}
	}
	opt.Format = CSV
	for _, r := range readCSV(t, tableText(t, p, plan, opt)) {
		if r["kind"] == "collect" && (r["text"] != "taken as ordered" || r["litres"] != "18" || r["batch"] != "BH-270316-1 BH-270316-2") {
			t.Errorf("got %v, want 18 L for both batches, taken as ordered", r)
		}
	}
}
