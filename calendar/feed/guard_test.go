package feed

import (
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"

	"ripeby/calendar/address"
)

// Only GET and HEAD are answered, whether or not there is something at the address.
func TestOtherMethods(t *testing.T) {
	s := stood(t, sampleMade(t, 2))
	for _, path := range []string{s.address(t, "Nell").Path(), "/f/unknown.ics", "/", "/health", s.address(t, "page").Path()} {
		for _, method := range []string{"POST", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT", "PROPFIND", "REPORT", "get", ""} {
			r := httptest.NewRequest("GET", "http://127.0.0.1:7379"+path, nil)
			r.Method = method
			w := httptest.NewRecorder()
			s.ServeHTTP(w, r)
			if w.Code != 405 || header(w, "Allow") != "GET, HEAD" {
				t.Errorf("%s %s: got %d, Allow %q; want 405, GET, HEAD", method, path, w.Code, header(w, "Allow"))
			}
		}
	}
}

// A token leads to what it is for and to nothing else; one that was taken back is
// told apart from one that never was.
func TestTokens(t *testing.T) {
	s := stood(t, sampleMade(t, 2))
	nell, page := s.address(t, "Nell").Token, s.address(t, "page").Token
	book, labels := s.board.Load().book.Renew("Ivo")
	ivo := s.address(t, "Ivo").Token
	if len(labels) != 2 {
		t.Fatalf("got %v taken back, want Ivo's calendar and the address that he writes at", labels)
	}
	if err := book.Keep(s.files); err != nil {
		t.Fatal(err)
	}
	s = stoodOn(t, sampleMade(t, 2), s.files, s.clock)
	tests := []struct {
		name, path string
		want       int
	}{
		{"a calendar", "/f/" + nell + ".ics", 200},
		{"a calendar in capitals", "/f/" + strings.ToUpper(nell) + ".ics", 404},
		{"a calendar without its end", "/f/" + nell, 404},
		{"a calendar, less a letter", "/f/" + nell[:len(nell)-1] + ".ics", 404},
		{"a calendar, escaped", "/f/%" + "6" + "6" + nell[1:] + ".ics", map[bool]int{true: 200, false: 404}[nell[0] == 'f']},
		{"a page's address as a calendar", "/f/" + page + ".ics", 404},
		{"a calendar's address as a page", "/p/" + nell + "/", 404},
		{"the page", "/p/" + page + "/", 200},
		{"the page without its slash", "/p/" + page, 200},
		{"below the page", "/p/" + page + "/nothing", 404},
		{"a batch on the page", "/p/" + page + "/batch/BH-1", 200},
		{"no batch on the page", "/p/" + page + "/batch/BH-9", 404},
		{"a batch of a page as of a calendar", "/s/" + page + "/batch/BH-1", 404},
		{"a calendar's own key as that of sheets", "/s/" + nell + "/batch/BH-1", 404},
		{"the key of sheets as a calendar's", "/f/" + s.address(t, "Nell").SheetKey() + ".ics", 404},
		{"the key of sheets as a page's", "/p/" + s.address(t, "Nell").SheetKey() + "/", 404},
		{"taken back", "/f/" + ivo + ".ics", 410},
		{"taken back, a batch", address.Address{Token: ivo}.SheetsPath() + "BH-1", 404},
		{"Ivo's new one", s.address(t, "Ivo").Path(), 200},
		{"no token", "/f/.ics", 404},
		{"the digest for the token", "/f/" + strings.Repeat("a", 64) + ".ics", 404},
		{"nothing", "/", 404},
		{"health", "/health", 200},
		{"version", "/version", 200},
		{"robots", "/robots.txt", 200},
		{"style", "/assets/style.css", 200},
		{"a template", "/assets/page.html", 404},
		{"no asset", "/assets/nothing.css", 404},
	}
	for _, c := range tests {
		if w := s.ask("GET", c.path); w.Code != c.want {
			t.Errorf("%s: got %d, want %d", c.name, w.Code, c.want)
		}
	}
}

// The host of a request must be one that the server is known by: a page elsewhere
// whose name points here is told nothing.
func TestHosts(t *testing.T) {
	local := Site{Root: "http://127.0.0.1:7379", Loopback: true}
	wide := Site{Root: "https://kitchen.example", Names: []string{"larder", "larder.local"}}
	tests := []struct {
		site Site
		host string
		want bool
	}{
		{local, "127.0.0.1:7379", true}, {local, "127.0.0.1", true}, {local, "127.8.8.8:1", true}, {local, "localhost:7379", true},
		{local, "LOCALHOST", true}, {local, "localhost.", true}, {local, "[::1]:7379", true}, {local, "[::1]", true}, {local, "[::ffff:127.0.0.1]:7379", true},
		{local, "evil.example:7379", false}, {local, "192.168.1.7:7379", false}, {local, "127.0.0.1.evil.example", false}, {local, "localhost.evil.example", false},
		{local, "", false}, {local, "larder", false}, {local, "0.0.0.0:7379", false},
		{wide, "kitchen.example", true}, {wide, "kitchen.example:443", true}, {wide, "Kitchen.Example", true}, {wide, "larder:7379", true}, {wide, "larder.local", true},
		{wide, "192.168.1.7:7379", true}, {wide, "[fe80::1]:7379", true}, {wide, "evil.example", false}, {wide, "evil.kitchen.example", false}, {wide, "", false},
	}
	for _, c := range tests {
		if got := c.site.Knows(c.host); got != c.want {
			t.Errorf("%s for %q: got %v, want %v", c.site.Root, c.host, got, c.want)
		}
	}
	s := stood(t, sampleMade(t, 2))
	r := httptest.NewRequest("GET", "http://evil.example"+s.address(t, "Nell").Path(), nil)
	w := httptest.NewRecorder()
	s.ServeHTTP(w, r)
	if w.Code != http.StatusMisdirectedRequest || strings.Contains(w.Body.String(), "VCALENDAR") {
		t.Errorf("got %d, want 421 and no calendar", w.Code)
	}
}

// No path leads outside, however it is written; none is redirected.
func TestPathsThatTraverse(t *testing.T) {
	s := stood(t, sampleMade(t, 2))
	page := s.address(t, "page").Token
	for _, path := range []string{
		"/../plan.json", "/assets/../page.html", "/assets/..%2fpage.html", "/assets/%2e%2e/%2e%2e/go.mod", "/assets/%2e%2e%5cgo.mod",
		"/assets/..\\..\\go.mod", "/assets//style.css", "//assets/style.css", "/./health", "/health/..", "/assets/style.css%00.html",
		"/p/" + page + "/../../addresses.json", "/p/" + page + "/batch/..%2f..%2faddresses.json", "/p/" + page + "/batch/%2e%2e", "/p//" + page,
		"/f/" + page + ".ics/../x", "/%2e%2e/%2e%2e/%2e%2e/etc/hosts", "/a/b/c/d/e/f/g/h/i/j", "/assets/%ff", "/assets/a%0d%0aX: y", "/assets/....//style.css",
	} {
		for _, method := range []string{"GET", "HEAD"} {
			r := httptest.NewRequest(method, "http://127.0.0.1:7379/", nil)
			raw, err := url.PathUnescape(path)
			if err != nil {
				t.Fatal(err)
			}
			r.URL = &url.URL{Path: raw, RawPath: path}
			w := httptest.NewRecorder()
			s.ServeHTTP(w, r)
			if w.Code != 404 {
				t.Errorf("%s %q: got %d, want 404", method, path, w.Code)
			}
		}
	}
}

// A request with a body is refused before it is read.
func TestBodiesAreRefused(t *testing.T) {
	s := stood(t, sampleMade(t, 2))
	for _, length := range []int64{1, 1 << 40, -1} { // -1: sent in pieces, of no known length
		r := httptest.NewRequest("GET", "http://127.0.0.1:7379"+s.address(t, "Nell").Path(), unread{t})
		r.ContentLength = length
		w := httptest.NewRecorder()
		s.ServeHTTP(w, r)
		if w.Code != http.StatusRequestEntityTooLarge || header(w, "Connection") != "close" {
			t.Errorf("length %d: got %d, Connection %q; want 413, close", length, w.Code, header(w, "Connection"))
		}
	}
}

// unread is a body that must not be read.
type unread struct{ t *testing.T }

func (u unread) Read([]byte) (int, error) {
	u.t.Error("the body was read")
	return 0, http.ErrBodyReadAfterClose
}

// Every answer, whatever it is, keeps addresses out of Referer, indexes and frames.
func TestEveryAnswerIsGuarded(t *testing.T) {
	s := stood(t, sampleMade(t, 2))
	for _, path := range []string{"/", "/health", "/version", "/robots.txt", "/assets/style.css", "/f/x.ics", s.address(t, "Nell").Path(), s.address(t, "page").Path(), "/p/" + s.address(t, "page").Token + "/batch/BH-1"} {
		for _, method := range []string{"GET", "POST"} {
			w := s.ask(method, path)
			for name, want := range map[string]string{"Referrer-Policy": "no-referrer", "X-Content-Type-Options": "nosniff", "X-Frame-Options": "DENY",
				"X-Robots-Tag": "noindex, nofollow, noarchive", "Content-Security-Policy": policy, "Server": "", "Set-Cookie": "", "Access-Control-Allow-Origin": ""} {
				if got := header(w, name); got != want {
					t.Errorf("%s %s: %s: got %q, want %q", method, path, name, got, want)
				}
			}
		}
	}
	if strings.Contains(policy, "unsafe") || strings.Contains(policy, "http:") || strings.Contains(policy, "*") {
		t.Errorf("the policy lets too much in: %s", policy)
	}
}

// A page holds no script or style of its own, which the policy would stop, and shows
// names as text.
func TestPageObeysItsPolicy(t *testing.T) {
	s, _ := spoken(t)
	for _, path := range []string{s.address(t, "page").Path(), "/p/" + s.address(t, "page").Token + "/batch/BH-1", s.writes(t, "Nell").Path()} {
		body := s.ask("GET", path).Body.String()
		for _, never := range []string{"<script>", "<style", " style=", " onclick=", "javascript:", "<Lane>", "ZgotmplZ"} {
			if strings.Contains(body, never) {
				t.Errorf("%s holds %q", path, never)
			}
		}
	}
	page := s.ask("GET", s.address(t, "page").Path()+"calendars").Body.String()
	for _, a := range s.board.Load().book.Addresses {
		if shown := strings.Contains(page, a.Token); a.Kind == address.Writing && shown {
			t.Errorf("the page shows the address that %s writes at", a.Label())
		}
		if a.Kind == address.OnePerson {
			if strings.Contains(page, a.Token) {
				t.Errorf("the page shows the key of %s", a.Label())
			}
			own := s.ask("GET", s.writes(t, a.Person).Path()+"calendars").Body.String()
			for _, o := range s.board.Load().book.Addresses {
				if own := strings.Contains(own, "webcal://127.0.0.1:7379"+o.Path()); own != (o.Kind == address.Everything || o.Kind == address.ColdPlaces || o == a) {
					t.Errorf("on the page that %s writes on: got the key of %s %v", a.Person, o.Label(), own)
				}
			}
			continue
		}
		if a.Kind.IsCalendar() && (!strings.Contains(page, `href="webcal://127.0.0.1:7379`+a.Path()+`"`) || !strings.Contains(page, "http://127.0.0.1:7379"+a.Path())) {
			t.Errorf("the page does not show the address for %s in both forms", a.Label())
		}
	}
}

// A panic in a page is an answer, and told without the address.
func TestPanicIsAnAnswer(t *testing.T) {
	s := stood(t, sampleMade(t, 2))
	s.change(func(b *board) { b.made = &Made{Problem: nil, Plan: b.made.Plan} })
	page := s.address(t, "page")
	w := s.ask("GET", page.Path())
	if w.Code != 500 || header(w, "ETag") != "" || !strings.Contains(s.said.String(), "a fault of ripeby") || strings.Contains(s.said.String(), page.Token) {
		t.Errorf("got %d, tag %q, and it said\n%s", w.Code, header(w, "ETag"), s.said)
	}
}

// FuzzPath asks for any path. What answers with more than an error is one of the
// addresses that there are, written plainly or escaped; nothing is redirected.
func FuzzPath(f *testing.F) {
	s := stood(f, sampleMade(f, 2))
	known := map[string]bool{"health": true, "version": true, "robots.txt": true, "assets/style.css": true}
	for _, a := range s.board.Load().book.Addresses {
		known[strings.Trim(a.Path(), "/")] = true
		for _, id := range []string{"BH-1", "BH-2"} {
			known[strings.Trim(a.SheetsPath(), "/")+"/"+id] = a.Kind.IsCalendar()
			if !a.Kind.IsCalendar() {
				known[strings.Trim(a.Path(), "/")+"/batch/"+id] = true
			}
		}
		f.Add(a.Path())
		f.Add("/%66/" + a.Token + ".ics")
		f.Add(a.SheetsPath() + "BH-1")
		f.Add("/w/" + a.Token + "/say")
		f.Add("/p/" + a.Token + "/batch/%42H-2/")
		f.Add(a.Path() + "/../x")
	}
	for _, path := range []string{"/", "", "*", "/health", "/assets/style.css", "/f/x.ics", "/p/%2e%2e/x", "/f/\x00.ics", "/%"} {
		f.Add(path)
	}
	f.Fuzz(func(t *testing.T, path string) {
		r := httptest.NewRequest("GET", "http://127.0.0.1:7379/", nil)
		u, err := url.ParseRequestURI(path) // as net/http takes a request's target
		if err != nil {
			return
		}
		r.URL, r.Host = u, "127.0.0.1:7379"
		w := httptest.NewRecorder()
		s.ServeHTTP(w, r)
		plain := strings.Trim(u.Path, "/")
		switch {
		case w.Code == 404:
		case w.Code == 303 && known[strings.TrimSuffix(plain, "/say")]: // where only forms are sent to
		case w.Code != 200:
			t.Errorf("%q: got %d, want 200 or 404", path, w.Code)
		case !known[plain]:
			t.Errorf("%q: got 200 for %q, which is no address", path, plain)
		}
	})
}
