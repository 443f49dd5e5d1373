package said

import (
	"net/url"
	"slices"
	"strings"
	"testing"

	"ripeby/calendar/address"
	"ripeby/resources"
)

var nell = address.Address{Kind: address.Writing, Person: "Nell", Token: strings.Repeat("a", 26)}

// tapped is a form of a job as it is sent, with more in it.
func tapped(more ...string) *Form {
	about := About{Batch: "BH-1", Stage: "make", After: 7}
	v := url.Values{"batch": {"BH-1"}, "stage": {"make"}, "after": {"7"}, "key": {about.Key(nell)}, "say": {"did"}}
	for i := 0; i+1 < len(more); i += 2 {
		v.Set(more[i], more[i+1])
	}
	return &Form{v}
}

// How long something waited on a phone is how long ago it was said, unless it has a time of its own; what is
// no length is none, and more than two weeks are refused.
func TestWaitedOnAPhone(t *testing.T) {
	for _, x := range []struct {
		more []string
		ago  resources.Minutes
		ok   bool
	}{
		{nil, 0, true},
		{[]string{Waited, "0"}, 0, true},
		{[]string{Waited, "59"}, 0, true},
		{[]string{Waited, "3000"}, 50, true},
		{[]string{Waited, "3000", "at", "08:10"}, 0, true},
		{[]string{Waited, "-3000"}, 0, true},
		{[]string{Waited, "1e9"}, 0, true},
		{[]string{Waited, "9223372036854775808"}, 0, true},
		{[]string{Waited, "1209600"}, 14 * resources.Day, true},
		{[]string{Waited, "1209660"}, 0, false},
		{[]string{Waited, "9223372036854775807"}, 0, false},
	} {
		got, why := tapped(x.more...).Saying(nell)
		if (why == nil) != x.ok || got.Ago != x.ago {
			t.Errorf("%v: got %d minutes ago, %v; want %d, taken: %v", x.more, got.Ago, why, x.ago, x.ok)
		}
		if why != nil && !strings.Contains(why.Error(), "more than 14 days") {
			t.Errorf("%v: got %q", x.more, why)
		}
	}
}

// A form that is shown once more has what was filled in, and not how it was sent.
func TestFieldsOfAFormShownOnceMore(t *testing.T) {
	var names []string
	for _, f := range tapped(Waited, "30", Quiet, "1", "again", "yes", "note", "it hums", "pieces", "").Fields() {
		names = append(names, f.Name)
	}
	if want := []string{"after", "batch", "key", "note", "say", "stage"}; !slices.Equal(names, want) {
		t.Errorf("got %v, want %v", names, want)
	}
}

// A form counts for the address that it was drawn for, as it was drawn.
func TestSealedForms(t *testing.T) {
	ivo := nell
	ivo.Token = strings.Repeat("b", 26)
	if _, why := tapped().Saying(ivo); why == nil || !why.Stale {
		t.Errorf("with another's: got %v, want it refused", why)
	}
	for name, value := range map[string]string{"batch": "BH-2", "stage": "pack", "place": "fridge", "round": "2027-03-04", "milk": "cow", "day": "2027-03-04", "nr": "3", "after": "8", "key": "x"} {
		if _, why := tapped(name, value).Saying(nell); why == nil || !why.Stale {
			t.Errorf("with another %s: got %v, want it refused", name, why)
		}
	}
}

// What a recipe asks for goes with what is done in the unit that stands beside its field, and is shown once more by its
// name.
func TestFieldsForWhatIsMeasured(t *testing.T) {
	for _, c := range []struct{ what, unit, typed, want string }{
		{"pH", "", "4.5", "pH 4.5"}, {"pH", "", " 4,5 ", "pH 4,5"}, {"curd temperature", "°C", "26", "curd temperature 26 °C"}, {"curd temperature", "°C", "-0,5", "curd temperature -0,5 °C"},
		{"curd temperature", "°C", "79 °F", "curd temperature 79 °F"}, {"curd temperature", "°C", "warm", "curd temperature warm"}, {"salt: dry", "g", "12", "salt: dry 12 g"}, {"smell", "", "clean, sweet", "smell clean, sweet"},
	} {
		f := tapped(MeasureField(c.what, c.unit), c.typed)
		got, why := f.Saying(nell)
		if why != nil || !slices.Equal(got.Measured, []string{c.want}) {
			t.Errorf("%s %q: got %q, %v; want %q", c.what, c.typed, got.Measured, why, c.want)
		}
		labelled := slices.ContainsFunc(f.Fields(), func(x Field) bool { return x.Label == strings.TrimSpace(c.what+" "+c.unit) && x.Value == c.typed })
		if !labelled {
			t.Errorf("%s: got the fields %v, want it among them with its label", c.what, f.Fields())
		}
	}
	empty, _ := tapped(MeasureField("pH", ""), " ").Saying(nell)
	if len(empty.Measured) > 0 {
		t.Errorf("nothing filled in: got %q", empty.Measured)
	}
}
