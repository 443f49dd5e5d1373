package ask

import (
	"net/url"
	"reflect"
	"strings"
	"testing"

	"ripeby/calendar/address"
)

var nells = address.Address{Kind: address.Writing, Person: "Nell", Token: strings.Repeat("a", 26)}

// sent is a form of the page, sealed, with what was filled in: "name=value".
func sent(verb, id string, fields ...string) Form {
	v := url.Values{"ask": {verb}, "id": {id}, "key": {seal(nells, verb, id, 0)}}
	for _, f := range fields {
		name, value, _ := strings.Cut(f, "=")
		v.Set(name, value)
	}
	return Form{v}
}

func TestWhatAFormAsks(t *testing.T) {
	for _, c := range []struct {
		name string
		form Form
		want Question
	}{
		{"day and time", sent("fits", "", "cheese=Bramble hoop", "pieces= 10 ", "by-day=2027-03-27", "by-time=07:00", "name=Café", "price=4,20"),
			Question{Kind: Fits, Cheese: "Bramble hoop", Pieces: 10, By: "2027-03-27 07:00", Name: "Café", Price: "4.20"}},
		{"a day alone", sent("fits", "", "cheese=Bramble hoop", "pieces=10", "by-day=2027-03-27", "with=2027-03-20 09:00"),
			Question{Kind: Fits, Cheese: "Bramble hoop", Pieces: 10, By: "2027-03-27"}},
		{"with a target", sent("fits", "", "cheese=Bramble hoop", "pieces=10", "by-time=09:30", "with=2027-03-20 09:00"),
			Question{Kind: Fits, Cheese: "Bramble hoop", Pieces: 10, By: "2027-03-20 09:00"}},
		{"for longer", sent("fits", "", "cheese=Bramble hoop", "pieces=10", "by=2027-03-20 09:00", "longer=7"),
			Question{Kind: Fits, Cheese: "Bramble hoop", Pieces: 10, By: "2027-03-20 09:00", Longer: MostLonger}},
		{"room for a kind", sent("room", "", "box=crate", "count=2", "in=cave", "from-day=2027-03-20", "until-day=2027-03-22"),
			Question{Kind: Room, Box: "crate", Count: 2, In: "cave", At: "2027-03-20", Until: "2027-03-22"}},
		{"room for a size", sent("room", "", "box=crate", "size=40 x 30 x 14 cm", "count=1"),
			Question{Kind: Room, Box: "40 x 30 x 14 cm", Count: 1}},
		{"why", sent("why", "", "target=Easter market"), Question{Kind: Why, Target: "Easter market"}},
		{"freer", sent("freer", "", "target=x"), Question{Kind: Freer}},
	} {
		got, why := c.form.Heard(nells)
		if why != nil || got.Question != c.want {
			t.Errorf("%s: got %+v, %v; want %+v", c.name, got.Question, why, c.want)
		}
	}
}

// What is asked shows as it was filled in, and asks the same when it is sent again.
func TestAskedOtherwise(t *testing.T) {
	for _, q := range []Question{
		{Kind: Fits, Cheese: "Bramble hoop", Pieces: 10, By: "2027-03-27 07:00", Name: "Café", Price: "4.20"},
		{Kind: Fits, Cheese: "Bramble hoop", Pieces: 10, By: "2027-03-27"},
		{Kind: Room, Box: "crate", Count: 2, In: "cave", At: "2027-03-20", Until: "2027-03-22"},
		{Kind: Room, Box: "40 x 30 x 14 cm", Count: 1},
	} {
		form := Form{q.filled()}
		form.Values.Set("key", seal(nells, string(q.Kind), "", 0))
		if got, why := form.Heard(nells); why != nil || got.Question != q {
			t.Errorf("got %+v, %v; want %+v", got.Question, why, q)
		}
	}
}

func TestATargetOfAForm(t *testing.T) {
	form := sent(SayAdd, "", "name=Lane fair", "by-day=2027-04-03", "by-time=09:00", "promised=yes", "cheese1=Bramble hoop", "pieces1=8", "cheese3=Spoon curd", "pieces3=2", "price3=4,20")
	got, why := form.Heard(nells)
	want := Target{Name: "Lane fair", By: "2027-04-03 09:00", Promised: true, Wants: []Want{{"Bramble hoop", "8", ""}, {"Spoon curd", "2", "4.20"}}}
	if why != nil || !reflect.DeepEqual(got.Target, want) {
		t.Errorf("got %+v, %v; want %+v", got.Target, why, want)
	}
	twice, _ := form.Heard(nells)
	form.Values.Set("pieces1", "9")
	if other, _ := form.Heard(nells); twice.Once != got.Once || other.Once == got.Once {
		t.Error("a form that is sent again is to be told from another")
	}
}

// What is wrong with a form is told, and nothing comes of it.
func TestFormsThatAreRefused(t *testing.T) {
	another := sent("fits", "", "cheese=Bramble hoop", "pieces=10", "by-day=2027-03-27")
	another.Values.Set("ask", "promise")
	stolen := sent("promise", "1-1")
	stolen.Values.Set("id", "1-2")
	counted := sent("back", "")
	counted.Values.Set("nr", "3")
	keyless := sent("stop", "1-1")
	keyless.Values.Del("key")
	const stale = "not one of this page any more"
	for _, c := range []struct {
		name string
		form Form
		want string
	}{
		{"sealed for something else", another, stale},
		{"sealed for another card", stolen, stale},
		{"sealed for another change", counted, stale},
		{"no key", keyless, stale},
		{"no verb", sent("", ""), "nothing that can be asked"},
		{"an unknown verb", sent("plan", ""), "nothing that can be asked"},
		{"no cheese", sent("fits", "", "pieces=10", "by-day=2027-03-27"), "Which cheese"},
		{"no pieces", sent("fits", "", "cheese=x", "by-day=2027-03-27"), "How many pieces"},
		{"pieces below nothing", sent("fits", "", "cheese=x", "pieces=-3", "by-day=2027-03-27"), "How many pieces"},
		{"half a piece", sent("fits", "", "cheese=x", "pieces=1.5", "by-day=2027-03-27"), "How many pieces"},
		{"no day", sent("fits", "", "cheese=x", "pieces=3", "by-time=08:00"), "The day"},
		{"a long name", sent("fits", "", "cheese=x", "pieces=3", "by-day=2027-03-27", "name="+strings.Repeat("x", fieldMost+1)), "longer than 200"},
		{"no boxes", sent("room", "", "box=crate"), "How many boxes"},
		{"no box", sent("room", "", "count=2"), "Which box"},
		{"no target", sent("why", ""), "Which target"},
		{"no name", sent("add", "", "by-day=2027-04-03", "by-time=09:00", "cheese1=x", "pieces1=1"), "The name"},
		{"no time", sent("add", "", "name=x", "by-day=2027-04-03", "cheese1=x", "pieces1=1"), "The day and the time"},
		{"no want", sent("add", "", "name=x", "by-day=2027-04-03", "by-time=09:00"), "A cheese is to be chosen"},
		{"pieces of no cheese", sent("add", "", "name=x", "by-day=2027-04-03", "by-time=09:00", "pieces2=4"), "Of each cheese"},
		{"a cheese without pieces", sent("add", "", "name=x", "by-day=2027-04-03", "by-time=09:00", "cheese2=x"), "Of each cheese"},
	} {
		if _, why := c.form.Heard(nells); why == nil || !strings.Contains(why.Error(), c.want) {
			t.Errorf("%s: got %v, want %q", c.name, why, c.want)
		}
	}
	other := nells
	other.Token = strings.Repeat("b", 26)
	if _, why := sent("freer", "").Heard(other); why == nil {
		t.Error("a form for one address is taken at another")
	}
}
