package recordfile_test

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"go.yaml.in/yaml/v3"

	"ripeby/config/recordfile"
	"ripeby/schedule/record"
)

// FuzzRead reads arbitrary bytes. Whatever they are, the reader does not panic; each line is
// an entry, is cut, is wrong in one line of words with its place, or says nothing; and an
// entry that is written again is the same to every reader.
func FuzzRead(f *testing.F) {
	for _, line := range []string{
		`- {nr: 41, at: 2027-03-12 08:20, who: Nell, batch: AB-270312-1, did: make, litres: 7.5 L, lots: [{what: rennet, lot: "R-55"}]}`,
		`- {at: 2027-03-13 08:10, batch: AB-1, not_yet: drain, measured: [{what: pH, is: 5.1}], look: 3 h, note: soft, whey clear}`,
		`- {"nr":44,"at":"2027-10-31T01:30:00Z","strikes":[43],"once":"\u00e9\ud83e\uddc0\x41"}`,
		"- {at: 2027-03-13 08:10, target: Saturday stall, date: 2027-03-13, cheese: A, took: 8, of: {B: 5, 'C''s': 3}, back: 2, resell: true, sold_out: 11:20, to: no}\r\n# x",
		`- {at: 2027-03-13 08:10, person: Nell, away: {from: 2027-03-14, until: 2027-03-15}, takes: {batch: B, stage: drain}}`,
		`- {at: 2027-03-13 08:10, place: cave, shelf: top, closed: true, measured: [{what: x, is: "\r\n"}]}`,
		`- {at: 2027-03-13 08:10, new: rennet, lot: 0012, use_by: 2027-09-30, strength: 200 IMCU/mL, holds: 50 mL}` + "\n- {note: \"cut}",
		"- {at: 2027-03-13 08:10, milk: cow, day: 2027-03-12, came: 0 L, ordered: 1 gal (US)}\n- {at: 2027-03-13 08:10, round: 2027-03-13, did: true}\x00\x00",
	} {
		f.Add([]byte(line))
	}
	zone := dublin(f)
	f.Fuzz(func(t *testing.T, text []byte) {
		m := recordfile.Read("record/2027-03.yaml", text, zone)
		for _, one := range append(m.Faults, m.Cut...) {
			if line := one.Error(); one.Line == 0 || one.What == "" || strings.ContainsAny(line, "\n\r") {
				t.Errorf("got the fault %q, want one line with its place", line)
			}
		}
		if lines := bytes.Count(text, []byte("\n")) + 1; len(m.Entries)+len(m.Cut) > lines {
			t.Errorf("got %d entries and %d cut of %d lines", len(m.Entries), len(m.Cut), lines)
		}
		for _, e := range m.Entries {
			mustReadAlike(t, e, zone)
		}
	})
}

// mustReadAlike writes an entry and has it read twice.
func mustReadAlike(t testing.TB, e record.Entry, zone *time.Location) {
	t.Helper()
	line := recordfile.Line(e, zone)
	again := recordfile.Read("record/2027-03.yaml", []byte(line), zone)
	if len(again.Entries) != 1 || !record.Same(again.Entries[0], e) {
		t.Fatalf("written as %s\ngot  %+v\nwant %+v", line, again, e)
	}
	var other []map[string]any
	if err := yaml.Unmarshal([]byte(line), &other); err != nil || len(other) != 1 {
		t.Fatalf("%s: got %v (%v) by another reader", line, other, err)
	}
	for key, said := range map[string]string{"note": e.Note, "who": e.Who, "once": e.Once} {
		if got, _ := other[0][key].(string); got != said {
			t.Fatalf("%s: got %s %q by another reader, want %q", line, key, got, said)
		}
	}
}
