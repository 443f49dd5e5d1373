package main

import (
	"encoding/xml"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"
)

// davTask is a task as a calendar program has it.
type davTask struct{ path, tag, text string }

// dav asks for something under somebody's password.
func (k *servedPage) dav(person, method, path, body string, header ...string) *httptest.ResponseRecorder {
	r := httptest.NewRequest(method, "http://127.0.0.1:7379"+path, strings.NewReader(body))
	r.RemoteAddr = "127.0.0.1:40000"
	r.SetBasicAuth(person, strings.Split(k.at(person), "/")[2])
	for i := 0; i+1 < len(header); i += 2 {
		r.Header.Set(header[i], header[i+1])
	}
	w := httptest.NewRecorder()
	k.server.ServeHTTP(w, r)
	return w
}

// tasks are somebody's, by their titles.
func (k *servedPage) tasks(person string) map[string]davTask {
	k.t.Helper()
	var a struct {
		Responses []struct {
			Href string `xml:"DAV: href"`
			Type *struct {
				Calendar *struct{} `xml:"urn:ietf:params:xml:ns:caldav calendar"`
			} `xml:"DAV: propstat>prop>resourcetype"`
			Tag string `xml:"DAV: propstat>prop>getetag"`
		} `xml:"DAV: response"`
	}
	w := k.dav(person, "PROPFIND", "/dav/", "", "Depth", "infinity")
	if err := xml.Unmarshal(w.Body.Bytes(), &a); err != nil || w.Code != http.StatusMultiStatus {
		k.t.Fatalf("got %d, %v: %s", w.Code, err, w.Body)
	}
	all := map[string]davTask{}
	for _, r := range a.Responses {
		if !strings.HasSuffix(r.Href, ".ics") {
			continue
		}
		text := k.dav(person, "GET", r.Href, "").Body.String()
		_, title, _ := strings.Cut(text, "\r\nSUMMARY:")
		title, _, _ = strings.Cut(title, "\r\n")
		all[title] = davTask{r.Href, r.Tag, text}
	}
	return all
}

// ticks sends a task as done, or as not done any more.
func (k *servedPage) ticks(person string, task davTask, done bool, want int) string {
	k.t.Helper()
	text := strings.Replace(task.text, "STATUS:NEEDS-ACTION\r\nPERCENT-COMPLETE:0", "STATUS:COMPLETED\r\nPERCENT-COMPLETE:100\r\nCOMPLETED:20270304T193000Z", 1)
	if !done {
		text = strings.Replace(task.text, "STATUS:COMPLETED", "STATUS:NEEDS-ACTION", 1)
	}
	w := k.dav(person, "PUT", task.path, text, "Content-Type", "text/calendar", "If-Match", task.tag)
	if w.Code != want {
		k.t.Fatalf("%s, %s: got %d, want %d: %s", person, task.path, w.Code, want, w.Body)
	}
	return w.Body.String()
}

// What is ticked in a calendar program is a line of the record, as what is tapped on the page is: once, at its
// moment, taken back by whoever said it.
func TestTicksInACalendarProgram(t *testing.T) {
	k := servedKitchen(t)
	make := `Make: Quick curd\, 5 L`
	before := k.tasks("Nell")
	task, ok := before[make]
	if !ok || len(before) < 2 || len(k.tasks("Ivo")) != 0 {
		t.Fatalf("got the tasks %v of Nell, want one %q and another; and %v of Ivo, want none", before, make, k.tasks("Ivo"))
	}
	k.ticks("Nell", task, true, 204)
	k.said(1, `at: "2027-03-04 19:30", written: "2027-03-04 20:00", who: "Nell", batch: "QC-270304-1", did: "make"`)
	k.ticks("Nell", task, true, 412) // the same once more, after a lost answer
	done := k.tasks("Nell")[make]
	if !strings.Contains(done.text, "COMPLETED:20270304T193000Z") {
		t.Errorf("it is not shown as done:\n%s", done.text)
	}
	k.ticks("Nell", done, true, 204)
	k.said(1, "did")
	if page := k.see("Nell"); !strings.Contains(page, "(done 19:30, Nell)") {
		t.Errorf("the page does not show it:\n%s", page)
	}
	k.ticks("Nell", done, false, 204)
	k.said(2, "strikes: 1")
	if now := k.tasks("Nell")[make]; now.text != task.text {
		t.Errorf("got\n%s\nwant the task as it was", now.text)
	}
	k.now = k.now.Add(time.Minute)
	k.taps("Nell", formWith(k.see("Nell"), "did", "make"), http.StatusSeeOther) // on the page this time
	k.said(3, `did: "make"`)
	k.ticks("Nell", k.tasks("Nell")[make], false, 204)
	k.said(4, "strikes: 3")
	tapped := formWith(k.see("Ivo"), "did", "make")
	k.taps("Ivo", tapped, http.StatusSeeOther)
	k.said(5, `who: "Ivo", batch: "QC-270304-1", did: "make"`)
	if text := k.ticks("Nell", k.tasks("Nell")[make], false, 403); !strings.Contains(text, "Only who said it takes it back") {
		t.Errorf("got %s", text)
	}
	k.said(5, "did")
	early := k.tasks("Nell")[`Pack: Quick curd\, 10 pieces`]
	early.text = strings.Replace(early.text, "STATUS:NEEDS-ACTION", "STATUS:COMPLETED\r\nCOMPLETED:20270304T100000Z", 1)
	w := k.dav("Nell", "PUT", early.path, early.text, "Content-Type", "text/calendar", "If-Match", early.tag)
	if w.Code != 403 || !strings.Contains(w.Body.String(), "pack comes after make in the recipe") {
		t.Errorf("packed before it was made: got %d: %s", w.Code, w.Body)
	}
	k.said(5, "did")
}
