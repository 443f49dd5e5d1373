package readings

import (
	"reflect"
	"testing"

	"ripeby/resources"
	"ripeby/schedule/record"
)

// at are readings of 4 °C at so many minutes.
func at(minutes ...resources.Moment) (all []Reading) {
	for _, m := range minutes {
		all = append(all, Reading{m, 4000})
	}
	return all
}

// A gap is what lasts longer than Gap, and nothing else: at both ends too.
func TestRunsAndGaps(t *testing.T) {
	for _, c := range []struct {
		name string
		all  []Reading
		runs [][]Reading
		gaps []resources.Span
	}{
		{"none", nil, nil, []resources.Span{{From: 0, Until: 300}}},
		{"out of order", at(250, 45, 90, 135, 180, 225), [][]Reading{at(45, 90, 135, 180, 225, 250)}, []resources.Span{{From: 250, Until: 300}}},
		{"a minute more than a gap", at(0, 46, 91, 136, 181, 226, 271), [][]Reading{at(0), at(46, 91, 136, 181, 226, 271)}, []resources.Span{{From: 0, Until: 46}}},
		{"begins late", at(100, 145, 190, 235, 280), [][]Reading{at(100, 145, 190, 235, 280)}, []resources.Span{{From: 0, Until: 100}}},
		{"outside", at(-1, 300, 400), nil, []resources.Span{{From: 0, Until: 300}}},
		{"twice in one minute", at(0, 40, 40, 80, 120, 160, 200, 240, 280), [][]Reading{at(0, 40, 40, 80, 120, 160, 200, 240, 280)}, nil},
	} {
		got := Of(resources.Span{From: 0, Until: 300}, c.all, nil)
		if !reflect.DeepEqual(got.Runs, c.runs) || !reflect.DeepEqual(got.Gaps, c.gaps) {
			t.Errorf("%s: got runs %v and gaps %v, want %v and %v", c.name, got.Runs, got.Gaps, c.runs, c.gaps)
		}
		if got.Empty() != (c.runs == nil) {
			t.Errorf("%s: got empty %v", c.name, got.Empty())
		}
	}
}

// Least and greatest are the earliest of equals; a span ends before its end.
func TestColdestAndPart(t *testing.T) {
	all := []Reading{{10, 5000}, {20, 3900}, {30, 6200}, {40, 3900}, {50, 6200}}
	if c, w := Coldest(all), Warmest(all); c.At != 20 || w.At != 30 {
		t.Errorf("got the least at %d and the greatest at %d, want 20 and 30", c.At, w.At)
	}
	c := Of(resources.Span{From: 0, Until: 100}, all, []Reading{{99, 1}, {100, 2}})
	if part := Within(resources.Span{From: 25, Until: 50}, c.All()); len(part) != 2 || len(c.Told) != 1 {
		t.Errorf("got %+v of %+v", part, c)
	}
}

// People's own readings are those with a unit of temperature that stand, of the place and its shelves.
func TestTold(t *testing.T) {
	place := func(nr int, name string, is ...record.Measure) record.Entry {
		return record.Entry{Nr: nr, At: resources.Moment(nr), Subject: record.Subject{Kind: record.OfPlace, Name: name}, Place: record.PlaceFacts{Measured: is}}
	}
	batch := record.Entry{Nr: 7, At: 7, Subject: record.Subject{Kind: record.OfBatch, Name: "AB-1"},
		Batch: record.BatchFacts{Measured: []record.Measure{{What: "Room", Is: "19 °C"}, {What: "curd", Is: "25 °C"}, {What: "pH", Is: "5.1"}}}}
	shelf := place(3, "cave", record.Measure{What: "air", Is: "50 °F"})
	shelf.Subject.Shelf = "top"
	book := record.NewBook([]record.Entry{
		place(1, "cave", record.Measure{What: "temperature", Is: "4.8 °C"}, record.Measure{What: "humidity", Is: "85 %"}, record.Measure{What: "again", Is: "4.8"}),
		place(2, "cave", record.Measure{What: "temperature", Is: "48 °C"}), shelf, place(4, "fridge", record.Measure{What: "t", Is: "3 C"}),
		{Nr: 5, At: 5, Strikes: []int{2}}, batch, place(8, Room, record.Measure{What: "temperature", Is: "20 °C"}),
	})
	for name, want := range map[string][]Reading{"cave": {{1, 4800}, {3, 10000}}, "fridge": {{4, 3000}}, Room: {{7, 19000}, {8, 20000}}, "pantry": nil} {
		if got := Told(book, name); !reflect.DeepEqual(got, want) {
			t.Errorf("%s: got %v, want %v", name, got, want)
		}
	}
}
