package ical

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// A stay covers the local days on which it takes space, whatever the clocks do: a
// day of 25 hours is one day, and a stay that ends at midnight is not there on the
// day that begins.
//
//	in ├──────────────────┤ out
//	  day 1 │ day 2 │ day 3
func TestColdSpansAreWholeLocalDays(t *testing.T) {
	tests := []struct {
		name, zone, in, out string // in and out in UTC
		start, end          string // DTEND is the day after the last
	}{
		{"some days", "Europe/Dublin", "2027-03-16 09:00", "2027-03-19 10:00", "20270316", "20270320"},
		{"part of one day", "Europe/Dublin", "2027-03-16 09:00", "2027-03-16 10:00", "20270316", "20270317"},
		{"out at midnight", "Europe/Dublin", "2027-03-16 09:00", "2027-03-18 00:00", "20270316", "20270318"},
		{"out a minute later", "Europe/Dublin", "2027-03-16 09:00", "2027-03-18 00:01", "20270316", "20270319"},
		{"in at midnight", "Europe/Dublin", "2027-03-17 00:00", "2027-03-18 00:00", "20270317", "20270318"},
		// Dublin's day of 25 hours is 31 October 2027, from 23:00 UTC the day before.
		{"the day of 25 hours", "Europe/Dublin", "2027-10-30 23:00", "2027-11-01 00:00", "20271031", "20271101"},
		{"its last hour", "Europe/Dublin", "2027-10-31 23:00", "2027-10-31 23:30", "20271031", "20271101"},
		// Its day of 23 hours is 28 March 2027, until 23:00 UTC.
		{"the day of 23 hours", "Europe/Dublin", "2027-03-28 00:00", "2027-03-28 23:00", "20270328", "20270329"},
		{"a day ahead of UTC", "Pacific/Auckland", "2027-04-03 10:30", "2027-04-04 12:30", "20270403", "20270406"},
		{"half an hour back on Lord Howe", "Australia/Lord_Howe", "2027-04-03 13:00", "2027-04-04 13:30", "20270404", "20270405"},
		{"over new year, ISO week 53", "Europe/Dublin", "2026-12-31 12:00", "2027-01-01 12:00", "20261231", "20270102"},
		{"the leap day", "Europe/Dublin", "2028-02-28 12:00", "2028-02-29 12:00", "20280228", "20280301"},
	}
	for _, c := range tests {
		t.Run(c.name, func(t *testing.T) {
			p := kitchenIn(t, c.zone)
			in, out := momentAt(t, c.in), momentAt(t, c.out)
			plan := &schedule.Plan{TimeZone: c.zone, From: in.Add(-resources.Day), Batches: []schedule.Batch{{
				ID: "BH-1", Cheese: "Bramble hoop", Pieces: 15,
				Stages: []schedule.Task{{Stage: "chill", Start: in.Add(-30), Work: 30, Hold: out.Sub(in), Ends: out, At: "cave",
					BoxesAt: []schedule.Standing{{Place: "cave"}, {Place: "cave"}}}},
			}}}
			data := made(t, p, plan, Options{Cold: true})
			obeys(t, data)
			events := read(t, data).Events()
			if len(events) != 1 {
				t.Fatalf("got %d events, want 1", len(events))
			}
			for name, want := range map[string]string{"DTSTART": c.start, "DTEND": c.end} {
				got := events[0].Props.Get(name)
				if got.Value != want || got.ValueType() != "DATE" || got.Params.Get("TZID") != "" {
					t.Errorf("%s: got %s %v, want the date %s", name, got.Value, got.Params, want)
				}
			}
		})
	}
}

// staySample is the calendar sample with stock in two places.
func staySample(zone string, start resources.Moment) *schedule.Plan {
	plan := samplePlan(zone, start)
	plan.Stock[0].Ends = start.Add(10 * resources.Day)
	plan.Stock[0].BoxesAt = []schedule.Standing{{Place: "kitchen fridge", Shelf: "top", Layer: 1}}
	second := plan.Stock[0]
	second.Pieces, second.At, second.BoxesAt = 2, "cheese cave", []schedule.Standing{{Place: "cheese cave"}}
	plan.Stock = append(plan.Stock, second)
	return plan
}

// The stays of the sample: per batch the chill, the ripening and the store after
// packing, and its stock once; nothing of the room, no work, round or target.
func TestColdSpansTell(t *testing.T) {
	p := kitchenIn(t, "Europe/Dublin")
	plan := staySample("Europe/Dublin", momentAt(t, "2027-03-16 07:30"))
	data := made(t, p, plan, Options{Cold: true, Person: "nobody of the kitchen", Sheets: "https://kitchen.example/batch/"})
	seen := eventsSeen(t, data, bySystem)
	if len(seen) != 7 {
		t.Errorf("got %d stays, want 7", len(seen))
	}
	tests := []struct{ name, uid, summary, where, text string }{
		{"chill", uidOf("stay", "BH-270316-1", "chill"), "Kitchen fridge: Bramble hoop, 2 boxes", "kitchen fridge",
			"Batch BH-270316-1, Bramble hoop: 15 pieces\nIn: Wed 17 Mar 2027 22:05, for chill\nOut: Thu 18 Mar 2027 22:05\nWhere: kitchen fridge (1 box on top, 1 box on middle)"},
		{"store", uidOf("stay", "BH-270316-1", "pack"), "Kitchen fridge: Bramble hoop, 15 pieces", "kitchen fridge",
			"Batch BH-270316-1, Bramble hoop: 15 pieces\nIn: Sat 27 Mar 2027 23:35, for pack\nOut: Sun 28 Mar 2027 12:35\nWhere: kitchen fridge"},
		{"stock", uidOf("stock", "Bramble hoop", "2027-03-15T07:30:00Z"), "Kitchen fridge, cheese cave: Bramble hoop, 2 boxes", "kitchen fridge, cheese cave",
			"Stock, Bramble hoop: 5 pieces, packed Mon 15 Mar 2027 07:30\nOut: Fri 26 Mar 2027 07:30\nWhere: kitchen fridge (1 box on top)\nWhere: cheese cave (1 box)"},
	}
	for _, c := range tests {
		e, ok := seen[c.uid]
		if !ok {
			t.Errorf("%s: no event %s", c.name, c.uid)
			continue
		}
		if e.summary != c.summary || e.location != c.where || e.description != c.text || e.transparency != "TRANSPARENT" || e.alarm != "" {
			t.Errorf("%s: got %q at %q, %s, alarm %q\n%s\nwant %q at %q, no alarm\n%s",
				c.name, e.summary, e.location, e.transparency, e.alarm, e.description, c.summary, c.where, c.text)
		}
	}
	for uid := range seen {
		if strings.Contains(uid, "work") || strings.Contains(uid, "round") || strings.Contains(uid, "target") {
			t.Errorf("%s is no stay", uid)
		}
	}
	if name, _ := read(t, data).Props.Text("NAME"); name != "Saltgrass Lane: cold places" {
		t.Errorf("NAME: got %q", name)
	}
}

// A stage without work that follows a hold in the same place is the same stay.
func TestColdStayGoesOn(t *testing.T) {
	p := kitchenIn(t, "Europe/Dublin")
	plan := samplePlan("Europe/Dublin", momentAt(t, "2027-03-16 07:30"))
	b := &plan.Batches[0]
	ripen := &b.Stages[5]
	ripen.Work, ripen.Who, ripen.At, ripen.BoxesAt = 0, "", "kitchen fridge", b.Stages[4].BoxesAt
	ripen.Start = b.Stages[4].Ends
	seen := eventsSeen(t, made(t, p, plan, Options{Cold: true}), bySystem)
	chill, ok := seen[uidOf("stay", b.ID, "chill")]
	if _, twice := seen[uidOf("stay", b.ID, "ripen")]; twice || !ok {
		t.Fatalf("got two stays or none, want one that begins with the chill")
	}
	if want := ripen.Ends.DateIn(p.Kitchen.Zone).AddDays(1).String(); chill.end.Format(time.DateOnly) != want {
		t.Errorf("the stay ends before %s, want %s", chill.end.Format(time.DateOnly), want)
	}
}

// The golden shows stays as they are written.
func TestColdSpansGolden(t *testing.T) {
	p := kitchenIn(t, "Europe/Dublin")
	plan := staySample("Europe/Dublin", momentAt(t, "2027-03-16 07:30"))
	got := made(t, p, plan, Options{Cold: true, Sheets: "https://kitchen.example/batch/"})
	file := filepath.Join("testdata", "cold.ics")
	if *update {
		if err := os.WriteFile(file, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	plain := func(b []byte) string { return strings.ReplaceAll(string(b), "\r\n", "\n") }
	if plain(got) != plain(want) {
		t.Errorf("%s differs (go test -update writes it anew)\ngot:\n%s", file, got)
	}
}

// Names get into stays whole and add nothing to them.
func TestColdSpansWithNastyNames(t *testing.T) {
	start := momentAt(t, "2027-03-16 07:30")
	for _, c := range nastyNames {
		p := kitchenIn(t, "Europe/Dublin")
		p.Kitchen.Name = c.in
		data := made(t, p, named(staySample("Europe/Dublin", start), c.in), Options{Cold: true})
		obeys(t, data)
		for _, e := range eventsSeen(t, data, bySystem) {
			if c.name != "nothing to see" && strings.TrimSpace(c.out) != "" && !strings.Contains(strings.ToLower(e.summary), strings.ToLower(c.out)) &&
				!strings.Contains(e.summary, "Bramble hoop") {
				t.Errorf("%s: got %q, want the name whole", c.name, e.summary)
			}
		}
	}
}
