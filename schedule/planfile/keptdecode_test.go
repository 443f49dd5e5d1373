package planfile_test

import (
	"errors"
	"strings"
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/planfile"
)

func exampleBatch() *schedule.KeptBatch {
	return &schedule.KeptBatch{Kitchen: "Dairy", TimeZone: "UTC", ID: "C-270305-1", Cheese: "Curd", Litres: 5000, Pieces: 10,
		UseBy:   resources.Date{Year: 2027, Month: 3, Day: 7},
		Stages:  []schedule.KeptStage{{Stage: "make", Begun: true, Start: 30_000_000, Work: 30, Who: "Nell", Ends: 30_000_030, At: "room", Said: schedule.SaidByRecord}},
		Carries: []schedule.KeptCarry{{Stage: "make", Start: 30_000_600, Who: "Nell", From: "fridge", To: "cave"}},
		For:     []schedule.KeptShare{{Share: schedule.Share{Target: "Stall", By: 30_002_000, Pieces: 6}, Gone: true, Left: 4}}}
}

func TestDecodeBatchFaults(t *testing.T) {
	text, err := planfile.EncodeBatch(exampleBatch(), zone(t, "UTC"))
	if err != nil {
		t.Fatal(err)
	}
	good := string(text)
	change := func(old, new string) string {
		if !strings.Contains(good, old) {
			t.Fatalf("%q is not in the example:\n%s", old, good)
		}
		return strings.Replace(good, old, new, 1)
	}
	for _, c := range []struct{ name, in, want string }{
		{"empty", "", "the file is empty; want a batch"},
		{"cut short", good[:len(good)/2], "the file is damaged (unexpected end of JSON input); want JSON, whole to its end"},
		{"a plan", change("ripeby/batch/1", "ripeby/plan/2"), `line 2, column 13: schema is "ripeby/plan/2"; want "ripeby/batch/1"`},
		{"a later one", change("ripeby/batch/1", "ripeby/batch/2"), `want "ripeby/batch/1"`},
		{"no id", change(`"id": "C-270305-1",`, ""), "id is missing; want a name"},
		{"no stages", change(`"stages": [`, `"stagse": [`), "stages is empty or missing; want the stages of the batch"},
		{"said by nobody known", change(`"said": "record"`, `"said": "a bird"`), `stages[0].said is "a bird"; want one of record, begun.yaml`},
		{"a moment in words", change("2027-01-15T08:00:00Z", "tomorrow"), `stages[0].start is "tomorrow"; want a moment`},
		{"fewer than none", change(`"left": 4`, `"left": -4`), "for[0].left is -4; want a number from 0"},
	} {
		t.Run(c.name, func(t *testing.T) {
			b, err := planfile.DecodeBatch([]byte(c.in))
			var fault *planfile.Fault
			if b != nil || !errors.As(err, &fault) {
				t.Fatalf("got %v, error %v; want a *Fault", b, err)
			}
			if !strings.Contains(err.Error(), c.want) {
				t.Errorf("got  %s\nwant %s", err, c.want)
			}
		})
	}
}

func FuzzDecodeBatch(f *testing.F) {
	text, err := planfile.EncodeBatch(exampleBatch(), zone(f, "UTC"))
	if err != nil {
		f.Fatal(err)
	}
	f.Add(text)
	f.Add([]byte(`{"schema": "ripeby/batch/1"}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		b, err := planfile.DecodeBatch(text)
		if err != nil {
			return
		}
		if _, err := planfile.EncodeBatch(b, zone(t, "UTC")); err != nil && !strings.Contains(err.Error(), "the year") {
			t.Errorf("what was read cannot be written: %v", err)
		}
	})
}

func TestDecodeBatchNamesItsLimit(t *testing.T) {
	_, err := planfile.DecodeBatch(make([]byte, planfile.MaxBatchBytes+1))
	if err == nil || !strings.Contains(err.Error(), "want at most 1048576") {
		t.Errorf("got %v, want the limit named", err)
	}
}
