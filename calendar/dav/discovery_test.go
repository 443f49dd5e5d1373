package dav

import (
	"crypto/tls"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"ripeby/calendar/address"
	"ripeby/schedule"
)

// A program is told where to go on from wherever it begins: RFC 6764, 5 (well-known), RFC 5397, 3 (who asks),
// RFC 4791, 6.2.1 (where the collections are), 4.2 and 5.2.3 (one, for tasks).
func TestDiscovery(t *testing.T) {
	d := stood(t)
	w := d.ask(address.Address{}, "PROPFIND", WellKnown, "")
	if w.Code != 301 || w.Header().Get("Location") != Root {
		t.Errorf("well-known: got %d to %q, want 301 to %s", w.Code, w.Header().Get("Location"), Root)
	}
	path := Root
	for _, prop := range []string{`current-user-principal xmlns="DAV:"`, `calendar-home-set xmlns="urn:ietf:params:xml:ns:caldav"`} {
		w := d.ask(nell, "PROPFIND", path, `<propfind xmlns="DAV:"><prop><`+prop+`/></prop></propfind>`, "Depth", "0")
		_, rest, _ := strings.Cut(w.Body.String(), "<D:prop>")
		_, rest, _ = strings.Cut(rest, "<D:href>")
		path, _, _ = strings.Cut(rest, "</D:href>")
		if w.Code != 207 || !strings.HasPrefix(path, Root) || strings.ContainsAny(path, "@ <") {
			t.Fatalf("%s: got %d, %q", prop, w.Code, w.Body)
		}
	}
	w = d.ask(nell, "PROPFIND", path, `<propfind xmlns="DAV:"><prop><resourcetype/><displayname/><owner/><C:supported-calendar-component-set xmlns:C="urn:ietf:params:xml:ns:caldav"/></prop></propfind>`, "Depth", "1")
	a := read(t, w.Body.String())
	if len(a.Responses) != 2 || a.Responses[1].Href != tasksOf(nell) {
		t.Fatalf("the home: got %+v, want itself and one collection", a.Responses)
	}
	for _, want := range []string{"<D:collection/><C:calendar/>", "Saltgrass &lt;Lane&gt; &amp; Co: work of Nell", `<C:comp name="VTODO"/>`} {
		if !strings.Contains(w.Body.String(), want) {
			t.Errorf("want %s in\n%s", want, w.Body)
		}
	}
	if strings.Contains(w.Body.String(), "VEVENT") {
		t.Error("a collection for tasks alone is offered for appointments")
	}
}

// A program sees before it has a password that calendars are spoken (RFC 4791, 5.1; RFC 4918, 10.1).
func TestOptions(t *testing.T) {
	d := stood(t)
	for _, who := range []address.Address{{}, nell} {
		for _, path := range []string{Root, tasksOf(nell)} {
			w := d.ask(who, "OPTIONS", path, "")
			if w.Code != 200 || w.Header().Get("DAV") != "1, 3, calendar-access" || !strings.Contains(w.Header().Get("Allow"), "REPORT") {
				t.Errorf("%s: got %d, %v", path, w.Code, w.Header())
			}
		}
	}
}

// Which properties there are where, and that one which is not there is told as such (RFC 4918, 9.1).
func TestProperties(t *testing.T) {
	d := stood(t)
	p := &person{nell, idOf("Nell"), ""}
	member := d.at(t, nell, "BH-1", "make")
	tests := []struct {
		path, has, lacks string
	}{
		{Root, "resourcetype displayname current-user-principal", "calendar-home-set sync-token getetag"},
		{p.principal(), "resourcetype displayname current-user-principal principal-URL calendar-home-set", "sync-token owner"},
		{p.home(), "resourcetype owner current-user-privilege-set", "calendar-home-set sync-token"},
		{p.tasks(), "resourcetype displayname owner sync-token getctag supported-report-set supported-calendar-component-set supported-calendar-data max-resource-size current-user-privilege-set calendar-description supported-collation-set", "getetag getcontenttype calendar-color calendar-data"},
		{member, "resourcetype getetag getcontenttype getcontentlength getlastmodified owner current-user-privilege-set", "sync-token getctag calendar-data displayname"},
	}
	spaces := map[string]string{"getctag": nsServer, "calendar-home-set": nsCalDAV, "supported-calendar-component-set": nsCalDAV, "supported-calendar-data": nsCalDAV, "max-resource-size": nsCalDAV,
		"calendar-description": nsCalDAV, "supported-collation-set": nsCalDAV, "calendar-data": nsCalDAV, "calendar-color": "http://apple.com/ns/ical/"}
	for _, c := range tests {
		body := `<propfind xmlns="DAV:"><prop>`
		for _, name := range strings.Fields(c.has + " " + c.lacks) {
			space := spaces[name]
			if space == "" {
				space = nsDAV
			}
			body += "<" + name + ` xmlns="` + space + `"/>`
		}
		got := d.ask(nell, "PROPFIND", c.path, body+"</prop></propfind>", "Depth", "0")
		a := read(t, got.Body.String())
		if len(a.Responses) != 1 || len(a.Responses[0].Propstats) != 2 {
			t.Fatalf("%s: got %s", c.path, got.Body)
		}
		for i, want := range []string{c.has, c.lacks} {
			part := a.Responses[0].Propstats[i]
			var names []string
			for _, e := range part.Prop.Any {
				names = append(names, e.XMLName.Local)
			}
			if part.Prop.Tag != "" || i == 1 && strings.Contains(want, "getetag") {
				names = append(names, "getetag")
			}
			if i == 1 && strings.Contains(want, "calendar-data") {
				names = append(names, "calendar-data")
			}
			if len(names) != len(strings.Fields(want)) {
				t.Errorf("%s, %s: got %v, want %s", c.path, part.Status, names, want)
			}
			for _, name := range strings.Fields(want) {
				if !strings.Contains(" "+strings.Join(names, " ")+" ", " "+name+" ") {
					t.Errorf("%s, %s: %s is missing", c.path, part.Status, name)
				}
			}
		}
		for _, body := range []string{"", `<propfind xmlns="DAV:"><allprop/></propfind>`, `<propfind xmlns="DAV:"><propname/></propfind>`} {
			if a := read(t, d.ask(nell, "PROPFIND", c.path, body, "Depth", "0").Body.String()); len(a.Responses) != 1 || len(a.Responses[0].Propstats) != 1 || !strings.Contains(a.Responses[0].Propstats[0].Status, "200") {
				t.Errorf("%s, %q: got %+v", c.path, body, a)
			}
		}
	}
}

// How deep it is looked (RFC 4918, 10.2).
func TestDepth(t *testing.T) {
	d := stood(t)
	p := &person{nell, idOf("Nell"), ""}
	for _, c := range []struct {
		path, depth string
		want        int
	}{
		{Root, "0", 1}, {Root, "1", 2}, {Root, "infinity", 7}, {Root, "", 7},
		{p.home(), "1", 2}, {p.tasks(), "0", 1}, {p.tasks(), "1", 4}, {strings.TrimSuffix(p.tasks(), "/"), "1", 4}, {d.at(t, nell, "BH-1", "make"), "1", 1},
	} {
		w := d.ask(nell, "PROPFIND", c.path, "", "Depth", c.depth)
		if n := len(read(t, w.Body.String()).Responses); w.Code != 207 || n != c.want {
			t.Errorf("%s to the depth %q: got %d things, want %d", c.path, c.depth, n, c.want)
		}
	}
}

// Properties are not kept: each is refused by itself, never the request (RFC 4918, 9.2; at the top it makes
// one program give up).
func TestProppatch(t *testing.T) {
	d := stood(t)
	for _, path := range []string{tasksOf(nell), (&person{nell, idOf("Nell"), ""}).principal()} {
		w := d.ask(nell, "PROPPATCH", path, `<propertyupdate xmlns="DAV:" xmlns:A="http://apple.com/ns/ical/"><set><prop><displayname>Mine</displayname><A:calendar-color>#ff0000ff</A:calendar-color></prop></set><remove><prop><A:calendar-order/></prop></remove></propertyupdate>`)
		a := read(t, w.Body.String())
		if w.Code != 207 || len(a.Responses) != 1 || len(a.Responses[0].Propstats) != 1 || !strings.Contains(a.Responses[0].Propstats[0].Status, "403") || len(a.Responses[0].Propstats[0].Prop.Any) != 3 {
			t.Errorf("got %d: %s", w.Code, w.Body)
		}
	}
}

// The password is a writing token, and is asked for only where nobody on the way can read it.
func TestWhoIsLetIn(t *testing.T) {
	d := stood(t)
	outside := func(r *http.Request) { r.RemoteAddr = "192.0.2.7:1234" }
	tests := []struct {
		name   string
		who    address.Address
		change func(*http.Request)
		want   int
		asked  bool // for a password
	}{
		{"on this machine", nell, func(*http.Request) {}, 207, false},
		{"by IPv6", nell, func(r *http.Request) { r.RemoteAddr, r.Host = "[::1]:9", "[::1]:7379" }, 207, false},
		{"another name as user", address.Address{Person: "somebody@kitchen.example", Token: nell.Token}, func(*http.Request) {}, 207, false},
		{"space around the password", address.Address{Person: "Nell", Token: " " + nell.Token + "\n"}, func(*http.Request) {}, 207, false},
		{"https from elsewhere", nell, func(r *http.Request) { outside(r); r.TLS = &tls.ConnectionState{} }, 207, false},
		{"no password", address.Address{}, func(*http.Request) {}, 401, true},
		{"a wrong one", address.Address{Person: "Nell", Token: strings.Repeat("x", 26)}, func(*http.Request) {}, 401, true},
		{"the page's token", address.Address{Person: "Nell", Token: strings.Repeat("p", 26)}, func(*http.Request) {}, 401, true},
		{"a calendar's own", address.Address{Person: "Nell", Token: strings.Repeat("r", 26)}, func(*http.Request) {}, 401, true},
		{"taken back", address.Address{Person: "Nell", Token: away}, func(*http.Request) {}, 401, true},
		{"another scheme", address.Address{}, func(r *http.Request) { r.Header.Set("Authorization", "Bearer "+nell.Token) }, 401, true},
		{"http from elsewhere", nell, outside, 403, false},
		{"http from elsewhere, no password", address.Address{}, outside, 403, false},
		{"http from elsewhere that says it is https", nell, func(r *http.Request) { outside(r); r.Header.Set("X-Forwarded-Proto", "https") }, 403, false},
		{"handed on for another name", nell, func(r *http.Request) { r.Host = "kitchen.example" }, 403, false},
		{"handed on, and was http", nell, func(r *http.Request) { r.Header.Set("X-Forwarded-Proto", "http") }, 403, false},
		{"handed on, and was https", nell, func(r *http.Request) { r.Host = "kitchen.example"; r.Header.Set("X-Forwarded-Proto", "https") }, 207, false},
		{"a page of another site", nell, func(r *http.Request) { r.Header.Set("Sec-Fetch-Site", "cross-site") }, 403, false},
		{"another origin", nell, func(r *http.Request) { r.Header.Set("Origin", "https://elsewhere.example") }, 403, false},
	}
	for _, c := range tests {
		w := httptest.NewRecorder()
		r := request(c.who, "PROPFIND", Root, "", "Depth", "0")
		c.change(r)
		d.ServeHTTP(w, r)
		if w.Code != c.want || (w.Header().Get("WWW-Authenticate") != "") != c.asked {
			t.Errorf("%s: got %d, asked %q: %s", c.name, w.Code, w.Header().Get("WWW-Authenticate"), w.Body)
		}
	}
	r := request(nell, "PROPFIND", Root, "", "Depth", "0")
	r.Host = "kitchen.example"
	if !hidden(r, true) {
		t.Error("handed on for a name that is reached by https: refused")
	}
}

// Wrong passwords are slowed down, from one address and for a minute; who has the right one is let in all the
// same. No more addresses are remembered than so many.
func TestWrongPasswords(t *testing.T) {
	d := stood(t)
	wrong := address.Address{Person: "Nell", Token: strings.Repeat("x", 26)}
	codes := map[int]int{}
	for range triesAMinute + 5 {
		codes[d.ask(wrong, "PROPFIND", Root, "").Code]++
	}
	if codes[401] != triesAMinute || codes[429] != 5 {
		t.Errorf("got %v, want %d times 401 and 5 times 429", codes, triesAMinute)
	}
	if w := d.ask(nell, "PROPFIND", Root, ""); w.Code != 207 {
		t.Errorf("the right one: got %d, want 207", w.Code)
	}
	d.now = d.now.Add(time.Minute)
	if w := d.ask(wrong, "PROPFIND", Root, ""); w.Code != 401 {
		t.Errorf("a minute later: got %d, want 401", w.Code)
	}
	for n := range 4 * mostRemotes {
		d.door.vain("192.0.2."+string(rune('a'+n%26))+strings.Repeat("b", n/26), d.now.Add(time.Duration(n)*time.Millisecond))
	}
	if n := len(d.door.tries); n > mostRemotes {
		t.Errorf("got %d addresses remembered, want at most %d", n, mostRemotes)
	}
}

// Before the first plan there is no empty collection, which would wipe what a program has.
func TestBeforeTheFirstPlan(t *testing.T) {
	d := stood(t)
	d.kitchen.plan = nil
	if w := d.ask(nell, "PROPFIND", tasksOf(nell), "", "Depth", "1"); w.Code != 503 || w.Header().Get("Retry-After") != "60" {
		t.Errorf("got %d, want 503 and when to ask again", w.Code)
	}
}

// Which work is a task: one's own with hands, not what others do; what has begun only while it is on or is to
// be answered; what is done as long as that is remembered; nothing of what is lost.
func TestWhichWorkIsATask(t *testing.T) {
	d := stood(t)
	if n := len(d.sync(t, nell, "").changed); n != 3 {
		t.Errorf("Nell: got %d tasks, want 3", n)
	}
	if n := len(d.sync(t, ivo, "").changed); n != 1 {
		t.Errorf("Ivo: got %d tasks, want 1", n)
	}
	d.kitchen.change(func(p *schedule.Plan) { p.Batches[0].Stages[0].Begun = true })
	d.now = deskNow.Add(90 * time.Minute) // while it is on
	if n := len(d.sync(t, nell, "").changed); n != 3 {
		t.Errorf("while it is on: got %d tasks, want 3", n)
	}
	d.now = deskNow.Add(4 * time.Hour)
	if n := len(d.sync(t, nell, "").changed); n != 2 {
		t.Errorf("when it has passed and nothing is asked: got %d tasks, want 2", n)
	}
	d.kitchen.told = toldOf(t, `asked`)
	if n := len(d.sync(t, nell, "").changed); n != 3 {
		t.Errorf("when it is to be answered: got %d tasks, want 3", n)
	}
	d.now = deskNow.Add(8 * 24 * time.Hour)
	if n := len(d.sync(t, nell, "").changed); n != 2 {
		t.Errorf("a week later: got %d tasks, want 2", n)
	}
	d.kitchen.told = toldOf(t, `done`)
	if n := len(d.sync(t, nell, "").changed); n != 3 {
		t.Errorf("when it is done: got %d tasks, want 3", n)
	}
	d.kitchen.change(func(p *schedule.Plan) { p.Past, p.Batches = p.Batches[:1], p.Batches[1:] })
	if n := len(d.sync(t, nell, "").changed); n != 3 {
		t.Errorf("when the batch is over: got %d tasks, want 3", n)
	}
	d.kitchen.told = toldOf(t, `lost`)
	if n := len(d.sync(t, nell, "").changed); n != 2 {
		t.Errorf("when the batch is lost: got %d tasks, want 2", n)
	}
}
