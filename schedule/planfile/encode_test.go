package planfile_test

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/planfile"
)

var update = flag.Bool("update", false, "write the golden files anew")

func TestEncodeGolden(t *testing.T) {
	got, err := planfile.Encode(examplePlan(t), zone(t, "Europe/Dublin"))
	if err != nil {
		t.Fatal(err)
	}
	golden := filepath.Join("testdata", "example.json")
	if *update {
		if err := os.WriteFile(golden, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("plan.json differs from %s (run with -update and look at the difference):\n%s", golden, got)
	}
}

func TestEncodeShape(t *testing.T) {
	text, err := planfile.Encode(examplePlan(t), zone(t, "Europe/Dublin"))
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]string{
		"winter is Z":                  `"from": "2027-03-01T06:00:00Z"`,
		"summer has its offset":        `"ends": "2027-03-28T08:30:00+01:00"`,
		"litres to the millilitre":     `"litres": 8.5,`,
		"whole litres have no point":   `"litres": 4,`,
		"centimetres":                  `"y": 25.4,`,
		"no work, nobody":              `"who": null`,
		"no milk":                      `"milk": null`,
		"no reason":                    `"because": null`,
		"an empty list":                `"care": [],`,
		"a counted place is only that": "{\n              \"place\": \"cheese cave\"\n            }",
		"names as written":             `"kitchen": "Saltgrass <Lane> & Söhne"`,
		"a warning without a moment":   `"at": null`,
	} {
		if !strings.Contains(string(text), want) {
			t.Errorf("%s: %s is not in\n%s", name, want, text)
		}
	}
	if n := strings.Count(string(text), `"begun": true`); n != 4 {
		t.Errorf(`"begun": true stands %d times, want 4 (one batch, one stage, and those of one that is sold out)`, n)
	}
	if strings.Contains(string(text), `"begun": false`) {
		t.Error(`"begun": false must not be written`)
	}
	if !bytes.HasSuffix(text, []byte("}\n")) {
		t.Error("no newline at the end")
	}
}

// An empty plan has lists, not nulls: readers loop over them.
func TestEncodeEmptyLists(t *testing.T) {
	text, err := planfile.Encode(&schedule.Plan{}, time.UTC)
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Contains(text, []byte("null")) {
		t.Errorf("a null in\n%s", text)
	}
	for _, key := range []string{"batches", "stock", "targets", "rounds", "warnings", "cautions", "last_number"} {
		if !strings.Contains(string(text), `"`+key+`": []`) {
			t.Errorf("%s is not [] in\n%s", key, text)
		}
	}
}

func TestEncodeMoments(t *testing.T) {
	for _, c := range []struct{ name, zone, in, want string }{
		{"half-hour offset", "Asia/Kolkata", "2027-01-01T00:00:00Z", "2027-01-01T05:30:00+05:30"},
		{"repeated hour, first", "Europe/Dublin", "2027-10-31T00:30:00Z", "2027-10-31T01:30:00+01:00"},
		{"repeated hour, second", "Europe/Dublin", "2027-10-31T01:30:00Z", "2027-10-31T01:30:00Z"},
		// Monrovia kept -00:44:30 until 1972 (tz database, file africa).
		{"offset with seconds", "Africa/Monrovia", "1970-06-01T12:00:00Z", "1970-06-01T12:00:00Z"},
	} {
		text, err := planfile.Encode(&schedule.Plan{From: at(t, c.in)}, zone(t, c.zone))
		if err != nil {
			t.Fatal(err)
		}
		if want := `"from": "` + c.want + `"`; !strings.Contains(string(text), want) {
			t.Errorf("%s: got\n%s\nwant %s", c.name, text[:200], want)
		}
	}
	_, err := planfile.Encode(&schedule.Plan{From: resources.Moment(8000 * 366 * 24 * 60 * 2)}, time.UTC)
	if err == nil {
		t.Error("a moment after the year 9999: got no error")
	}
}

func TestRoundTripExample(t *testing.T) {
	want := examplePlan(t)
	text, err := planfile.Encode(want, zone(t, "Europe/Dublin"))
	if err != nil {
		t.Fatal(err)
	}
	got, err := planfile.Decode(text)
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got\n%+v\nwant\n%+v", got, want)
	}
}
