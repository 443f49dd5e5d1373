package week

import (
	"encoding/csv"
	"strings"
	"testing"

	"ripeby/calendar/sample"
	"ripeby/resources"
)

// readCSV reads the week of 18 March 2027 back, as maps by column.
func readCSV(t *testing.T, text string) []map[string]string {
	t.Helper()
	for _, line := range strings.SplitAfter(text, "\n") {
		if line != "" && !strings.HasSuffix(line, "\r\n") {
			t.Errorf("line does not end in CRLF (RFC 4180): %q", line)
		}
	}
	records, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var all []map[string]string
	for _, r := range records[1:] {
		m := map[string]string{}
		for i, head := range records[0] {
			m[head] = r[i]
		}
		all = append(all, m)
	}
	return all
}

func TestWeekCSVReadsBack(t *testing.T) {
	p := sample.Kitchen()
	plan := sample.Plan(p)
	plan.Batches[1].Cheese = `So-called "best", really; ok`
	opt := Options{Of: resources.Date{Year: 2027, Month: 3, Day: 18}, Format: CSV}
	work := 0
	for _, r := range readCSV(t, tableText(t, p, plan, opt)) {
		if r["kind"] != "work" {
			continue
		}
		if work == 1 { // the second make
			want := map[string]string{"week": "2027-W11", "day": "2027-03-16", "at": "2027-03-16T09:00:00Z", "who": "Nell",
				"what": "make", "cheese": `So-called "best", really; ok`, "batch": "BH-270316-2", "litres": "9", "pieces": "16",
				"minutes": "60", "place": "room", "kit": "tall pot", "start_by": "2027-03-17T06:30:00Z", "slip_minutes": "1290",
				"start_from": "2027-03-16T08:45:00Z", "critical": ""}
			for head, w := range want {
				if r[head] != w {
					t.Errorf("%s: got %q, want %q", head, r[head], w)
				}
			}
		}
		if work == 0 && r["critical"] != "yes" {
			t.Errorf("the first make may begin no later, but critical is %q", r["critical"])
		}
		work++
	}
	if work != 6 {
		t.Errorf("got %d pieces of work, want 6", work)
	}
}

func TestWeekCSVNastyNames(t *testing.T) {
	for name, nasty := range sample.NastyNames {
		t.Run(name, func(t *testing.T) {
			p := sample.Kitchen()
			plan := sample.Plan(p)
			sample.Rename(p, plan, nasty)
			text := tableText(t, p, plan, Options{Of: resources.Date{Year: 2027, Month: 3, Day: 18}, Format: CSV})
			if err := sample.Harmless(strings.ReplaceAll(text, "\r\n", "\n")); err != nil {
				t.Error(err)
			}
			for _, r := range readCSV(t, text) {
				for head, cell := range r {
					if cell != "" && strings.ContainsRune("=+-@\t\r", rune(cell[0])) {
						t.Errorf("%s: a spreadsheet would run %q", head, cell)
					}
				}
				if len(nasty) >= 300 && r["kind"] == "work" && r["cheese"] != nasty {
					t.Errorf("got a cheese of %d bytes, want all %d", len(r["cheese"]), len(nasty))
				}
			}
		})
	}
}
