package follows_test

import (
	"reflect"
	"slices"
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
	"ripeby/schedule/record/follows"
)

// carrying is the dairy whose plan before had the first batch's press, and stock, carried from the
// fridge to the cave at ten on the 9th.
func carrying(from resources.Moment) *schedule.Problem {
	p := dairy(from)
	p.Kitchen.Cold = append(p.Kitchen.Cold, resources.ColdPlace{Name: "cave", Boxes: 4})
	p.Recipes[0].Stages[2].At = schedule.At{Kind: schedule.AtRange, High: 5000}
	p.Stock = []schedule.Stock{{Cheese: "Dew", Pieces: 4, Packed: day(7, 9, 0), At: "fridge", Boxes: 1}}
	there, stood := []schedule.Standing{{Place: "cave"}}, []schedule.Standing{{Place: "fridge", Shelf: "top", Layer: 1}}
	e := p.Earlier
	e.Batches[0].Stages[2].At, e.Batches[0].Stages[2].BoxesAt = "cave", there
	e.Stock = []schedule.StockUse{{Cheese: "Dew", Pieces: 4, Packed: day(7, 9, 0), At: "cave", Written: "fridge", BoxesAt: there}}
	e.BegunAsOf = []schedule.BegunAsOf{{ID: schedule.StockEntry, AsOf: e.From, Entry: p.Stock[0].InShort()}}
	carry := schedule.Carry{Stock: -1, Start: day(9, 10, 0), Minutes: 5, Who: "Nell", From: "fridge", To: "cave", Since: day(9, 10, 0), Stood: stood}
	ofBatch, ofStock := carry, carry
	ofBatch.Batch, ofBatch.Stage, ofStock.Stock = "D-270308-1", "press", 0
	e.Carries = []schedule.Carry{ofBatch, ofStock}
	return p
}

// What was to be carried before the planning start is in its new place, and stays there; what was
// not is where it was.
func TestWhatWasCarried(t *testing.T) {
	stands := func(at resources.Moment, place string) record.Entry {
		return of(at, record.BatchFacts{Stands: record.Say(record.Stand{Place: place})})
	}
	away := record.Entry{At: day(9, 9, 45), Subject: record.Subject{Kind: record.OfPerson, Name: "Nell"},
		Person: record.PersonFacts{Away: record.Say(record.Stretch{From: day(9, 9, 45), Until: record.Say(day(9, 11, 0))})}}
	for _, c := range []struct {
		name         string
		from         resources.Moment
		waits        bool
		entries      []record.Entry
		batch, stock string
		carried      bool
	}{
		{"by silence", day(9, 12, 0), false, nil, "cave", "cave", true},
		{"not yet", day(9, 9, 30), false, nil, "fridge", "fridge", false},
		{"silence takes nothing as done", day(9, 12, 0), true, nil, "fridge", "fridge", false},
		{"its person was away", day(9, 12, 0), false, []record.Entry{away}, "fridge", "fridge", false},
		{"it is back, somebody says", day(9, 12, 0), false, []record.Entry{stands(day(9, 11, 0), "fridge")}, "fridge", "cave", true},
		{"it was there before, somebody said", day(9, 12, 0), false, []record.Entry{stands(day(9, 9, 0), "fridge")}, "cave", "cave", true},
		{"somebody has carried it already", day(9, 9, 40), false, []record.Entry{stands(day(9, 9, 30), "cave")}, "cave", "fridge", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := carrying(c.from)
			p.Kitchen.UnsaidWaits = c.waits
			if c.waits { // and nothing else was done either
				c.entries = append(c.entries, of(day(9, 8, 45), record.BatchFacts{Did: "press"}))
			}
			before := p.Earlier.Batches[0].Stages[2]
			of := follows.Of(p, record.NewBook(c.entries))
			toAnswer := slices.ContainsFunc(of.Unanswered, func(u follows.Unanswered) bool { return u.Carried == "cave" })
			if want := c.carried && c.batch == "cave" && len(c.entries) > 0; toAnswer != want {
				t.Errorf("got it to be answered %v, want %v", toAnswer, want)
			}
			got := of.Problem
			press := got.Went().Batch("D-270308-1").Stage("press")
			if press.At != c.batch || press.Carried > 0 != c.carried || len(press.BoxesAt) > 0 && press.BoxesAt[0].Place != c.batch {
				t.Errorf("got the batch at %s, carried at %d, %v, want it at %s, carried %v", press.At, press.Carried, press.BoxesAt, c.batch, c.carried)
			}
			if s := got.Stock[0]; s.At != c.stock || s.WrittenAt() != "fridge" {
				t.Errorf("got stock at %s, written at %s, want it at %s, written at the fridge", s.At, s.WrittenAt(), c.stock)
			}
			if now := p.Earlier.Batches[0].Stages[2]; now.At != before.At || p.Earlier.Stock[0].At != "cave" || len(p.Earlier.Carries) != 2 {
				t.Error("got the plan before changed")
			}
			if len(got.Went().Carries) > 0 {
				t.Error("got carries that are over among what went")
			}
		})
	}
}

// What an earlier plan took for carried is no work that waits, where by now silence is no assent.
func TestWhatWasCarriedDoesNotWait(t *testing.T) {
	p := carrying(day(9, 12, 0))
	p.Earlier.Carries, p.Kitchen.UnsaidWaits = nil, true
	p.Earlier.Batches[0].Stages[2].Carried = day(9, 10, 0)
	got := follows.Of(p, record.NewBook([]record.Entry{of(day(9, 8, 45), record.BatchFacts{Did: "press"})}))
	if len(got.Unanswered) > 0 {
		t.Errorf("got %+v to be answered, want nothing", got.Unanswered)
	}
}

// A shelf that is said has the boxes in rows on it, turned where they only go so, and on one another;
// those that do not go on it may be anywhere.
func TestStandsOnTheShelfThatIsSaid(t *testing.T) {
	cm := resources.Centimetre
	for _, c := range []struct {
		name                 string
		width, depth, height resources.Micrometres
		want                 [][3]resources.Micrometres // x, y and layer
	}{
		{"side by side", 60, 20, 15, [][3]resources.Micrometres{{0, 0, 1}, {30, 0, 1}}},
		{"on one another", 30, 20, 20, [][3]resources.Micrometres{{0, 0, 1}, {0, 0, 2}}},
		{"turned", 40, 30, 10, [][3]resources.Micrometres{{0, 0, 1}, {20, 0, 1}}},
		{"too small", 30, 20, 10, nil},
	} {
		p := carrying(day(9, 12, 0))
		p.Kitchen.Boxes = []resources.Box{{Name: "box", Count: 4, Size: resources.Size{Width: 30 * cm, Depth: 20 * cm, Height: 10 * cm}}}
		p.Kitchen.Cold[0].Shelves[1].Size = resources.Size{Width: c.width * cm, Depth: c.depth * cm, Height: c.height * cm}
		p.Recipes[0].Box, p.Recipes[0].Stages[2].Uses = &schedule.Boxing{Name: "box", Takes: 5}, []schedule.Use{{Kind: schedule.UseBox}}
		said := of(day(9, 11, 0), record.BatchFacts{Stands: record.Say(record.Stand{Place: "fridge", Shelf: "low"})})
		boxes := follows.Of(p, record.NewBook([]record.Entry{said})).Problem.Went().Batch("D-270308-1").Stage("press").BoxesAt
		var got [][3]resources.Micrometres
		for _, b := range boxes {
			if b.Place != "fridge" || b.Shelf != "low" {
				t.Errorf("%s: got a box on %s of the %s, want it where it was said", c.name, b.Shelf, b.Place)
			}
			got = append(got, [3]resources.Micrometres{b.X / cm, b.Y / cm, resources.Micrometres(b.Layer)})
		}
		if !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: got %v, want %v", c.name, got, c.want)
		}
	}
}

// What was carried stays there in the plans after that, whatever begun.yaml or the record said before.
func TestWhatWasCarriedStaysThere(t *testing.T) {
	p := carrying(day(9, 14, 0))
	e := p.Earlier
	e.Carries, e.From = nil, day(9, 12, 0)
	e.Batches[0].Stages[2].Carried = day(9, 10, 0)
	b := schedule.Begun{ID: "D-270308-1", Cheese: "Dew", Litres: 5000, Pieces: -1, At: "fridge",
		Stages: []schedule.BegunStage{{Stage: "make", Start: day(8, 8, 0)}, {Stage: "drain", Start: day(9, 8, 0)}, {Stage: "press", Start: day(9, 8, 30)}}}
	p.Begun = []schedule.Begun{b}
	e.BegunAsOf = append(e.BegunAsOf, schedule.BegunAsOf{ID: b.ID, AsOf: day(9, 10, 0), Entry: b.InShort()}) // by the plan that had it carried at once
	said := of(day(9, 9, 0), record.BatchFacts{Stands: record.Say(record.Stand{Place: "fridge"})})
	for name, entries := range map[string][]record.Entry{"begun.yaml": nil, "the record": {said}} {
		got := follows.Of(p, record.NewBook(entries)).Problem
		press := got.Went().Batch("D-270308-1").Stage("press")
		if press.At != "cave" || press.Carried != day(9, 10, 0) {
			t.Errorf("%s: got it at %s, carried at %d, want it in the cave as it was carried", name, press.At, press.Carried)
		}
		if got.Stock[0].At != "cave" {
			t.Errorf("%s: got stock at %s, want it in the cave", name, got.Stock[0].At)
		}
	}
}
