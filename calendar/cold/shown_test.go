package cold

import (
	"fmt"
	"strings"
	"testing"

	"ripeby/calendar/sample"
	"ripeby/calendar/svg"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/resources/shelf"
	"ripeby/schedule"
	"ripeby/schedule/coldroom"
)

// A shelf is called full where no kind of box has a place on it, as boxes are asked for from the terminal; a counted place where
// it has as many as it holds.
func TestShownFull(t *testing.T) {
	p, plan := kitchen(t)
	at := sample.At(p.Kitchen.Zone, "2027-03-18 09:00")
	p.Kitchen.Cold[1].Boxes = 2
	full, open := 0, 0
	for _, wide := range []resources.Micrometres{10, 30, 70} {
		p.Kitchen.Boxes = []resources.Box{{Name: "tray", Size: resources.Size{Width: wide * cm, Depth: 36 * cm, Height: 12 * cm}}, {Name: "crate"}}
		s, err := Show(p, plan, at)
		if err != nil {
			t.Fatal(err)
		}
		o := coldroom.Of(p, plan)
		for i, part := range s.Parts {
			c := partsOf(t, p, plan, at)[i]
			want := len(part.Piles) > 0
			if c.shelf != nil {
				q := coldroom.Question{Box: p.Kitchen.Boxes[0].Size, Kind: "tray", Count: 1, Span: resources.Span{From: at, Until: at + 1}, In: c.shelf.Name}
				want = want && o.Ask(q, coldroom.DefaultBudget).Answer == shelf.No
			} else {
				boxes := 0
				for _, pile := range o.Piles(c.place.Name, "", at) {
					boxes += pile.Boxes
				}
				want = want && boxes >= c.place.Boxes
			}
			if part.Full != want || part.Empty != (len(part.Piles) == 0) {
				t.Errorf("%s with trays of %d cm: got full %v, empty %v; want %v, %v", part.Title, wide, part.Full, part.Empty, want, len(part.Piles) == 0)
			}
			if part.Full {
				full++
			} else if !part.Empty {
				open++
			}
		}
	}
	if full == 0 || open == 0 {
		t.Errorf("got %d full and %d with room: nothing is tested", full, open)
	}
}

// partsOf are the parts that are shown.
func partsOf(t *testing.T, p *schedule.Problem, plan *schedule.Plan, at resources.Moment) []part {
	t.Helper()
	g, err := newPage(p, plan, Options{At: at})
	if err != nil {
		t.Fatal(err)
	}
	return g.parts()
}

// The picture of one part has the width that is asked for and the height that is told, and the letters of the whole picture; a
// part that is none has no picture.
func TestPartPictures(t *testing.T) {
	p, plan := kitchen(t)
	at := sample.At(p.Kitchen.Zone, "2027-03-18 09:00")
	s, err := Show(p, plan, at)
	if err != nil {
		t.Fatal(err)
	}
	for _, part := range s.Parts {
		for pixels, high := range map[int]int{SmallWide: part.Small, LargeWide: part.Large} {
			picture, err := PartPicture(p, plan, at, part.Number, pixels)
			if err != nil {
				t.Fatal(err)
			}
			if head := fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" width="%d" height="%d`, pixels, high); !strings.HasPrefix(string(picture), head) {
				t.Errorf("%s: got %.90s, want %s", part.Title, picture, head)
			}
			if _, err := sample.ReadPicture(picture); err != nil {
				t.Errorf("%s: %v", part.Title, err)
			}
			for _, pile := range part.Piles {
				if !strings.Contains(string(picture), "<title>"+pile.Letter+": ") {
					t.Errorf("%s: the letter %s is not in its picture", part.Title, pile.Letter)
				}
			}
		}
	}
	for _, number := range []int{-1, len(s.Parts)} {
		if picture, err := PartPicture(p, plan, at, number, SmallWide); picture != nil || err != nil {
			t.Errorf("part %d: got %d bytes and %v, want none", number, len(picture), err)
		}
	}
}

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
