package dav

import (
	"bytes"
	"net/http/httptest"
	"strings"
	"testing"

	"ripeby/calendar/address"
)

// Nothing that is no tick of one's own task writes anything, or is told of another's tasks.
func TestNothingElseWrites(t *testing.T) {
	d := stood(t)
	mine, his := d.at(t, nell, "BH-1", "make"), d.at(t, ivo, "BH-1", "pack")
	text, tag := d.get(t, nell, mine)
	done := with(text, "STATUS:COMPLETED")
	cal := []string{"Content-Type", "text/calendar"}
	event := strings.NewReplacer("VTODO", "VEVENT", "DUE", "DTEND").Replace(done)
	two := strings.Replace(done, "END:VCALENDAR", done[strings.Index(done, "BEGIN:VTODO"):], 1)
	tests := []struct {
		name         string
		who          address.Address
		method, path string
		body         string
		header       []string
		want         int
		named        string // the precondition
	}{
		{"nobody", address.Address{}, "PUT", mine, done, cal, 401, ""},
		{"a token taken back", address.Address{Token: away}, "PUT", mine, done, cal, 401, ""},
		{"another's task", ivo, "PUT", mine, done, cal, 403, "need-privileges"},
		{"one's own task as another's", ivo, "PUT", strings.Replace(mine, idOf("Nell"), idOf("Ivo"), 1), done, cal, 403, "need-privileges"},
		{"another's collection", nell, "PROPFIND", tasksOf(ivo), "", nil, 403, "need-privileges"},
		{"another's task read", nell, "GET", his, "", nil, 403, "need-privileges"},
		{"another's query", nell, "REPORT", tasksOf(ivo), syncBody("", ""), nil, 403, "need-privileges"},
		{"a new task", nell, "PUT", tasksOf(nell) + "new.ics", done, cal, 403, "bind"},
		{"a new task, if it is new", nell, "PUT", tasksOf(nell) + "new.ics", done, append([]string{"If-None-Match", "*"}, cal...), 403, "bind"},
		{"the collection itself", nell, "PUT", tasksOf(nell), done, cal, 403, "need-privileges"},
		{"a task removed", nell, "DELETE", mine, "", []string{"If-Match", tag}, 403, "unbind"},
		{"the collection removed", nell, "DELETE", tasksOf(nell), "", nil, 403, "unbind"},
		{"all removed", nell, "DELETE", Root, "", nil, 403, "unbind"},
		{"a task removed that is not there", nell, "DELETE", tasksOf(nell) + "no.ics", "", nil, 404, ""},
		{"a new collection", nell, "MKCALENDAR", (&person{Address: nell, id: idOf("Nell")}).home() + "more/", "", nil, 405, ""},
		{"a new one in place of the old", nell, "MKCOL", tasksOf(nell), "", nil, 405, ""},
		{"moved", nell, "MOVE", mine, "", []string{"Destination", tasksOf(nell) + "x.ics"}, 405, ""},
		{"copied", nell, "COPY", mine, "", []string{"Destination", tasksOf(ivo) + "x.ics"}, 405, ""},
		{"locked", nell, "LOCK", mine, "", nil, 405, ""},
		{"posted", nell, "POST", tasksOf(nell), done, cal, 405, ""},
		{"another UID", nell, "PUT", mine, with(done, "UID:x"), cal, 403, "no-uid-conflict"},
		{"no UID", nell, "PUT", mine, with(done, "-UID"), cal, 403, "no-uid-conflict"},
		{"an appointment", nell, "PUT", mine, event, cal, 403, "supported-calendar-component"},
		{"two with one UID", nell, "PUT", mine, strings.Replace(two, "UID:ripeby", "UID:other", 1), cal, 403, "valid-calendar-object-resource"},
		{"an invitation", nell, "PUT", mine, strings.Replace(done, "VERSION:2.0", "VERSION:2.0\r\nMETHOD:REQUEST", 1), cal, 403, "valid-calendar-object-resource"},
		{"a calendar of nothing", nell, "PUT", mine, "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:x\r\nEND:VCALENDAR\r\n", cal, 403, "supported-calendar-component"},
		{"no calendar", nell, "PUT", mine, "hello", cal, 403, "valid-calendar-data"},
		{"nothing", nell, "PUT", mine, "", cal, 403, "valid-calendar-data"},
		{"a line cut short", nell, "PUT", mine, "BEGIN:VCALENDAR\r\nA;B=\"c\"", cal, 403, "valid-calendar-data"}, // the library panics
		{"a line cut shorter", nell, "PUT", mine, "BEGIN:VCALENDAR\r\nA;B=", cal, 403, "valid-calendar-data"},
		{"cut in the middle", nell, "PUT", mine, done[:len(done)/2], cal, 403, "valid-calendar-data"},
		{"another kind of text", nell, "PUT", mine, done, []string{"Content-Type", "application/json"}, 403, "supported-calendar-data"},
		{"no kind of text", nell, "PUT", mine, done, nil, 403, "supported-calendar-data"},
		{"too large", nell, "PUT", mine, done + strings.Repeat(" ", mostBody), cal, 413, "max-resource-size"},
		{"a query too large", nell, "REPORT", tasksOf(nell), syncBody(strings.Repeat("x", mostBody), ""), nil, 413, ""},
		{"a document type", nell, "PROPFIND", Root, `<!DOCTYPE a [<!ENTITY b "c">]><propfind xmlns="DAV:"><allprop/></propfind>`, nil, 400, ""},
		{"an entity", nell, "PROPFIND", Root, `<propfind xmlns="DAV:"><prop><a>&b;</a></prop></propfind>`, nil, 400, ""},
		{"too deep", nell, "PROPFIND", Root, strings.Repeat("<a>", 40) + strings.Repeat("</a>", 40), nil, 400, ""},
		{"too many", nell, "PROPFIND", Root, `<propfind xmlns="DAV:"><prop>` + strings.Repeat("<a/>", mostElements) + `</prop></propfind>`, nil, 400, ""},
		{"two documents", nell, "PROPFIND", Root, `<propfind xmlns="DAV:"><allprop/></propfind><x/>`, nil, 400, ""},
		{"words after it", nell, "PROPFIND", Root, `<propfind xmlns="DAV:"><allprop/></propfind>x`, nil, 400, ""},
		{"not closed", nell, "PROPFIND", Root, `<propfind xmlns="DAV:">`, nil, 400, ""},
		{"another alphabet", nell, "PROPFIND", Root, `<?xml version="1.0" encoding="utf-16"?><propfind xmlns="DAV:"><allprop/></propfind>`, nil, 400, ""},
		{"another document", nell, "PROPFIND", Root, `<x/>`, nil, 400, ""},
		{"another depth", nell, "PROPFIND", Root, "", []string{"Depth", "2"}, 400, ""},
		{"no change of properties", nell, "PROPPATCH", tasksOf(nell), `<propertyupdate xmlns="DAV:"/>`, nil, 400, ""},
		{"no document", nell, "PROPPATCH", tasksOf(nell), "", nil, 400, ""},
		{"below a task", nell, "GET", mine + "/x", "", nil, 404, ""},
		{"another part", nell, "GET", (&person{Address: nell, id: idOf("Nell")}).home() + "other/", "", nil, 404, ""},
	}
	for _, c := range tests {
		w := d.ask(c.who, c.method, c.path, c.body, c.header...)
		if w.Code != c.want || c.named != "" && !strings.Contains(w.Body.String(), c.named) {
			t.Errorf("%s: got %d, want %d %s: %s", c.name, w.Code, c.want, c.named, w.Body)
		}
		if len(d.kitchen.heard) != 0 {
			t.Fatalf("%s: got %v said", c.name, d.kitchen.heard)
		}
	}
	if again, _ := d.get(t, nell, mine); again != text {
		t.Errorf("the task is another now:\n%s", again)
	}
}

// What is put back is told so often and no oftener: whoever sends it again and again does not wear out the disk.
func TestPuttingBackHasAPace(t *testing.T) {
	d := stood(t)
	at := d.at(t, nell, "BH-1", "make")
	tags := map[string]bool{}
	for range 2 * address.TapsAMinute {
		d.ask(nell, "DELETE", at, "")
		_, tag := d.get(t, nell, at)
		tags[tag] = true
	}
	if len(tags) != address.TapsAMinute {
		t.Errorf("got %d tags, want %d", len(tags), address.TapsAMinute)
	}
}

// FuzzRequests has no body make a panic, write anything or bring a fault of the server's own.
func FuzzRequests(f *testing.F) {
	f.Add("PROPFIND", []byte(`<propfind xmlns="DAV:"><prop><a xmlns="b"/></prop></propfind>`))
	f.Add("PROPPATCH", []byte(`<propertyupdate xmlns="DAV:"><set><prop><a/></prop></set></propertyupdate>`))
	f.Add("REPORT", []byte(queryBody(`<C:comp-filter name="VTODO"><C:time-range start="20270317T090000Z"/><C:prop-filter name="A"><C:text-match>b</C:text-match></C:prop-filter></C:comp-filter>`)))
	f.Add("REPORT", []byte(syncBody("x", "1")))
	f.Add("PUT", []byte("BEGIN:VCALENDAR\r\nBEGIN:VTODO\r\nA;B=c,\"d\":e\r\nEND:VTODO\r\nEND:VCALENDAR\r\n"))
	d := stood(f)
	at := d.at(f, nell, "BH-1", "make")
	f.Fuzz(func(t *testing.T, method string, body []byte) {
		path := tasksOf(nell)
		switch method {
		case "PUT":
			path = at
		case "PROPFIND", "REPORT", "PROPPATCH":
		default:
			return
		}
		r := request(nell, method, path, "", "Content-Type", "text/calendar")
		r.Body = readCloser{bytes.NewReader(body)}
		w := httptest.NewRecorder()
		d.ServeHTTP(w, r)
		if w.Code >= 500 || len(d.kitchen.heard) != 0 {
			t.Errorf("%s: got %d and %v said: %s", method, w.Code, d.kitchen.heard, w.Body)
		}
		if w.Code == 207 {
			read(t, w.Body.String())
		}
	})
}

// readCloser is a body.
type readCloser struct{ *bytes.Reader }

func (readCloser) Close() error { return nil }
