package planfile_test

import (
	"bytes"
	"errors"
	"os"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"ripeby/schedule"
	"ripeby/schedule/planfile"
)

func TestDecodeFaults(t *testing.T) {
	good, err := planfile.Encode(examplePlan(t), zone(t, "Europe/Dublin"))
	if err != nil {
		t.Fatal(err)
	}
	// change replaces the first old by new in a good file; an old that is not
	// there would make the case prove nothing.
	change := func(old, new string) string {
		if !strings.Contains(string(good), old) {
			t.Fatalf("%q is not in the example", old)
		}
		return strings.Replace(string(good), old, new, 1)
	}
	for _, c := range []struct{ name, in, want string }{
		{"empty", "", "the file is empty; want a plan"},
		{"only blanks", " \n\n", "the file is empty; want a plan"},
		{"zeros", "\x00\x00\x00\x00", "line 1, column 1: the file is damaged (invalid character '\\x00'"},
		{"cut short", string(good[:len(good)/2]), "the file is damaged (unexpected end of JSON input); want JSON, whole to its end"},
		{"two plans", string(good) + string(good), "invalid character '{' after top-level value"},
		{"a list", "[1]", "line 1, column 2: the file is a list; want a group of keys"},
		{"another schema", change("ripeby/plan/2", "ripeby/plan/3"), `line 2, column 13: schema is "ripeby/plan/3"; want "ripeby/plan/2"`},
		{"no schema", "{}", `line 1, column 1: schema is ""; want "ripeby/plan/2"`},
		{"no from", change(`"from": "2027-03-01T06:00:00Z",`, ""), "from is missing; want a moment such as"},
		{"moment in words", change("2027-03-27T07:30:00Z", "tomorrow"), `batches[0].stages[0].start is "tomorrow"; want a moment`},
		{"seconds", change("2027-03-27T07:30:00Z", "2027-03-27T07:30:01Z"), "want a whole minute"},
		{"no id", change(`"id": "BH-270327-1",`, ""), "batches[0].id is missing; want a name"},
		{"litres with 4 places", change(`"litres": 8.5`, `"litres": 8.5001`), "score.litres is 8.5001; want a decimal number with at most 3 places"},
		{"litres with an exponent", change(`"litres": 8.5`, `"litres": 8e99999999`), "score.litres is 8e99999999; want a decimal"},
		{"negative litres", change(`"litres": 8.5`, `"litres": -8.5`), "score.litres is -8.5; want a number from 0 up"},
		{"half a piece", change(`"pieces": 17`, `"pieces": 17.5`), "is a number 17.5; want a whole number"},
		{"negative pieces", change(`"pieces": 17`, `"pieces": -17`), "batches[0].pieces is -17; want a number from 0 to 1000000000"},
		{"beyond int64", change(`"hold": 1380`, `"hold": 99999999999999999999`), "want a whole number"},
		{"level", change(`"level": "litres"`, `"level": "some"`), `proof.level is "some"; want one of none, promised_short`},
		{"day", change(`"day": "2027-03-28"`, `"day": "2027-02-30"`), `batches[0].care[0].day is "2027-02-30"; want a day such as`},
		{"batches misspelt", change(`"batches": [`, `"batchs": [`), "batches is missing; want a list"},
		{"no stages", `{"schema": "ripeby/plan/2", "timezone": "UTC", "from": "2027-01-01T00:00:00Z", "outcome": "met",
			"score": {"litres": 0}, "proof": {"level": "none", "bound": {"litres": 0}},
			"batches": [{"id": "A-1", "cheese": "A", "litres": 1}]}`, "line 3, column 16: batches[0].stages is empty or missing"},
	} {
		t.Run(c.name, func(t *testing.T) {
			plan, err := planfile.Decode([]byte(c.in))
			var fault *planfile.Fault
			if plan != nil || !errors.As(err, &fault) {
				t.Fatalf("got plan %v, error %v; want a *Fault", plan, err)
			}
			if !strings.Contains(err.Error(), c.want) {
				t.Errorf("got  %v\nwant %s", err, c.want)
			}
		})
	}
}

// The fault of a wrong value stands where the value stands.
func TestDecodeFaultPlace(t *testing.T) {
	good, err := planfile.Encode(examplePlan(t), zone(t, "Europe/Dublin"))
	if err != nil {
		t.Fatal(err)
	}
	bad := bytes.Replace(good, []byte(`"2027-03-30T07:00:00+01:00"`), []byte(`"never!"`), 1)
	_, err = planfile.Decode(bad)
	var fault *planfile.Fault
	if !errors.As(err, &fault) {
		t.Fatalf("got %v, want a *Fault", err)
	}
	lines := strings.Split(string(bad), "\n")
	if got := lines[fault.Line-1][fault.Column-1:]; !strings.HasPrefix(got, `"never!"`) {
		t.Errorf("the fault points at %q, want \"never!\" (%v)", got, err)
	}
	if got := string(bad[fault.Offset:][:8]); got != `"never!"` {
		t.Errorf("the offset points at %q", got)
	}
}

// A file of a later edition has keys that this one does not know.
func TestDecodePassesOverUnknownKeys(t *testing.T) {
	text, err := planfile.Encode(examplePlan(t), zone(t, "Europe/Dublin"))
	if err != nil {
		t.Fatal(err)
	}
	later := bytes.ReplaceAll(text, []byte("\"pieces\":"), []byte("\"weight\": {\"g\": [1, 2]}, \"pieces\":"))
	if bytes.Equal(later, text) {
		t.Fatal("nothing was added")
	}
	if _, err := planfile.Decode(later); err != nil {
		t.Error(err)
	}
}

// A file of the contract's keys alone numbers its wants by their order.
func TestDecodeTargetsWithoutWant(t *testing.T) {
	text, err := planfile.Encode(examplePlan(t), zone(t, "Europe/Dublin"))
	if err != nil {
		t.Fatal(err)
	}
	// both targets entries lose their "want", which stands before "cheese"
	bare := text
	for _, n := range []string{"0", "1"} {
		bare = bytes.Replace(bare, []byte("\"want\": "+n+",\n      \"cheese\""), []byte("\"cheese\""), 1)
	}
	if len(bare) == len(text) {
		t.Fatal("nothing was taken out")
	}
	plan, err := planfile.Decode(bare)
	if err != nil {
		t.Fatal(err)
	}
	if got := []int{plan.Targets[0].Want, plan.Targets[1].Want}; got[0] != 0 || got[1] != 1 {
		t.Errorf("wants are %v, want [0 1]", got)
	}
}

// A file of before these keys: a stage may begin as it is planned and no sooner, and
// what may not begin later is critical.
func TestDecodeWithoutSlipFrom(t *testing.T) {
	text, err := planfile.Encode(examplePlan(t), zone(t, "Europe/Dublin"))
	if err != nil {
		t.Fatal(err)
	}
	bare := regexp.MustCompile(`\n *"(slip_from|critical)": [^\n]*`).ReplaceAll(text, nil)
	if bytes.Equal(bare, text) {
		t.Fatal("nothing was taken out")
	}
	plan, err := planfile.Decode(bare)
	if err != nil {
		t.Fatal(err)
	}
	var critical []string
	for i := range plan.Batches {
		for _, s := range plan.Batches[i].Stages {
			if s.SlipFrom != s.Start {
				t.Errorf("%s may begin at %d, want %d, its start", s.Stage, s.SlipFrom, s.Start)
			}
			if s.Critical {
				critical = append(critical, s.Stage)
			}
		}
	}
	if got := strings.Join(critical, " "); got != "cellar" {
		t.Errorf("critical are %q, want the cellar", got)
	}
}

func TestDecodeLimit(t *testing.T) {
	_, err := planfile.Decode(make([]byte, planfile.MaxBytes+1))
	if err == nil || !strings.Contains(err.Error(), "want at most 67108864") {
		t.Errorf("got %v, want the limit named", err)
	}
}

// Whatever the bytes, Decode gives a plan or an error; a plan that it gives can be
// written and read again to the same bytes.
func FuzzDecode(f *testing.F) {
	text, err := planfile.Encode(examplePlan(f), zone(f, "Europe/Dublin"))
	if err != nil {
		f.Fatal(err)
	}
	f.Add(text)
	f.Add(bytes.ReplaceAll(text, []byte("\n"), nil))
	f.Add(text[:len(text)/3])
	f.Add([]byte(`{"schema":"ripeby/plan/2"}`))
	f.Add([]byte(`{"batches":[{"stages":[{}]}]}`))
	utc := zone(f, "UTC")
	f.Fuzz(func(t *testing.T, in []byte) {
		plan, err := planfile.Decode(in)
		if err != nil {
			var fault *planfile.Fault
			if !errors.As(err, &fault) || fault.Error() == "" {
				t.Fatalf("got %T %v, want a *Fault", err, err)
			}
			return
		}
		first, err := planfile.Encode(plan, utc)
		if err != nil {
			return // a moment that an offset carries out of the years 1 to 9999
		}
		again, err := planfile.Decode(first)
		if err != nil {
			t.Fatalf("what was written is not read: %v\n%s", err, first)
		}
		second, err := planfile.Encode(again, utc)
		if err != nil || !bytes.Equal(first, second) {
			t.Fatalf("written twice it differs (%v)\n%s\n%s", err, first, second)
		}
	})
}

// A plan of the edition before, without the parts late and moved, is read: nothing was late
// in it, and nothing moved.
func TestDecodePlanOfTheSchemaBefore(t *testing.T) {
	want := examplePlan(t)
	want.Score.Late, want.Score.Moved, want.Proof.Bound.Late, want.Proof.Bound.Moved = 0, 0, 0, 0
	now, err := planfile.Encode(want, zone(t, "Europe/Dublin"))
	if err != nil {
		t.Fatal(err)
	}
	before := strings.Replace(string(now), "ripeby/plan/2", "ripeby/plan/1", 1)
	for _, key := range []string{`"late": 0,`, `"moved": 0,`} {
		if strings.Count(before, key) != 2 {
			t.Fatalf("%s is not in score and bound", key)
		}
		before = strings.ReplaceAll(before, key, "")
	}
	got, err := planfile.Decode([]byte(before))
	if err != nil {
		t.Fatal(err)
	}
	same, err := planfile.Decode(now)
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(got, same) {
		t.Errorf("got  %+v\nwant %+v", got, same)
	}
}

// A file that the program wrote then is read to its end.
func TestDecodeAFileOfTheSchemaBefore(t *testing.T) {
	data, err := os.ReadFile("../../testdata/kitchens/earlier-plan/plan/plan.json")
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Contains(data, []byte(`"schema": "ripeby/plan/1"`)) {
		t.Fatal("the file is not of the schema before")
	}
	plan, err := planfile.Decode(data)
	if err != nil {
		t.Fatal(err)
	}
	if want := (schedule.Score{Batches: 2, Litres: 14_000, Bother: 1, MakeStarts: 11_400}); plan.Score != want || plan.Proof.Bound != want {
		t.Errorf("got %+v and the bound %+v, want %+v", plan.Score, plan.Proof.Bound, want)
	}
}
