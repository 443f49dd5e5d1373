package ask

import (
	"fmt"
	"strings"
	"testing"
	"time"
	_ "time/tzdata" // the tests mean the same on a machine without zone data

	"ripeby/calendar/sample"
	"ripeby/resources"
)

// What a page shows of a desk: what can be chosen, by the plan, and the questions with how far they are.
func TestWhatIsShown(t *testing.T) {
	k := &kitchenOf{go1: make(chan struct{})}
	o := open(t, k)
	p := sample.Kitchen()
	p.Kitchen.Settled = 2 * resources.Day
	p.Kitchen.Boxes = []resources.Box{{Name: "crate"}}
	plan := sample.Plan(p)
	first, second := o.asks("Nell", order(1)), o.asks("Ivo", Question{Kind: Room, Box: "crate", Count: 2})
	<-k.begun
	s := o.Show(nells, p, plan, []string{"cave"}, "")
	if got, want := fmt.Sprintln(s.Cheeses, s.Boxes, s.Places, s.Soon, s.Short, s.Settled), "[Bramble hoop Never asked for] [crate] [cave] "+
		"[{2027-03-18 15:00 Thursday shop, Thu 18 Mar 15:00} {2027-03-29 07:00 Easter market, Mon 29 Mar 07:00}] "+
		"[{Thursday shop Thursday shop, Thu 18 Mar 15:00}] Thu 18 Mar 08:00\n"; got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	var cards []string
	for _, c := range s.Cards {
		cards = append(cards, c.Text+": "+c.State+" ("+c.Asked+")")
	}
	if got, want := strings.Join(cards, "\n"), "Room for 2 boxes: crate: Waits its turn, with 1 question before it (Ivo, 08:00)\n"+
		"1 Bramble hoop by Sat 27 Mar 07:00: Being worked out: trying change 1 of 2 (Nell, 08:00)"; got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	if s := o.Show(nells, p, plan, nil, "nothing"); s != nil {
		t.Errorf("got %+v for a question that nobody asked", s)
	}
	close(k.go1)
	o.over(first)
	o.over(second)
	if s := o.Show(nells, p, plan, nil, first); s.Card.State != "Answered" || !s.Card.Holds || s.Value("fits", "by-day") != "2027-03-27" || s.Value("add", "by-day") != "" || len(s.Cards) != 1 {
		t.Errorf("got %+v, want the answer, and the form as it was filled in", s.Card)
	}
	o.later(20 * 24 * time.Hour) // all that the plan has is past
	if s := o.Show(nells, p, plan, nil, ""); len(s.Soon) != 0 || len(s.Short) != 0 || len(s.Cards) != 0 {
		t.Errorf("got %v and %v of what is past", s.Soon, s.Cards)
	}
}
