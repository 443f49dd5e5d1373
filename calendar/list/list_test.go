package list_test

import (
	"bytes"
	"cmp"
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
		"list.csv":   func(b *bytes.Buffer) error { return shown.CSV(b) },
		"note.csv":   func(b *bytes.Buffer) error { return note.CSV(b) },
	} {
		var b bytes.Buffer
		if err := write(&b); err != nil {
			t.Fatal(err)
		}
		if err := sample.Golden(name, b.Bytes(), *update); err != nil {
			t.Error(err)
		}
		if strings.HasSuffix(name, ".csv") {
			continue
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

// TestSender: who sends is the maker of the labels, with the address behind the first comma.
func TestSender(t *testing.T) {
	for _, c := range []struct{ maker, name, address string }{
		{"", "Dairy", ""}, {"Saltgrass Lane, 3 Quay Row", "Saltgrass Lane", "3 Quay Row"}, {"Saltgrass Lane", "Saltgrass Lane", ""},
		{"Saltgrass Lane ,3 Quay Row, Skerry", "Saltgrass Lane", "3 Quay Row, Skerry"}, {", 3 Quay Row", "Dairy", "3 Quay Row"},
	} {
		k := &resources.Kitchen{Name: "Dairy", Labels: &resources.Labels{Maker: c.maker}}
		if got := list.Sender(k); got != (list.Party{Name: c.name, Address: c.address}) {
			t.Errorf("%q: got %+v", c.maker, got)
		}
	}
	if got := list.Sender(&resources.Kitchen{Name: "Dairy"}); got != (list.Party{Name: "Dairy"}) {
		t.Errorf("without labels: got %+v", got)
	}
}

// TestEveryFieldOfAConsignment: each that (EU) 931/2011, article 3, and 21 CFR 1.1340 ask for is there or is
// a blank to write on, on the page and in the terminal.
func TestEveryFieldOfAConsignment(t *testing.T) {
	p, plan, at := market(t)
	to := resources.Business{Name: "Corner shop"}
	page := func() (html, text string) {
		note, err := list.NoteOf(p, plan, at, to, []list.Handed{{Cheese: "Bramble hoop", Pieces: 4, At: at.By}})
		if err != nil {
			t.Fatal(err)
		}
		var a, b bytes.Buffer
		if err := cmp.Or(note.HTML(&a), note.Write(&b, 100, false)); err != nil {
			t.Fatal(err)
		}
		return a.String(), b.String()
	}
	html, text := page()
	// number, two addresses, two owners, where lots are given, the lot, handed over, received
	if got := strings.Count(html, `<span class="blank`); got != 9 {
		t.Errorf("got %d blanks on the page, want 9", got)
	}
	if got := strings.Count(text, list.Blank); got != 7 { // the terminal's has nobody who signs
		t.Errorf("got %d blanks in the terminal, want 7:\n%s", got, text)
	}
	p.Kitchen.Labels, to.Address = &resources.Labels{Maker: "Saltgrass Lane, 3 Quay Row"}, "2 Quay Row"
	html, text = page()
	if strings.Count(html, `<span class="blank`) != 6 || strings.Count(text, list.Blank) != 4 || strings.Contains(text, "not in the kitchen folder") {
		t.Errorf("with both addresses got\n%s\n%s", html, text)
	}
	for _, field := range []string{"Number", "From", "owner", "To", "For", "Lots given at", "What", "Quantity", "Lot", "Saltgrass Lane", "3 Quay Row", "Corner shop", "2 Quay Row", "Bramble hoop"} {
		if !strings.Contains(html, field) || !strings.Contains(text, field) {
			t.Errorf("%q is not on the page, or not in the terminal", field)
		}
	}
	if !strings.Contains(html, "<dt>Dispatched</dt><dd>Mon 29 Mar 2027</dd>") || !strings.Contains(text, "Delivery note, Mon 29 Mar 2027") {
		t.Error("the day of dispatch is not there")
	}
}

// TestReceivers: a target of a business's name has its note; of any other each business may have one.
func TestReceivers(t *testing.T) {
	p, plan, at := market(t)
	p.Kitchen.Businesses = []resources.Business{{Name: "Corner shop"}, {Name: "Easter/market"}}
	all := list.Receivers(&p.Kitchen, at)
	if len(all) != 2 || all[0].Name != "Corner shop" {
		t.Fatalf("got %+v", all)
	}
	for i, r := range all {
		got, to, ok := list.AskedNote(p, plan, []string{at.Key(), r.Key})
		if !ok || got != at || to.Name != p.Kitchen.Businesses[i].Name {
			t.Errorf("%s: got %+v, %+v, %v", r.Name, got, to, ok)
		}
	}
	for _, path := range [][]string{nil, {at.Key()}, {at.Key(), "x"}, {"x", all[0].Key}, {at.Key(), all[0].Key, "x"}} {
		if _, _, ok := list.AskedNote(p, plan, path); ok {
			t.Errorf("%v means something", path)
		}
	}
	p.Kitchen.Businesses[1].Name = "Easter market"
	if one := list.Receivers(&p.Kitchen, at); len(one) != 1 || one[0].Name != "Easter market" {
		t.Errorf("got %+v, want the one of the name", one)
	}
}
