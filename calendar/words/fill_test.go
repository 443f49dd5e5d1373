package words

import (
	"testing"

	"ripeby/resources"
	"ripeby/schedule/coldroom"
)

func TestFillText(t *testing.T) {
	measured := &coldroom.Fill{Place: &resources.ColdPlace{Shelves: make([]resources.Shelf, 1)}}
	counted := &coldroom.Fill{Place: &resources.ColdPlace{Boxes: 12}}
	for _, c := range []struct {
		name string
		f    *coldroom.Fill
		in   coldroom.FillStep
		want string
	}{
		{"empty", counted, coldroom.FillStep{Open: 12}, "empty"},
		{"closed", counted, coldroom.FillStep{}, "closed"},
		{"some", counted, coldroom.FillStep{Boxes: 9, Open: 12}, "9 of 12 boxes"},
		{"full", counted, coldroom.FillStep{Boxes: 12, Open: 12}, "12 of 12 boxes"},
		{"too full", counted, coldroom.FillStep{Boxes: 13, Open: 12}, "13 of 12 boxes, TOO FULL"},
		{"in a closed place", counted, coldroom.FillStep{Boxes: 1}, "1 of 0 boxes, TOO FULL"},
		{"one box", measured, coldroom.FillStep{Boxes: 1, Taken: 1, Open: 3}, "1 box, 34 % of floor"},
		{"nearly full", measured, coldroom.FillStep{Boxes: 7, Taken: 999, Open: 1000}, "7 boxes, 100 % of floor"},
		{"too full", measured, coldroom.FillStep{Boxes: 7, Taken: 1001, Open: 1000}, "7 boxes, 101 % of floor, TOO FULL"},
		{"all shelves closed", measured, coldroom.FillStep{Boxes: 2, Taken: 5}, "2 boxes, TOO FULL"},
	} {
		if got := Unglue(Fill(c.f, c.in)); got != c.want {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
}
