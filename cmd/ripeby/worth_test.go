package main

import (
	"strings"
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/planner/whatif"
)

// What one more of each thing would buy: what buys nothing is one line at the end.
func TestWhatOneMoreBuysInWords(t *testing.T) {
	worth := func(text string, pieces int, found, least, most int64) whatif.Worth {
		w := whatif.Worth{Pieces: pieces}
		w.Text = text
		w.Money, w.Least, w.Most = resources.Money(found), resources.Money(least), resources.Money(most)
		return w
	}
	p := &schedule.Problem{Earlier: &schedule.Plan{Score: schedule.Score{Short: 1}}}
	a := whyAnswer{problem: p, width: 100, worths: []whatif.Worth{
		worth("one more hook", 0, 0, 0, 0), worth("one more box", 0, 0, 0, 900), worth("one more shelf", 26, 14900, 14900, 34290),
		worth("one more pot", 14, 5880, 5880, 5880), worth("one more mould", 3, 300, 100, 900), worth("one more tub", 0, 0, 0, 0)}}
	var b strings.Builder
	a.writeWorth(&b)
	_, list, _ := strings.Cut(b.String(), "\n- ")
	want := `one more shelf: 26 pieces worth 149.00, perhaps up to 342.90
- one more pot: 14 pieces worth 58.80
- one more mould: 3 pieces worth 3.00; between the best plans, from 1.00 to 9.00
- one more box: nothing found; 9.00 at the most
- nothing: one more hook; one more tub
`
	if list != want {
		t.Errorf("got\n%s\nwant\n%s", list, want)
	}
}
