package main

import (
	"io"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"ripeby/calendar/address"
	"ripeby/calendar/feed"
	"ripeby/calendar/said"
	"ripeby/config"
)

// servedPage is a kitchen that is served, as its people see it; its clock stands still until it is moved.
type servedPage struct {
	t      *testing.T
	folder string
	server *feed.Server
	book   *address.Book
	now    time.Time
	moving sync.RWMutex // of now, where it is moved while somebody is connected
}

// clock is the kitchen's time.
func (k *servedPage) clock() time.Time {
	k.moving.RLock()
	defer k.moving.RUnlock()
	return k.now
}

// pass lets time go by.
func (k *servedPage) pass(d time.Duration) {
	k.moving.Lock()
	defer k.moving.Unlock()
	k.now = k.now.Add(d)
}

// servedKitchen plans a small kitchen of two people and serves it on the evening of its make.
func servedKitchen(t *testing.T) *servedPage {
	t.Helper()
	return servedWith(t, "people:\n  - {name: Ivo, hours: [\"daily 06:00-07:00\"]}\n")
}

// servedWith does that with a small kitchen where something else stands in place of the line "people:".
func servedWith(t *testing.T, people string) *servedPage {
	t.Helper()
	folder := filepath.Join(t.TempDir(), "small")
	if err := os.CopyFS(folder, os.DirFS("../../testdata/script/small")); err != nil {
		t.Fatal(err)
	}
	rewrite(t, folder, "kitchen.yaml", "people:\n", people)
	planAt(t, folder, "2027-03-01 06:00")
	k := &servedPage{t: t, folder: folder, now: time.Date(2027, 3, 4, 20, 0, 0, 0, time.UTC)}
	k.start()
	return k
}

// start serves the kitchen, or does so anew.
func (k *servedPage) start() {
	k.t.Helper()
	t, folder := k.t, k.folder
	p := newProgram(streams{nil, io.Discard, io.Discard}, func(string) string { return "" })
	p.now = k.clock
	out := output{filepath.Join(folder, "plan")}
	files := ownFiles{out, func(text string) { t.Log(text) }}
	at, in := &settings{folder: folder, out: out.dir}, kitchen{folder: folder}
	server, err := feed.New(newWatched(p, at, in), files,
		feed.Options{Site: feed.Site{Root: "http://127.0.0.1:7379", Loopback: true}, Every: 20 * time.Millisecond, Now: p.now, Say: func(text string) { t.Log(text) }, Asks: asksOf(p, at, in), Warmth: warmthOf(in)})
	if err != nil {
		t.Fatal(err)
	}
	if k.book, err = address.Read(files); err != nil {
		t.Fatal(err)
	}
	serveTasks(server, files, feed.Site{Root: "http://127.0.0.1:7379", Loopback: true}, p)
	serveThermometers(server, in, p)
	k.server = server
}

// at is where somebody writes.
func (k *servedPage) at(person string) string {
	for _, a := range k.book.Addresses {
		if a.Kind == address.Writing && a.Person == person {
			return a.Path()
		}
	}
	k.t.Fatalf("%s has no address to write at", person)
	return ""
}

func (k *servedPage) ask(method, path, body string) *httptest.ResponseRecorder {
	r := httptest.NewRequest(method, "http://127.0.0.1:7379"+path, strings.NewReader(body))
	r.Host = "127.0.0.1:7379"
	if body != "" {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	w := httptest.NewRecorder()
	k.server.ServeHTTP(w, r)
	return w
}

// see is the page as somebody sees it.
func (k *servedPage) see(person string) string { return k.ask("GET", k.at(person), "").Body.String() }

var (
	formOnPage = regexp.MustCompile(`(?s)<form class="say".*?</form>`)
	hiddenIn   = regexp.MustCompile(`<input type="hidden" name="([^"]+)" value="([^"]*)">`)
)

// formWith is the first form of a page with a button, of a stage where one is named; empty where
// there is none.
func formWith(page, button, stage string) url.Values {
	for _, text := range formOnPage.FindAllString(page, -1) {
		if !strings.Contains(text, `value="`+button+`">`) || stage != "" && !strings.Contains(text, `name="stage" value="`+stage+`">`) {
			continue
		}
		f := url.Values{"say": {button}}
		for _, m := range hiddenIn.FindAllStringSubmatch(text, -1) {
			f.Set(m[1], m[2])
		}
		return f
	}
	return url.Values{}
}

// taps sends a form, and wants an answer.
func (k *servedPage) taps(person string, f url.Values, want int) string {
	k.t.Helper()
	w := k.ask("POST", k.at(person)+"say", f.Encode())
	if w.Code != want {
		k.t.Fatalf("%s, %v: got %d, want %d:\n%s", person, f, w.Code, want, w.Body.String())
	}
	return w.Body.String()
}

// lines are the lines of the record.
func (k *servedPage) lines() []string {
	text, _ := os.ReadFile(filepath.Join(k.folder, "record", "2027-03.yaml")) // none before the first word
	return strings.FieldsFunc(string(text), func(r rune) bool { return r == '\n' })
}

// said wants the record to have so many lines, the last of which says something.
func (k *servedPage) said(n int, text string) {
	k.t.Helper()
	all := k.lines()
	if len(all) != n || n > 0 && !strings.Contains(all[n-1], text) {
		k.t.Fatalf("got the record\n%s\nwant %d lines, the last with %s", strings.Join(all, "\n"), n, text)
	}
}

// A tap writes one line, however often it comes; another person is told of it; it can be taken back,
// and said again.
func TestTapsOnThePage(t *testing.T) {
	k := servedKitchen(t)
	done, ivos := formWith(k.see("Nell"), "did", "make"), formWith(k.see("Ivo"), "did", "make")
	k.taps("Nell", done, http.StatusSeeOther)
	k.said(1, `at: "2027-03-04 15:40", written: "2027-03-04 20:00", who: "Nell", batch: "QC-270304-1", did: "make"`)
	if page := k.see("Nell"); !strings.Contains(page, "As planned. Next: pack, ") || strings.Contains(page, "ripeby plan") {
		t.Errorf("got a page that does not say what it means:\n%s", page)
	}
	k.now = k.now.Add(3 * time.Minute)
	k.taps("Nell", done, http.StatusSeeOther) // sent again after a lost answer, or from the page before
	k.said(1, "did")
	if text := k.taps("Ivo", ivos, http.StatusConflict); !strings.Contains(text, "It was said already: Nell at ") {
		t.Errorf("got\n%s\nwant Ivo told what Nell said", text)
	}
	for _, who := range []string{"Nell", "Ivo"} {
		if page := k.see(who); !strings.Contains(page, "(done 15:40, Nell)") {
			t.Errorf("%s does not see that it is done:\n%s", who, page)
		}
	}
	if f := formWith(k.see("Ivo"), "strike", ""); len(f) != 0 {
		t.Error("Ivo may take back what Nell said")
	}
	back := formWith(k.see("Nell"), "strike", "")
	k.taps("Nell", back, http.StatusSeeOther)
	k.said(2, "strikes: 1")
	k.taps("Nell", back, http.StatusSeeOther)
	k.said(2, "strikes: 1")
	again := formWith(k.see("Nell"), "did", "make")
	if again.Get("key") == done.Get("key") || len(again) == 0 {
		t.Fatalf("got the form %v again", again)
	}
	k.taps("Nell", again, http.StatusSeeOther)
	k.said(3, `did: "make"`)
	if r, err := config.LoadRecord(k.folder); err != nil || len(r.Book.Standing()) != 2 {
		t.Errorf("got %v and %v, want the strike and the last word to stand", r.Book.Standing(), err)
	}
}

// What is filled in is checked as on the command line, and told on the page in its own words.
func TestWhatIsFilledInOnThePage(t *testing.T) {
	k := servedKitchen(t)
	k.now = time.Date(2027, 3, 4, 15, 30, 0, 0, time.UTC) // it is on just now
	page := k.see("Nell")
	at := func(clock string) url.Values {
		f := formWith(page, "did", "make")
		f.Set("at", clock)
		return f
	}
	with := func(button, name, value string) url.Values {
		f := formWith(page, button, "make")
		f.Set(name, value)
		return f
	}
	for _, x := range []struct {
		f    url.Values
		want string
	}{
		{with("pieces", "pieces", "many"), "pieces"},
		{with("pieces", "pieces", "-3"), "pieces"},
		{with("note", "note", ""), "filled in"},
		{at("23:30"), "ahead of now"},
		{with("measured", "measured", "pH"), "measured"},
		{with("did", "pieces", "9\n- {nr: 99}"), "pieces"},
	} {
		text := k.taps("Nell", x.f, http.StatusUnprocessableEntity)
		if !strings.Contains(text, x.want) || strings.Contains(text, k.folder) || strings.Contains(text, ".yaml") || strings.Contains(text, "--") {
			t.Errorf("%v: got\n%s\nwant %q, and no file or option", x.f, text, x.want)
		}
	}
	k.said(0, "")
	f := at("15:10")
	f.Set("note", `soft: {a}, "b" # no`)
	f.Set("measured", "pH 4.5")
	k.taps("Nell", f, http.StatusSeeOther)
	r, err := config.LoadRecord(k.folder)
	if err != nil || len(r.Book.All()) != 1 {
		t.Fatal(err)
	}
	if e := r.Book.All()[0]; e.Note != `soft: {a}, "b" # no` || !e.Written.Given || e.Batch.Did != "make" || len(e.Batch.Measured) != 1 {
		t.Errorf("got %+v", e)
	}
	f.Set("note", "otherwise")
	if text := k.taps("Nell", f, http.StatusConflict); !strings.Contains(text, "take that back first") {
		t.Errorf("got\n%s\nwant it told that the form was used", text)
	}
	k.said(1, "soft")
}

// Fifty taps at once, of two people and each twice, write each word once.
func TestManyTapAtOnce(t *testing.T) {
	k := servedKitchen(t)
	var wait sync.WaitGroup
	for i := range 25 {
		k.now = k.now.Add(2 * time.Minute) // nobody may say more than so much in a minute
		for _, who := range []string{"Nell", "Ivo"} {
			f := formWith(k.see(who), "note", "make")
			f.Set("note", who)
			for range 2 {
				wait.Go(func() {
					for range 200 { // while another writes it is to be said once more
						if w := k.ask("POST", k.at(who)+"say", f.Encode()); w.Code != http.StatusServiceUnavailable {
							return
						}
						time.Sleep(time.Millisecond)
					}
				})
			}
		}
		wait.Wait()
		if n := len(k.lines()); n != 2*(i+1) {
			t.Fatalf("got %d lines after %d taps, want each once:\n%s", n, 2*(i+1), strings.Join(k.lines(), "\n"))
		}
	}
}

// Of the demo nothing is written down, and nothing can be.
func TestNothingIsSaidOfTheDemo(t *testing.T) {
	p := newProgram(streams{nil, io.Discard, io.Discard}, func(string) string { return "" })
	w := newWatched(p, &settings{out: t.TempDir()}, kitchen{demo: true})
	if told, err := w.Told(); told != nil || err != nil {
		t.Errorf("got %v, %v; want nothing", told, err)
	}
	if _, err := w.Say(said.Saying{Verb: "note", Words: []string{"x"}}); err == nil {
		t.Error("it was written")
	}
}

// What was said is taken back by who said it, for as long as nothing else was said of it since; a batch is
// lost once; and with a folder that cannot be read nothing is written, with no word of its files.
func TestWhatThePageRefuses(t *testing.T) {
	k := servedKitchen(t)
	k.now = time.Date(2027, 3, 4, 15, 30, 0, 0, time.UTC)
	did := formWith(k.see("Nell"), "did", "make")
	k.taps("Nell", did, http.StatusSeeOther)
	back := formWith(k.see("Nell"), "strike", "")
	k.now = k.now.Add(10 * time.Minute)
	if text := k.taps("Ivo", k.sealed("Ivo", back), http.StatusConflict); !strings.Contains(text, "Only who said it takes it back here") {
		t.Errorf("got\n%s\nwant only Nell to take it back", text)
	}
	pieces := formWith(k.see("Ivo"), "pieces", "pack")
	pieces.Set("pieces", "8")
	k.taps("Ivo", pieces, http.StatusSeeOther)
	if text := k.taps("Nell", back, http.StatusConflict); !strings.Contains(text, "Since then something else was said of it: Ivo at") {
		t.Errorf("got\n%s\nwant it told that something was said since", text)
	}
	for i, count := range []string{"7", "7", "6"} { // another number is another word, the same is not
		again := formWith(k.see("Ivo"), "pieces", "pack")
		if i == 1 {
			again = pieces
		}
		again.Set("pieces", count)
		pieces = again
		k.taps("Ivo", again, http.StatusSeeOther)
	}
	k.said(4, "pieces: 6")
	lost := formWith(k.see("Nell"), "lost", "pack")
	k.taps("Nell", lost, http.StatusUnprocessableEntity)
	lost.Set("again", "yes")
	ivos := formWith(k.see("Ivo"), "lost", "pack")
	ivos.Set("again", "yes")
	k.taps("Nell", lost, http.StatusSeeOther)
	k.taps("Ivo", ivos, http.StatusConflict)
	k.said(5, "lost: true")
	if page := k.see("Nell"); len(formWith(page, "did", "")) > 0 || !strings.Contains(page, "(lost 15:40, Nell)") {
		t.Errorf("of a lost batch work may be said to be done, or it is not shown as lost:\n%s", page)
	}
	note := formWith(k.see("Nell"), "strike", "")
	rewrite(t, k.folder, "kitchen.yaml", "people:", "poeple:")
	if text := k.taps("Nell", note, http.StatusServiceUnavailable); !strings.Contains(text, "The kitchen folder cannot be read just now") || strings.Contains(text, "poeple") {
		t.Errorf("got\n%s\nwant it told that the folder cannot be read", text)
	}
}

// sealed is a form of somebody's as another would have it who could seal it.
func (k *servedPage) sealed(person string, f url.Values) url.Values {
	number := func(name string) int {
		n, _ := strconv.Atoi(f.Get(name)) // fields that a form lacks are 0
		return n
	}
	about := said.About{Batch: f.Get("batch"), Stage: f.Get("stage"), Nr: number("nr"), After: number("after")}
	out := url.Values{"key": {about.Key(address.Address{Token: strings.Split(k.at(person), "/")[2]})}}
	for name := range f {
		if name != "key" {
			out.Set(name, f.Get(name))
		}
	}
	return out
}

// A note alone, and what was only measured, make no new plan; what a plan goes by does.
func TestNotesMakeNoPlan(t *testing.T) {
	folder, said := recordFolder(t)
	p := newProgram(streams{nil, io.Discard, io.Discard}, func(string) string { return "" })
	w := newWatched(p, &settings{folder: folder, out: filepath.Join(folder, "plan")}, kitchen{folder: folder})
	for _, x := range []struct {
		args []string
		same bool
	}{
		{[]string{"note", "it hums"}, true}, {[]string{"note", "it smells", "--batch", "QC-270304-1"}, true}, {[]string{"measured", "QC-270304-1", "pH 4.5"}, true},
		{[]string{"did", "QC-270304-1", "make"}, false}, {[]string{"pieces", "QC-270304-1", "9", "--note", "one broke"}, false}, {[]string{"strike", "1"}, false},
	} {
		before := w.Print()
		if got := said(x.args...); got.code != 0 {
			t.Fatal(got.err)
		}
		if same := w.Print() == before; same != x.same {
			t.Errorf("%v: got no new plan %v, want %v", x.args, same, x.same)
		}
	}
}

// What an entry means is told on the page without the command that a terminal is told.
func TestMeansOnThePage(t *testing.T) {
	for text, want := range map[string]string{
		"": "", "As planned. Next: pack, Thu 21:40, Nell.": "As planned. Next: pack, Thu 21:40, Nell.",
		"The next plan takes it into account: ripeby plan -C x":                               "The next plan takes it into account.",
		"Later than it may slip (Thu 07:00): something has to move. See what: ripeby plan":    "Later than it may slip (Thu 07:00): something has to move.",
		"3 pieces fewer than are for targets; see what can be made up for: ripeby plan -C /k": "3 pieces fewer than are for targets; see what can be made up for.",
	} {
		if got := meansOnThePage(text); got != want {
			t.Errorf("%q: got %q, want %q", text, got, want)
		}
	}
}

// Who is away, what is closed, what left and what came back is written as ripeby record would, is shown as it
// stands, and ends when that is said.
func TestKitchenToldOnThePage(t *testing.T) {
	k := servedKitchen(t)
	tell := func(who, button string, more ...string) url.Values {
		f := formWith(k.ask("GET", k.at(who)+"tell", "").Body.String(), button, "")
		for i := 0; i+1 < len(more); i += 2 {
			f.Set(more[i], more[i+1])
		}
		return f
	}
	k.taps("Nell", tell("Nell", "away", "person", "Ivo", "until", "2027-03-06"), http.StatusSeeOther)
	k.said(1, `person: "Ivo", away: {until: "2027-03-07 00:00"}`)
	if page := k.ask("GET", k.at("Nell")+"tell", "").Body.String(); !strings.Contains(page, "Ivo is away from Thu 4 Mar 20:00 until Sun 7 Mar 00:00") {
		t.Errorf("got a page that does not say that Ivo is away:\n%s", page)
	}
	k.taps("Nell", tell("Nell", "away", "person", "Somebody"), http.StatusUnprocessableEntity)
	k.taps("Nell", tell("Nell", "away", "person", "Ivo", "from", "2027-03-09", "until", "2027-03-08"), http.StatusUnprocessableEntity)
	k.said(1, "away")
	k.pass(time.Hour)
	k.taps("Ivo", tell("Ivo", "here"), http.StatusSeeOther)
	k.said(2, `person: "Ivo", here: true`)
	if page := k.ask("GET", k.at("Nell")+"tell", "").Body.String(); strings.Contains(page, "is away from") {
		t.Errorf("Ivo is still shown as away:\n%s", page)
	}
	k.pass(16 * time.Hour) // an hour after the stall
	k.taps("Nell", tell("Nell", "took", "count", "10"), http.StatusSeeOther)
	k.said(3, `target: "Friday stall", cheese: "Quick curd", took: 10`)
	k.taps("Nell", tell("Nell", "back", "count", "two"), http.StatusUnprocessableEntity)
	k.taps("Nell", tell("Nell", "back", "count", "2"), http.StatusSeeOther)
	k.said(4, "back: 2")
	k.taps("Nell", tell("Nell", "sold_out", "sold", "11:20"), http.StatusSeeOther)
	k.said(5, `sold_out: "11:20"`)
	if page := k.ask("GET", k.at("Ivo")+"tell", "").Body.String(); !strings.Contains(page, "took: 10") || !strings.Contains(page, "back: 2") {
		t.Errorf("Ivo does not see what left and came back:\n%s", page)
	}
	did := formWith(k.see("Nell"), "did", "pack")
	did.Set("measured", "pH 4,5; room 19 °C, smell fresh")
	k.taps("Nell", did, http.StatusSeeOther)
	k.said(6, `measured: [{what: "pH", is: "4,5"}, {what: "room", is: "19 °C"}, {what: "smell", is: "fresh"}]`)
}
