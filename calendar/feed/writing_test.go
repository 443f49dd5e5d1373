package feed

import (
	"errors"
	"fmt"
	"net/http/httptest"
	"net/url"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"ripeby/calendar/address"
	"ripeby/calendar/said"
	"ripeby/resources"
)

// spoken is a stand to which Nell and Ivo may say something, and what was said.
func spoken(t *testing.T) (s *stand, taken *[]said.Saying) {
	t.Helper()
	taken = &[]said.Saying{}
	s = stood(t, sampleMade(t, 2))
	s.kitchen.change(func(k *kitchenAt) {
		k.told = &said.Told{Last: 7}
		k.say = func(x said.Saying) (said.Heard, error) {
			*taken = append(*taken, x)
			return said.Heard{Nr: 8}, nil
		}
	})
	s.hear()
	return s, taken
}

// writes is the address that somebody writes at.
func (s *stand) writes(t *testing.T, person string) address.Address {
	t.Helper()
	for _, a := range s.board.Load().book.Addresses {
		if a.Kind == address.Writing && a.Person == person {
			return a
		}
	}
	t.Fatalf("%s has no address to write at", person)
	return address.Address{}
}

var (
	oneForm   = regexp.MustCompile(`(?s)<form class="say".*?</form>`)
	oneHidden = regexp.MustCompile(`<input type="hidden" name="([^"]+)" value="([^"]*)">`)
	oneInput  = regexp.MustCompile(`<input[^>]* name="([^"]+)" value="([^"]*)"`)
	oneButton = regexp.MustCompile(`name="say" value="([^"]+)"`)
)

// forms are a page's forms: their hidden fields, and the button asked for where a form has it.
func forms(page, button string) (all []url.Values) {
	for _, form := range oneForm.FindAllString(page, -1) {
		values := url.Values{}
		for _, m := range oneHidden.FindAllStringSubmatch(form, -1) {
			values.Set(m[1], strings.NewReplacer("&#43;", "+", "&amp;", "&", "&lt;", "<", "&#34;", `"`).Replace(m[2]))
		}
		for _, m := range oneButton.FindAllStringSubmatch(form, -1) {
			if m[1] == button {
				values.Set("say", button)
				all = append(all, values)
				break
			}
		}
	}
	return all
}

// form is the first form of a page that has a button.
func form(t *testing.T, page, button string) url.Values {
	t.Helper()
	all := forms(page, button)
	if len(all) == 0 {
		t.Fatalf("there is no form with %q on the page:\n%s", button, page)
	}
	return all[0]
}

// Only an address to write at has forms, and only its own person's word is written.
func TestFormsWhereSomebodyWrites(t *testing.T) {
	s, taken := spoken(t)
	nell := s.writes(t, "Nell")
	for _, path := range []string{s.address(t, "page").Path(), s.address(t, "page").Path() + "week", nell.Path() + "week"} {
		if page := s.ask("GET", path).Body.String(); strings.Contains(page, "<form") {
			t.Errorf("%s has a form", path)
		}
	}
	page := s.ask("GET", nell.Path())
	if got := header(page, "Content-Security-Policy"); got != writingPolicy || !strings.Contains(got, "form-action 'self'") {
		t.Errorf("got the policy %q, want forms to be sent here", got)
	}
	f := form(t, page.Body.String(), "did")
	f.Set("who", "Ivo") // nobody asked
	w := s.send(nell.Path()+"say", f.Encode())
	if w.Code != 303 || header(w, "Location") != nell.Path() || header(w, "Cache-Control") != "no-store" {
		t.Errorf("got %d to %q, want 303 to the page", w.Code, header(w, "Location"))
	}
	want := said.Saying{Verb: "did", Words: []string{"BH-1", "make"}, Options: map[string]string{}, Who: "Nell", Once: f.Get("key") + "-did"}
	if len(*taken) != 1 || !reflect.DeepEqual((*taken)[0], want) {
		t.Errorf("got %+v, want %+v", *taken, want)
	}
	if w := s.ask("GET", nell.Path()+"say"); w.Code != 303 || len(*taken) != 1 {
		t.Errorf("the answer loaded again: got %d and %d words, want 303 and nothing written", w.Code, len(*taken))
	}
}

// What is filled in goes with the button that is tapped, and with no other.
func TestWhatAFormSays(t *testing.T) {
	s, taken := spoken(t)
	nell := s.writes(t, "Nell")
	page := s.ask("GET", nell.Path()).Body.String()
	for _, x := range []struct {
		button string
		filled url.Values
		want   said.Saying
	}{
		{"did", url.Values{"pieces": {"14"}, "at": {"08:10"}, "note": {" soft "}, "measured": {"pH 4.5"}},
			said.Saying{Verb: "did", Words: []string{"BH-1", "make"}, Options: map[string]string{"pieces": "14", "measured": "pH 4.5"}, At: "08:10", Note: "soft"}},
		{"pieces", url.Values{"pieces": {"14"}}, said.Saying{Verb: "pieces", Words: []string{"BH-1", "14"}, Options: map[string]string{}}},
		{"measured", url.Values{"measured": {"pH 4.5"}}, said.Saying{Verb: "measured", Words: []string{"BH-1", "pH 4.5"}, Options: map[string]string{}}},
		{"note", url.Values{"note": {"it hums"}}, said.Saying{Verb: "note", Words: []string{"it hums"}, Options: map[string]string{"batch": "BH-1"}}},
		{"lost", url.Values{"why": {"a fall"}}, said.Saying{Verb: "lost", Words: []string{"BH-1"}, Options: map[string]string{"why": "a fall"}}},
	} {
		f := form(t, page, x.button)
		for name, v := range x.filled {
			f[name] = v
		}
		*taken = nil
		x.want.Who, x.want.Once = "Nell", f.Get("key")+"-"+x.button
		w := s.send(nell.Path()+"say", f.Encode())
		if x.button == "lost" { // a batch is lost when it was asked whether it is
			if w.Code != 422 || len(*taken) != 0 || !strings.Contains(w.Body.String(), "Is it so?") {
				t.Errorf("lost: got %d and %v, want it asked", w.Code, *taken)
			}
			f.Set("again", "yes")
			x.want.Again = true
			w = s.send(nell.Path()+"say", f.Encode())
		}
		if len(*taken) == 1 && strings.HasPrefix((*taken)[0].Once, x.want.Once) { // of what is typed there may be more than one
			x.want.Once = (*taken)[0].Once
		}
		if w.Code != 303 || len(*taken) != 1 || !reflect.DeepEqual((*taken)[0], x.want) {
			t.Errorf("%s: got %d and %+v, want 303 and %+v", x.button, w.Code, *taken, x.want)
		}
	}
	for _, button := range []string{"pieces", "measured", "note"} {
		*taken = nil
		if w := s.send(nell.Path()+"say", form(t, page, button).Encode()); w.Code != 422 || len(*taken) > 0 || !strings.Contains(w.Body.String(), "is to be filled in") {
			t.Errorf("%s with nothing filled in: got %d and %v, want it asked for", button, w.Code, *taken)
		}
	}
}

// Nothing is written for who is not the one on the page: from another site, with another's key, with
// what was not drawn, too large, or at an address to read at.
func TestHostileForms(t *testing.T) {
	s, taken := spoken(t)
	nell, ivo := s.writes(t, "Nell"), s.writes(t, "Ivo")
	good := form(t, s.ask("GET", nell.Path()).Body.String(), "did")
	other := func(name, value string) string {
		f, _ := url.ParseQuery(good.Encode())
		f.Set(name, value)
		return f.Encode()
	}
	large := "note=" + strings.Repeat("x", mostForm)
	for _, x := range []struct {
		what, path, body string
		headers          []string
		want             int
	}{
		{"from another site", nell.Path() + "say", good.Encode(), []string{"Sec-Fetch-Site: cross-site"}, 403},
		{"from another origin", nell.Path() + "say", good.Encode(), []string{"Origin: https://elsewhere.example"}, 403},
		{"from nowhere", nell.Path() + "say", good.Encode(), []string{"Origin: null"}, 403},
		{"for another host", nell.Path() + "say", good.Encode(), []string{"X-Host: evil.example"}, 421},
		{"with a key of another's page", ivo.Path() + "say", good.Encode(), nil, 422},
		{"with another key", nell.Path() + "say", other("key", strings.Repeat("a", 24)), nil, 422},
		{"of another batch", nell.Path() + "say", other("batch", "BH-2"), nil, 422},
		{"of another stage", nell.Path() + "say", other("stage", "pack"), nil, 422},
		{"taking back instead", nell.Path() + "say", other("nr", "7"), nil, 422},
		{"another verb", nell.Path() + "say", other("say", "closed"), nil, 422},
		{"no verb", nell.Path() + "say", other("say", ""), nil, 422},
		{"a field twice", nell.Path() + "say", good.Encode() + "&key=b", nil, 400},
		{"too many fields", nell.Path() + "say", good.Encode() + manyFields(), nil, 400},
		{"too large", nell.Path() + "say", large, nil, 413},
		{"no form", nell.Path() + "say", `{"say":"did"}`, []string{"Content-Type: application/json"}, 400},
		{"a form of parts", nell.Path() + "say", good.Encode(), []string{"Content-Type: multipart/form-data; boundary=x"}, 400},
		{"broken", nell.Path() + "say", "key=%zz", nil, 400},
		{"at the page", s.address(t, "page").Path() + "say", good.Encode(), nil, 405},
		{"at the page's token", "/w/" + s.address(t, "page").Token + "/say", good.Encode(), nil, 404},
		{"at a calendar's token", "/w/" + s.address(t, "Nell").Token + "/say", good.Encode(), nil, 404},
		{"at no token", "/w/" + address.NewToken() + "/say", good.Encode(), nil, 404},
		{"below", nell.Path() + "say/more", good.Encode(), nil, 405},
		{"beside", nell.Path() + "x/../say", good.Encode(), nil, 405},
		{"escaped", nell.Path() + "%2e%2e/say", good.Encode(), nil, 405},
		{"at the page itself", nell.Path(), good.Encode(), nil, 405},
	} {
		headers := x.headers
		r := httptest.NewRequest("POST", "http://127.0.0.1:7379/", strings.NewReader(x.body))
		r.URL, _ = r.URL.Parse(x.path)
		if strings.Contains(x.path, "..") || strings.Contains(x.path, "%2e") {
			r.URL = &url.URL{Path: x.path, RawPath: x.path}
		}
		r.Host = "127.0.0.1:7379"
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		for _, h := range headers {
			name, value, _ := strings.Cut(h, ": ")
			if name == "X-Host" {
				r.Host = value
				continue
			}
			r.Header.Set(name, value)
		}
		w := httptest.NewRecorder()
		s.ServeHTTP(w, r)
		if w.Code != x.want {
			t.Errorf("%s: got %d, want %d", x.what, w.Code, x.want)
		}
	}
	r := httptest.NewRequest("POST", "http://127.0.0.1:7379"+nell.Path()+"say", strings.NewReader(good.Encode()))
	r.Host, r.ContentLength = "127.0.0.1:7379", -1
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	w := httptest.NewRecorder()
	if s.ServeHTTP(w, r); w.Code != 413 {
		t.Errorf("of no known size: got %d, want 413", w.Code)
	}
	if len(*taken) != 0 {
		t.Errorf("got %+v written, want nothing", *taken)
	}
}

// manyFields are more than a form has.
func manyFields() string {
	var b strings.Builder
	for i := range mostFields + 1 {
		fmt.Fprintf(&b, "&f%d=1", i)
	}
	return b.String()
}

// What is refused is told with why and what to do; what is only asked about can be said again as it
// was; and what another has said is told.
func TestRefusedOnThePage(t *testing.T) {
	s, taken := spoken(t)
	nell := s.writes(t, "Nell")
	f := form(t, s.ask("GET", nell.Path()).Body.String(), "pieces")
	f.Set("pieces", "99 <b>")
	for _, x := range []struct {
		what  string
		heard said.Heard
		err   error
		want  int
		text  string
		again bool
	}{
		{"refused", said.Heard{}, &said.Refusal{Lines: []string{"99 pieces <b> are more than 16"}}, 422, "99 pieces &lt;b&gt; are more than 16", false},
		{"asked", said.Heard{}, &said.Refusal{Lines: []string{"99 are more than 16"}, Asked: true}, 422, "99 are more than 16", true},
		{"said by another", said.Heard{}, &said.Refusal{Lines: []string{"It was said already: Ivo"}, Said: true}, 409, "It was said already: Ivo", false},
		{"said otherwise with the same form", said.Heard{Nr: 3, Before: true, Other: "pieces: 14"}, nil, 409, "take that back first", false},
		{"busy", said.Heard{}, said.ErrBusy, 503, "Say it once more", false},
		{"perhaps written", said.Heard{}, errors.New("the disk is full, /secret/place"), 500, "It may not have been written", false},
	} {
		s.kitchen.change(func(k *kitchenAt) {
			k.say = func(u said.Saying) (said.Heard, error) { *taken = append(*taken, u); return x.heard, x.err }
		})
		w := s.send(nell.Path()+"say", f.Encode())
		body := w.Body.String()
		if w.Code != x.want || !strings.Contains(body, x.text) || strings.Contains(body, "/secret") || strings.Contains(body, "It is so") != x.again {
			t.Errorf("%s: got %d, want %d with %q:\n%s", x.what, w.Code, x.want, x.text, body)
		}
		if x.again {
			again := url.Values{}
			for _, m := range oneInput.FindAllStringSubmatch(body, -1) {
				again.Set(m[1], strings.NewReplacer("&lt;", "<", "&gt;", ">").Replace(m[2]))
			}
			again.Set("again", "yes")
			s.send(nell.Path()+"say", again.Encode())
			if last := (*taken)[len(*taken)-1]; !last.Again || last.Words[1] != "99 <b>" {
				t.Errorf("said again: got %+v, want the same, and that it is so", last)
			}
		}
	}
}

// What was said is shown at once, a job that is done is over, what is to be answered stands above all
// else, and the last word can be taken back by who said it.
func TestSaidIsShown(t *testing.T) {
	s, taken := spoken(t)
	nell, at := s.writes(t, "Nell"), resources.MomentOf(sampleNow)
	s.kitchen.change(func(k *kitchenAt) {
		k.told = &said.Told{Last: 9, Lately: []said.Word{{Nr: 8, At: at.Add(-30), Who: "Ivo", Text: "round, did"}, {Nr: 9, At: at.Add(-2), Who: "Nell", Text: "BH-1, did: make", Batch: "BH-1", Did: "make", Last: true}},
			Answer: []said.Question{{Batch: "BH-2", Cheese: "Bramble hoop", Stage: "pack", Start: at.Add(-90), Ends: at.Add(-60), Who: "Ivo"}, {Batch: "BH-2", Cheese: "Bramble hoop", Stage: "make", Start: at.Add(-900), Ends: at.Add(-840), Who: "Nell"}}}
	})
	s.hear()
	page := s.ask("GET", nell.Path()).Body.String()
	line, now := strings.Index(page, `<a href="#answer">2 to answer</a>`), strings.Index(page, ">Now</h3>")
	if line < 0 || line > now || !strings.Contains(page, "(done 07:58, Nell)") || !strings.Contains(page, "Earlier today: 1") {
		t.Errorf("got a page that does not begin with what is to be answered, or does not say that it is done:\n%s", page)
	}
	for _, x := range []struct {
		button string
		n      int // which of the forms with it
		want   said.Saying
	}{
		{"strike", 0, said.Saying{Verb: "strike", Words: []string{"9"}}},
		{"did", 0, said.Saying{Verb: "did", Words: []string{"BH-2", "make"}, At: "2027-03-15T18:00:00Z"}},
		{"did", 2, said.Saying{Verb: "did", Words: []string{"BH-2", "pack"}, At: "2027-03-16T07:00:00Z"}},
		{"not_yet", 0, said.Saying{Verb: "not_yet", Words: []string{"BH-2", "pack"}}},
	} {
		all := slices.DeleteFunc(forms(page, x.button), func(f url.Values) bool { return x.button != "strike" && f.Get("batch") != "BH-2" })
		if len(all) <= x.n {
			t.Fatalf("there are %d forms with %q, want more", len(all), x.button)
		}
		*taken = nil
		s.send(nell.Path()+"say", all[x.n].Encode())
		if len(*taken) != 1 || (*taken)[0].Verb != x.want.Verb || !reflect.DeepEqual((*taken)[0].Words, x.want.Words) || (*taken)[0].At != x.want.At {
			t.Errorf("%s: got %+v, want %+v", x.button, *taken, x.want)
		}
	}
	if n := len(forms(page, "strike")); n != 1 {
		t.Errorf("got %d words to take back, want Nell's last", n)
	}
	read := s.ask("GET", s.address(t, "page").Path()).Body.String()
	if !strings.Contains(read, "(done 07:58, Nell)") || !strings.Contains(read, "To be answered") || strings.Contains(read, "<form") {
		t.Error("who reads does not see what was said and what is to be answered, or may write")
	}
}
