package feed

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"ripeby/calendar/said"
)

// A page's script is told by a header of the server's own what came of what was said, and gets no page where
// it asks for none.
func TestOutcomeOfAForm(t *testing.T) {
	s, _ := spoken(t)
	nell := s.writes(t, "Nell")
	f := form(t, s.ask("GET", nell.Path()).Body.String(), "did")
	for _, x := range []struct {
		what    string
		heard   said.Heard
		err     error
		quiet   string
		status  int
		outcome string
	}{
		{"written", said.Heard{Nr: 8}, nil, "1", 204, written},
		{"written, to who has no script", said.Heard{Nr: 8}, nil, "", 303, written},
		{"written before", said.Heard{Nr: 8, Before: true}, nil, "1", 204, written},
		{"refused", said.Heard{}, &said.Refusal{Lines: []string{"no"}}, "1", 422, refused},
		{"said by another", said.Heard{}, &said.Refusal{Lines: []string{"no"}, Said: true}, "1", 409, refused},
		{"said otherwise", said.Heard{Nr: 8, Before: true, Other: "lost"}, nil, "1", 409, refused},
		{"busy", said.Heard{}, said.ErrBusy, "1", 503, later},
		{"the folder is half saved", said.Heard{}, &said.Refusal{Lines: []string{"no"}, Later: true}, "1", 503, later},
		{"perhaps written", said.Heard{}, errors.New("the disk is full"), "1", 500, later},
	} {
		s.kitchen.change(func(k *kitchenAt) { k.say = func(said.Saying) (said.Heard, error) { return x.heard, x.err } })
		f.Set(said.Quiet, x.quiet)
		w := s.send(nell.Path()+"say", f.Encode())
		if w.Code != x.status || header(w, outcome) != x.outcome || x.status == 204 && (w.Body.Len() > 0 || header(w, "Location") != "") {
			t.Errorf("%s: got %d and %q, want %d and %q", x.what, w.Code, header(w, outcome), x.status, x.outcome)
		}
	}
	f.Set("key", "x")
	if w := s.send(nell.Path()+"say", f.Encode()); header(w, outcome) != refused {
		t.Errorf("with another key: got %q, want it refused", header(w, outcome))
	}
	for range 40 {
		s.send(nell.Path()+"say", f.Encode())
	}
	if w := s.send(nell.Path()+"say", f.Encode()); w.Code != 429 || header(w, outcome) != later {
		t.Errorf("too many: got %d and %q, want it later", w.Code, header(w, outcome))
	}
}

// What is kept on a phone for the coming week is named with what it is of, so that it is fetched anew when
// that changes; each page is there, and no key of a calendar is kept.
func TestWhatAPhoneKeeps(t *testing.T) {
	s := pageStood(t, pageMade(t))
	root := s.address(t, "page").Path()
	list := func() (l struct {
		Of    string
		Day   string
		Pages []string
	}) {
		w := s.ask("GET", root+keepAt)
		if w.Code != 200 || header(w, "Content-Type") != "application/json" {
			t.Fatalf("got %d, %s", w.Code, w.Body.String())
		}
		if err := json.Unmarshal(w.Body.Bytes(), &l); err != nil {
			t.Fatal(err)
		}
		return l
	}
	first := list()
	for _, want := range []string{"", "week", "batches", "batches.svg", "cold", "more", "status", "changes", "cold/now/wine%20fridge", "cold/2027-03-16/kitchen%20fridge", "batch/BH-270316-1", "week/2027-03-23", "cold/2027-03-16", "cold/2027-03-23"} {
		if !strings.Contains("\n"+strings.Join(first.Pages, "\n")+"\n", "\n"+want+"\n") {
			t.Errorf("%q is not kept: %q", want, first.Pages)
		}
	}
	for _, path := range first.Pages {
		if strings.Contains(path, "calendars") {
			t.Errorf("%s is kept", path)
		}
		if w := s.ask("GET", root+path); w.Code != 200 {
			t.Errorf("%s: got %d, want it there", path, w.Code)
		}
	}
	changed := pageMade(t)
	changed.Print = "changed"
	s.show(changed)
	if next := list(); next.Of == first.Of || next.Day != "2027-03-16" {
		t.Errorf("got %+v after a change, want another", next)
	}
}

// Over plain http a page says what it cannot do; over https, and on this machine, it can.
func TestPlainHTTPSaysWhatItCannotDo(t *testing.T) {
	for _, x := range []struct {
		site Site
		says bool
	}{
		{Site{Root: "http://127.0.0.1:7379", Loopback: true}, false},
		{Site{Root: "https://kitchen.example"}, false},
		{Site{Root: "http://127.0.0.1:7379"}, true},
	} {
		s, _ := spoken(t)
		s.site = x.site
		page := s.ask("GET", s.writes(t, "Nell").Path()).Body.String()
		if x.site.Secure() {
			page = string(s.draw("status.html", s.viewOf(s.board.Load(), s.writes(t, "Nell"))).Text)
		}
		if strings.Contains(page, "came over plain http") != x.says {
			t.Errorf("%+v: got %v, want %v", x.site, !x.says, x.says)
		}
	}
}
