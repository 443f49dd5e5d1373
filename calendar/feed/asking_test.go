package feed

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"html"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"ripeby/calendar/address"
	"ripeby/calendar/ask"
	"ripeby/calendar/said"
	"ripeby/resources"
	"ripeby/schedule"
)

// oracle is who answers what is asked: at once, or when the test lets it.
type oracle struct {
	mu    sync.Mutex
	mark  string
	wait  chan struct{} // nil: at once
	asked []ask.Question
	wrote []string
	fails error

	answer *ask.Answer // to everything; nil for what fits the question
}

// held reports whether whoever is asked next has to wait.
func (o *oracle) held() bool {
	o.mu.Lock()
	defer o.mu.Unlock()
	return o.wait != nil
}

func (o *oracle) Mark() string {
	o.mu.Lock()
	defer o.mu.Unlock()
	return o.mark
}

func (o *oracle) Answer(ctx context.Context, q ask.Question, say func(string)) (*ask.Answer, error) {
	o.mu.Lock()
	o.asked = append(o.asked, q)
	wait := o.wait
	o.mu.Unlock()
	say("trying change 1 of 2")
	if wait != nil {
		select {
		case <-wait:
		case <-ctx.Done():
			return nil, ctx.Err()
		}
	}
	switch {
	case o.answer != nil:
		return o.answer, nil
	case q.Cheese == "Blue":
		return nil, ask.Refused("There is no cheese <Blue>.")
	case q.Kind == ask.Freer:
		return &ask.Answer{Lines: []string{"Moving more would save 3 L of milk."}, Takes: true}, nil
	case q.Pieces > 20:
		fewer := q
		fewer.Pieces = 14
		return &ask.Answer{Lines: []string{fmt.Sprintf("%d Bramble hoop by Sat 27 Mar 2027 07:00 do not fit. The wine fridge is full until Fri 19 Mar.", q.Pieces)},
			Sections: []ask.Section{{Heading: "Instead", Lines: []string{"14 pieces by then, and no more"}}}, Others: []ask.Other{{Question: fewer, Text: "Ask for 14"}}}, nil
	case q.Kind == ask.Why:
		return &ask.Answer{Mind: "When you plan again, what is gained may go to another target that is worth more.",
			Sections: []ask.Section{{Heading: "Bramble hoop", Lines: []string{"The wine fridge is full until Fri 19 Mar."}},
				{Heading: "What would change that, each by itself", Lines: []string{"one more box in the wine fridge: 6 pieces more"}}}}, nil
	}
	return &ask.Answer{Lines: []string{"10 Bramble hoop by Sat 27 Mar 2027 07:00 fit if 1 task moves. All other targets get what they got."}, Promises: q.Kind == ask.Fits,
		Sections: []ask.Section{{Heading: "What moves", Lines: []string{"make Bramble hoop, BH-270316-1: Tue 16 Mar 09:00 instead of Tue 16 Mar 08:00"}}}}, nil
}

func (o *oracle) write(text string) error {
	o.mu.Lock()
	defer o.mu.Unlock()
	if o.fails == nil {
		o.wrote = append(o.wrote, text)
	}
	return o.fails
}

func (o *oracle) Promise(q ask.Question) error { return o.write("promise " + q.Name) }
func (o *oracle) Add(t ask.Target) error       { return o.write("add " + t.Name) }
func (o *oracle) TakeBack() error              { return o.write("back") }

// count is how many questions were worked on, and how much was written.
func (o *oracle) count() (asked, wrote int) {
	o.mu.Lock()
	defer o.mu.Unlock()
	return len(o.asked), len(o.wrote)
}

// asksStood is a stand on whose writing pages something may be asked.
func asksStood(t testing.TB, made *Made, at time.Time) (*stand, *oracle) {
	t.Helper()
	o := &oracle{}
	k, store, c, told := &kitchenAt{folder: "folder", kept: made}, &files{text: map[string][]byte{}}, &clock{at: at}, &sayings{}
	k.told = &said.Told{Last: 7}
	k.plan = func(context.Context) (*Made, error) { return made, nil }
	made.Problem.Recipes = append(made.Problem.Recipes, schedule.Recipe{Name: "Bramble hoop"})
	made.Problem.Kitchen.Settled = 2 * resources.Day
	s, err := New(k, store, Options{Site: Site{Root: "http://127.0.0.1:7379", Loopback: true}, Version: "v1", Every: 5 * time.Millisecond, Now: c.now, Say: told.say, Asks: o})
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	done := make(chan struct{})
	go func() { s.Watch(ctx); close(done) }()
	t.Cleanup(func() { stop(); <-done })
	return &stand{Server: s, kitchen: k, files: store, clock: c, said: told}, o
}

var oneAsk = regexp.MustCompile(`(?s)<form class="say.*?</form>`)

// askForm is the first form of a page that says something; nil for none.
func askForm(page, verb string) url.Values {
	for _, text := range oneAsk.FindAllString(page, -1) {
		if !strings.Contains(text, `name="ask" value="`+verb+`"`) {
			continue
		}
		f := url.Values{}
		for _, m := range oneHidden.FindAllStringSubmatch(text, -1) {
			f.Set(m[1], html.UnescapeString(m[2]))
		}
		return f
	}
	return nil
}

// filled is a form with more filled in.
func filled(f url.Values, fields ...string) url.Values {
	out, _ := url.ParseQuery(f.Encode())
	for _, field := range fields {
		name, value, _ := strings.Cut(field, "=")
		out.Set(name, value)
	}
	return out
}

// tenByDay asks for ten.
var tenByDay = []string{"cheese=Bramble hoop", "pieces=10", "by-day=2027-03-27", "by-time=07:00"}

// until gives a page when it says something.
func (s *stand) until(t *testing.T, path, text string) string {
	t.Helper()
	for range 500 {
		if page := s.ask("GET", path).Body.String(); strings.Contains(page, text) {
			return page
		}
		time.Sleep(10 * time.Millisecond)
	}
	t.Fatalf("%s never says %q:\n%s", path, text, s.ask("GET", path).Body.String())
	return ""
}

// Without a script: the form leads to a page of the question, which says how far it is, and can be asked
// for again or stopped; then it has the answer, which is promised by a tap, once.
func TestAskingWithoutAScript(t *testing.T) {
	s, o := asksStood(t, sampleMade(t, 2), sampleNow)
	o.wait = make(chan struct{})
	nell := s.writes(t, "Nell")
	page := s.ask("GET", nell.Path()).Body.String()
	if !strings.Contains(page, `<a href="`+nell.Path()+`ask">Ask</a>`) {
		t.Error("the page does not lead to where something is asked")
	}
	page = s.ask("GET", nell.Path()+"ask").Body.String()
	w := s.send(nell.Path()+"ask/say", filled(askForm(page, "fits"), tenByDay...).Encode())
	at := header(w, "Location")
	if w.Code != 303 || !strings.HasPrefix(at, nell.Path()+"ask/") || header(w, "Cache-Control") != "no-store" {
		t.Fatalf("got %d to %q, want the question's page", w.Code, at)
	}
	page = s.until(t, at, "Being worked out: trying change 1 of 2")
	if askForm(page, "stop") == nil || !strings.Contains(page, `<a href="`+at+`">Look again</a>`) {
		t.Errorf("the question cannot be stopped or looked at again:\n%s", page)
	}
	close(o.wait)
	page = s.until(t, at, "fit if 1 task moves")
	if !strings.Contains(page, "<bdi>make Bramble hoop, BH-270316-1: Tue 16 Mar 09:00 instead of Tue 16 Mar 08:00</bdi>") || strings.Contains(page, "data-soon") {
		t.Errorf("got the answer\n%s", page)
	}
	for range 2 {
		if w := s.send(nell.Path()+"ask/say", askForm(page, "promise").Encode()); w.Code != 303 || header(w, "Location") != at {
			t.Fatalf("got %d to %q", w.Code, header(w, "Location"))
		}
	}
	if asked, wrote := o.count(); asked != 1 || wrote != 1 {
		t.Errorf("got %d asked and %d written, want one of each", asked, wrote)
	}
	page = s.until(t, at, "Promised.")
	if askForm(page, "promise") != nil {
		t.Error("what is promised can be promised again")
	}
	if w := s.send(nell.Path()+"ask/say", askForm(page, "back").Encode()); w.Code != 303 || len(o.wrote) != 2 {
		t.Errorf("got %d and %v, want it taken out again", w.Code, o.wrote)
	}
	if w := s.ask("GET", nell.Path()+"ask/say"); w.Code != 303 || header(w, "Location") != nell.Path()+"ask" {
		t.Errorf("the answer loaded again: got %d to %q", w.Code, header(w, "Location"))
	}
}

// A question is stopped from its page, and the next is worked on.
func TestStoppingAQuestion(t *testing.T) {
	s, o := asksStood(t, sampleMade(t, 2), sampleNow)
	o.wait = make(chan struct{})
	defer close(o.wait)
	nell := s.writes(t, "Nell")
	at := header(s.send(nell.Path()+"ask/say", filled(askForm(s.ask("GET", nell.Path()+"ask").Body.String(), "fits"), tenByDay...).Encode()), "Location")
	page := s.until(t, at, "Being worked out")
	s.send(nell.Path()+"ask/say", askForm(page, "stop").Encode())
	if page := s.until(t, at, "Stopped, without an answer"); !strings.Contains(page, "Ask otherwise") || strings.Contains(page, "Promise it") {
		t.Errorf("got\n%s", page)
	}
}

// What is short has a button that asks why, on the page of what is on and on that where things are asked.
func TestAskingWhy(t *testing.T) {
	s, o := asksStood(t, pageMade(t), pageNow)
	nell := s.writes(t, "Nell")
	for _, path := range []string{"", "ask"} {
		f := askForm(s.ask("GET", nell.Path()+path).Body.String(), "why")
		if f.Get("target") != "Easter market" {
			t.Fatalf("%q: got the form %v, want one about what is short", path, f)
		}
		at := header(s.send(nell.Path()+"ask/say", f.Encode()), "Location")
		s.until(t, at, "one more box in the wine fridge: 6 pieces more")
	}
	if asked, _ := o.count(); asked != 1 {
		t.Errorf("got it worked out %d times, want once for both", asked)
	}
	if page := s.ask("GET", s.address(t, "page").Path()).Body.String(); strings.Contains(page, "what would help?") || strings.Contains(page, "/ask") {
		t.Error("who only reads is offered to ask")
	}
}

// What is refused is told beside the form as it was filled in; what went wrong is told where ripeby serves.
func TestWhatIsNotTaken(t *testing.T) {
	s, o := asksStood(t, sampleMade(t, 2), sampleNow)
	nell := s.writes(t, "Nell")
	page := s.ask("GET", nell.Path()+"ask").Body.String()
	add := filled(askForm(page, "add"), "name=Fair <1>", "by-day=2027-04-03", "by-time=09:00", "cheese1=Bramble hoop", "pieces1=8")
	for _, c := range []struct {
		what  string
		form  url.Values
		fails error
		want  int
		text  string
	}{
		{"no pieces", filled(askForm(page, "fits"), "cheese=Bramble hoop", "name=Lane <b>"), nil, 422, "How many pieces is to be filled in"},
		{"what was filled in", filled(askForm(page, "fits"), "cheese=Bramble hoop", "name=Lane <b>"), nil, 422, `value="Lane &lt;b&gt;"`},
		{"refused by the folder", add, ask.Refused("This name is taken, see targets.yaml:2."), 409, "see targets.yaml:2"},
		{"perhaps written", add, errors.New("the disk is full, /secret/place"), 500, "It may not have been written"},
	} {
		o.fails = c.fails
		w := s.send(nell.Path()+"ask/say", c.form.Encode())
		if body := w.Body.String(); w.Code != c.want || !strings.Contains(body, c.text) || strings.Contains(body, "/secret") {
			t.Errorf("%s: got %d, want %d with %q:\n%s", c.what, w.Code, c.want, c.text, body)
		}
	}
	if !strings.Contains(s.said.String(), "the disk is full") {
		t.Error("the terminal is not told what went wrong")
	}
	at := header(s.send(nell.Path()+"ask/say", filled(askForm(page, "fits"), append(tenByDay, "cheese=Blue")...).Encode()), "Location")
	s.until(t, at, "There is no cheese &lt;Blue&gt;.")
}

// Nothing is worked out or written for who is not the one on the page.
func TestHostileQuestions(t *testing.T) {
	s, o := asksStood(t, sampleMade(t, 2), sampleNow)
	nell, ivo := s.writes(t, "Nell"), s.writes(t, "Ivo")
	page := s.ask("GET", nell.Path()+"ask").Body.String()
	good := filled(askForm(page, "fits"), tenByDay...)
	add := filled(askForm(page, "add"), "name=Fair", "by-day=2027-04-03", "by-time=09:00", "cheese1=Bramble hoop", "pieces1=8")
	to := nell.Path() + "ask/say"
	for _, x := range []struct {
		what, path, body string
		headers          []string
		want             int
	}{
		{"from another site", to, good.Encode(), []string{"Sec-Fetch-Site: cross-site"}, 403},
		{"from another origin", to, add.Encode(), []string{"Origin: https://elsewhere.example"}, 403},
		{"from nowhere", to, add.Encode(), []string{"Origin: null"}, 403},
		{"with a key of another's page", ivo.Path() + "ask/say", good.Encode(), nil, 422},
		{"a target with a key of another's page", ivo.Path() + "ask/say", add.Encode(), nil, 422},
		{"with another key", to, filled(good, "key="+strings.Repeat("a", 26)).Encode(), nil, 422},
		{"a key for something else", to, filled(good, "ask=take").Encode(), nil, 422},
		{"a promise of nothing", to, filled(good, "ask=promise", "id=1-1").Encode(), nil, 422},
		{"a target in place of a question", to, filled(good, "ask=add", "name=x").Encode(), nil, 422},
		{"another count of changes", to, filled(add, "nr=1").Encode(), nil, 422},
		{"too long a name", to, filled(add, "name="+strings.Repeat("x", 300)).Encode(), nil, 422},
		{"a field twice", to, good.Encode() + "&key=b", nil, 400},
		{"too many fields", to, good.Encode() + manyFields(), nil, 400},
		{"too large", to, "name=" + strings.Repeat("x", mostForm), nil, 413},
		{"no form", to, `{"ask":"fits"}`, []string{"Content-Type: application/json"}, 400},
		{"at the page", s.address(t, "page").Path() + "ask/say", good.Encode(), nil, 405},
		{"at the page's token", "/w/" + s.address(t, "page").Token + "/ask/say", good.Encode(), nil, 404},
		{"at a calendar's token", "/w/" + s.address(t, "Nell").Token + "/ask/say", good.Encode(), nil, 404},
		{"at no token", "/w/" + address.NewToken() + "/ask/say", good.Encode(), nil, 404},
		{"where things are said", nell.Path() + "say", good.Encode(), nil, 422},
		{"at the page where it is asked", nell.Path() + "ask", good.Encode(), nil, 405},
		{"below", to + "/more", good.Encode(), nil, 405},
		{"beside", nell.Path() + "x/../ask/say", good.Encode(), nil, 405},
		{"escaped", nell.Path() + "ask/%2e%2e/say", good.Encode(), nil, 405},
	} {
		r := httptest.NewRequest("POST", "http://127.0.0.1:7379/", strings.NewReader(x.body))
		r.URL = &url.URL{Path: x.path, RawPath: x.path}
		r.Host = "127.0.0.1:7379"
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		for _, h := range x.headers {
			name, value, _ := strings.Cut(h, ": ")
			r.Header.Set(name, value)
		}
		w := httptest.NewRecorder()
		if s.ServeHTTP(w, r); w.Code != x.want {
			t.Errorf("%s: got %d, want %d", x.what, w.Code, x.want)
		}
	}
	for _, path := range []string{nell.Path() + "ask/1-1", nell.Path() + "ask/1/2", s.address(t, "page").Path() + "ask"} {
		if w := s.ask("GET", path); w.Code != 404 {
			t.Errorf("%s: got %d, want 404", path, w.Code)
		}
	}
	time.Sleep(50 * time.Millisecond) // for what may have begun
	if asked, wrote := o.count(); asked+wrote != 0 {
		t.Errorf("got %d asked and %d written, want nothing", asked, wrote)
	}
}

// Forms of the page where things are asked count with all others of a person.
func TestThePaceOfAsking(t *testing.T) {
	s, _ := asksStood(t, sampleMade(t, 2), sampleNow)
	nell := s.writes(t, "Nell")
	f := filled(askForm(s.ask("GET", nell.Path()+"ask").Body.String(), "fits"), tenByDay...)
	for i := range address.TapsAMinute + 1 {
		w := s.send(nell.Path()+"ask/say", f.Encode())
		if want := map[bool]int{true: 429, false: 303}[i == address.TapsAMinute]; w.Code != want {
			t.Fatalf("form %d: got %d, want %d", i+1, w.Code, want)
		}
	}
}

// The page where things are asked, and that of an answer, are as they were kept, the addresses apart.
func TestAskingPagesAsKept(t *testing.T) {
	s, _ := asksStood(t, pageMade(t), pageNow)
	nell := s.writes(t, "Nell")
	page := s.ask("GET", nell.Path()+"ask").Body.String()
	at := header(s.send(nell.Path()+"ask/say", filled(askForm(page, "fits"), append(tenByDay, "name=Lane café")...).Encode()), "Location")
	s.until(t, at, "Promise it")
	for name, path := range map[string]string{"ask": nell.Path() + "ask", "asked": at} {
		got, file := settled(s.ask("GET", path)), filepath.Join("testdata", name+".html")
		if *update {
			if err := os.WriteFile(file, got, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		if want, err := os.ReadFile(file); err != nil || !bytes.Equal(got, want) {
			t.Errorf("%s differs; run go test ./calendar/feed -run AsKept -update if that is right; got\n%s", file, got)
		}
	}
}

// What people give and what is answered is shown as text: no markup, no end of an attribute, and no mark that
// turns the direction of writing but where it is sent back as it is.
func TestAskingEscapesEveryText(t *testing.T) {
	made := pageMade(t)
	name := strings.ReplaceAll(hostile, "\x00", "")
	made.Problem.Kitchen.Name, made.Problem.Kitchen.People[0].Name, made.Problem.Kitchen.Cold[0].Name = name, name, name
	made.Problem.Kitchen.Boxes = []resources.Box{{Name: name}}
	made.Problem.Recipes = []schedule.Recipe{{Name: name}}
	made.Plan.Targets[0].Target = name
	s, o := asksStood(t, made, pageNow)
	o.answer = &ask.Answer{Lines: []string{name}, Mind: name, Sections: []ask.Section{{Heading: name, Lines: []string{name}}}, Promises: true,
		Others: []ask.Other{{Question: ask.Question{Kind: ask.Why, Target: name}, Text: name}}}
	nell := s.writes(t, name)
	page := s.ask("GET", nell.Path()+"ask").Body.String()
	at := header(s.send(nell.Path()+"ask/say", filled(askForm(page, "fits"), append(tenByDay, "name="+name, "cheese="+name)...).Encode()), "Location")
	answered := s.until(t, at, "Promise it")
	s.send(nell.Path()+"ask/say", askForm(answered, "promise").Encode())
	refused := s.send(nell.Path()+"ask/say", filled(askForm(page, "add"), "name="+name).Encode()).Body.String()
	sentBack := regexp.MustCompile(` value="[^"<>]*"`)
	for what, page := range map[string]string{"ask": s.ask("GET", nell.Path()+"ask").Body.String(), "answered": answered, "promised": s.until(t, at, "Promised."), "refused": refused} {
		shown := sentBack.ReplaceAllString(page, "")
		for _, text := range []string{"<script>alert", "\u202e", "\u2066", `"' onclick`} {
			if strings.Contains(shown, text) {
				t.Errorf("%s shows %q as it is:\n%s", what, text, shown)
			}
		}
	}
}
