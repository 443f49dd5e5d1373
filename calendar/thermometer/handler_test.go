package thermometer

import (
	"errors"
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"ripeby/calendar/address"
	"ripeby/resources"
)

var now = time.Date(2027, 3, 16, 8, 2, 30, 0, time.UTC)

// desk keeps what it is handed.
type desk struct {
	book *address.Book
	err  error
	kept []reading
}

type reading struct {
	place string
	at    resources.Moment
	is    resources.MilliCelsius
}

func (d *desk) Book() *address.Book { return d.book }

func (d *desk) Keep(place string, at resources.Moment, is resources.MilliCelsius) error {
	if d.err == nil {
		d.kept = append(d.kept, reading{place, at, is})
	}
	return d.err
}

// stand is a handler with a fridge, and all that the tests move.
type stand struct {
	*Handler
	desk *desk
	said []string
	now  time.Time
	path string
}

func stood() *stand {
	book, _ := (&address.Book{}).Complete([]string{"Nell"}, "fridge", "room")
	s := &stand{desk: &desk{book: book}, now: now}
	s.Handler = New(s.desk, Options{Now: func() time.Time { return s.now }, Say: func(text string) { s.said = append(s.said, text) }})
	s.path = s.address(address.Thermometer).Path()
	return s
}

func (s *stand) address(kind address.Kind) address.Address {
	for _, a := range s.desk.book.Addresses {
		if a.Kind == kind {
			return a
		}
	}
	return address.Address{}
}

func (s *stand) send(method, path, body string) *httptest.ResponseRecorder {
	s.now = s.now.Add(time.Minute)
	r := httptest.NewRequest(method, "http://kitchen.example"+path, strings.NewReader(body))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded") // as curl -d says of anything
	w := httptest.NewRecorder()
	s.ServeHTTP(w, r)
	return w
}

// What a device may send, and what is made of it: by hand, 40.1 °F is (40.1-32)*5/9 = 4.5 °C exactly.
func TestReadingsThatAreTaken(t *testing.T) {
	s := stood()
	clock := func(at string) resources.Moment {
		m, err := time.Parse(time.RFC3339, at)
		if err != nil {
			t.Fatal(err)
		}
		return resources.MomentOf(m)
	}
	for _, c := range []struct {
		body string
		is   resources.MilliCelsius
		at   string // "" for now
	}{
		{"4.6", 4600, ""}, {"4,6", 4600, ""}, {" 4.6\r\n", 4600, ""}, {"\ufeff4.6", 4600, ""}, {"-0.5", -500, ""}, {"−0.5", -500, ""}, {"+4", 4000, ""},
		{"4.6 °C", 4600, ""}, {"4.6C", 4600, ""}, {"4.6 ℃", 4600, ""}, {"4.6 ° C", 4600, ""}, {"40.1 °F", 4500, ""}, {"40.1F", 4500, ""}, {"40,1 ℉", 4500, ""},
		{"-60", -60_000, ""}, {"100", 100_000, ""}, {"4.0625", 4063, ""}, {"-76 °F", -60_000, ""},
		{"temperature=4.6", 4600, ""}, {"temperature=40.1%20%C2%B0F&humidity=85", 4500, ""}, {"temperature=4.6 °C", 4600, ""}, {"temperature=%2B4.6&at=", 4600, ""},
		{`{"temperature": 4.6}`, 4600, ""}, {`{"temperature":"40.1 °F","humidity":{"a":[1]}}`, 4500, ""}, {` {"temperature": -4}`, -4000, ""}, {`{"temperature":4.6,"at":null}`, 4600, ""},
		{`{"temperature": 4.6, "at": "2027-03-15T23:10:59+01:00"}`, 4600, "2027-03-15T22:10:00Z"},
		{"temperature=4.6&at=2027-03-16T07:00:00Z", 4600, "2027-03-16T07:00:00Z"}, {"temperature=4.6&at=2027-03-16T08:00:00%2B01:00", 4600, "2027-03-16T07:00:00Z"},
		{"temperature=4.6&at=2027-03-16T08:00:00+01:00", 4600, "2027-03-16T07:00:00Z"}, // not escaped
		{"temperature=4.6&at=2027-03-10T09:00:00Z", 4600, "2027-03-10T09:00:00Z"},
	} {
		w := s.send("POST", s.path, c.body)
		want := resources.MomentOf(s.now)
		if c.at != "" {
			want = clock(c.at)
		}
		if w.Code != http.StatusNoContent || w.Body.Len() != 0 {
			t.Errorf("%q: got %d, %q", c.body, w.Code, w.Body)
			continue
		}
		if got := s.desk.kept[len(s.desk.kept)-1]; got != (reading{"fridge", want, c.is}) {
			t.Errorf("%q: got %v, want %v", c.body, got, reading{"fridge", want, c.is})
		}
	}
}

// What is not taken is refused in one line that says why, and nothing is kept.
func TestReadingsThatAreRefused(t *testing.T) {
	s := stood()
	for _, c := range []struct {
		body   string
		status int
		want   string
	}{
		{"", 400, "Nothing was sent"}, {" \n", 400, "Nothing was sent"}, {"nan", 400, `"nan" is no temperature`}, {"NaN", 400, "no temperature"}, {"inf", 400, "no temperature"}, {"1e1", 400, "no temperature"},
		{"0x10", 400, "no temperature"}, {"4.6.1", 400, "no temperature"}, {"4 6", 400, "no temperature"}, {"--4", 400, "no temperature"}, {"4.6 K", 400, "no temperature"}, {"4.6 °CF", 400, "no temperature"},
		{"<script>alert(1)</script>", 400, "no temperature"}, {"4.6\n4.7", 400, "no temperature"}, {"4.6\x00", 400, "not text"}, {"4.6 \xb0C", 400, "not text"}, {strings.Repeat("9", 900), 400, "…"},
		{"-60.1", 422, "colder than -60 °C"}, {"-127", 422, "see to the thermometer"}, {"100.5", 422, "warmer than 100 °C"}, {"999999", 422, "warmer than"}, {"213 °F", 422, "warmer than"},
		{"temp=4.6", 400, "field temperature once"}, {"temperature=4.6&temperature=5", 400, "field temperature once"}, {"temperature=%zz", 400, "form cannot be read"}, {"temperature=", 400, `"" is no temperature`},
		{"temperature=4.6;at=x", 400, "form cannot be read"}, {"temperature=4.6&at=1805184120", 400, "write it as 2027-03-16T08:02:00Z"}, {"temperature=4.6&at=2027-03-16 08:02", 400, "write it as"},
		{"temperature=4.6&at=2027-03-16T09:30:00Z", 422, "more than 10 minutes ahead"}, {"temperature=4.6&at=2027-03-09T08:02:00Z", 422, "more than 7 days ago"}, {"temperature=4.6&at=9999-12-31T23:59:59Z", 422, "ahead"}, {"temperature=4.6&at=0001-01-01T00:00:00Z", 422, "7 days ago"},
		{"{", 400, "JSON cannot be read"}, {"{}", 400, "key temperature"}, {`{"temperature": null}`, 400, "no temperature"}, {`{"temperature": [4.6]}`, 400, "key temperature"}, {`{"temperature": 4.6} {}`, 400, "JSON cannot be read"},
		{`{"temperature": 1e400}`, 400, "no temperature"}, {`{"temperature": true}`, 400, "key temperature"}, {`{"temperature": 4.6, "at": 5}`, 400, "JSON cannot be read"}, {strings.Repeat("[", 1000), 400, "no temperature"},
		{`{"temperature":` + strings.Repeat("[", 900), 400, "JSON cannot be read"}, {strings.Repeat("4", 2000), 413, "no larger than 1024 bytes"},
	} {
		w := s.send("POST", s.path, c.body)
		text := w.Body.String()
		if w.Code != c.status || !strings.Contains(text, c.want) || strings.Count(text, "\n") != 1 || len(text) > 250 || w.Header().Get("Content-Type") != "text/plain; charset=utf-8" {
			t.Errorf("%.40q: got %d, %q, want %d and %q", c.body, w.Code, text, c.status, c.want)
		}
	}
	if len(s.desk.kept) != 0 || len(s.said) != 0 {
		t.Errorf("kept %v, said %q", s.desk.kept, s.said)
	}
}

// The address of a place is a key that opens that alone, and can be taken back; no other key posts.
func TestKeys(t *testing.T) {
	s := stood()
	for _, kind := range []address.Kind{address.Everything, address.OnePerson, address.ColdPlaces, address.Page, address.Writing} {
		if w := s.send("POST", Root+s.address(kind).Token, "4.6"); w.Code != 404 {
			t.Errorf("the key of %s: got %d, want 404", kind, w.Code)
		}
	}
	for _, path := range []string{Root, Root + "x", Root + address.NewToken(), s.path + "/", s.path + "/x", "/t" + s.path, strings.ToUpper(s.path)} {
		if w := s.send("POST", path, "4.6"); w.Code != 404 {
			t.Errorf("%s: got %d, want 404", path, w.Code)
		}
	}
	for _, method := range []string{"GET", "HEAD"} {
		if w := s.send(method, s.path, ""); w.Code != 200 || method == "GET" && w.Body.String() != "A thermometer posts here. Send the temperature alone in °C, such as: curl -d 4.6 URL\n" {
			t.Errorf("%s: got %d, %q", method, w.Code, w.Body)
		}
	}
	for _, method := range []string{"PUT", "DELETE", "OPTIONS", "PATCH"} {
		if w := s.send(method, s.path, "4.6"); w.Code != 405 || w.Header().Get("Allow") != "GET, HEAD, POST" {
			t.Errorf("%s: got %d", method, w.Code)
		}
	}
	if len(s.desk.kept) != 0 {
		t.Errorf("kept %v", s.desk.kept)
	}
	old := s.path
	renewed, labels := s.desk.book.Renew("thermometer: fridge")
	if len(labels) != 1 {
		t.Errorf("got %v taken back", labels)
	}
	s.desk.book, _ = renewed.Complete([]string{"Nell"}, "fridge", "room")
	if w := s.send("POST", old, "4.6"); w.Code != 410 || !strings.Contains(w.Body.String(), "taken back") {
		t.Errorf("taken back: got %d, %q", w.Code, w.Body)
	}
	for _, a := range s.desk.book.Addresses {
		if a.Kind == address.Thermometer {
			if w := s.send("POST", a.Path(), "4.6"); w.Code != 204 || s.desk.kept[len(s.desk.kept)-1].place != a.Place {
				t.Errorf("the new one of %s: got %d", a.Place, w.Code)
			}
		}
	}
}

// A thermometer that posts without end is held up, and no other with it. What is said of it comes with when.
func TestPace(t *testing.T) {
	s := stood()
	clock := s.now
	at := func(path string, after time.Duration) *httptest.ResponseRecorder {
		s.now = clock.Add(after - time.Minute)
		return s.send("POST", path, "4.6")
	}
	for i := range postsAMinute {
		if w := at(s.path, time.Duration(i)*time.Second/2); w.Code != 204 {
			t.Fatalf("the %d-th: got %d", i+1, w.Code)
		}
	}
	if w := at(s.path, 30*time.Second); w.Code != 429 || w.Header().Get("Retry-After") != "31" {
		t.Errorf("one more: got %d, again after %q s", w.Code, w.Header().Get("Retry-After"))
	}
	for _, a := range s.desk.book.Addresses {
		if a.Place == "room" {
			if w := at(a.Path(), 30*time.Second); w.Code != 204 {
				t.Errorf("another: got %d", w.Code)
			}
		}
	}
	if w := at(s.path, time.Minute); w.Code != 204 {
		t.Errorf("a minute later: got %d", w.Code)
	}
}

// What cannot be kept is a fault of the server, to be tried again, and told once until it can.
func TestWhatCannotBeKept(t *testing.T) {
	s := stood()
	full := errors.New("no space left on device")
	for i, c := range []struct {
		err    error
		status int
		said   int
	}{{ErrLater, 503, 0}, {full, 500, 1}, {full, 500, 1}, {ErrLater, 503, 1}, {full, 500, 1}, {nil, 204, 1}, {full, 500, 2}} {
		s.desk.err = c.err
		w := s.send("POST", s.path, "4.6")
		if w.Code != c.status || len(s.said) != c.said || (w.Header().Get("Retry-After") == "") != (c.err == nil) {
			t.Errorf("%d: got %d and said %q, want %d and %d lines", i, w.Code, s.said, c.status, c.said)
		}
		if strings.Contains(w.Body.String(), "device") {
			t.Errorf("it tells of the machine: %q", w.Body)
		}
	}
}

// A body that ends before it should, and one of unknown length, over a connection.
func TestOverAConnection(t *testing.T) {
	s := stood()
	server := httptest.NewServer(s)
	defer server.Close()
	answer, err := http.Post(server.URL+s.path, "text/plain", io.MultiReader(strings.NewReader("4"), strings.NewReader(".6"))) // chunked
	if err != nil {
		t.Fatal(err)
	}
	answer.Body.Close()
	if answer.StatusCode != 204 || len(s.desk.kept) != 1 || s.desk.kept[0].is != 4600 {
		t.Errorf("got %d, kept %v", answer.StatusCode, s.desk.kept)
	}
	endless := io.LimitReader(zeros{}, 1<<20)
	if answer, err := http.Post(server.URL+s.path, "text/plain", endless); err == nil {
		answer.Body.Close()
		if answer.StatusCode != 413 {
			t.Errorf("a large one: got %d, want 413", answer.StatusCode)
		}
	}
}

// zeros never ends.
type zeros struct{}

func (zeros) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = '0'
	}
	return len(p), nil
}
