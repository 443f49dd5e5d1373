package feed

import (
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"ripeby/calendar/address"
	"ripeby/calendar/said"
)

// besideTasks serves tasks beside a page: a handler that takes down what it is asked.
func besideTasks(s *stand) (asked *[]string) {
	asked = &[]string{}
	s.Beside(http.HandlerFunc(func(_ http.ResponseWriter, r *http.Request) { *asked = append(*asked, r.Method+" "+r.URL.Path) }), "/dav/")
	return asked
}

// What calendar programs ask with is let through where their tasks are, and nowhere else.
func TestWhereTasksAreAskedFor(t *testing.T) {
	s := stood(t, sampleMade(t, 2))
	if w := s.ask("PROPFIND", "/dav/"); w.Code != 405 {
		t.Errorf("where none are served: got %d, want 405", w.Code)
	}
	asked := besideTasks(s)
	writing := s.writes(t, "Nell").Path()
	tests := []struct {
		method, path, body string
		want               int // 200 is the handler's
	}{
		{"PROPFIND", "/dav/", "", 200}, {"PROPFIND", "/dav/x/calendars/tasks/", "<a/>", 200}, {"PUT", "/dav/x/y.ics", "BEGIN", 200},
		{"PROPFIND", "/.well-known/caldav", "", 200}, {"OPTIONS", "/dav/", "", 200}, {"GET", "/.well-known/caldav", "", 200},
		{"MKCALENDAR", "/dav/x/", "", 200}, // which refuses it
		{"PROPFIND", "/", "", 405}, {"PROPFIND", writing, "", 405}, {"PUT", writing + "say", "a", 405}, {"PROPFIND", "/davy/", "", 405}, {"PROPFIND", "/.well-known/carddav", "", 405},
		{"OPTIONS", "/", "", 405}, {"OPTIONS", writing, "", 405}, {"PROPFIND", "/dav/../x", "", 405}, {"GET", "/.well-known/", "", 404},
	}
	for _, c := range tests {
		*asked = nil
		w := s.answer(httptest.NewRequest(c.method, "http://127.0.0.1:7379/", strings.NewReader(c.body)), c.path)
		if w.Code != c.want || (len(*asked) == 1) != (c.want == 200) {
			t.Errorf("%s %s: got %d and handed on %q, want %d", c.method, c.path, w.Code, *asked, c.want)
		}
	}
	r := httptest.NewRequest("PROPFIND", "http://evil.example/dav/", nil)
	w := httptest.NewRecorder()
	*asked = nil
	s.ServeHTTP(w, r)
	if w.Code != http.StatusMisdirectedRequest || len(*asked) != 0 {
		t.Errorf("for another host: got %d, want 421", w.Code)
	}
}

// How often one may say something counts what is ticked and what is tapped together.
func TestTicksAndTapsHaveOnePace(t *testing.T) {
	s := stood(t, sampleMade(t, 2))
	n := 0
	s.kitchen.change(func(k *kitchenAt) {
		k.told = &said.Told{}
		k.say = func(said.Saying) (said.Heard, error) { n++; return said.Heard{Nr: n}, nil }
	})
	a := s.writes(t, "Nell")
	for range address.TapsAMinute {
		if _, err := s.Take(a, said.Saying{}); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := s.Take(a, said.Saying{}); err == nil || n != address.TapsAMinute {
		t.Errorf("got %v after %d, want no more taken", err, n)
	}
}

// A page that somebody writes on tells how their tasks are had, where a password may be sent, and no other page.
func TestThePageTellsOfTasks(t *testing.T) {
	for _, c := range []struct {
		site Site
		want string
	}{
		{Site{Root: "http://127.0.0.1:7379", Loopback: true}, "Only programs on this machine are let in now"},
		{Site{Root: "https://kitchen.example"}, "<code>https://kitchen.example/dav/</code>"},
		{Site{Root: "http://192.168.1.7:7379"}, "They are not given out now"},
	} {
		s := stood(t, sampleMade(t, 2))
		s.site = c.site
		s.change(func(b *board) { b.told = &said.Told{} })
		own := s.ask("GET", s.writes(t, "Nell").Path()+"calendars")
		if strings.Contains(own.Body.String(), "Tasks to tick") {
			t.Error("tasks are told of that are not served")
		}
		besideTasks(s)
		s.change(func(*board) {}) // another board: what was drawn is not kept
		for path, want := range map[string]bool{s.writes(t, "Nell").Path(): true, s.address(t, "page").Path(): false} {
			text := s.ask("GET", path+"calendars").Body.String()
			if strings.Contains(text, "Tasks to tick") != want || strings.Contains(text, c.want) != want {
				t.Errorf("%s: got told %v of %q", c.site.Root, !want, c.want)
			}
			if want && strings.Contains(text, ">"+s.writes(t, "Nell").Token+"<") {
				t.Errorf("%s: the password stands on the page", c.site.Root)
			}
		}
	}
}
