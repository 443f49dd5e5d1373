package main

import (
	"bytes"
	"errors"
	"flag"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"ripeby/config"
	"ripeby/schedule"
	"ripeby/schedule/needs"
)

var update = flag.Bool("update", false, "write goldens anew")

// tiny reads the tiny kitchen, each edit replacing one text by another in all files.
func tiny(t *testing.T, edits ...string) *schedule.Problem {
	t.Helper()
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS("testdata/tiny")); err != nil {
		t.Fatal(err)
	}
	files, _ := filepath.Glob(dir + "/*.yaml")
	more, _ := filepath.Glob(dir + "/recipes/*.yaml")
	for i := 0; i < len(edits); i += 2 {
		found := false
		for _, file := range append(files, more...) {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			if strings.Contains(string(text), edits[i]) {
				found = true
				os.WriteFile(file, []byte(strings.ReplaceAll(string(text), edits[i], edits[i+1])), 0o644)
			}
		}
		if !found {
			t.Fatalf("the tiny kitchen has no %q", edits[i])
		}
	}
	p, err := config.Load(dir, config.Options{From: "2027-03-25 21:10"})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// The values of the tiny kitchen, each of which was counted by hand once.
func TestExportGolden(t *testing.T) {
	var out, errs bytes.Buffer
	if code := execute([]string{"export", "testdata/tiny", "--from", "2027-03-25 21:10"}, &out, &errs); code != exitFine {
		t.Fatalf("got exit %d, %s", code, &errs)
	}
	const golden = "testdata/tiny.dzn"
	if *update {
		if err := os.WriteFile(golden, out.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(out.Bytes(), want) {
		t.Errorf("got\n%s\nwant %s as it is; -update writes it anew", &out, golden)
	}
}

func TestExportRefuses(t *testing.T) {
	for _, c := range []struct {
		name  string
		edits []string
		what  string
	}{
		{"a year by the minute", []string{"2027-03-30 10:30", "2028-03-20 10:30", "step: 60 min", "step: 1 min"}, "a long season"},
		{"many pieces", []string{"pieces: 2, price: 2.50", "pieces: 4000, price: 2.50", "holds: 3 L", "holds: 3 L, count: 500",
			"takes: 2 L", "takes: 20 L", "step: 60 min", "step: 5 min",
			"{fixed: 40 min, per_litre: 10 min}", "{fixed: 5 min}", "{fixed: 30 min}", "{fixed: 5 min}", "{fixed: 20 min, per_piece: 5 min}", "{fixed: 5 min}", "most_per_day: 3 h", "most_per_day: 24 h", "daily 08:00-12:00", "daily 00:00-24:00"}, "many batches"},
		{"stock on a closed shelf", []string{"size: 45 x 35 x 25 cm", "size: 45 x 35 x 25 cm, taken: [{from: 2027-03-26, until: 2027-03-26}]"}, "stock in a place that is taken"},
		{"begun cheese that is carried away", []string{"stock:", begunSecond}, "cheese that is carried out of a closed place"},
		{"a hold by the room", []string{"hold: {least: 19 h 30 min, best: 22 h, most: 26 h 10 min}", "hold: {least: 19 h 30 min, best: 22 h, most: 26 h 10 min, goes_by: {temperature: 21 °C}}"}, "a hold that goes by the make room"},
		{"more stock than boxes", []string{"count: 3", "count: 1", "boxes: 1}]", "boxes: 2}]"}, "more in hand than there is"},
		{"more stock than room", []string{"at: fridge, boxes: 1", "at: cave, boxes: 3", ", taken: [{from: 2027-03-26, until: 2027-03-26}]", ""}, "more in place than there is room for"},
	} {
		_, err := newStatement(tiny(t, c.edits...), 0)
		var no *refusal
		got := ""
		if errors.As(err, &no) {
			got = no.what
		} else if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		if got != c.what {
			t.Errorf("%s: got refusal %q, want %q (%v)", c.name, got, c.what, err)
		}
	}
}

func TestExportNamesTheFeature(t *testing.T) {
	dir := t.TempDir()
	os.CopyFS(dir, os.DirFS("testdata/tiny"))
	os.WriteFile(dir+"/begun.yaml", []byte("begun: [{id: C-1, cheese: Curd, litres: 3, stages: {make: 2027-03-24 08:00, drain: 2027-03-25 08:00, pack: 2027-03-26 21:00}}]\n"), 0o644)
	var out, errs bytes.Buffer
	code := execute([]string{"export", dir, "--from", "2027-03-26 21:10"}, &out, &errs)
	if code != exitFault || !strings.Contains(errs.String(), "more in hand than there is: tub") || out.Len() > 0 {
		t.Errorf("got exit %d, %q and %d bytes, want exit %d and the feature named", code, errs.String(), out.Len(), exitFault)
	}
}

// Milk may be ordered where there is no recipe: it is counted by what the sizes of all recipes
// have in common, which once was nothing then.
func TestExportMilkWithoutRecipes(t *testing.T) {
	dir := t.TempDir()
	kitchen, err := os.ReadFile("testdata/tiny/kitchen.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{"kitchen.yaml": string(kitchen), "targets.yaml": "targets: []\n",
		"begun.yaml": "ordered: [{milk: Hill cow, day: 2027-03-27, litres: 3}]\n"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	os.Mkdir(filepath.Join(dir, "recipes"), 0o755)
	var out, errs bytes.Buffer
	code := execute([]string{"export", dir, "--from", "2027-03-27 09:00"}, &out, &errs)
	if want := "milk_most = [3000];"; code != exitFine || !strings.Contains(out.String(), want) {
		t.Errorf("got exit %d, %s%s, want %q", code, &errs, &out, want)
	}
}

// Slots, counted by hand.
func TestSlots(t *testing.T) {
	for _, c := range []struct {
		name   string
		cap    int
		edits  []string
		want   int
		capped bool
	}{
		// Three pieces are worth something, at one moment, and each batch has two or more: one
		// that sells two and one that does not.
		{"by pieces", 0, nil, 2, false},
		{"by moments", 0, []string{"{cheese: Curd, pieces: 1, price: 4.00, promised: true}]}",
			"{cheese: Curd, pieces: 1, price: 4.00, promised: true}]}\n  - {name: stall, by: 2027-03-30 11:30, want: [{cheese: Curd, pieces: 1}]}"}, 4, false},
		{"by pieces that are worth something", 0, []string{"price: 2.50", "price: 0"}, 1, false},
		{"capped", 1, nil, 1, true},
		{"cap that is not reached", 3, nil, 2, false},
		// One promised piece, and two others that only a batch of two or more takes.
		{"by serves", 0, []string{"step: 1 L}", "step: 1 L, serves: 2}"}, 2, false},
		// 107 steps before the last packing: a pot is busy for 1 + 20 + 1 steps and cleaned for
		// 1, so at most (107+1)/23 = 4.
		{"by pot", 0, []string{"pieces: 2, price", "pieces: 9, price"}, 4, false},
	} {
		s, err := newStatement(tiny(t, c.edits...), c.cap)
		if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		if len(s.slots) != c.want || s.capped != c.capped {
			t.Errorf("%s: got %d slots, capped %v, want %d, %v", c.name, len(s.slots), s.capped, c.want, c.capped)
		}
	}
}

// A hold without a length on the grid, or work that nobody may do: it is never made.
func TestSlotsOfWhatIsNeverMade(t *testing.T) {
	p := tiny(t)
	p.Recipes[0].Stages[1].Hold = &schedule.Hold{Least: 70, Most: 110}
	nobody := tiny(t)
	nobody.Recipes[0].Stages[0].Who = []string{"Cid"}
	for name, p := range map[string]*schedule.Problem{"hold": p, "nobody": nobody} {
		for i := range p.Kitchen.Cold {
			p.Kitchen.Cold[i].Taken = nil // no plan is asked about
		}
		s, err := newStatement(p, 0)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if len(s.slots) != 0 {
			t.Errorf("%s: got %d slots, want none", name, len(s.slots))
		}
	}
}

// The tiny kitchen's 19.5 h to 26 h 10 min go in to 20 and 26 h, and best is 22 h.
func TestOffBest(t *testing.T) {
	s, err := newStatement(tiny(t), 0)
	if err != nil {
		t.Fatal(err)
	}
	if got, want := s.forms[0].cost, []int{100, 50, 0, 25, 50, 75, 100}; !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	// Halves go up: 1 of 8 is 12.5.
	h := needs.Hold{Least: 600, Best: 600, Most: 1080, HasBest: true}
	if got := h.Bother(660); got != 13 {
		t.Errorf("one of eight: got %d, want 13", got)
	}
}

// A batch under way, counted by hand: 3 L take 2 steps of work, so the make of 16:00 is
// done at 18:00, 4 h before step 0.
func TestBegun(t *testing.T) {
	p := tiny(t, "stock:", "begun: [{id: C-1, cheese: Curd, litres: 3, stages: {make: 2027-03-25 16:00}}]\nstock:")
	s, err := newStatement(p, 0)
	if err != nil {
		t.Fatal(err)
	}
	row := s.recipes[1]
	// It may be carried on for 60 days, less the 50 min from the planning start to step 0; the
	// clocks do not matter. The stage after it has 1 step of work and 26 of hold.
	if g := row.begun; s.soonest(g) != 16 || !slices.Equal(g.latest, []int{60*24 - 1, 60*24 + 26}) || s.at(g.worked) != -8 {
		t.Errorf("got a next stage from step %d to %v after work done at unit %d, want 16 to 1439 and 1466 after -8", s.soonest(g), g.latest, s.at(g.worked))
	}
	if len(row.forms) != 2 || row.slots != 1 || len(s.slots) != 3 {
		t.Errorf("got %d stages to come in %d slots, %d in all, want 2 in 1 of 3", len(row.forms), row.slots, len(s.slots))
	}
	pot := s.uses[slices.IndexFunc(s.uses, func(u useRow) bool { return u.slot == 2 })]
	if pot.from != -1 || pot.to != 6 || !slices.Equal(pot.things, []int{0}) {
		t.Errorf("got the pot from %d to %d of %v, want it from before until task 6", pot.from, pot.to, pot.things)
	}
	// Ann's 3 h of that day less the round and 2 h of make are half an hour: no step.
	if c := s.caps()[0]; c.most != 0 {
		t.Errorf("got %d steps left of the first day, want 0", c.most)
	}
	for _, want := range []string{"sellable = array2d(R, Z, [0,2,3,5,0,3,0,0,]);", "litres = array2d(R, Z, [0,2,3,4,0,0,0,0,]);",
		"serves = [1, 0];", "begun = [false, false, true];", "first_in = [0..", "cheese = [1, 1];"} {
		if text := s.dzn(); !strings.Contains(text, want) {
			t.Errorf("got no %q in the values", want)
		}
	}
}

const begunSecond = "begun: [{id: C-1, cheese: Curd, litres: 3, pieces: 3, stages: {make: 2027-03-24 21:00, drain: 2027-03-25 20:30}}]\nstock:"

// A batch whose second stage is running, off the grid: the pot is clean at 22:30, half an
// hour after step 0; it stands in the cave, the first place that fits.
func TestBegunSecondStage(t *testing.T) {
	p := tiny(t, "stock:", begunSecond, ", taken: [{from: 2027-03-26, until: 2027-03-26}]", "")
	s, err := newStatement(p, 0)
	if err != nil {
		t.Fatal(err)
	}
	if g := s.recipes[1].begun; s.soonest(g) != 20 || s.forms[g.form].most != 26 || s.forms[g.form].hold.HasBest {
		t.Errorf("got a next stage from step %d after a hold of %v, want 20 and one of at most 26 without a best", s.soonest(g), s.forms[g.form])
	}
	if len(s.busy) != 1 || s.busy[0].thing != 0 || s.at(s.busy[0].until) != 1 {
		t.Errorf("got %v busy, want the pot until unit 1", s.busy)
	}
	stay := s.stays[slices.IndexFunc(s.stays, func(t stayRow) bool { return t.slot == 2 })]
	if stay.from != -1 || stay.to != 6 || !slices.Equal(stay.places, []int{0}) || s.counts[stay.count][1] != 2 {
		t.Errorf("got a stay from %d to %d in %v of %d boxes, want 2 from before until task 6 in the cave", stay.from, stay.to, stay.places, s.counts[stay.count][1])
	}
}
