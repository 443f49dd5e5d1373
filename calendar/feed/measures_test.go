package feed

import (
	"net/url"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"ripeby/calendar/said"
	"ripeby/resources"
	"ripeby/schedule"
)

// asking is the sample with two things to measure at the make that is on.
func asking(t *testing.T) (s *stand, taken *[]said.Saying, told *said.Told) {
	t.Helper()
	made := sampleMade(t, 2)
	made.Problem.Kitchen.Cold = []resources.ColdPlace{{Name: "cave", Temperature: 11_000, Boxes: 6}}
	for i := range made.Plan.Batches {
		if make := made.Plan.Batches[i].Stage("make"); make != nil {
			make.Measures = []schedule.Measure{
				{What: "curd temperature", Stage: "make", From: resources.Reading{Num: 25, Den: 1, Unit: "°C"}, To: resources.Reading{Num: 27, Den: 1, Unit: "°C"}, Else: "warm it <slowly>"},
				{What: "pH", Stage: "make", To: resources.Reading{Num: 67, Den: 10}}}
		}
	}
	taken, told = &[]said.Saying{}, &said.Told{Last: 7}
	s = stood(t, made)
	s.kitchen.change(func(k *kitchenAt) {
		k.told = told
		k.say = func(x said.Saying) (said.Heard, error) {
			*taken = append(*taken, x)
			return said.Heard{Nr: 8}, nil
		}
	})
	s.hear()
	return s, taken, told
}

var measureField = regexp.MustCompile(`<label><span><bdi>([^<]*)</bdi>( \([^)]*\))?</span> <input name="(is:[^"]*)"( inputmode="decimal")? size="8" maxlength="60" autocomplete="off">([^<]*)</label>`)

// With a job there is a field for each measure of its stage, with its limits and its unit beside it; a number that is
// filled in alone gets that unit, and all of it goes with the button that is tapped.
func TestFieldsForWhatIsMeasured(t *testing.T) {
	s, taken, _ := asking(t)
	nell := s.writes(t, "Nell")
	page := s.ask("GET", nell.Path()).Body.String()
	var got []string
	for _, m := range measureField.FindAllStringSubmatch(oneForm.FindString(page), -1) {
		got = append(got, strings.Join(m[1:], "|"))
	}
	want := []string{"curd temperature| (25 to 27 °C)|is:°C:curd temperature|| °C", `pH| (up to 6.7)|is::pH| inputmode="decimal"|`}
	if !reflect.DeepEqual(got, want) {
		t.Fatalf("got %q, want %q", got, want)
	}
	for _, x := range []struct {
		button string
		filled url.Values
		want   said.Saying
	}{
		{"did", url.Values{"is:°C:curd temperature": {" 26,5 "}, "is::pH": {"6.6"}}, said.Saying{Verb: "did", Words: []string{"BH-1", "make"}, Options: map[string]string{}, Measured: []string{"pH 6.6", "curd temperature 26,5 °C"}}},
		{"did", url.Values{"is:°C:curd temperature": {"79 °F"}, "is::pH": {""}}, said.Saying{Verb: "did", Words: []string{"BH-1", "make"}, Options: map[string]string{}, Measured: []string{"curd temperature 79 °F"}}},
		{"measured", url.Values{"is::pH": {"sour, and thick"}}, said.Saying{Verb: "measured", Words: []string{"BH-1", "pH sour, and thick"}, Options: map[string]string{}}},
		{"measured", url.Values{"is::pH": {"6.5"}, "measured": {"room 19 °C"}}, said.Saying{Verb: "measured", Words: []string{"BH-1", "pH 6.5", "room 19 °C"}, Options: map[string]string{}}},
	} {
		f := form(t, page, x.button)
		for name, v := range x.filled {
			f[name] = v
		}
		*taken = nil
		w := s.send(nell.Path()+"say", f.Encode())
		x.want.Who = "Nell"
		if len(*taken) == 1 && strings.HasPrefix((*taken)[0].Once, f.Get("key")+"-"+x.button) {
			x.want.Once = (*taken)[0].Once
		}
		if w.Code != 303 || len(*taken) != 1 || !reflect.DeepEqual((*taken)[0], x.want) {
			t.Errorf("%s with %v: got %d and %+v, want 303 and %+v", x.button, x.filled, w.Code, *taken, x.want)
		}
	}
	*taken = nil
	if w := s.send(nell.Path()+"say", form(t, page, "measured").Encode()); w.Code != 422 || len(*taken) > 0 {
		t.Errorf("with nothing filled in: got %d and %v, want it asked for", w.Code, *taken)
	}
}

// What lies outside is shown with the recipe's own words on the job and on the batch's sheet, at addresses to read at
// too; what is not written down yet of what was done is asked for; and nothing is judged.
func TestWhatLiesOutsideIsShown(t *testing.T) {
	s, _, told := asking(t)
	nell := s.writes(t, "Nell")
	now := resources.MomentOf(s.clock.now())
	told.Lately = []said.Word{{Nr: 6, At: now, Who: "Nell", Batch: "BH-1", Did: "make", Text: "BH-1: make done"}}
	told.Measured = []said.Reading{{Batch: "BH-1", Stage: "make", What: "Curd temperature", Is: "28 °C", At: now, Who: "Nell", Nr: 6}}
	s.hear()
	const outside = "curd temperature 28 °C: above 27 °C, the recipe says: warm it &lt;slowly&gt;"
	read := s.address(t, "page").Path()
	for _, path := range []string{nell.Path(), read + "batch/BH-1", read} {
		page := s.ask("GET", path).Body.String()
		if !strings.Contains(page, outside) {
			t.Errorf("%s does not tell what lies outside:\n%s", path, page)
		}
	}
	page := s.ask("GET", nell.Path()).Body.String()
	blank := ""
	for _, f := range oneForm.FindAllString(page, -1) {
		if strings.Contains(f, ">Write down<") {
			blank = f
		}
	}
	if fields := measureField.FindAllStringSubmatch(blank, -1); len(fields) != 1 || fields[0][3] != "is::pH" {
		t.Errorf("got %q to write down yet, want the pH alone: %s", fields, blank)
	}
}

// A place's page tells what was measured there, when and by whom, and has a field for its temperature where somebody
// writes.
func TestTemperatureOfAPlace(t *testing.T) {
	s, taken, told := asking(t)
	nell := s.writes(t, "Nell")
	place := s.board.Load().made.Problem.Kitchen.Cold[0].Name
	now := resources.MomentOf(s.clock.now())
	for i := range 7 {
		told.Measured = append(told.Measured, said.Reading{Place: place, What: "temperature", Is: []string{"4 °C", "5 °C"}[i%2], At: now.Add(resources.Minutes(10 * (i - 7))), Who: "Nell", Nr: i + 1})
	}
	told.Measured = append(told.Measured, said.Reading{Place: "elsewhere", What: "temperature", Is: "30 °C", At: now})
	s.hear()
	path := "cold/now/" + url.PathEscape(place)
	read := s.ask("GET", s.address(t, "page").Path()+path).Body.String()
	if strings.Count(read, "temperature 4 °C, ")+strings.Count(read, "temperature 5 °C, ") != 5 || strings.Contains(read, "30 °C") || strings.Contains(read, "<form") {
		t.Errorf("got\n%s\nwant the last five of it, and no form", read)
	}
	for _, x := range []struct{ typed, want string }{{"5", "5 °C"}, {"4,5", "4,5 °C"}, {"41 °F", "41 °F"}, {"humidity 85 %", "humidity 85 %"}} {
		f := form(t, s.ask("GET", nell.Path()+path).Body.String(), "measured")
		f.Set("measured", x.typed)
		*taken = nil
		w := s.send(nell.Path()+"say", f.Encode())
		if w.Code != 303 || len(*taken) != 1 || (*taken)[0].Verb != "measured" || !reflect.DeepEqual((*taken)[0].Words, []string{place, x.want}) {
			t.Errorf("%q: got %d and %+v, want %q of %q", x.typed, w.Code, *taken, x.want, place)
		}
	}
	if cold := s.ask("GET", nell.Path()+"cold").Body.String(); !strings.Contains(cold, nell.Path()+"cold/now/room") {
		t.Error("the cold places lead nobody to the room")
	}
	room := form(t, s.ask("GET", nell.Path()+"cold/now/room").Body.String(), "measured")
	room.Set("measured", "19")
	*taken = nil
	if w := s.send(nell.Path()+"say", room.Encode()); w.Code != 303 || len(*taken) != 1 || !reflect.DeepEqual((*taken)[0].Words, []string{"room", "19 °C"}) {
		t.Errorf("the room: got %d and %+v", w.Code, *taken)
	}
	if other := s.ask("GET", nell.Path()+"cold/2027-03-23/"+url.PathEscape(place)); other.Code != 200 || strings.Contains(other.Body.String(), "Measured here") {
		t.Errorf("another day's page: got %d, want it without what is measured now", other.Code)
	}
}
