package feed

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	ical "github.com/emersion/go-ical"

	"ripeby/calendar/address"
	"ripeby/calendar/edition"
	"ripeby/calendar/note"
	"ripeby/calendar/said"
	"ripeby/resources"
	"ripeby/schedule"
)

// A calendar comes as clients want it: its type, no attachment, not packed whatever
// is accepted, a strong tag, and nothing for an index.
func TestFeedHeaders(t *testing.T) {
	s := stood(t, sampleMade(t, 3))
	for _, label := range []string{"everything", "Nell", "Ivo", "cold places"} {
		w := s.ask("GET", s.address(t, label).Path(), "Accept-Encoding: gzip, br", "Accept: text/html")
		want := map[string]string{
			"Content-Type": "text/calendar; charset=utf-8", "Content-Disposition": "", "Content-Encoding": "", "Vary": "", "Location": "",
			"Cache-Control": "private, no-cache", "X-Robots-Tag": "noindex, nofollow, noarchive", "Referrer-Policy": "no-referrer",
			"Last-Modified": "Tue, 16 Mar 2027 08:00:00 GMT", "ETag": edition.TagOf(w.Body.Bytes()),
		}
		if w.Code != http.StatusOK {
			t.Errorf("%s: got %d, want 200", label, w.Code)
		}
		for name, value := range want {
			if got := header(w, name); got != value {
				t.Errorf("%s: %s: got %q, want %q", label, name, got, value)
			}
		}
		if !strings.HasPrefix(w.Body.String(), "BEGIN:VCALENDAR\r\n") {
			t.Errorf("%s: got %.40q, want a calendar", label, w.Body)
		}
		// HEAD is the same without the body, its length included.
		head := s.ask("HEAD", s.address(t, label).Path())
		if head.Body.Len() != 0 || head.Code != w.Code || header(head, "Content-Length") != fmt.Sprint(w.Body.Len()) {
			t.Errorf("%s: HEAD gives %d, %d bytes, length %s; want 200, none, %d", label, head.Code, head.Body.Len(), header(head, "Content-Length"), w.Body.Len())
		}
		for name := range w.Result().Header {
			if header(head, name) != header(w, name) {
				t.Errorf("%s: %s: HEAD has %q, GET %q", label, name, header(head, name), header(w, name))
			}
		}
	}
}

// Conditions by RFC 9110, section 13. LM stands for the time of change, ET for the
// tag.
func TestFeedConditions(t *testing.T) {
	s := stood(t, sampleMade(t, 3))
	path := s.address(t, "everything").Path()
	first := s.ask("GET", path)
	tag, changed := header(first, "ETag"), header(first, "Last-Modified")
	at := func(d time.Duration) string { return sampleNow.Add(d).Format(http.TimeFormat) }
	tests := []struct {
		name    string
		headers []string
		want    int
	}{
		{"the tag", []string{"If-None-Match: " + tag}, 304},
		{"the tag, weak", []string{"If-None-Match: W/" + tag}, 304},
		{"in a list", []string{`If-None-Match: "a", W/"b" , ` + tag}, 304},
		{"in a list over two lines", []string{`If-None-Match: "a"`, "If-None-Match: " + tag}, 304},
		{"a tag with a comma within", []string{`If-None-Match: "a,b", ` + tag}, 304},
		{"any", []string{"If-None-Match: *"}, 304},
		{"another tag", []string{`If-None-Match: "a"`}, 200},
		{"no tag at all", []string{"If-None-Match: " + strings.Trim(tag, `"`)}, 200},
		{"a tag that does not end", []string{"If-None-Match: " + strings.TrimSuffix(tag, `"`)}, 200},
		{"nothing", []string{"If-None-Match: "}, 200},
		{"its date", []string{"If-Modified-Since: " + changed}, 304},
		{"a later date", []string{"If-Modified-Since: " + at(time.Hour)}, 304},
		{"an earlier date", []string{"If-Modified-Since: " + at(-time.Second)}, 200},
		{"a date of RFC 850", []string{"If-Modified-Since: Tuesday, 16-Mar-27 08:00:00 GMT"}, 304},
		{"a date of asctime", []string{"If-Modified-Since: Tue Mar 16 08:00:00 2027"}, 304},
		{"a bad date", []string{"If-Modified-Since: yesterday"}, 200},
		{"a date in another zone", []string{"If-Modified-Since: Tue, 16 Mar 2027 08:00:00 +0100"}, 200},
		{"another tag and its date: the tag counts", []string{`If-None-Match: "a"`, "If-Modified-Since: " + changed}, 200},
		{"the tag and an old date: the tag counts", []string{"If-None-Match: " + tag, "If-Modified-Since: " + at(-time.Hour)}, 304},
		{"if it is another", []string{`If-Match: "a"`}, 412},
		{"if it is this", []string{"If-Match: " + tag}, 200},
		{"unless changed", []string{"If-Unmodified-Since: " + at(-time.Hour)}, 412},
	}
	for _, c := range tests {
		for _, method := range []string{"GET", "HEAD"} {
			w := s.ask(method, path, c.headers...)
			if w.Code != c.want {
				t.Errorf("%s %s: got %d, want %d", method, c.name, w.Code, c.want)
			}
			if w.Code == 304 && (w.Body.Len() > 0 || header(w, "ETag") != tag || header(w, "Cache-Control") != "private, no-cache" || header(w, "Content-Type") != "") {
				t.Errorf("%s %s: a 304 with tag %q, Cache-Control %q, type %q and %d bytes", method, c.name, header(w, "ETag"), header(w, "Cache-Control"), header(w, "Content-Type"), w.Body.Len())
			}
		}
	}
}

// Whoever asks for a part gets the whole: a phone that kept a part of a calendar would
// lose tasks. Pages, pictures and assets read conditions on several lines too.
func TestPartsAreNotGiven(t *testing.T) {
	s := pageStood(t, pageMade(t))
	page := s.address(t, "page").Path()
	for _, path := range []string{s.address(t, "everything").Path(), page, page + "batches.svg", page + "worker.js", "/assets/style.css"} {
		full := s.ask("GET", path)
		for _, asked := range []string{"bytes=0-9", "bytes=999999999-", "lines=1", "bytes=0-0,2-2,4-4"} {
			w := s.ask("GET", path, "Range: "+asked)
			if w.Code != http.StatusOK || w.Body.String() != full.Body.String() {
				t.Errorf("%s, %s: got %d and %d bytes, want 200 and %d", path, asked, w.Code, w.Body.Len(), full.Body.Len())
			}
		}
		if w := s.ask("GET", path, `If-None-Match: "a"`, "If-None-Match: W/"+header(full, "ETag")); w.Code != http.StatusNotModified {
			t.Errorf("%s, its tag on a second line: got %d, want 304", path, w.Code)
		}
	}
}

// A plan that only lost a task moves the tag and the time of change; the calendars
// that do not show it stay as they were. The times outlive the server.
func TestFeedMovesWhenATaskIsOnlyGone(t *testing.T) {
	s := stood(t, sampleMade(t, 4))
	all, ivo := s.address(t, "everything").Path(), s.address(t, "Ivo").Path()
	tag, ivoTag := header(s.ask("GET", all), "ETag"), header(s.ask("GET", ivo), "ETag")

	s.clock.move(time.Hour)
	made := sampleMade(t, 4)
	made.Plan.Batches = append(made.Plan.Batches[:2:2], made.Plan.Batches[3]) // the third had nothing for Ivo
	s.show(made)
	w := s.ask("GET", all, "If-None-Match: "+tag)
	if w.Code != 200 || header(w, "ETag") == tag || header(w, "Last-Modified") != "Tue, 16 Mar 2027 09:00:00 GMT" || strings.Contains(w.Body.String(), "BH-3") {
		t.Errorf("got %d, %s, %s; want a new edition of 09:00 without BH-3", w.Code, header(w, "ETag"), header(w, "Last-Modified"))
	}
	if w := s.ask("GET", all, "If-Modified-Since: Tue, 16 Mar 2027 08:00:00 GMT"); w.Code != 200 {
		t.Errorf("since the first edition: got %d, want 200", w.Code)
	}
	if w := s.ask("GET", ivo, "If-None-Match: "+ivoTag); w.Code != 304 {
		t.Errorf("Ivo's: got %d, want 304", w.Code)
	}

	s.clock.move(time.Hour)
	again := stoodOn(t, made, s.files, s.clock)
	if w := again.ask("HEAD", all); header(w, "Last-Modified") != "Tue, 16 Mar 2027 09:00:00 GMT" {
		t.Errorf("after a restart: got %s, want the same", header(w, "Last-Modified"))
	}
	// A change while the server was off counts from when it is on again.
	later := stoodOn(t, sampleMade(t, 1), s.files, s.clock)
	if w := later.ask("HEAD", all); header(w, "Last-Modified") != "Tue, 16 Mar 2027 10:00:00 GMT" {
		t.Errorf("changed meanwhile: got %s, want 10:00", header(w, "Last-Modified"))
	}
}

// Two changes in one second, or a clock that was put back, still move the time of
// change; but no answer tells a time later than its own.
func TestFeedTimeMovesForward(t *testing.T) {
	s := stood(t, sampleMade(t, 4))
	d := address.DigestOf(s.address(t, "everything").Token)
	modified := func() time.Time { return s.board.Load().editions[d].Modified }
	first := modified()
	s.show(sampleMade(t, 3))
	if got := modified(); !got.Equal(first.Add(time.Second)) {
		t.Errorf("in the same second: got %v, want a second after %v", got, first)
	}
	w := s.ask("GET", s.address(t, "everything").Path())
	if got := header(w, "Last-Modified"); got != first.Format(http.TimeFormat) {
		t.Errorf("told: got %s, want no later than the clock", got)
	}
	s.clock.move(-time.Hour)
	s.show(sampleMade(t, 2))
	if got := modified(); !got.Equal(first.Add(2 * time.Second)) {
		t.Errorf("with the clock put back: got %v, want two seconds after %v", got, first)
	}
	s.show(sampleMade(t, 2))
	if got := modified(); !got.Equal(first.Add(2 * time.Second)) {
		t.Errorf("the same plan again: got %v, want no move", got)
	}
}

// What clients make of an answer (RFC 9110, 15.5.5 and 15.5.11): one that gets an empty 200 or a 404 wipes its tasks, one that gets 410
// switches the calendar off for good, and one that gets 500 stops until it is started again. So whatever goes
// wrong within, every calendar is served as it was last, with its tag and its time; 410 is for an address
// that was taken back alone, and 404 for one that never was.
func TestFeedLastGoodBytes(t *testing.T) {
	labels := []string{"everything", "Nell", "Ivo", "cold places"}
	for _, c := range []struct {
		name   string
		breaks func(*testing.T, *stand)
		told   string // what the page says is wrong
	}{
		{"a plan of which no calendar can be made", func(t *testing.T, s *stand) {
			made := sampleMade(t, 2)
			made.Problem.Kitchen.Zone = nil
			s.show(made)
		}, "the calendar for everything cannot be made and stays as it was"},
		{"the same batch twice", func(t *testing.T, s *stand) {
			made := sampleMade(t, 2)
			made.Plan.Batches[0] = made.Plan.Batches[1]
			s.show(made)
		}, "give each a name of its own"},
		{"a panic in making each of them", func(t *testing.T, s *stand) {
			made := sampleMade(t, 2)
			made.Plan = nil
			s.show(made)
		}, "this is a fault of ripeby"},
		{"a plan that cannot be read", func(t *testing.T, s *stand) {
			s.kitchen.change(func(k *kitchenAt) {
				k.kept, k.read = sampleMade(t, 2), func() (*Made, error) { return nil, errors.New("plan.json is damaged") }
			})
			s.watch.look(t.Context())
		}, "plan.json is damaged"},
		{"a panic in reading it", func(t *testing.T, s *stand) {
			s.kitchen.change(func(k *kitchenAt) {
				k.kept, k.read = sampleMade(t, 2), func() (*Made, error) { panic("forced") }
			})
			s.watch.look(t.Context())
		}, "this is a fault of ripeby"},
		{"a panic in planning", func(t *testing.T, s *stand) {
			s.kitchen.change(func(k *kitchenAt) { k.plan = func(context.Context) (*Made, error) { panic("forced") } })
			s.watch.start(t.Context(), "another folder")
			s.watch.take(<-s.watch.running)
		}, "this is a fault of ripeby"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := stood(t, sampleMade(t, 3))
			before := map[string]*httptest.ResponseRecorder{}
			for _, label := range labels {
				before[label] = s.ask("GET", s.address(t, label).Path())
			}
			s.clock.move(time.Hour)
			c.breaks(t, s)
			for _, label := range labels {
				path, old := s.address(t, label).Path(), before[label]
				w := s.ask("GET", path)
				if w.Code != 200 || w.Body.Len() == 0 || w.Body.String() != old.Body.String() || header(w, "ETag") != header(old, "ETag") || header(w, "Last-Modified") != header(old, "Last-Modified") {
					t.Errorf("%s: got %d, %d bytes, %s, %s; want the last good ones", label, w.Code, w.Body.Len(), header(w, "ETag"), header(w, "Last-Modified"))
				}
				if w := s.ask("GET", path, "If-None-Match: "+header(old, "ETag")); w.Code != 304 {
					t.Errorf("%s: got %d, want 304: nothing has changed for this phone", label, w.Code)
				}
			}
			if faults := strings.Join(s.board.Load().status.Faults, "\n"); !strings.Contains(faults, c.told) {
				t.Errorf("got the faults %q, want %q", faults, c.told)
			}
			ivo := s.address(t, "Ivo").Path()
			book, _ := s.board.Load().book.Renew("Ivo")
			s.change(func(b *board) { b.book = book })
			for path, want := range map[string]int{ivo: http.StatusGone, "/f/" + strings.Repeat("a", 26) + ".ics": http.StatusNotFound} {
				if w := s.ask("GET", path); w.Code != want {
					t.Errorf("%s: got %d, want %d", path, w.Code, want)
				}
			}
		})
	}
}

// Before the first plan there is neither an empty calendar nor a 404, which would
// wipe a phone's tasks.
func TestFeedBeforeTheFirstPlan(t *testing.T) {
	store := &files{text: map[string][]byte{}}
	book, _ := (&address.Book{}).Complete([]string{"Nell"})
	if err := book.Keep(store); err != nil {
		t.Fatal(err)
	}
	s := stoodOn(t, nil, store, &clock{at: sampleNow})
	w := s.ask("GET", s.address(t, "Nell").Path())
	if w.Code != 503 || header(w, "Retry-After") == "" || header(w, "Cache-Control") != "no-store" {
		t.Errorf("got %d, Retry-After %q, %q; want 503, a time, no-store", w.Code, header(w, "Retry-After"), header(w, "Cache-Control"))
	}
	if w := s.ask("GET", "/health"); w.Code != 503 {
		t.Errorf("health: got %d, want 503", w.Code)
	}
	if w := s.ask("GET", s.address(t, "page").Path()); w.Code != 200 || !strings.Contains(w.Body.String(), "There is no plan yet") {
		t.Errorf("page: got %d, want it to say that there is no plan", w.Code)
	}
}

// Each calendar holds what is its own.
func TestFeedContents(t *testing.T) {
	s := stood(t, sampleMade(t, 4)) // Nell: 4 makes and 2 packings; Ivo: 2 packings
	for label, want := range map[string]int{"everything": 8 + 1, "Nell": 6 + 1, "Ivo": 2 + 1, "cold places": 4} {
		a := s.address(t, label)
		w := s.ask("GET", a.Path())
		cal, err := ical.NewDecoder(w.Body).Decode()
		if err != nil {
			t.Fatal(err)
		}
		if got := len(cal.Events()); got != want {
			t.Errorf("%s: got %d events, want %d", label, got, want)
		}
		sheets := 0
		for _, e := range cal.Events() {
			if p := e.Props.Get("URL"); p != nil {
				sheets++
				path := strings.TrimPrefix(p.Value, "http://127.0.0.1:7379")
				if w := s.ask("GET", path); w.Code != 200 || !strings.HasPrefix(path, a.SheetsPath()) || strings.Contains(path, a.Token) {
					t.Errorf("%s: the sheet %s: got %d, want 200 under an address of its own", label, p.Value, w.Code)
				}
			}
		}
		if sheets == 0 {
			t.Errorf("%s: no event has a sheet", label)
		}
	}
	// Ivo's calendar leads to no batch that he has nothing to do with.
	if w := s.ask("GET", s.address(t, "Ivo").SheetsPath()+"BH-1"); w.Code != 404 {
		t.Errorf("another's batch: got %d, want 404", w.Code)
	}
}

// Somebody who is not in the kitchen any more keeps an address that works, with the
// work that is still theirs and no targets.
func TestFeedOfSomebodyWhoLeft(t *testing.T) {
	s := stood(t, sampleMade(t, 4))
	made := sampleMade(t, 4)
	made.Problem.Kitchen.People = []resources.Person{{Name: "Nell"}, {Name: "Zoe"}}
	made.Plan.Batches[3].Stages[1].Who = "Nell"
	schedule.CountMoves(made.Plan, nil)
	note.Revise(made.Problem, made.Plan, nil)
	s.show(made)
	body := s.ask("GET", s.address(t, "Ivo").Path()).Body.String()
	if strings.Count(body, "BEGIN:VEVENT") != 1 || strings.Contains(body, "Stall") {
		t.Errorf("got\n%s\nwant the one packing that is Ivo's and no target", body)
	}
	if w := s.ask("GET", s.address(t, "Zoe").Path()); w.Code != 200 {
		t.Errorf("somebody new: got %d, want an address of her own", w.Code)
	}
	s.kitchen.change(func(k *kitchenAt) { k.told = &said.Told{} })
	s.hear()
	for person, want := range map[string]bool{"Ivo": false, "Zoe": true} {
		if w := s.ask("GET", s.writes(t, person).Path()); w.Code != 200 || strings.Contains(w.Body.String(), "<form") != want {
			t.Errorf("where %s writes: got %d, want 200 and forms %v", person, w.Code, want)
		}
	}
}
