package ical

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"ripeby/calendar/note"
	"ripeby/resources"
	"ripeby/schedule"
)

var update = flag.Bool("update", false, "write the golden files anew")

// zoneCases are the cases of the acceptance list: both clock changes of a northern
// and a southern zone, half an hour's offset, half an hour's change, new year and
// ISO week 53 of 2026 (28 December to 3 January). starts are in UTC; the sample's
// pieces of work, rounds and targets spread from four days before to ten days
// after it, and the first start of each pair puts the make into the change itself.
var zoneCases = []struct {
	name, zone, start string
	utc               int // how many events must be in UTC
}{
	// IANA zone data: Europe changes on 28 March and 31 October 2027 at 01:00 UTC.
	{"spring forward in Dublin", "Europe/Dublin", "2027-03-28 00:30", 0},
	{"before spring in Dublin", "Europe/Dublin", "2027-03-16 07:30", 0},
	{"back in Dublin, from before", "Europe/Dublin", "2027-10-30 23:30", 1},
	{"back in Dublin, first time", "Europe/Dublin", "2027-10-31 00:15", 1},
	{"back in Dublin, second time", "Europe/Dublin", "2027-10-31 01:15", 2}, // and the round an hour before,
	{"after the change in Dublin", "Europe/Dublin", "2027-10-31 02:00", 2},  // only the round an hour before, and the milk
	{"back in Berlin", "Europe/Berlin", "2027-10-31 00:30", 1},
	// New Zealand changes on 4 April and 26 September 2027.
	{"back in Auckland", "Pacific/Auckland", "2027-04-03 13:30", 1},
	{"forward in Auckland", "Pacific/Auckland", "2027-09-25 13:30", 0},
	{"half an hour's offset", "Asia/Kolkata", "2027-03-16 01:30", 0},
	{"half an hour back on Lord Howe", "Australia/Lord_Howe", "2027-04-03 14:35", 1},
	{"half an hour forward on Lord Howe", "Australia/Lord_Howe", "2027-10-02 15:10", 0},
	{"week 53 and new year", "Europe/Dublin", "2026-12-28 07:30", 0},
	{"new year in a southern summer", "Pacific/Auckland", "2027-12-30 20:00", 0},
	{"back in New York", "America/New_York", "2027-11-07 05:30", 1},
	{"no zone at all", "UTC", "2027-03-16 07:30", 0},
}

// Every piece of work, round, target and job with milk of the plan is read back by a reader that
// shares no code with the writer, once by the machine's zone data and once by the
// file's own, with the same moment, length, summary and alarm.
func TestEventsReadBack(t *testing.T) {
	for _, c := range zoneCases {
		t.Run(c.name, func(t *testing.T) {
			p := kitchenIn(t, c.zone)
			plan := samplePlan(c.zone, momentAt(t, c.start))
			data := made(t, p, plan, Options{})
			want := wanted(plan, p.Kitchen.Zone)
			for reader, clock := range map[string]readClock{"system zone": bySystem, "own zone": ownZone(t, data)} {
				got := eventsSeen(t, data, clock)
				if len(got) != len(want) {
					t.Errorf("%s: got %d events, want %d", reader, len(got), len(want))
				}
				for uid, w := range want {
					g := got[uid]
					if !g.start.Equal(w.start) || !g.end.Equal(w.end) || g.summary != w.summary || g.alarm != w.alarm {
						t.Errorf("%s: %s\n got %v to %v %q alarm %q\nwant %v to %v %q alarm %q",
							reader, uid, g.start.UTC(), g.end.UTC(), g.summary, g.alarm, w.start.UTC(), w.end.UTC(), w.summary, w.alarm)
					}
				}
			}
			utc := 0
			for _, e := range read(t, data).Events() {
				if strings.HasSuffix(e.Props.Get("DTSTART").Value, "Z") {
					utc++
				}
			}
			if utc != c.utc {
				t.Errorf("events in UTC: got %d, want %d", utc, c.utc)
			}
		})
	}
}

// wanted is what must be read back, from the plan alone.
func wanted(plan *schedule.Plan, zone *time.Location) map[string]readEvent {
	want := map[string]readEvent{}
	add := func(uid, summary string, start resources.Moment, length resources.Minutes, alarm string) {
		at := time.Unix(int64(start)*60, 0)
		if alarm != "" {
			alarm += " " + summary
		}
		want[uid] = readEvent{summary: summary, start: at, end: at.Add(time.Duration(length) * time.Minute), alarm: alarm}
	}
	for _, b := range plan.Batches {
		for i, t := range b.Stages {
			if t.Work == 0 {
				continue
			}
			summary := strings.ToUpper(t.Stage[:1]) + t.Stage[1:] + ": Bramble hoop, 15 pieces"
			if i == 0 {
				summary = "Make: Bramble hoop, 8.5 L"
			}
			alarm := "DISPLAY -15m0s"
			if t.Begun {
				alarm = "" // nobody need be called to what has begun
			}
			add(uidOf("work", b.ID, t.Stage), summary+" ("+t.Who+")", t.Start, t.Work, alarm)
		}
	}
	for _, r := range plan.Rounds {
		summary := "Round: look at what is ripening"
		if len(r.Care) > 0 {
			summary = "Round: turn, pat, gently"
		}
		day := time.Unix(int64(r.Start)*60, 0).In(zone).Format(time.DateOnly)
		add(uidOf("round", day), summary+" ("+r.Who+")", r.Start, r.Minutes, "DISPLAY -15m0s")
	}
	for _, b := range plan.Batches {
		day := time.Unix(int64(b.Milk.Collect)*60, 0).In(zone).Format(time.DateOnly)
		add(uidOf("collect", "Hill Farm cow", day), "Collect milk: Hill Farm cow, 8.5 L", b.Milk.Collect, 0, "")
		if due := b.Milk.Collect - 2*24*60; due >= plan.From {
			add(uidOf("order", "Hill Farm cow", day), "Order milk: Hill Farm cow, 8.5 L", due, 0, "DISPLAY -15m0s")
		}
	}
	add(uidOf("target", "Easter market"), "Target: Easter market, 18 pieces, 6 short", plan.Targets[0].By, 0, "")
	add(uidOf("target", "Saturday stall 2027-04-03"), "Target: Saturday stall 2027-04-03, 1 piece", plan.Targets[2].By, 0, "")
	return want
}

// The golden shows every kind of event as it is written. Lines are kept as they
// are, ends included.
func TestEventsGolden(t *testing.T) {
	p := kitchenIn(t, "Europe/Dublin")
	plan := samplePlan("Europe/Dublin", momentAt(t, "2027-03-16 07:30"))
	got := made(t, p, plan, Options{Sheets: "https://kitchen.example/batch/"})
	file := filepath.Join("testdata", "tasks.ics")
	if *update {
		if err := os.MkdirAll("testdata", 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	// A checkout may have changed the ends of the lines; TestEventsRules checks ours.
	plain := func(b []byte) string { return strings.ReplaceAll(string(b), "\r\n", "\n") }
	if plain(got) != plain(want) {
		t.Errorf("%s differs (go test -update writes it anew)\ngot:\n%s", file, got)
	}
}

// What opened events tell.
func TestEventsTell(t *testing.T) {
	p := kitchenIn(t, "Europe/Dublin")
	plan := samplePlan("Europe/Dublin", momentAt(t, "2027-03-16 07:30"))
	plan.Batches[0].Stages[0].Needs = []schedule.Dose{
		{What: "rennet, calf", Amount: 2_857_143, Rounded: 2_900_000, Unit: "mL", Strength: "280 IMCU/mL", Lot: "R-55"}, {What: "salt", Amount: 1_500_000, Rounded: 1_500_000, Unit: "%"}}
	plan.Batches[0].Stages[0].Measures = []schedule.Measure{{What: "pH, milk", Stage: "make", From: resources.Reading{Num: 66, Den: 10}}, {What: "smell", Stage: "make"}}
	seen := eventsSeen(t, made(t, p, plan, Options{}), bySystem)
	tests := []struct {
		name, uid      string
		in, out        []string
		where, transps string
	}{
		{"make", uidOf("work", "BH-270316-1", "make"),
			[]string{"60 min of hands-on work: make", "Batch BH-270316-1, Bramble hoop: 8.5 L of milk, 15 pieces (1 spare)", "Who: Nell",
				"Milk: Hill Farm cow, collected Tue 16 Mar 2027 06:00", "Take: tall pot", "Where: make room",
				"Goes in: rennet, calf 2.9 mL (exactly 2.857), of 280 IMCU/mL, packet R-55", "Goes in: salt ____ g (1.5 % of the curd)", "Measure: pH, milk from 6.6, smell",
				"May start as late as Tue 16 Mar 2027 09:30 (2 h later)",
				"Then set: hold 24 h, until Wed 17 Mar 2027 08:30, make room",
				"Caution, Bramble hoop: Soft ripened cheese"},
			[]string{"temperature down", "Not of this batch", "Wash afterwards", "Easter market"}, "make room", "OPAQUE"},
		{"mould", uidOf("work", "BH-270316-1", "mould"),
			[]string{"Take: 15 x narrow hoop, 2 x ripening box",
				"Then chill: hold 24 h, until Thu 18 Mar 2027 22:05, kitchen fridge (1 box on top, 1 box on middle)",
			},
			[]string{"Milk:", "Soft ripened", "Caution"}, "make room", "OPAQUE"},
		{"ripen", uidOf("work", "BH-270316-1", "ripen"),
			[]string{"Where: cheese cave (2 boxes)", "Then ripen: hold 9 d 30 min, until Sat 27 Mar 2027 23:05,",
				"Wash afterwards: 15 x narrow hoop, 2 x ripening box"}, nil, "cheese cave", "OPAQUE"},
		{"pack", uidOf("work", "BH-270316-1", "pack"),
			[]string{"May not begin later, or a target breaks", "For Easter market, Sun 28 Mar 2027 12:35: 15 pieces (6 promised)", "Caution, Bramble hoop: Soft ripened"}, nil, "kitchen fridge", "OPAQUE"},
		{"begun make", uidOf("work", "BH-270306-1", "make"), []string{"Batch BH-270306-1"}, []string{"May start", "May not"}, "make room", "OPAQUE"},
		{"round", uidOf("round", "2027-03-17"),
			[]string{"Turn batch BH-270306-1, Bramble hoop, 15 pieces, cheese cave: 5 min", "Pat, gently batch BH-270316-1, Bramble hoop, 15 pieces, make room: 3 min", "Who: Ivo"},
			nil, "cheese cave, make room", "OPAQUE"},
		{"quiet round", uidOf("round", "2027-03-16"), []string{"No care is due today"}, nil, "", "OPAQUE"},
		{"target", uidOf("target", "Easter market"),
			[]string{"Leaves the kitchen, packed, at Sun 28 Mar 2027 12:35",
				"Bramble hoop: 12 of 18 (3 from stock packed Mon 15 Mar 2027 07:30, 9 from batch BH-270316-1)",
				"Bramble hoop: 6 of 6, promised (6 from batch BH-270316-1)", "Missing: 6 pieces of Bramble hoop. The pot is in use until then"},
			nil, "", "TRANSPARENT"},
		{"order", uidOf("order", "Hill Farm cow", "2027-03-16"),
			[]string{"Order 8.5 L at this moment or before, to collect Tue 16 Mar 2027 06:00", "For batch BH-270316-1, Bramble hoop: 8.5 L"},
			[]string{"in all", "Who:"}, "", "TRANSPARENT"},
		{"collection", uidOf("collect", "Hill Farm cow", "2027-03-16"),
			[]string{"Ready from then on: 8.5 L", "For batch BH-270316-1, Bramble hoop: 8.5 L"}, []string{"Ordered already"}, "", "TRANSPARENT"},
	}
	for _, c := range tests {
		t.Run(c.name, func(t *testing.T) {
			e, ok := seen[c.uid]
			if !ok {
				t.Fatalf("no event %s", c.uid)
			}
			for _, line := range c.in {
				if !strings.Contains(e.description, line) {
					t.Errorf("got\n%s\nwant in it %q", e.description, line)
				}
			}
			for _, line := range c.out {
				if strings.Contains(e.description, line) {
					t.Errorf("got\n%s\nwant nothing like %q", e.description, line)
				}
			}
			if e.location != c.where || e.transparency != c.transps {
				t.Errorf("got at %q, %s; want at %q, %s", e.location, e.transparency, c.where, c.transps)
			}
		})
	}
}

// The bytes depend on neither the machine's zone nor its language: the test runs
// itself under several of them.
func TestEventsSameBytesEverywhere(t *testing.T) {
	const asked = "RIPEBY_TEST_PRINT_CALENDAR"
	p := kitchenIn(t, "Europe/Dublin")
	data := made(t, p, samplePlan("Europe/Dublin", momentAt(t, "2027-03-16 07:30")), Options{})
	if file := os.Getenv(asked); file != "" {
		if err := os.WriteFile(file, data, 0o600); err != nil {
			t.Fatal(err)
		}
		return
	}
	for i, env := range [][]string{
		{"TZ=Pacific/Auckland", "LANG=fr_FR.UTF-8", "LC_ALL=fr_FR.UTF-8"},
		{"TZ=America/St_Johns", "LANG=C", "LC_ALL=C"},
		{"TZ=", "LANG=tr_TR.UTF-8", "LC_ALL=tr_TR.UTF-8"},
	} {
		file := filepath.Join(t.TempDir(), fmt.Sprintf("%d.ics", i))
		cmd := exec.Command(os.Args[0], "-test.run=^TestEventsSameBytesEverywhere$")
		cmd.Env = append(append(os.Environ(), asked+"="+file), env...)
		if out, err := cmd.CombinedOutput(); err != nil {
			t.Fatalf("%v: %v\n%s", env, err, out)
		}
		got, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if string(got) != string(data) {
			t.Errorf("%v: got other bytes, want the same", env)
		}
	}
}

// One person's calendar holds that person's work and rounds, and all targets and milk;
// that of somebody who has left, nothing that is not their own.
func TestEventsOfOnePerson(t *testing.T) {
	p := kitchenIn(t, "Europe/Dublin")
	plan := samplePlan("Europe/Dublin", momentAt(t, "2027-03-16 07:30"))
	for _, c := range []struct {
		person string
		want   int
	}{{"", 5*2 + 4 + 2 + 3}, {"Nell", 3*2 + 2 + 3}, {"Ivo", 2*2 + 4 + 2 + 3}} {
		if got := len(eventsSeen(t, made(t, p, plan, Options{Person: c.person}), bySystem)); got != c.want {
			t.Errorf("%q: got %d events, want %d", c.person, got, c.want)
		}
		if got := len(eventsSeen(t, made(t, p, plan, Options{Person: c.person, Own: true}), bySystem)); got != c.want-2-3 {
			t.Errorf("%q, own: got %d events, want %d", c.person, got, c.want-2-3)
		}
	}
	_, err := Encode(p, plan, Options{Person: "nell"})
	var person *PersonError
	if !errors.As(err, &person) || person.Got != "nell" || len(person.Want) != 2 {
		t.Errorf("nell: got %v, want a PersonError that names both people", err)
	}
}

// What cannot stand in a calendar is an error, never a wrong calendar.
func TestEventsRefused(t *testing.T) {
	start := momentAt(t, "2027-03-16 07:30")
	tests := []struct {
		name string
		do   func(*schedule.Problem, *schedule.Plan, *Options)
		want error
	}{
		{"a stage twice", func(_ *schedule.Problem, plan *schedule.Plan, _ *Options) { plan.Batches[1].ID = plan.Batches[0].ID }, &UIDError{}},
		{"two rounds a day", func(_ *schedule.Problem, plan *schedule.Plan, _ *Options) {
			plan.Rounds[1].Start = plan.Rounds[0].Start.Add(60)
		}, &UIDError{}},
		{"two collections a day", func(_ *schedule.Problem, plan *schedule.Plan, _ *Options) {
			plan.Batches[1].Milk.Collect, plan.Milk = plan.Batches[0].Milk.Collect-1, nil
		}, &UIDError{}},
		{"before 1970", func(_ *schedule.Problem, plan *schedule.Plan, _ *Options) { plan.Rounds[0].Start = -5 }, &MomentError{}},
		{"after 9999", func(_ *schedule.Problem, plan *schedule.Plan, _ *Options) { plan.Batches[0].Stages[0].Start = 5e9 }, &MomentError{}},
		{"a start after 9999", func(_ *schedule.Problem, plan *schedule.Plan, _ *Options) { plan.From = 5e9 }, &MomentError{}},
		{"no zone", func(p *schedule.Problem, _ *schedule.Plan, _ *Options) { p.Kitchen.Zone = nil }, nil},
		{"no address", func(_ *schedule.Problem, _ *schedule.Plan, o *Options) { o.Sheets = "batch/" }, nil},
	}
	for _, c := range tests {
		t.Run(c.name, func(t *testing.T) {
			p, plan, opt := kitchenIn(t, "Europe/Dublin"), samplePlan("Europe/Dublin", start), Options{}
			schedule.CountMoves(plan, nil)
			note.Revise(p, plan, nil)
			c.do(p, plan, &opt)
			out, err := Encode(p, plan, opt)
			if err == nil || out != nil {
				t.Fatalf("got %d bytes and error %v, want only an error", len(out), err)
			}
			if c.want != nil && fmt.Sprintf("%T", err) != fmt.Sprintf("%T", c.want) {
				t.Errorf("got %T (%v), want %T", err, err, c.want)
			}
		})
	}
}

// A plan with nothing in it still gives a calendar, which holds the VTIMEZONE.
func TestEventsOfNothing(t *testing.T) {
	p := kitchenIn(t, "Europe/Dublin")
	data, err := Encode(p, &schedule.Plan{From: momentAt(t, "2027-03-01 06:00")}, Options{})
	if err != nil {
		t.Fatal(err)
	}
	cal := read(t, data)
	if len(cal.Children) != 1 || cal.Children[0].Name != "VTIMEZONE" || len(cal.Children[0].Children) != 3 {
		t.Errorf("got\n%s\nwant one VTIMEZONE with the winter of 2026, the summer and the winter of 2027", data)
	}
}

// A plan that nobody has revised counts as new.
func TestEventsNeverRevised(t *testing.T) {
	p := kitchenIn(t, "Europe/Dublin")
	data, err := Encode(p, samplePlan("Europe/Dublin", momentAt(t, "2027-03-16 07:30")), Options{})
	if err != nil {
		t.Fatal(err)
	}
	for uid, e := range eventsSeen(t, data, bySystem) {
		if e.sequence != 0 || e.modified != "20270313T073000Z" || e.stamp != e.modified {
			t.Errorf("%s: got %d, %s, %s; want 0 and the planning start", uid, e.sequence, e.modified, e.stamp)
		}
	}
}

// How long before the work an alarm goes off.
func TestEventsLead(t *testing.T) {
	p := kitchenIn(t, "Europe/Dublin")
	for lead, want := range map[resources.Minutes]string{0: "DISPLAY -15m0s ", 90: "DISPLAY -1h30m0s ", -1: "DISPLAY 0s "} {
		data := made(t, p, samplePlan("Europe/Dublin", momentAt(t, "2027-03-16 07:30")), Options{Lead: lead})
		own := kitchenIn(t, "Europe/Dublin") // as the kitchen itself says
		own.Kitchen.Alarm = lead
		if said := made(t, own, samplePlan("Europe/Dublin", momentAt(t, "2027-03-16 07:30")), Options{}); !bytes.Equal(said, data) {
			t.Errorf("%d, said by the kitchen: got another calendar", lead)
		}
		got := eventsSeen(t, data, bySystem)[uidOf("work", "BH-270316-1", "make")].alarm
		if want += "Make: Bramble hoop, 8.5 L (Nell)"; got != want {
			t.Errorf("%d: got %q, want %q", lead, got, want)
		}
	}
}

// How much milk comes without another word is told, and what only the plan before had
// ordered; what changes of it is a new edition of its event.
func TestMilkEventsTell(t *testing.T) {
	day := resources.Date{Year: 2027, Month: 3, Day: 16}
	for _, c := range []struct {
		name    string
		know    func(*schedule.Problem, *schedule.Plan)
		order   string // "" where nothing is to be ordered
		in, out string // what the collection tells, and does not
	}{
		{"nothing", func(*schedule.Problem, *schedule.Plan) {}, "Order milk: Hill Farm cow, 8.5 L", "Ready from then on: 8.5 L\nFor batch", "aken as ordered"},
		{"some stands", func(p *schedule.Problem, _ *schedule.Plan) { p.Kitchen.Milk[0].Standing = 6_000 }, "Order milk: Hill Farm cow, 2.5 L",
			"Comes without an order: 6 L", "aken as ordered"},
		{"enough stands", func(p *schedule.Problem, _ *schedule.Plan) { p.Kitchen.Milk[0].Standing = 8_500 }, "", "Comes without an order: 8.5 L", "aken as ordered"},
		{"some is ordered", func(p *schedule.Problem, _ *schedule.Plan) {
			p.Ordered = []schedule.Ordered{{Milk: "Hill Farm cow", Day: day, Litres: 8_000}}
		}, "Order milk: Hill Farm cow, 0.5 L", "Ordered already: 8 L", "aken as ordered"},
		{"less came", func(p *schedule.Problem, _ *schedule.Plan) {
			p.Came = []schedule.Came{{Milk: "Hill Farm cow", Day: day, Litres: 8_000}}
		}, "", "Came: 8 L", "aken as ordered"},
		{"it is too late to order", func(_ *schedule.Problem, plan *schedule.Plan) { plan.From += 24 * 60 }, "", "Taken as ordered: nobody has said whether it was", "already"},
	} {
		p, before := kitchenIn(t, "Europe/Dublin"), samplePlan("Europe/Dublin", momentAt(t, "2027-03-16 07:30"))
		made(t, p, before, Options{})
		plan := samplePlan("Europe/Dublin", momentAt(t, "2027-03-16 07:30"))
		c.know(p, plan)
		note.Revise(p, plan, before)
		data, err := Encode(p, plan, Options{})
		if err != nil {
			t.Fatal(err)
		}
		obeys(t, data)
		seen := eventsSeen(t, data, bySystem)
		collect, order := seen[uidOf("collect", "Hill Farm cow", "2027-03-16")], seen[uidOf("order", "Hill Farm cow", "2027-03-16")]
		if !strings.Contains(collect.description, c.in) || strings.Contains(collect.description, c.out) || order.summary != c.order {
			t.Errorf("%s: got %q and %q, want %q in it, not %q, and %q", c.name, collect.description, order.summary, c.in, c.out, c.order)
		}
		if want := map[bool]int{true: 0, false: 1}[c.name == "nothing"]; collect.sequence != want {
			t.Errorf("%s: got edition %d of the collection, want %d", c.name, collect.sequence, want)
		}
		if c.name == "some stands" && !strings.Contains(order.description, "8.5 L in all, with the 6 L that come already") {
			t.Errorf("got %q, want how much comes in all", order.description)
		}
	}
}
