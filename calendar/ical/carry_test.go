package ical

import (
	"strings"
	"testing"

	"ripeby/schedule"
)

// A carry is an event of who does it, with an alarm: of a batch under its id, stage and the place
// that is closed, of stock under its cheese and packing, each its own where nothing tells two apart.
func TestCarriesAreEvents(t *testing.T) {
	p := kitchenIn(t, "Europe/Dublin")
	at, packed := momentAt(t, "2027-03-16 09:00"), momentAt(t, "2027-03-14 12:00")
	batch := func(from string) *schedule.Plan {
		return &schedule.Plan{TimeZone: "Europe/Dublin", From: at,
			Batches: []schedule.Batch{{ID: "BH-1", Cheese: "Bramble hoop", Pieces: 15, Stages: []schedule.Task{{Stage: "chill", Start: at - 600, Hold: 900, Ends: at + 300, At: "cave",
				BoxesAt: []schedule.Standing{{Place: "cave"}, {Place: "cave"}}}}}},
			Stock: []schedule.StockUse{{Cheese: "Bramble hoop", Pieces: 3, Packed: packed, At: "cave", Ends: at + 900}, {Cheese: "Bramble hoop", Pieces: 2, Packed: packed, At: "cave", Ends: at + 900}},
			Carries: []schedule.Carry{{Batch: "BH-1", Stage: "chill", Stock: -1, Start: at, Minutes: 5, Who: "Nell", From: from, To: "cave"},
				{Stock: 0, Start: at, Minutes: 5, Who: "Oisín", From: from, To: "cave"}, {Stock: 1, Start: at + 5, Minutes: 5, Who: "Oisín", From: from, To: "cave"}}}
	}
	uids := func(plan *schedule.Plan, person string) (all []string, text string) {
		data := made(t, p, plan, Options{Person: person, Own: true})
		obeys(t, data)
		for _, e := range read(t, data).Events() {
			if s := e.Props.Get("SUMMARY").Value; strings.HasPrefix(s, "Carry Bramble hoop to the cave") {
				all = append(all, e.Props.Get("UID").Value)
			}
		}
		return all, strings.ReplaceAll(string(data), "\r\n ", "")
	}
	all, text := uids(batch("fridge"), "")
	if len(all) != 3 || all[0] == all[1] || all[1] == all[2] || all[0] == all[2] {
		t.Fatalf("got the events %q, want three", all)
	}
	for _, want := range []string{"DESCRIPTION:Batch BH-1\\, Bramble hoop: 15 pieces\\nFrom: fridge\\, which is closed\\nTo: cave (2 boxes)\\nWho: Nell",
		"Stock\\, Bramble hoop: 3 pieces\\, packed Sun 14 Mar 2027 12:00", "LOCATION:cave", "TRIGGER:-PT15M", "TRANSP:OPAQUE"} {
		if !strings.Contains(text, want) {
			t.Errorf("got no %q in\n%s", want, text)
		}
	}
	later := batch("fridge")
	for i := range later.Carries {
		later.Carries[i].Start, later.Carries[i].Who, later.Carries[i].To = at+60, "Nell", "cave"
	}
	if again, _ := uids(later, ""); strings.Join(again, " ") != strings.Join(all, " ") {
		t.Errorf("got %q an hour later, want the same as before, %q", again, all)
	}
	if other, _ := uids(batch("cellar"), ""); other[0] == all[0] {
		t.Errorf("got %q out of another place, want another", other[0])
	}
	if own, _ := uids(batch("fridge"), "Nell"); len(own) != 1 || own[0] != all[0] {
		t.Errorf("got %q for Nell, want hers alone", own)
	}
}
