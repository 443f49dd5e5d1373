package follows_test

import (
	"slices"
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
	"ripeby/schedule/record/follows"
)

// What somebody takes on binds of a batch under way, and of one that has not begun is told to them.
func TestTaken(t *testing.T) {
	takes := func(at resources.Moment, who, batch, stage string) record.Entry {
		return record.Entry{At: at, Subject: record.Subject{Kind: record.OfPerson, Name: who}, Person: record.PersonFacts{Takes: record.Say(record.Task{Batch: batch, Stage: stage})}}
	}
	const first, second = "D-270308-1", "D-270315-1"
	for _, c := range []struct {
		name    string
		change  func(p *schedule.Problem)
		entries []record.Entry
		want    []schedule.TakenOn
		warned  string
	}{
		{"the last one said", nil, []record.Entry{takes(day(8, 10, 0), "Nell", first, "pack"), takes(day(9, 10, 0), "Finn", first, "pack")}, []schedule.TakenOn{{Batch: first, Stage: "pack", Who: "Finn", Begun: true}}, ""},
		{"what is over", nil, []record.Entry{takes(day(8, 10, 0), "Finn", first, "drain")}, nil, ""},
		{"what has not begun", nil, []record.Entry{takes(day(8, 10, 0), "Finn", second, "drain")}, []schedule.TakenOn{{Batch: second, Stage: "drain", Who: "Finn"}}, ""},
		{"what has not begun, and others do", func(p *schedule.Problem) { p.Recipes[0].Stages[1].Who = []string{"Nell"} }, []record.Entry{takes(day(8, 10, 0), "Finn", second, "drain")}, nil,
			"Finn takes the drain of D-270315-1: it counts from when that has begun, for by its recipe others do it."},
		{"what others do is taken of a batch under way", func(p *schedule.Problem) { p.Recipes[0].Stages[3].Who = []string{"Nell"} }, []record.Entry{takes(day(8, 10, 0), "Finn", first, "pack")}, []schedule.TakenOn{{Batch: first, Stage: "pack", Who: "Finn", Begun: true}}, ""},
		{"what has not begun, with nothing settled", func(p *schedule.Problem) { p.Kitchen.Settled = 0 }, []record.Entry{takes(day(8, 10, 0), "Finn", second, "drain")}, nil,
			"Finn takes the drain of D-270315-1: it counts from when that has begun, for with settled: 0 h nobody is held to what was planned."},
		{"of begun.yaml, of which nobody spoke", func(p *schedule.Problem) {
			p.Begun = []schedule.Begun{{ID: "D-270309-1", Cheese: "Dew", Litres: 5000, Pieces: -1, Stages: []schedule.BegunStage{{Stage: "make", Start: day(9, 8, 0)}}}}
		}, []record.Entry{takes(day(9, 10, 0), "Finn", "D-270309-1", "make"), takes(day(9, 10, 0), "Finn", "D-270309-1", "drain")}, []schedule.TakenOn{{Batch: "D-270309-1", Stage: "drain", Who: "Finn", Begun: true}}, ""},
		{"what was lost", nil, []record.Entry{of(day(8, 12, 0), record.BatchFacts{Lost: true}), takes(day(8, 13, 0), "Finn", first, "pack")}, nil, ""},
		{"by nobody known", nil, []record.Entry{takes(day(8, 10, 0), "Ann", first, "pack")}, nil, ""},
	} {
		p := dairy(day(9, 12, 0))
		p.Kitchen.Settled = 2 * d
		if c.change != nil {
			c.change(p)
		}
		got := follows.Of(p, record.NewBook(c.entries)).Problem
		if !slices.Equal(got.TakenOn, c.want) {
			t.Errorf("%s: got %v, want %v", c.name, got.TakenOn, c.want)
		}
		for _, x := range c.want {
			k := got.Recipes[0].StageNumber(x.Stage)
			if who := got.RecipeOf(x.Batch, "Dew").Stages[k].Who; x.Begun != slices.Equal(who, []string{x.Who}) {
				t.Errorf("%s: got %v in the recipe of the batch, want %s there: %v", c.name, who, x.Who, x.Begun)
			}
			if b := got.Earlier.Batch(x.Batch); b != nil {
				if who, settled := got.ToldTo(x.Batch, b.Stage(x.Stage)); who != x.Who || !settled {
					t.Errorf("%s: got it told to %s, settled %v, want %s, settled", c.name, who, settled, x.Who)
				}
			}
		}
		found := ""
		for _, w := range got.Warnings {
			if w.Code == "taken-later" {
				found += w.Text
			}
		}
		if found != c.warned {
			t.Errorf("%s: got the warning %q, want %q", c.name, found, c.warned)
		}
	}
}

// Silence has work done by who took it on, and not by who was told to do it before.
func TestSilenceGoesByWhoTookIt(t *testing.T) {
	takes := record.Entry{At: day(9, 10, 0), Subject: record.Subject{Kind: record.OfPerson, Name: "Finn"}, Person: record.PersonFacts{Takes: record.Say(record.Task{Batch: "D-270308-1", Stage: "pack"})}}
	away := func(who string) record.Entry {
		return record.Entry{At: day(9, 18, 0), Subject: record.Subject{Kind: record.OfPerson, Name: who}, Person: record.PersonFacts{Away: record.Say(record.Stretch{From: day(9, 18, 0)})}}
	}
	for _, c := range []struct {
		name    string
		entries []record.Entry
		want    string // who packed, "" for nobody
	}{
		{"nobody took it", []record.Entry{away("Finn")}, "Nell"},
		{"nobody took it, and who was to do it is away", []record.Entry{away("Nell")}, ""},
		{"it was taken", []record.Entry{takes, away("Nell")}, "Finn"},
		{"it was taken, and who took it is away", []record.Entry{takes, away("Finn")}, ""},
		{"it was taken when it was over", []record.Entry{away("Finn"), func() record.Entry { e := takes; e.At = day(9, 20, 0); return e }()}, "Nell"},
	} {
		got := follows.Of(dairy(day(10, 6, 0)), record.NewBook(c.entries)).Problem
		who := ""
		if t := got.Went().Batch("D-270308-1").Stage("pack"); t != nil && t.Start < got.From {
			who = t.Who
		}
		if who != c.want {
			t.Errorf("%s: got it packed by %q, want %q", c.name, who, c.want)
		}
	}
}

// What no stage has, or nobody works in, cannot be taken, and whoever wrote it down by hand is told.
func TestTakenThatIsNoWork(t *testing.T) {
	for stage, want := range map[string]string{"salt": "Finn takes the salt of D-270308-1, of which the recipe has no such stage.", "pack": ""} {
		e := record.Entry{At: day(9, 10, 0), Subject: record.Subject{Kind: record.OfPerson, Name: "Finn"}, Person: record.PersonFacts{Takes: record.Say(record.Task{Batch: "D-270308-1", Stage: stage})}}
		got := follows.Of(dairy(day(9, 12, 0)), record.NewBook([]record.Entry{e})).Problem
		text := ""
		for _, w := range got.Warnings {
			if w.Code == "taken-nothing" {
				text += w.Text
			}
		}
		if text != want || len(got.TakenOn) == 0 != (want != "") {
			t.Errorf("%s: got %v and %q, want %q", stage, got.TakenOn, text, want)
		}
	}
}
