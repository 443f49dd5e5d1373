package recordfile_test

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"ripeby/config/fault"
	"ripeby/config/recordfile"
	"ripeby/resources"
	"ripeby/schedule/record"
)

// The kitchen of these tests has one batch under way, AB-270312-1, of which three things
// were said; a second one, CD-270312-1, of which nothing was; and a market.
const saidBefore = `- {nr: 1, at: 2027-03-12 08:20, batch: AB-270312-1, did: make, pieces: 16}
- {nr: 2, at: 2027-03-13 08:10, batch: AB-270312-1, not_yet: drain, look: 3 h}
- {nr: 3, at: 2027-03-13 13:05, batch: AB-270312-1, did: drain, pieces: 14}
- {nr: 4, at: 2027-03-13 13:10, batch: AB-270312-1, did: mould}
- {nr: 5, at: 2027-03-13 13:11, strikes: 4}
- {nr: 6, at: 2027-03-13 14:00, target: Easter market, cheese: Ash button, took: 8}
`

// nowOfTests is when the entries of these tests are said.
const nowOfTests = "2027-03-13 20:00"

func knownInTests() *record.Known {
	stages := []record.KnownStage{{Name: "make", Work: true}, {Name: "set", Hold: true}, {Name: "drain", Work: true, Hold: true},
		{Name: "mould", Work: true}, {Name: "chill", Hold: true}, {Name: "pack", Work: true, Hold: true}}
	return &record.Known{
		Batches: []record.KnownBatch{{Names: []string{"AB-270312-1", "AB-270311-4"}, Stages: stages}, {Names: []string{"CD-270312-1"}, Stages: stages}, {Names: []string{"OLD-1"}},
			{Names: []string{"EF-270320-1"}, Stages: []record.KnownStage{{Name: "make", Work: true, Who: []string{"Finn"}}, {Name: "pack", Work: true}}, Waits: true}, {Names: []string{"ST-1"}, Stock: true, Made: 8}},
		Cheeses: []record.KnownBatch{{Names: []string{"Ash button"}, Stages: stages}, {Names: []string{"Croft truckle"}, Stages: stages, Made: 20}},
		Milk:    []string{"Hill Farm cow"}, Targets: []string{"Easter market", "Saturday stall", "Saturday stall 2027-03-13", "Saturday stall 2027-03-20"}, People: []string{"Nell", "Finn"}, Pots: []string{"tall pot"},
		Places:     []record.KnownPlace{{Name: "kitchen fridge", Shelves: []string{"top", "middle"}}, {Name: "cheese cave"}},
		Businesses: []string{"Corner shop"},
	}
}

// sayer begins a writer in a folder with what was said before.
func sayer(t *testing.T) (w *recordfile.Writer, path string) {
	t.Helper()
	dir := t.TempDir()
	path = filepath.Join(dir, "record", "2027-03.yaml")
	if err := errors.Join(os.Mkdir(filepath.Dir(path), 0o755), os.WriteFile(path, []byte(saidBefore), 0o644)); err != nil {
		t.Fatal(err)
	}
	w, err := recordfile.Begin(recordfile.OnDisk(dir), dublin(t))
	if err != nil || len(w.Faults()) > 0 {
		t.Fatal(err, w.Faults())
	}
	t.Cleanup(w.End)
	return w, path
}

func momentIn(t *testing.T, text string) resources.Moment {
	t.Helper()
	m, err := resources.ParseMoment(text, dublin(t))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// TestThirtyWrongEntries: each is refused with the line that it would have been, the line
// with which it is at odds where there is one, and a way out, and nothing is written.
func TestThirtyWrongEntries(t *testing.T) {
	cases := []struct{ said, want string }{
		{"at: 2027-03-13 20:11, batch: AB-270312-1, did: mould", `this is 11 min ahead of now, and only what has happened is said; write its moment with --at, or say it when it has happened`},
		{"at: 2027-03-14 08:10, batch: AB-270312-1, did: mould", `this is 12 h 10 min ahead of now`},
		{"batch: AB-270321-1, did: mould", `there is no batch of this name: got "AB-270321-1"; did you mean "AB-270312-1"?`},
		{"batch: 17, did: mould", `there is no batch of this name: got "17"; write one of "AB-270312-1", "AB-270311-4", "CD-270312-1", "OLD-1", "EF-270320-1", "ST-1"`},
		{"batch: AB-270312-1, did: drian", `AB-270312-1 has no such stage: got "drian"; did you mean "drain"?`},
		{"batch: AB-270312-1, began: salt", `AB-270312-1 has no such stage: got "salt"; write one of "make", "set", "drain", "mould", "chill", "pack"`},
		{"batch: AB-270312-1, did: chill", `nobody works in chill, so it is not said to have begun or to be done: got "chill"; write did mould, when it began; began pack, when it is over`},
		{"batch: CD-270312-1, began: set", `nobody works in set, so it is not said to have begun or to be done: got "set"; write did make, when it began; began drain, when it is over`},
		{"at: 2027-03-13 13:04, batch: AB-270312-1, did: mould", `mould comes after drain in the recipe, and this says it the other way round, see record/2027-03.yaml:3: batch: AB-270312-1, did: drain, pieces: 14; write its moment with --at, or strike that first`},
		{"at: 2027-03-13 13:06, batch: AB-270312-1, began: make", `make comes before drain in the recipe, and this says it the other way round, see record/2027-03.yaml:3`},
		{"at: 2027-03-12 08:19, batch: AB-270312-1, did: drain", `drain comes after make in the recipe, and this says it the other way round, see record/2027-03.yaml:1`},
		{"at: 2027-03-13 08:00, batch: AB-270312-1, began: drain", `later, drain is said not to have begun yet, see record/2027-03.yaml:2: batch: AB-270312-1, not_yet: drain, look: 3 h; write a later moment`},
		{"at: 2027-03-13 13:06, batch: AB-270312-1, began: drain", `the work of drain is not done before it begins, and this says it the other way round, see record/2027-03.yaml:3`},
		{"at: 2027-03-13 14:00, batch: AB-270312-1, not_yet: drain", `drain is said to have begun by then, see record/2027-03.yaml:3: batch: AB-270312-1, did: drain, pieces: 14; write strike that first`},
		{"at: 2027-03-12 08:00, batch: AB-270311-4, not_yet: drain", `drain comes after make in the recipe, and this says it the other way round, see record/2027-03.yaml:1`},
		{"batch: CD-270312-1, not_yet: make", `there is no hold before make that might not be over: got "make"`},
		{"batch: CD-270312-1, not_yet: chill", `there is no hold before chill that might not be over: got "chill"`},
		{"batch: AB-270312-1, pieces: 15", `15 pieces are more than the 14 that were left of it, see record/2027-03.yaml:3: batch: AB-270312-1, did: drain, pieces: 14; write the right number, or say it again (--again) if it is so`},
		{"batch: AB-270312-1, gone: 15, why: eaten", `15 pieces are gone of the 14 that were left of it, see record/2027-03.yaml:3`},
		{"batch: CD-270312-1, began: make, pot: tall pan", `there is no pot of this name: got "tall pan"; did you mean "tall pot"?`},
		{"batch: CD-270312-1, began: make, drew: {supply: Hill Farm, day: 2027-03-12}", `there is no milk supply of this name: got "Hill Farm"; did you mean "Hill Farm cow"?`},
		{"batch: AB-270312-1, stands: {place: kitchen fridge, shelf: lower}", `there is no shelf in kitchen fridge of this name: got "lower"; write one of "top", "middle"`},
		{"batch: AB-270312-1, note: x, who: Nel", `there is no person of this name: got "Nel"; did you mean "Nell"?`},
		{"cheese: Ash, did: make, litres: 8 L", `there is no cheese of this name: got "Ash"; did you mean "Ash button"?`},
		{"cheese: Ash button, did: drain, litres: 8 L", `a batch off the plan begins with its first stage: got "drain"; write did make`},
		{"cheese: Ash button, did: make", `how much milk a batch off the plan is of is said with it; write --litres "8 L"`},
		{"milk: Hil Farm cow, day: 2027-03-12, came: 20 L", `there is no milk supply of this name: got "Hil Farm cow"; did you mean "Hill Farm cow"?`},
		{"target: Fair, cheese: Ash button, took: 3", `there is no target of this name: got "Fair"; write one of "Easter market", "Saturday stall", "Saturday stall 2027-03-13", "Saturday stall 2027-03-20"`},
		{"target: Saturday stall, cheese: Ash button, took: 3", `Saturday stall repeats, so its date is said too; write its name as in "Saturday stall 2027-03-13"`},
		{"target: Saturday stall 2027-03-06, cheese: Croft trukle, took: 3", `there is no cheese of this name: got "Croft trukle"; did you mean "Croft truckle"?`},
		{"target: Easter market, cheese: Ash button, took: 3, of: {AB-1: 3}", `there is no batch of this name: got "AB-1"`},
		{"target: Easter market, cheese: Ash button, back: 9", `9 came back of the 8 that left, see record/2027-03.yaml:6`},
		{"target: Easter market, cheese: Ash button, took: 3, to: Shop", `there is no business of this name: got "Shop"; did you mean "Corner shop"?`},
		{"place: fridge, closed: true", `there is no cold place of this name: got "fridge"; did you mean "kitchen fridge"?`},
		{"place: cheese cave, shelf: top, open: true", `there is no shelf in cheese cave of this name: got "top"`},
		{"person: Nellie, away: true", `there is no person of this name: got "Nellie"; did you mean "Nell"?`},
		{"person: Nell, takes: {batch: AB-270312-1, stage: chill}", `nobody works in chill`},
		{"person: Nell, takes: {batch: EF-270320-1, stage: make}", `EF-270320-1 has not begun, and by its recipe make is done by others: got "Nell"; write one of Finn; or it again`},
		{"target: Easter market, cheese: Ash button, took: 3, of: {EF-270320-1: 3}", `EF-270320-1 has not begun, so nothing of it can have left`},
		{"target: Easter market, cheese: Croft truckle, took: 21", `21 pieces are said to have left, and there were no more than 20 of Croft truckle; write the right number, or say it again (--again) if it is so`},
		{"target: Easter market, cheese: Ash button, took: 9, of: {ST-1: 9}", `9 pieces are said to have left, and there were no more than 8 of ST-1; write the right number`},
		{"batch: ST-1, stands: {place: cheese cave}", `ST-1 is stock, and begun.yaml has where it stands: got "cheese cave"; write at: cheese cave into its entry there`},
		{"batch: ST-1, did: pack", `ST-1 is stock of begun.yaml: it is made and packed; write pieces, gone, weight, measured, lost or a note of it`},
		{"strikes: 7", `there is no entry 7 to strike; write a number that ripeby record lists`},
		{"strikes: 4", `entry 4 is struck already, see record/2027-03.yaml:5: strikes: 4; write strike 5 to have it stand again`},
	}
	if len(cases) < 30 {
		t.Fatalf("got %d wrong entries, want 30", len(cases))
	}
	now := momentIn(t, nowOfTests)
	for _, c := range cases {
		if !strings.HasPrefix(c.said, "at: ") {
			c.said = "at: 2027-03-13 19:00, " + c.said
		}
		w, path := sayer(t)
		_, err := w.Say(one(t, "- {"+c.said+"}"), knownInTests(), now, false)
		var faults fault.Faults
		said := func(f fault.Fault) bool { return strings.HasPrefix(f.Error(), "record/2027-03.yaml:7: "+c.want) }
		if !errors.As(err, &faults) || !slices.ContainsFunc(faults, said) {
			t.Errorf("%s:\ngot  %v\nwant record/2027-03.yaml:7: %s", c.said, err, c.want)
		}
		if slices.ContainsFunc(faults, func(f fault.Fault) bool { return f.Want == "" && f.Near == "" }) {
			t.Errorf("%s: no way out of %v", c.said, faults)
		}
		if text, err := os.ReadFile(path); err != nil || string(text) != saidBefore {
			t.Errorf("%s: the file was changed: %q (%v)", c.said, text, err)
		}
	}
}

// TestRightEntries stand one step inside of what is refused.
func TestRightEntries(t *testing.T) {
	now := momentIn(t, nowOfTests)
	for _, c := range []struct {
		said  string
		again bool
	}{
		{"at: 2027-03-13 20:10, batch: AB-270312-1, did: mould", false},
		{"at: 2027-03-13 13:05, batch: AB-270312-1, did: mould", false},
		{"at: 2027-03-13 13:05, batch: AB-270312-1, began: drain", false},
		{"at: 2027-03-13 08:10, batch: AB-270312-1, began: drain", false},
		{"at: 2027-03-13 13:04, batch: AB-270312-1, not_yet: drain", false},
		{"at: 2027-03-13 12:00, strikes: 3, batch: AB-270312-1, did: mould", false}, // what it strikes is not held against it
		{"at: 2027-03-13 13:05, strikes: 5", false},
		{"at: 2027-03-13 19:00, batch: AB-270312-1, pieces: 14", false},
		{"at: 2027-03-13 19:00, batch: AB-270312-1, pieces: 15", true},
		{"at: 2027-03-13 13:00, batch: AB-270312-1, pieces: 16", false}, // before it was counted again
		{"at: 2027-03-13 19:00, batch: OLD-1, did: anything", false},    // a recipe that is no more
		{"at: 2027-03-13 19:00, batch: CD-270312-1, not_yet: pack", false},
		{"at: 2027-03-13 19:00, target: Saturday stall 2027-03-06, cheese: Ash button, took: 3", false},
		{"at: 2027-03-13 19:00, cheese: Ash button, began: make, litres: 8 L, pot: tall pot", false},
		{"at: 2027-03-13 19:00, person: Nell, takes: {batch: CD-270312-1, stage: drain}", false},
		{"at: 2027-03-13 19:00, place: kitchen fridge, shelf: top, closed: true", false},
	} {
		w, path := sayer(t)
		e, err := w.Say(one(t, "- {"+c.said+"}"), knownInTests(), now, c.again)
		if err != nil {
			t.Errorf("%s: %v", c.said, err)
			continue
		}
		text, err := os.ReadFile(path)
		if want := saidBefore + recordfile.Line(e, dublin(t)) + "\n"; err != nil || string(text) != want || e.Nr != 7 || e.Line != 7 {
			t.Errorf("%s: got %q (%v), want %q", c.said, text, err, want)
		}
	}
}

// TestTheSameWordIsTakenOnce: a late resend is answered with what was written, though by now
// it would be refused.
func TestTheSameWordIsTakenOnce(t *testing.T) {
	w, path := sayer(t)
	now := momentIn(t, nowOfTests)
	e := one(t, `- {at: 2027-03-13 13:06, batch: AB-270312-1, not_yet: chill, once: "k3"}`)
	if _, err := w.Say(e, knownInTests(), now, false); err == nil {
		t.Fatal("chill has no hold before it: want a refusal")
	}
	e = one(t, `- {at: 2027-03-13 13:06, batch: AB-270312-1, did: mould, once: "k3"}`)
	said, err := w.Say(e, knownInTests(), now, false)
	if err != nil {
		t.Fatal(err)
	}
	again, err := w.Say(e, &record.Known{}, now-600, false)
	if err != nil || !record.Same(again, said) {
		t.Errorf("got %+v (%v), want what was written", again, err)
	}
	if text, _ := os.ReadFile(path); strings.Count(string(text), "k3") != 1 {
		t.Errorf("got %q, want the word once", text)
	}
	if twice := record.Twice(one(t, `- {at: 2027-03-13 13:06, batch: AB-270311-4, did: mould}`), w.Book(), knownInTests()); twice == nil || twice.Nr != 7 {
		t.Errorf("got %v, want that number 7 said so first", twice)
	}
}
