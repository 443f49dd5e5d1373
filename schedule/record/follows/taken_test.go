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
			"Finn takes the drain of D-270315-1: it counts from when that has begun, for nothing is settled."},
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
