package dav

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"ripeby/calendar/address"
	"ripeby/calendar/said"
	"ripeby/resources"
)

// toldOf is what was said of make of BH-1.
func toldOf(t *testing.T, what string) *said.Told {
	t.Helper()
	at := resources.MomentOf(deskNow)
	switch what {
	case "asked":
		return &said.Told{Answer: []said.Question{{Batch: "BH-1", Stage: "make", Start: at.Add(60), Ends: at.Add(120)}}}
	case "done":
		return &said.Told{Last: 1, Lately: []said.Word{{Nr: 1, At: at, Who: "Nell", Batch: "BH-1", Did: "make", Last: true}}}
	case "lost":
		return &said.Told{Last: 2, Lately: []said.Word{{Nr: 1, At: at, Who: "Nell", Batch: "BH-1", Did: "make"}, {Nr: 2, At: at, Batch: "BH-1", Lost: true, Last: true}}}
	}
	t.Fatal(what)
	return nil
}

// queryBody is a query with a filter within VCALENDAR and VTODO.
func queryBody(filter string) string {
	return `<C:calendar-query xmlns:D="DAV:" xmlns:C="urn:ietf:params:xml:ns:caldav"><D:prop><D:getetag/><C:calendar-data><C:expand start="20270301T000000Z" end="20270401T000000Z"/></C:calendar-data></D:prop><C:filter><C:comp-filter name="VCALENDAR">` +
		filter + `</C:comp-filter></C:filter></C:calendar-query>`
}

// found are the tasks that a query lets through, as "BH-1 make".
func (d *desk) found(t *testing.T, body string) (all []string) {
	t.Helper()
	w := d.ask(nell, "REPORT", tasksOf(nell), body, "Depth", "1")
	if w.Code != 207 {
		t.Fatalf("got %d: %s", w.Code, w.Body)
	}
	for _, r := range read(t, w.Body.String()).Responses {
		for _, line := range strings.Split(r.Propstats[0].Prop.Data, "\r\n") { // a carriage return gets through XML
			if uid, ok := strings.CutPrefix(line, "UID:ripeby-task-"); ok {
				all = append(all, uid[:strings.LastIndex(uid, "-")])
			}
		}
	}
	slices.Sort(all)
	return all
}

// Which tasks a query lets through (RFC 4791, 9.7). Nell makes BH-1 on 16 March from 9:00 to 10:00 UTC, which is
// done, and BH-2 a day later; she packs BH-2 on the 20th from 9:00 to 9:30.
func TestQueries(t *testing.T) {
	todo := func(inner string) string { return `<C:comp-filter name="VTODO">` + inner + `</C:comp-filter>` }
	span := func(start, end string) string {
		text := `<C:time-range`
		if start != "" {
			text += ` start="` + start + `"`
		}
		if end != "" {
			text += ` end="` + end + `"`
		}
		return text + `/>`
	}
	prop := func(name, inner string) string {
		return todo(`<C:prop-filter name="` + name + `">` + inner + `</C:prop-filter>`)
	}
	const make1, make2, pack2 = "BH-1-make", "BH-2-make", "BH-2-pack"
	tests := []struct {
		name, filter string
		want         string
	}{
		{"all", "", make1 + " " + make2 + " " + pack2},
		{"tasks", todo(""), make1 + " " + make2 + " " + pack2},
		{"appointments", `<C:comp-filter name="VEVENT"/>`, ""},
		{"no appointments", `<C:comp-filter name="VEVENT"><C:is-not-defined/></C:comp-filter>`, make1 + " " + make2 + " " + pack2},
		{"no tasks", `<C:comp-filter name="VTODO"><C:is-not-defined/></C:comp-filter>`, ""},
		{"with an alarm", todo(`<C:comp-filter name="VALARM"/>`), make2 + " " + pack2},
		{"without an alarm", todo(`<C:comp-filter name="VALARM"><C:is-not-defined/></C:comp-filter>`), make1},

		// RFC 4791, 9.9, a task with DTSTART and DUE: (start < DUE or start <= DTSTART) and (end > DTSTART or end >= DUE)
		{"a day", todo(span("20270316T000000Z", "20270317T000000Z")), make1},
		{"from its end on", todo(span("20270316T100000Z", "20270317T000000Z")), ""},
		{"from just before its end on", todo(span("20270316T095959Z", "20270317T000000Z")), make1},
		{"until its start", todo(span("20270315T000000Z", "20270316T090000Z")), ""},
		{"until just after its start", todo(span("20270315T000000Z", "20270316T090001Z")), make1},
		{"within it", todo(span("20270316T091500Z", "20270316T091600Z")), make1},
		{"open at the end", todo(span("20270317T090000Z", "")), make2 + " " + pack2},
		{"open at the start", todo(span("", "20270317T100000Z")), make1 + " " + make2},

		// RFC 4791, 7.8.9: what is still to be done
		{"to be done", todo(`<C:prop-filter name="COMPLETED"><C:is-not-defined/></C:prop-filter><C:prop-filter name="STATUS"><C:text-match negate-condition="yes">CANCELLED</C:text-match></C:prop-filter>`), make2 + " " + pack2},
		{"done", prop("COMPLETED", ""), make1},
		{"done today", prop("COMPLETED", span("20270316T000000Z", "20270317T000000Z")), make1},
		{"done yesterday", prop("COMPLETED", span("20270315T000000Z", "20270316T000000Z")), ""},
		{"a status", prop("STATUS", `<C:text-match>needs-action</C:text-match>`), make2 + " " + pack2}, // i;ascii-casemap
		{"its letters as they are", prop("STATUS", `<C:text-match collation="i;octet">needs-action</C:text-match>`), ""},
		{"not that status", prop("STATUS", `<C:text-match negate-condition="yes">NEEDS-ACTION</C:text-match>`), make1},
		{"a text", prop("SUMMARY", `<C:text-match>pack: bramble</C:text-match>`), pack2},
		{"one with a comma", prop("SUMMARY", `<C:text-match>hoop, 9 L</C:text-match>`), make1 + " " + make2},
		{"the second category", prop("CATEGORIES", `<C:text-match>bramble</C:text-match>`), make1 + " " + make2 + " " + pack2},
		{"a UID", prop("UID", `<C:text-match collation="i;octet">BH-2-pack</C:text-match>`), pack2},
		{"no such property", prop("RECURRENCE-ID", ""), ""},
		{"a parameter", prop("DTSTART", `<C:param-filter name="TZID"><C:text-match>dublin</C:text-match></C:param-filter>`), make1 + " " + make2 + " " + pack2},
		{"another value of it", prop("DTSTART", `<C:param-filter name="TZID"><C:text-match>oslo</C:text-match></C:param-filter>`), ""},
		{"no such parameter", prop("DTSTART", `<C:param-filter name="VALUE"><C:is-not-defined/></C:param-filter>`), make1 + " " + make2 + " " + pack2},
		{"that parameter missing", prop("DTSTART", `<C:param-filter name="TZID"><C:is-not-defined/></C:param-filter>`), ""},
	}
	d := stood(t)
	d.kitchen.told = toldOf(t, "done")
	for _, c := range tests {
		if got := strings.Join(d.found(t, queryBody(c.filter)), " "); got != c.want {
			t.Errorf("%s: got %s, want %s", c.name, got, c.want)
		}
	}
}

// Queries that cannot be answered name what does not hold (RFC 4791, 7.8; RFC 3253, 3.6).
func TestQueriesThatAreRefused(t *testing.T) {
	d := stood(t)
	todo := func(inner string) string {
		return queryBody(`<C:comp-filter name="VTODO">` + inner + `</C:comp-filter>`)
	}
	tests := []struct {
		name, body, want string
		code             int
	}{
		{"no filter", `<C:calendar-query xmlns:D="DAV:" xmlns:C="urn:ietf:params:xml:ns:caldav"><D:prop/></C:calendar-query>`, "valid-filter", 403},
		{"a filter of tasks alone", strings.ReplaceAll(queryBody(""), "VCALENDAR", "VTODO"), "valid-filter", 403},
		{"a range without ends", todo(`<C:time-range/>`), "valid-filter", 403},
		{"a range backward", todo(`<C:time-range start="20270317T000000Z" end="20270316T000000Z"/>`), "valid-filter", 403},
		{"a range in local time", todo(`<C:time-range start="20270317T000000"/>`), "valid-filter", 403},
		{"a range of alarms", todo(`<C:comp-filter name="VALARM"><C:time-range start="20270317T000000Z"/></C:comp-filter>`), "supported-filter", 403},
		{"another collation", todo(`<C:prop-filter name="SUMMARY"><C:text-match collation="i;unicode-casemap">x</C:text-match></C:prop-filter>`), "supported-collation", 403},
		{"another report", `<C:free-busy-query xmlns:C="urn:ietf:params:xml:ns:caldav"/>`, "supported-report", 403},
		{"no body", "", "supported-report", 403},
		{"no properties", `<C:calendar-query xmlns:C="urn:ietf:params:xml:ns:caldav"/>`, "properties", 400},
		{"no XML", "<a", "XML", 400},
	}
	for _, c := range tests {
		if w := d.ask(nell, "REPORT", tasksOf(nell), c.body); w.Code != c.code || !strings.Contains(w.Body.String(), c.want) {
			t.Errorf("%s: got %d: %s", c.name, w.Code, w.Body)
		}
	}
	if w := d.ask(nell, "REPORT", Root, todo("")); w.Code != 403 || !strings.Contains(w.Body.String(), "supported-report") {
		t.Errorf("of the root: got %d", w.Code)
	}
	if w := d.ask(nell, "REPORT", d.at(t, nell, "BH-1", "make"), todo("")); w.Code != 207 || len(read(t, w.Body.String()).Responses) != 1 {
		t.Errorf("of a task itself: got %d: %s", w.Code, w.Body)
	}
}

// What is named is told, in that order, and 404 for what is not there or is another's (RFC 4791, 7.9).
func TestMultiget(t *testing.T) {
	d := stood(t)
	mine, other, his := d.at(t, nell, "BH-2", "pack"), d.at(t, nell, "BH-1", "make"), d.at(t, ivo, "BH-1", "pack")
	hrefs := []string{mine, "http://127.0.0.1:7379" + other, his, tasksOf(nell) + "no.ics", tasksOf(nell), "%zz", "/elsewhere"}
	body := `<C:calendar-multiget xmlns:D="DAV:" xmlns:C="urn:ietf:params:xml:ns:caldav"><D:prop><D:getetag/><C:calendar-data/></D:prop>`
	for _, h := range hrefs {
		body += "<D:href>" + h + "</D:href>"
	}
	w := d.ask(nell, "REPORT", tasksOf(nell), body+"</C:calendar-multiget>")
	a := read(t, w.Body.String())
	if len(a.Responses) != len(hrefs) {
		t.Fatalf("got %d answers, want %d: %s", len(a.Responses), len(hrefs), w.Body)
	}
	for i, r := range a.Responses {
		if i >= 2 {
			if r.Href != hrefs[i] || !strings.Contains(r.Status, "404") || len(r.Propstats) != 0 {
				t.Errorf("%s: got %+v, want 404", hrefs[i], r)
			}
			continue
		}
		text, tag := d.get(t, nell, []string{mine, other}[i])
		if p := r.Propstats[0].Prop; p.Data != text || p.Tag != tag {
			t.Errorf("%s: got the tag %s and\n%s\nwant what GET gives", hrefs[i], p.Tag, p.Data)
		}
	}
	w = d.ask(nell, "REPORT", tasksOf(nell), strings.Split(body, "<D:href>")[0]+"</C:calendar-multiget>")
	if w.Code != 207 || len(read(t, w.Body.String()).Responses) != 0 {
		t.Errorf("nothing named: got %d: %s", w.Code, w.Body)
	}
}

// A task is fetched as HTTP has it: a tag, 304, HEAD (RFC 9110, 13.1.2).
func TestGet(t *testing.T) {
	d := stood(t)
	at := d.at(t, nell, "BH-1", "make")
	text, tag := d.get(t, nell, at)
	unfolded := strings.ReplaceAll(text, "\r\n ", "")
	for _, line := range []string{"BEGIN:VTIMEZONE", "BEGIN:VTODO", "DTSTART;TZID=Europe/Dublin:20270316T090000", "DUE;TZID=Europe/Dublin:20270316T100000", "STATUS:NEEDS-ACTION", "SUMMARY:Make: Bramble hoop\\, 9 L", "URL:https://kitchen.example/s/" + (address.Address{Token: strings.Repeat("r", 26)}).SheetKey() + "/batch/BH-1"} {
		if !strings.Contains(unfolded, line+"\r\n") {
			t.Errorf("want %s in\n%s", line, text)
		}
	}
	if strings.Contains(text, "METHOD") || strings.Contains(text, "TRANSP") || strings.Contains(text, "DTEND") {
		t.Errorf("what is of events alone, or of invitations, stands in\n%s", text)
	}
	for _, c := range []struct {
		value string
		want  int
	}{{tag, 304}, {"W/" + tag, 304}, {"*", 304}, {`"x", ` + tag, 304}, {`"x"`, 200}} {
		if w := d.ask(nell, "GET", at, "", "If-None-Match", c.value); w.Code != c.want {
			t.Errorf("If-None-Match %s: got %d, want %d", c.value, w.Code, c.want)
		}
	}
	for i := range 2 {
		if again, same := d.get(t, nell, at); again != text || same != tag {
			t.Errorf("the %d-th time it is another", i+2)
		}
		d.restart()
	}
	if w := d.ask(nell, "GET", Root, ""); w.Code != 200 || fmt.Sprint(w.Body.Len()) != w.Header().Get("Content-Length") {
		t.Errorf("the root: got %d", w.Code)
	}
}

// So much of a text is told as is asked for (RFC 4791, 9.6.1; the second is the example of 7.8.1).
func TestPartsOfAText(t *testing.T) {
	d := stood(t)
	at := d.at(t, nell, "BH-1", "make")
	text, _ := d.get(t, nell, at)
	begin, rest, _ := strings.Cut(text, "BEGIN:VALARM")
	_, end, _ := strings.Cut(rest, "END:VALARM\r\n")
	uid := text[strings.Index(text, "UID:"):]
	uid = uid[:strings.Index(uid, "\r\n")+2]
	tests := []struct{ name, want, part string }{
		{"all of it", "<C:allprop/><C:allcomp/>", text},
		{"the properties named", `<C:prop name="VERSION"/><C:comp name="VTODO"><C:prop name="uid"/><C:prop name="STATUS"/></C:comp>`, "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nBEGIN:VTODO\r\n" + uid + "STATUS:NEEDS-ACTION\r\nEND:VTODO\r\nEND:VCALENDAR\r\n"},
		{"no alarms", `<C:allprop/><C:comp name="VTIMEZONE"><C:allprop/><C:allcomp/></C:comp><C:comp name="VTODO"><C:allprop/></C:comp>`, begin + end},
		{"nothing", "", "BEGIN:VCALENDAR\r\nEND:VCALENDAR\r\n"},
	}
	for _, c := range tests {
		w := d.ask(nell, "REPORT", tasksOf(nell), `<C:calendar-multiget xmlns:D="DAV:" xmlns:C="urn:ietf:params:xml:ns:caldav"><D:prop><C:calendar-data><C:comp name="VCALENDAR">`+c.want+`</C:comp></C:calendar-data></D:prop><D:href>`+at+`</D:href></C:calendar-multiget>`)
		if got := read(t, w.Body.String()).Responses[0].Propstats[0].Prop.Data; got != c.part {
			t.Errorf("%s: got\n%s\nwant\n%s", c.name, got, c.part)
		}
	}
}
