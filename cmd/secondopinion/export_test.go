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
		{"a year", []string{"2027-03-30 10:30", "2028-03-30 10:30"}, "a long season"},
		{"work in some sizes", []string{"pieces: 3, from: 2 L", "pieces: 1, from: 3 L", "spare: 1", "spare: 0",
			"{fixed: 20 min, per_piece: 5 min}", "{per_piece: 5 min}"}, "work in some sizes only"},
		{"many pieces", []string{"pieces: 2, price: 2.50", "pieces: 40, price: 2.50", "holds: 3 L", "holds: 3 L, count: 50",
			"takes: 2 L", "takes: 20 L", "most_per_day: 3 h", "most_per_day: 24 h", "daily 08:00-12:00", "daily 00:00-24:00"}, "many batches"},
		{"stock on a closed shelf", []string{"size: 45 x 35 x 25 cm", "size: 45 x 35 x 25 cm, taken: [{from: 2027-03-26, until: 2027-03-26}]"}, "stock in a place that is taken"},
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
	os.WriteFile(dir+"/begun.yaml", []byte("begun: [{id: C-1, cheese: Curd, litres: 3, stages: {make: 2027-03-25 08:00}}]\n"), 0o644)
	var out, errs bytes.Buffer
	code := execute([]string{"export", dir, "--from", "2027-03-26 21:10"}, &out, &errs)
	if code != exitFault || !strings.Contains(errs.String(), "a hold that is overrun: C-1") || out.Len() > 0 {
		t.Errorf("got exit %d, %q and %d bytes, want exit %d and the feature named", code, errs.String(), out.Len(), exitFault)
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
		// Three pieces are worth something. 107 steps before the last packing: a pot is
		// busy for 1 + 20 + 1 steps and cleaned for 1, so at most (107+1)/23 = 4.
		{"by pieces", 0, nil, 3, false},
		{"by pieces that are worth something", 0, []string{"price: 2.50", "price: 0"}, 1, false},
		{"capped", 2, nil, 2, true},
		{"cap that is not reached", 3, nil, 3, false},
		// One promised piece, and two others that only a batch of two or more takes.
		{"by serves", 0, []string{"step: 1 L}", "step: 1 L, serves: 2}"}, 2, false},
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
		s, err := newStatement(p, 0)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if len(s.slots) != 0 || len(s.tasks) != 0 {
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
	if g := row.begun; g.first != 16 || g.last != 22 || !slices.Equal(g.cost, []int{100, 50, 0, 25, 50, 75, 100}) {
		t.Errorf("got a next stage from step %d to %d at %v, want 16 to 22", g.first, g.last, g.cost)
	}
	if len(row.forms) != 2 || row.slots != 1 || len(s.slots) != 4 {
		t.Errorf("got %d stages to come in %d slots, %d in all, want 2 in 1 of 4", len(row.forms), row.slots, len(s.slots))
	}
	pot := s.uses[slices.IndexFunc(s.uses, func(u useRow) bool { return u.slot == 3 })]
	if pot.from != -1 || pot.to != 9 || !slices.Equal(pot.things, []int{0}) {
		t.Errorf("got the pot from %d to %d of %v, want it from before until task 9", pot.from, pot.to, pot.things)
	}
	// Ann's 3 h of that day less the round and 2 h of make are half an hour: no step.
	if c := s.caps()[0]; c.most != 0 {
		t.Errorf("got %d steps left of the first day, want 0", c.most)
	}
	for _, want := range []string{"sellable = array2d(R, Z, [0,2,3,5,0,3,0,0,]);", "litres = array2d(R, Z, [0,2,3,4,0,0,0,0,]);",
		"serves = [1, 0];", "begun = [false, false, false, true];", "first_in = [0..", "cheese = [1, 1];"} {
		if text := s.dzn(); !strings.Contains(text, want) {
			t.Errorf("got no %q in the values", want)
		}
	}
}

// A batch whose second stage is running, off the grid: the pot is clean at 22:30, half an
// hour after step 0; it stands in the cave, the first place that fits.
func TestBegunSecondStage(t *testing.T) {
	p := tiny(t, "stock:", "begun: [{id: C-1, cheese: Curd, litres: 3, pieces: 3, stages: {make: 2027-03-24 21:00, drain: 2027-03-25 20:30}}]\nstock:")
	s, err := newStatement(p, 0)
	if err != nil {
		t.Fatal(err)
	}
	if g := s.recipes[1].begun; g.first != 20 || g.last != 25 || slices.Max(g.cost) != 0 {
		t.Errorf("got a next stage from step %d to %d at %v, want 20 to 25 at nothing", g.first, g.last, g.cost)
	}
	if len(s.busy) != 1 || s.busy[0].thing != 0 || s.at(s.busy[0].until) != 1 {
		t.Errorf("got %v busy, want the pot until unit 1", s.busy)
	}
	stay := s.stays[slices.IndexFunc(s.stays, func(t stayRow) bool { return t.slot == 3 })]
	if stay.from != -1 || stay.to != 9 || !slices.Equal(stay.places, []int{0}) || s.counts[stay.count][1] != 2 {
		t.Errorf("got a stay from %d to %d in %v of %d boxes, want 2 from before until task 9 in the cave", stay.from, stay.to, stay.places, s.counts[stay.count][1])
	}
}
