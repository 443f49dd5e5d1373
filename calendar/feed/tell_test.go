package feed

import (
	"net/url"
	"reflect"
	"strings"
	"testing"

	"ripeby/calendar/said"
	"ripeby/resources"
	"ripeby/schedule"
)

// What may be said of the kitchen: who is away, what is closed, what left and came back; each as ripeby record
// would have it, and where it is not all filled in it is asked for.
func TestTellsOfTheKitchen(t *testing.T) {
	s, taken := spoken(t)
	nell, at := s.writes(t, "Nell"), resources.MomentOf(sampleNow)
	made := sampleMade(t, 2)
	made.Plan.Targets = []schedule.WantResult{{Target: "Friday stall", By: at.Add(-60), Cheese: "Bramble hoop", Wanted: 12, Met: 12}}
	made.Plan.Batches[0].Left = []schedule.LeftShare{{Target: "Shop", By: at.Add(-2 * resources.Day), Pieces: 3}, {Target: "Long ago", By: at.Add(-30 * resources.Day), Pieces: 3}}
	const place = "kitchen fridge"
	made.Problem.Kitchen.Cold = []resources.ColdPlace{{Name: place, Shelves: []resources.Shelf{{Name: "top"}}}}
	made.Print = "markets"
	s.show(made)
	s.kitchen.change(func(k *kitchenAt) {
		k.told.Out = []said.Out{{Person: "Ivo", Span: resources.Span{From: at.Add(-60), Until: said.Open}}, {Place: place, Shelf: "top", Span: resources.Span{From: at.Add(-60), Until: at.Add(600)}},
			{Person: "Nell", Span: resources.Span{From: at.Add(600), Until: at.Add(900)}}}
	})
	s.hear()
	page := s.ask("GET", nell.Path()+"tell").Body.String()
	for _, want := range []string{"Ivo is away from ", "until it is said otherwise", place + ", top is closed from ", "Nell is away from ", "<bdi>Friday stall</bdi>", "12 pieces planned", "3 pieces planned"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	if strings.Contains(page, "Long ago") {
		t.Error("the page asks about what left a month ago")
	}
	for _, x := range []struct {
		button string
		n      int // which of the forms with it
		filled url.Values
		want   said.Saying
		asked  string
	}{
		{"here", 0, nil, said.Saying{Verb: "here", Words: []string{"Ivo"}}, ""},
		{"open", 0, nil, said.Saying{Verb: "open", Words: []string{place, "top"}}, ""},
		{"away", 0, url.Values{"person": {"Ivo"}}, said.Saying{Verb: "away", Words: []string{"Ivo"}}, ""},
		{"away", 0, url.Values{"person": {"Ivo"}, "from": {"2027-03-20"}, "from_at": {"12:00"}, "until": {"2027-03-21"}},
			said.Saying{Verb: "away", Words: []string{"Ivo"}, Options: map[string]string{"from": "2027-03-20 12:00", "until": "2027-03-21"}}, ""},
		{"away", 0, nil, said.Saying{}, "Who is away is to be chosen"},
		{"away", 0, url.Values{"person": {"Ivo"}, "until_at": {"12:00"}}, said.Saying{}, "the day is to be filled in"},
		{"closed", 0, nil, said.Saying{Verb: "closed", Words: []string{place}}, ""},
		{"closed", 0, url.Values{"shelf": {"top"}, "until": {"2027-03-20"}, "until_at": {"18:00"}}, said.Saying{Verb: "closed", Words: []string{place, "top"}, Options: map[string]string{"until": "2027-03-20 18:00"}}, ""},
		{"took", 0, url.Values{"count": {"10"}}, said.Saying{Verb: "took", Words: []string{"Friday stall", "Bramble hoop", "10"}}, ""},
		{"back", 1, url.Values{"count": {"2"}}, said.Saying{Verb: "back", Words: []string{"Shop", "Bramble hoop", "2"}}, ""},
		{"back", 0, nil, said.Saying{}, "How many pieces it were is to be filled in"},
		{"sold_out", 0, url.Values{"sold": {"11:20"}}, said.Saying{Verb: "sold_out", Words: []string{"Friday stall", "Bramble hoop", "11:20"}}, ""},
		{"sold_out", 0, url.Values{"count": {"3"}}, said.Saying{}, "When it was sold out"},
		{"note", 0, url.Values{"note": {"the fridge hums"}}, said.Saying{Verb: "note", Words: []string{"the fridge hums"}}, ""},
	} {
		all := forms(page, x.button)
		if len(all) <= x.n {
			t.Fatalf("there are %d forms with %q, want more", len(all), x.button)
		}
		f := all[x.n]
		for name, v := range x.filled {
			f[name] = v
		}
		*taken = nil
		w := s.send(nell.Path()+"say", f.Encode())
		if x.asked != "" {
			if w.Code != 422 || len(*taken) > 0 || !strings.Contains(w.Body.String(), x.asked) {
				t.Errorf("%s %v: got %d and %v, want it asked: %s", x.button, x.filled, w.Code, *taken, x.asked)
			}
			continue
		}
		if x.want.Options == nil {
			x.want.Options = map[string]string{}
		}
		if w.Code != 303 || len(*taken) != 1 {
			t.Errorf("%s %v: got %d and %v, want it written\n%s", x.button, x.filled, w.Code, *taken, w.Body.String())
			continue
		}
		got := (*taken)[0]
		if x.want.Who, x.want.Once = "Nell", got.Once; !reflect.DeepEqual(got, x.want) {
			t.Errorf("%s: got %+v, want %+v", x.button, got, x.want)
		}
	}
	if w := s.ask("GET", s.address(t, "page").Path()+"tell"); w.Code != 404 {
		t.Errorf("who reads gets %d, want nothing there", w.Code)
	}
}

// Another person, time or number said with one form is another word, and the same once more is not.
func TestWordsOfOneForm(t *testing.T) {
	s, taken := spoken(t)
	nell := s.writes(t, "Nell")
	f := form(t, s.ask("GET", nell.Path()+"tell").Body.String(), "away")
	once := map[string]bool{}
	for i, more := range [][2]string{{"person", "Ivo"}, {"person", "Nell"}, {"until", "2027-03-20"}, {"until", "2027-03-21"}, {"until", "2027-03-21"}} {
		f.Set(more[0], more[1])
		s.send(nell.Path()+"say", f.Encode())
		once[(*taken)[i].Once] = true
	}
	if len(once) != 4 {
		t.Errorf("got %d words, want 4", len(once))
	}
}
