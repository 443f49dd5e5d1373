package main

import (
	"encoding/csv"
	"strings"
	"testing"
	"time"
)

// Every table that is printed for a spreadsheet reads back (RFC 4180), with lines of equal length, the
// columns that it had before, and the moments of RFC 3339.
func TestTablesForSpreadsheetsReadBack(t *testing.T) {
	folder, _ := recordFolder(t)
	rewrite(t, folder, "kitchen.yaml", "pots:", "cold: [{name: '=cave', temperature: 11 °C, boxes: 2}]\npots:")
	planAt(t, folder, "2027-03-01 06:00")
	for _, c := range []struct {
		name    string
		args    []string
		columns string
		moments []string
		cell    string // that is in it
	}{
		{"slip", []string{"slip", "-C", folder, "--csv", "--from", "2027-03-01 06:00"}, "batch,cheese,stage,begun,start,minutes,who,slip_from,slip_until,critical", []string{"start", "slip_from", "slip_until"}, "Quick curd"},
		{"cold", []string{"cold", "-C", folder, "--csv"}, "day,place,shelf,at,boxes,boxes_most,floor_percent,text", []string{"at"}, "'=cave"},
		{"keys", []string{"keys", "--csv"}, "file,key,written,left_out,example,says", nil, "people.hours"},
		{"week", []string{"week", "-C", folder, "--format", "csv"}, "kind,week,day,at,who,what,cheese,batch,litres,pieces,promised,minutes,place,boxes_to,shelves,kit,start_by,slip_minutes,boxes,boxes_most,floor_percent,text,start_from,critical,needs,measures", nil, "Quick curd"},
	} {
		got := runWith(t.Context(), nil, c.args...)
		rows, err := csv.NewReader(strings.NewReader(got.out)).ReadAll()
		if got.code != 0 || err != nil || len(rows) < 2 || strings.Join(rows[0], ",") != c.columns {
			t.Errorf("%s: got exit code %d, %q, %v and\n%s", c.name, got.code, got.err, err, got.out)
			continue
		}
		if strings.Count(got.out, "\n") != strings.Count(got.out, "\r\n") {
			t.Errorf("%s: a line does not end in CRLF", c.name)
		}
		found := false
		for _, row := range rows[1:] {
			for i, head := range rows[0] {
				found = found || row[i] == c.cell
				for _, m := range c.moments {
					if _, err := time.Parse(time.RFC3339, row[i]); head == m && err != nil {
						t.Errorf("%s: %s: %v", c.name, head, err)
					}
				}
			}
		}
		if !found {
			t.Errorf("%s: no cell is %q in\n%s", c.name, c.cell, got.out)
		}
	}
	for _, args := range [][]string{{"cold", "-C", folder, "--csv", "--box", "40 x 30 x 14 cm"}, {"fits", "-C", folder, "Quick curd", "2", "--by", "2027-03-05", "--csv", "--json"}, {"why", "-C", folder, "--csv", "--json"}, {"list", "-C", folder, "Friday stall", "--csv", "--json"}, {"slip", "-C", folder, "--csv", "--json"}, {"keys", "--csv", "--markdown"}} {
		if got := runWith(t.Context(), nil, args...); got.code != exitWrong || got.out != "" {
			t.Errorf("%v: got exit code %d and %q", args, got.code, got.out)
		}
	}
}
