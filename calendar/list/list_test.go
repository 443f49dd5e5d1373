package list_test

import (
	"bytes"
	"flag"
	"strings"
	"testing"
	"time"

	"ripeby/calendar/list"
	"ripeby/calendar/sample"
	"ripeby/resources"
	"ripeby/schedule"
)

var update = flag.Bool("update", false, "write the goldens anew")

// market is the sample's Easter market with its problem and plan.
func market(t *testing.T) (*schedule.Problem, *schedule.Plan, list.Target) {
	t.Helper()
	p := sample.Kitchen()
	plan := sample.Plan(p)
	found, ok := list.Find(plan, "Easter market", 0)
	if !ok {
		t.Fatal("the sample has no Easter market")
	}
	return p, plan, found
}

// TestAsKept: the list and the note as they are printed, in a terminal and as a page.
func TestAsKept(t *testing.T) {
	p, plan, at := market(t)
	shown, err := list.Show(p, plan, at)
	if err != nil {
		t.Fatal(err)
	}
	note, err := list.NoteOf(p, plan, at, resources.Business{Name: "Corner shop", Address: "2 Quay Row"}, nil)
	if err != nil {
		t.Fatal(err)
	}
	for name, write := range map[string]func(*bytes.Buffer) error{
		"list.txt":   func(b *bytes.Buffer) error { return shown.Write(b, 100, false) },
		"narrow.txt": func(b *bytes.Buffer) error { return shown.Write(b, 30, false) },
		"list.html":  func(b *bytes.Buffer) error { return shown.HTML(b) },
		"note.txt":   func(b *bytes.Buffer) error { return note.Write(b, 100, false) },
		"note.html":  func(b *bytes.Buffer) error { return note.HTML(b) },
	} {
		var b bytes.Buffer
		if err := write(&b); err != nil {
			t.Fatal(err)
		}
		if err := sample.Golden(name, b.Bytes(), *update); err != nil {
			t.Error(err)
		}
		for _, said := range []string{list.Law, list.Own} {
			text := strings.Join(strings.Fields(b.String()), " ")
			if n := strings.Count(strings.ReplaceAll(text, "&#39;", "'"), said); n != 1 {
				t.Errorf("%s says %d times %q", name, n, said)
			}
		}
	}
}

// TestAllPiecesAreListed: what a target gets by the plan is on its list, piece by piece, and nothing else.
func TestAllPiecesAreListed(t *testing.T) {
	p := sample.Kitchen()
	plan := sample.Plan(p)
	for _, at := range list.Targets(plan) {
		met := map[string]int{}
		for _, r := range plan.Targets {
			if r.Target == at.Name && r.By == at.By {
				met[r.Cheese] += r.Met
			}
		}
		shown, err := list.Show(p, plan, at)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range shown.Cheeses {
			rows := 0
			for _, r := range c.Rows {
				rows += r.Pieces
			}
			if rows != c.Pieces || c.Pieces != met[c.Name] {
				t.Errorf("%s: %d pieces of %s in rows, %d on the list, %d by the plan", at.Name, rows, c.Name, c.Pieces, met[c.Name])
			}
			delete(met, c.Name)
		}
		for cheese, n := range met {
			if n > 0 {
				t.Errorf("%s: %d pieces of %s are not listed", at.Name, n, cheese)
			}
		}
	}
}

// TestLotsOnlyWhereGiven: an id is never told where a lot is asked for.
func TestLotsOnlyWhereGiven(t *testing.T) {
	p, plan, at := market(t)
	for i := range plan.Batches {
		plan.Batches[i].Lot = ""
	}
	plan.Batches[0].Lot = "BH-270317-4"
	shown, err := list.Show(p, plan, at)
	if err != nil {
		t.Fatal(err)
	}
	var page bytes.Buffer
	if err := shown.HTML(&page); err != nil {
		t.Fatal(err)
	}
	for _, b := range plan.Batches {
		if strings.Contains(page.String(), b.ID) {
			t.Errorf("the page tells the id %s", b.ID)
		}
	}
	if !strings.Contains(page.String(), "BH-270317-4") || !strings.Contains(page.String(), `class="blank"`) || !strings.Contains(shown.Notes[0], "A lot is given when") {
		t.Errorf("got %s", page.String())
	}
}

// TestFind: a target that repeats is the next one unless its date is said, the last where none comes.
func TestFind(t *testing.T) {
	at := func(day int) resources.Moment {
		return resources.MomentOf(time.Date(2027, 3, day, 9, 0, 0, 0, time.UTC))
	}
	plan := &schedule.Plan{Targets: []schedule.WantResult{{Target: "Stall 2027-03-06", By: at(6)}, {Target: "Stall 2027-03-13", By: at(13)}, {Target: "Fair", By: at(9)}}}
	for _, c := range []struct {
		name string
		now  resources.Moment
		want string
	}{
		{"Stall", at(1), "Stall 2027-03-06"}, {"Stall", at(6), "Stall 2027-03-06"}, {"Stall", at(7), "Stall 2027-03-13"}, {"Stall", at(20), "Stall 2027-03-13"},
		{"Stall 2027-03-06", at(20), "Stall 2027-03-06"}, {"Fair", at(20), "Fair"}, {"Stal", at(1), ""}, {"Stall 2027-03-20", at(1), ""},
	} {
		if got, ok := list.Find(plan, c.name, c.now); got.Name != c.want || ok != (c.want != "") {
			t.Errorf("%s at %d: got %q, %v, want %q", c.name, c.now, got.Name, ok, c.want)
		}
	}
}

// TestNoteOfAConsignment: the fields that Commission Implementing Regulation (EU) 931/2011, article 3, asks
// for are there, or what lacks is said.
func TestNoteOfAConsignment(t *testing.T) {
	p, plan, at := market(t)
	left := at.By.Add(120)
	handed := []list.Handed{{Cheese: "Bramble hoop", Lot: "BH-270316-1", Pieces: 4, At: left, UseBy: resources.Date{Year: 2027, Month: 4, Day: 11}}, {Cheese: "Old hoop", Pieces: 1, At: left}}
	note, err := list.NoteOf(p, plan, at, resources.Business{Name: "Corner shop"}, handed)
	if err != nil {
		t.Fatal(err)
	}
	if len(note.Lines) != 2 || note.Lines[0].Lot != "BH-270316-1" || !strings.HasPrefix(note.Lines[0].Quantity, "4") || note.Lines[0].What != "Bramble hoop" || note.Lines[0].Until != "Sun 11 Apr 2027" {
		t.Errorf("got lines %+v", note.Lines)
	}
	if note.From.Name != p.Kitchen.Name || note.To.Name != "Corner shop" || note.Dispatched == "" {
		t.Errorf("got %+v", note)
	}
	lacks := strings.Join(note.Lacking, "\n")
	for _, want := range []string{"Your own address", "The address of Corner shop", "No lot is given of Old hoop"} {
		if !strings.Contains(lacks, want) {
			t.Errorf("it does not say %q, but %q", want, lacks)
		}
	}
	if strings.Contains(lacks, "of Bramble hoop") {
		t.Errorf("it asks for a lot that is given: %q", lacks)
	}
}
