package cold

import (
	"strings"
	"testing"

	"ripeby/calendar/sample"
	"ripeby/calendar/svg"
	"ripeby/calendar/words"
	"ripeby/resources"
)

// What the map of cold places says in words is what its picture says, and the table
// by day is the one of the terminal.
func TestShownColdIsThePicture(t *testing.T) {
	p, plan := kitchen(t)
	at := sample.At(p.Kitchen.Zone, "2027-03-18 09:00")
	s, err := Show(p, plan, at)
	if err != nil {
		t.Fatal(err)
	}
	picture, err := Picture(p, plan, Options{At: at})
	if err != nil {
		t.Fatal(err)
	}
	piles := 0
	for _, part := range s.Parts {
		if !strings.Contains(string(picture), svg.Escape(words.Unglue(part.Title+": "+part.State))) {
			t.Errorf("%q, %q is not in the picture", part.Title, part.State)
		}
		piles += len(part.Piles)
		for _, pile := range part.Piles {
			if !strings.Contains(string(picture), "<title>"+pile.Letter+": ") {
				t.Errorf("%s: the letter %s is not in the picture", part.Title, pile.Letter)
			}
		}
	}
	if piles == 0 {
		t.Error("nothing stands there")
	}
	var table strings.Builder
	if err := Table(&table, p, plan, Options{Width: 400}); err != nil {
		t.Fatal(err)
	}
	if first := s.Fill.Rows[0][0]; first != "Thu 18 Mar" {
		t.Errorf("the table begins on %s, want the day of the map", first)
	}
	for _, row := range s.Fill.Rows[:len(s.Fill.Rows)-1] { // the last tells of those days alone
		for _, cell := range row {
			if !strings.Contains(table.String(), words.Unglue(cell)) {
				t.Errorf("%q is not in the table", cell)
			}
		}
	}
	// From the first day on it is the whole table; after the last day there is none.
	if s, err = Show(p, plan, plan.From); err != nil {
		t.Fatal(err)
	}
	for _, row := range s.Fill.Rows {
		for _, cell := range row {
			if !strings.Contains(table.String(), words.Unglue(cell)) {
				t.Errorf("%q is not in the table", cell)
			}
		}
	}
	if s, err = Show(p, plan, plan.From.Add(500*resources.Day)); err != nil || len(s.Fill.Rows) > 0 || len(s.Parts) == 0 {
		t.Errorf("long after the plan: got %v, %d rows and %d parts", err, len(s.Fill.Rows), len(s.Parts))
	}
}
