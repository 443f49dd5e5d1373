package recordfile_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	goccy "github.com/goccy/go-yaml"
	"go.yaml.in/yaml/v3"
	"pgregory.net/rapid"

	"ripeby/config/recordfile"
	"ripeby/resources"
	"ripeby/schedule/record"
	"ripeby/schedule/testrun"
)

// dublin is the zone of the examples; its clocks go back over an hour at the end of October.
func dublin(t testing.TB) *time.Location {
	t.Helper()
	zone, err := time.LoadLocation("Europe/Dublin")
	if err != nil {
		t.Fatal(err)
	}
	return zone
}

// drawn are texts with all that has ever been read otherwise than it was written.
func drawnText() *rapid.Generator[string] {
	return rapid.OneOf(
		rapid.SampledFrom([]string{"no", "yes", "on", "y", "~", "null", "11:20", "0012", "1_000", "0x1f", "1e3", ".5", "2027-03-12", "2027-03-12 08:20", "=", "<<",
			"a, b", "a: b", "a:b", "# c", "a #b", "{", "}", "[x]", "*a", "&a", "!t", "|", ">", "%", "@", "`", "'", `"`, `\`, `\n`, "- x", "?", "'it''s'", "é", "日本",
			"\t", "\n", "a\nb", "\r", "\a", "\v", "\x00", "\x1b[31m", "\x7f", "a\u0085b", "\u2028", "\ufeff", "\u202e", "\U0001f9c0", "\ufffe", "\xff", "ab\xc3", "\ufffd"}),
		rapid.StringN(1, 60, 180),
	).Filter(func(s string) bool { return strings.TrimSpace(strings.ToValidUTF8(s, "\ufffd")) != "" })
}

// TestLinesAreReadAlike writes entries and has three readers take the texts back: ours, the
// one that config uses, and one that shares nothing with it.
func TestLinesAreReadAlike(t *testing.T) {
	zone := dublin(t)
	checks(t, func(t *rapid.T) {
		note, lot, why := drawnText().Draw(t, "note"), drawnText().Draw(t, "lot"), drawnText().Draw(t, "why")
		e := record.Entry{Nr: rapid.IntRange(1, 99).Draw(t, "nr"), At: resources.Moment(rapid.IntRange(0, 60_000_000).Draw(t, "at")), Note: note,
			Subject: record.Subject{Kind: record.OfBatch, Name: "AB-270312-1"},
			Batch:   record.BatchFacts{Why: why, Gone: record.Say(3), Lots: []record.Packet{{What: "rennet", Lot: lot}}}}
		line := recordfile.Line(e, zone)
		for name, unmarshal := range map[string]func([]byte, any) error{"yaml/v3": yaml.Unmarshal, "goccy": func(b []byte, v any) error { return goccy.Unmarshal(b, v) }} {
			var got []struct {
				Nr   int    `yaml:"nr"`
				At   string `yaml:"at"`
				Note string `yaml:"note"`
				Why  string `yaml:"why"`
				Gone int    `yaml:"gone"`
				Lots []struct {
					What string `yaml:"what"`
					Lot  string `yaml:"lot"`
				} `yaml:"lots"`
			}
			if err := unmarshal([]byte(line+"\n"), &got); err != nil || len(got) != 1 || len(got[0].Lots) != 1 {
				t.Fatalf("%s: got %d entries and %v of %s", name, len(got), err, line)
			}
			mended := func(s string) string { return strings.ToValidUTF8(s, "\ufffd") }
			want := fmt.Sprintf("%d %q %q %d %q", e.Nr, mended(note), mended(why), 3, mended(lot))
			if got := fmt.Sprintf("%d %q %q %d %q", got[0].Nr, got[0].Note, got[0].Why, got[0].Gone, got[0].Lots[0].Lot); got != want {
				t.Fatalf("%s: got %s, want %s of %s", name, got, want, line)
			}
			if m, err := resources.ParseMoment(got[0].At, zone); err != nil || m != e.At {
				t.Fatalf("%s: got at %q (%v), want %d", name, got[0].At, err, e.At)
			}
		}
		m := recordfile.Read("x", []byte(line), zone)
		e.Note, e.Batch.Why, e.Batch.Lots[0].Lot = strings.ToValidUTF8(note, "\ufffd"), strings.ToValidUTF8(why, "\ufffd"), strings.ToValidUTF8(lot, "\ufffd")
		if len(m.Entries) != 1 || !record.Same(m.Entries[0], e) {
			t.Fatalf("got %+v, want %+v of %s", m, e, line)
		}
	})
}

// checks runs a property so often as the run allows.
func checks(t *testing.T, property func(*rapid.T)) {
	t.Helper()
	testrun.Checks(t, 40)
	rapid.Check(t, property)
}
