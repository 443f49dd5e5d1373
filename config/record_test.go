package config

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"
)

// months puts files of the record into the example folder.
func months(t *testing.T, of map[string]string) fstest.MapFS {
	t.Helper()
	files := saltgrass(t)
	for name, text := range of {
		files["record/"+name] = &fstest.MapFile{Data: []byte(text)}
	}
	return files
}

func TestLoadRecord(t *testing.T) {
	r, err := LoadRecordFS(months(t, map[string]string{
		"2027-04.yaml":        "- {nr: 3, at: 2027-04-01 08:00, strikes: 2}\n- {nr: 4, at: 2027-04-",
		"2027-03.yaml":        "- {nr: 1, at: 2027-03-12 08:20, batch: AB-270312-1, did: make}\n- {nr: 2, at: 2027-03-28 12:00, note: two}\n",
		"2027-03 (copy).yaml": "- {nr: 1, at: 2027-03-12 08:20, batch: AB-270312-1, did: make}\n",
		"batches/AB.json":     "{}",
		".lock":               "",
		"notes.txt":           "what I think",
	}))
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, e := range r.Book.All() {
		got = append(got, fmt.Sprintf("%d %s:%d %v", e.Nr, e.File, e.Line, r.Book.StruckBy(e) != nil))
	}
	if want := "1 record/2027-03.yaml:1 false|2 record/2027-03.yaml:2 true|3 record/2027-04.yaml:1 false"; strings.Join(got, "|") != want {
		t.Errorf("got %s, want %s", strings.Join(got, "|"), want)
	}
	if len(r.Cut) != 1 || r.Cut[0].File != "record/2027-04.yaml" || r.Cut[0].Line != 2 {
		t.Errorf("got the cut lines %v, want line 2 of April", r.Cut)
	}
	if got, want := strings.Join(r.Targets, "|"), "Easter market|Saturday stall|Spring holiday orders"; got != want || r.Zone.String() != "Europe/Dublin" {
		t.Errorf("got the targets %s in %v, want %s", got, r.Zone, want)
	}
	// Noon of the day on which Dublin's clocks go forward is 11:00 UTC.
	if e := r.Book.All()[1]; e.At.In(r.Zone).UTC().Hour() != 11 {
		t.Errorf("got %v, want 11:00 UTC", e.At.In(r.Zone).UTC())
	}
	if r, err := LoadRecordFS(saltgrass(t)); err != nil || len(r.Book.All()) != 0 {
		t.Errorf("no record yet: got %v (%v)", r, err)
	}
	if r, err := LoadRecord(t.TempDir()); err == nil {
		t.Errorf("no kitchen: got %v", r)
	}
}

func TestFaultsOfTheRecord(t *testing.T) {
	files := months(t, map[string]string{
		"2027-03.yaml": "- {at: never, note: x}\n- {at: 2027-03-12 08:20, peices: 3}\n",
		"2027-04.yml":  "", "april.yaml": "",
		"2027-05.yaml": "- {at: 2027-05-01 08:00, note: " + strings.Repeat("x", 5<<20),
	})
	_, err := LoadRecordFS(files)
	for _, want := range []string{
		"record/2027-03.yaml:1:8: at: ", `record/2027-03.yaml:2:26: there is no such key: got "peices"; did you mean "pieces"?`, `record/2027-04.yml: only files that end in .yaml are read; rename it to record/2027-04.yaml`,
		"record/april.yaml: a file of the record is named for its month; rename it, as in record/2027-03.yaml",
		"record/2027-05.yaml: this file is larger than the limit of 4194304 bytes",
	} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("got\n%v\nwant %s among it", err, want)
		}
	}
	edit(t, files, "kitchen.yaml", "Europe/Dublin", "Europe/Dublinn")
	if _, err := LoadRecordFS(files); err == nil || strings.Contains(err.Error(), "at: ") || !strings.Contains(err.Error(), "Dublinn") {
		t.Errorf("without a zone: got\n%v\nwant the zone alone to be told", err)
	}
}
