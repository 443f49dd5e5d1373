package feed

import (
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"ripeby/calendar/said"
	"ripeby/calendar/seen"
	"ripeby/schedule"
)

// warnsOn stands a plan with two warnings up, on which Nell and Ivo may answer.
func warnsOn(t *testing.T) *stand {
	t.Helper()
	s := pageStood(t, pageMade(t))
	s.kitchen.change(func(k *kitchenAt) {
		k.told = &said.Told{Last: 7}
		k.say = func(said.Saying) (said.Heard, error) {
			t.Error("a warning that is seen is no word for the record")
			return said.Heard{}, nil
		}
	})
	s.hear()
	return s
}

// warnings counts the warnings on somebody's page, "" for the one to read at, and their buttons.
func (s *stand) warnings(t *testing.T, person string) (shown, buttons int, page string) {
	t.Helper()
	path := s.address(t, "page").Path()
	if person != "" {
		path = s.writes(t, person).Path()
	}
	page = s.ask("GET", path).Body.String()
	for _, text := range []string{"Wed 17 Mar 18:00: The round of Wed 17 Mar is 5 min too short.", "The pot is small."} {
		if strings.Contains(page, "<li><bdi>"+text+"</bdi>") {
			shown++
		}
	}
	return shown, strings.Count(page, `value="seen"`), page
}

// seenForm is the form that answers the first warning on somebody's page.
func (s *stand) seenForm(t *testing.T, person string) url.Values {
	t.Helper()
	_, _, page := s.warnings(t, person)
	for _, f := range forms(page, "seen") {
		if f.Get("warning") != "" {
			f.Set("say", "seen")
			return f
		}
	}
	t.Fatalf("%s is not asked about a warning:\n%s", person, page)
	return nil
}

// A warning stays until each has answered it: whoever has sees it no more, the others and those who only read do, also
// after the server begins anew. The record is told nothing of it.
func TestWarningsStayUntilAnswered(t *testing.T) {
	s := warnsOn(t)
	for person, want := range map[string][2]int{"": {2, 0}, "Nell": {2, 2}, "Ivo": {2, 2}} {
		if shown, buttons, page := s.warnings(t, person); shown != want[0] || buttons != want[1] {
			t.Errorf("%q: got %d warnings and %d buttons, want %v in\n%s", person, shown, buttons, want, page)
		}
	}
	path := s.writes(t, "Nell").Path()
	form := s.seenForm(t, "Nell").Encode()
	for range 2 { // sent again it says nothing more
		if w := s.send(path+"say", form); w.Code != http.StatusSeeOther || header(w, "Location") != path {
			t.Fatalf("got %d to %q, %s; want 303 to the page", w.Code, header(w, "Location"), w.Body)
		}
	}
	again := stoodOn(t, pageMade(t), s.files, s.clock)
	again.kitchen.change(func(k *kitchenAt) { k.told = &said.Told{} })
	again.hear()
	for name, s := range map[string]*stand{"at once": s, "after a restart": again} {
		for person, want := range map[string]int{"": 2, "Nell": 1, "Ivo": 2} {
			if shown, _, page := s.warnings(t, person); shown != want {
				t.Errorf("%s, %q: got %d warnings, want %d in\n%s", name, person, shown, want, page)
			}
		}
	}
	other := pageMade(t)
	other.Plan.Warnings[0].Text, other.Print = "The round of Wed 17 Mar is 10 min too short.", "other"
	s.show(other)
	if _, buttons, _ := s.warnings(t, "Nell"); buttons != 2 {
		t.Errorf("one that says something else: got %d to answer, want 2", buttons)
	}
	s.clock.move(48 * time.Hour)
	if _, buttons, _ := s.warnings(t, "Nell"); buttons != 1 {
		t.Errorf("the day after it: got %d to answer, want 1", buttons)
	}
}

// What no form of the page says, another site sends or cannot be written answers nothing.
func TestWarningsThatAreNotAnswered(t *testing.T) {
	for _, c := range []struct {
		name    string
		change  func(*stand, url.Values)
		headers []string
		want    int
	}{
		{"no key", func(_ *stand, f url.Values) { f.Del("key") }, nil, http.StatusUnprocessableEntity},
		{"another warning under the same key", func(_ *stand, f url.Values) { f.Set("warning", seen.KeyOf(schedule.Warning{Text: "x"})) }, nil, http.StatusUnprocessableEntity},
		{"something else with it", func(_ *stand, f url.Values) { f.Set("batch", "BH-270316-1") }, nil, http.StatusUnprocessableEntity},
		{"another site", func(*stand, url.Values) {}, []string{"Sec-Fetch-Site: cross-site"}, http.StatusForbidden},
		{"a full disk", func(s *stand, _ url.Values) { s.files.full = errors.New("disk full") }, nil, http.StatusInternalServerError},
	} {
		s := warnsOn(t)
		form := s.seenForm(t, "Nell")
		c.change(s, form)
		if w := s.send(s.writes(t, "Nell").Path()+"say", form.Encode(), c.headers...); w.Code != c.want {
			t.Errorf("%s: got %d, want %d: %s", c.name, w.Code, c.want, w.Body)
		}
		if shown, _, _ := s.warnings(t, "Nell"); shown != 2 {
			t.Errorf("%s: got %d warnings, want both still", c.name, shown)
		}
	}
	s := warnsOn(t)
	if w := s.send(s.writes(t, "Ivo").Path()+"say", s.seenForm(t, "Nell").Encode()); w.Code != http.StatusUnprocessableEntity {
		t.Errorf("Nell's form from Ivo's address: got %d, want 422", w.Code)
	}
}

// Many warnings do not fill the page: so many begin it, and the rest is counted.
func TestManyWarnings(t *testing.T) {
	made := pageMade(t)
	for i := range 20 {
		made.Plan.Warnings = append(made.Plan.Warnings, schedule.Warning{Code: "x", Text: fmt.Sprintf("Warning %d.", i)})
	}
	s := pageStood(t, made)
	_, _, page := s.warnings(t, "")
	if got := strings.Count(page, "<li><bdi>Warning "); got != warningsShown-2 || !strings.Contains(page, `status">14 warnings more</a>`) {
		t.Errorf("got %d of the further warnings, want %d and the rest counted in\n%s", got, warningsShown-2, page)
	}
}
