package main

import (
	"context"
	"html"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
)

// watching has a served kitchen looked at, and what is asked answered, until the test ends.
func (k *servedPage) watching() {
	ctx, stop := context.WithCancel(context.Background())
	done := make(chan struct{})
	go func() { k.server.Watch(ctx); close(done) }()
	k.t.Cleanup(func() { stop(); <-done })
}

// askForm is the form of a page that says something.
func (k *servedPage) askForm(page, verb string) url.Values {
	k.t.Helper()
	for _, text := range regexp.MustCompile(`(?s)<form class="say.*?</form>`).FindAllString(page, -1) {
		if !strings.Contains(text, `name="ask" value="`+verb+`"`) {
			continue
		}
		f := url.Values{}
		for _, m := range hiddenIn.FindAllStringSubmatch(text, -1) {
			f.Set(m[1], html.UnescapeString(m[2]))
		}
		return f
	}
	k.t.Fatalf("there is no form that says %q:\n%s", verb, page)
	return nil
}

// sends sends a form of the asking page, and gives where the answer leads, or what it says.
func (k *servedPage) sends(f url.Values, want int) string {
	k.t.Helper()
	w := k.ask("POST", k.at("Nell")+"ask/say", f.Encode())
	if w.Code != want {
		k.t.Fatalf("%v: got %d, want %d:\n%s", f, w.Code, want, w.Body.String())
	}
	if want == http.StatusSeeOther {
		return w.Result().Header.Get("Location")
	}
	return w.Body.String()
}

// asks fills in a form of the asking page and sends it, and gives the answer's page and where it is.
func (k *servedPage) asks(verb string, fields ...string) (page, path string) {
	k.t.Helper()
	f := k.askForm(k.ask("GET", k.at("Nell")+"ask", "").Body.String(), verb)
	for _, field := range fields {
		name, value, _ := strings.Cut(field, "=")
		f.Set(name, value)
	}
	path = k.sends(f, http.StatusSeeOther)
	return k.answered(path), path
}

// answered waits for the answer on a page.
func (k *servedPage) answered(path string) string {
	k.t.Helper()
	for range 1000 {
		w := k.ask("GET", path, "")
		if w.Code != http.StatusOK {
			k.t.Fatalf("%s: got %d", path, w.Code)
		}
		if page := w.Body.String(); !strings.Contains(page, "data-soon") {
			return page
		}
		time.Sleep(10 * time.Millisecond)
	}
	k.t.Fatal("no answer comes")
	return ""
}

// targets is the text of targets.yaml.
func (k *servedPage) targets() string {
	text, err := os.ReadFile(filepath.Join(k.folder, "targets.yaml"))
	if err != nil {
		k.t.Fatal(err)
	}
	return string(text)
}

// has wants a page to say something.
func (k *servedPage) has(page string, texts ...string) {
	k.t.Helper()
	for _, text := range texts {
		if !strings.Contains(page, text) {
			k.t.Errorf("the page does not say %q:\n%s", text, page)
		}
	}
	if at := regexp.MustCompile(`--[a-z]+|` + regexp.QuoteMeta(k.folder)).FindString(page); at != "" {
		k.t.Errorf("the page speaks of %q, which is for a terminal", at)
	}
}

// "Can I promise 10 by Saturday week?" They fit; promised, targets.yaml has so many lines more and every
// other byte as before, and the plan is made anew with them. Promised twice they are written once.
func TestAPromiseOnThePage(t *testing.T) {
	k := servedKitchen(t)
	k.watching()
	before := k.targets()
	page, path := k.asks("fits", "cheese=Quick curd", "pieces=10", "by-day=2027-03-13", "by-time=09:00", "name=Lane café", "price=4,20")
	k.has(page, "10 Quick curd by Sat 13 Mar 2027 09:00 fit, and nothing that is planned moves.", "10 pieces from a new batch", "Promise it", "called <bdi>Lane café</bdi>")
	if k.targets() != before {
		t.Fatal("asking has written something")
	}
	promise := k.askForm(page, "promise")
	for range 2 {
		if to := k.sends(promise, http.StatusSeeOther); to != path {
			t.Errorf("got led to %s, want %s", to, path)
		}
	}
	want := before + "  - name: Lane café\n    by: 2027-03-13 09:00\n    want: [{cheese: Quick curd, pieces: 10, price: 4.20, promised: true}]\n"
	if got := k.targets(); got != want {
		t.Errorf("got targets.yaml\n%s\nwant\n%s", got, want)
	}
	k.has(k.answered(path), "Promised.", "Take it out again")
	k.planned("Lane café")
	page, _ = k.asks("fits", "cheese=Quick curd", "pieces=3", "by-day=2027-03-14", "name=Lane café")
	k.has(page, "There is a target &#34;Lane café&#34; already; give the order another name")
	k.sends(k.askForm(k.answered(path), "back"), http.StatusSeeOther)
	if got := k.targets(); got != before {
		t.Errorf("taken out again targets.yaml is\n%s\nwant\n%s", got, before)
	}
}

// planned waits until the plan that is shown has a target.
func (k *servedPage) planned(target string) {
	k.t.Helper()
	for range 1000 {
		if strings.Contains(k.ask("GET", k.at("Nell")+"ask", "").Body.String(), ">"+target+", ") {
			return
		}
		time.Sleep(10 * time.Millisecond)
	}
	k.t.Fatalf("the plan is not made anew with %s", target)
}

// What does not fit is told why, and what would is asked by one tap.
func TestWhatDoesNotFit(t *testing.T) {
	k := servedKitchen(t)
	k.watching()
	page, _ := k.asks("fits", "cheese=Quick curd", "pieces=400", "by-day=2027-03-06", "by-time=09:00")
	k.has(page, "400 Quick curd by Sat 6 Mar 2027 09:00 do not fit.", "Instead")
	if strings.Contains(page, "Promise it") {
		t.Error("what does not fit can be promised")
	}
	page, _ = k.asks("fits", "cheese=Quick curd", "pieces=40", "by-day=2027-03-07", "by-time=09:00")
	k.has(page, "Ask for ")
	for _, c := range []struct{ field, want string }{
		{"by-day=2027-03-01", "The moment is Mon 1 Mar 2027 12:00, which is before the planning start, Thu 4 Mar 2027 20:00"},
		{"cheese=Blue", "There is no cheese &#34;Blue&#34; in recipes; there are Quick curd"},
		{"by-day=soon", "A moment is a date and a time: got &#34;soon&#34;"},
	} {
		page, _ = k.asks("fits", "cheese=Quick curd", "pieces=4", "by-day=2027-03-13", c.field)
		k.has(page, "Not answered", c.want)
	}
}

// An answer is for the plan in force: when the kitchen has changed since, promising asks again and writes
// nothing.
func TestAPromiseThatIsStale(t *testing.T) {
	k := servedKitchen(t)
	k.watching()
	page, path := k.asks("fits", "cheese=Quick curd", "pieces=10", "by-day=2027-03-13", "by-time=09:00")
	promise := k.askForm(page, "promise")
	rewrite(t, k.folder, "targets.yaml", "pieces: 10", "pieces: 9")
	before := k.targets()
	k.has(k.answered(path), "The plan has changed since then", "Ask again")
	again := k.sends(promise, http.StatusSeeOther)
	if again == path || k.targets() != before {
		t.Fatalf("got led to %s and\n%s\nwant it asked again, and nothing written", again, k.targets())
	}
	k.has(k.answered(again), "it is asked once more")
}

// A new market day is written by a form; what is wrong with it is told as the file's reader tells it.
func TestANewTargetOnThePage(t *testing.T) {
	k := servedKitchen(t)
	k.watching()
	before := k.targets()
	page := k.ask("GET", k.at("Nell")+"ask", "").Body.String()
	for _, c := range []struct{ want, field string }{
		{"<bdi>Target &#34;Harvest fair&#34;, by: this is before the planning start, 2027-03-04 20:00: got &#34;2026-03-13 09:00&#34;</bdi>", "by-day=2026-03-13"},
		{"<bdi>Target &#34;Friday stall&#34;, name: this name is taken, see targets.yaml:2; choose another", "name=Friday stall"},
		{"A price is a plain number from 0: got &#34;much&#34;; write 6.50", "price1=much"},
		{"pieces: this is more than the limit of 100000: got &#34;100000000&#34;", "pieces1=100000000"},
		{"there is no recipe of this name: got &#34;Blue&#34;; write &#34;Quick curd&#34;", "cheese1=Blue"},
	} {
		f := k.askForm(page, "add")
		for _, field := range []string{"name=Harvest fair", "by-day=2027-03-13", "by-time=09:00", "cheese1=Quick curd", "pieces1=8", c.field} {
			name, value, _ := strings.Cut(field, "=")
			f.Set(name, value)
		}
		text := k.sends(f, http.StatusConflict)
		k.has(text, "Not taken", c.want, `name="by-time" value="09:00"`, "<details open>")
		if k.targets() != before {
			t.Fatalf("%s: something was written", c.field)
		}
	}
	f := k.askForm(page, "add")
	for name, value := range map[string]string{"name": "Harvest: \"fair\"", "by-day": "2027-03-13", "by-time": "09:00", "cheese1": "Quick curd", "pieces1": "8"} {
		f.Set(name, value)
	}
	k.sends(f, http.StatusSeeOther)
	k.sends(f, http.StatusSeeOther) // a double tap
	added, ok := strings.CutPrefix(k.targets(), before)
	if !ok || strings.Count(added, "name:") != 1 || !strings.Contains(added, "pieces: 8}") {
		t.Errorf("got\n%s\nwant one target more", k.targets())
	}
	k.planned("Harvest: &#34;fair&#34;")
	rewrite(t, k.folder, "targets.yaml", "pieces: 8}", "pieces: 7}")
	by := k.targets()
	k.sends(k.askForm(k.ask("GET", k.at("Nell")+"ask", "").Body.String(), "back"), http.StatusConflict)
	if k.targets() != by {
		t.Error("what a maker has changed since is taken out")
	}
}

// Room in the cold, what moving more would save, and the plan that does.
func TestOtherQuestionsOnThePage(t *testing.T) {
	k := servedKitchen(t)
	rewrite(t, k.folder, "kitchen.yaml", "pots:", "boxes: [{name: crate, size: 30 x 20 x 10 cm}]\ncold:\n  - {name: cave, temperature: 11 °C, boxes: 3}\npots:")
	planAt(t, k.folder, "2027-03-04 20:00")
	k.watching()
	for range 500 { // the plan that another run has made is shown
		if strings.Contains(k.ask("GET", k.at("Nell")+"ask", "").Body.String(), ">cave<") {
			break
		}
		time.Sleep(10 * time.Millisecond)
	}
	page, _ := k.asks("room", "box=crate", "count=2", "from-day=2027-03-06", "until-day=2027-03-08")
	k.has(page, "Yes: 2", "crate have a place from Sat 6 Mar", "<bdi>cave: 2</bdi>")
	page, _ = k.asks("room", "box=crate", "count=9")
	k.has(page, "No: 9")
	page, _ = k.asks("room", "size=huge", "count=1")
	k.has(page, "Not answered", "one of the kitchen&#39;s boxes: crate")
	page, _ = k.asks("freer")
	k.has(page, "Moving more would save")
}

// What moving more would save is told, and taken by one tap: the plan is then another, as ripeby plan
// --settled "0 h" makes it.
func TestMovingMoreOnThePage(t *testing.T) {
	k := servedKitchen(t)
	k.now = time.Date(2027, 3, 3, 12, 0, 0, 0, time.UTC)
	here, away := "daily 06:00-22:00\"]}\npots", "daily 06:00-22:00\"], away: [{from: 2027-03-04 12:00, until: 2027-03-04 18:00}]}\npots"
	rewrite(t, k.folder, "kitchen.yaml", here, away)
	planAt(t, k.folder, "2027-03-03 12:00")
	rewrite(t, k.folder, "kitchen.yaml", away, here)
	planAt(t, k.folder, "2027-03-03 12:00")
	was, err := os.ReadFile(filepath.Join(k.folder, "plan", "plan.json"))
	if err != nil {
		t.Fatal(err)
	}
	k.watching()
	page, _ := k.asks("freer")
	k.has(page, "Moving more would save ", "Take it")
	page = k.answered(k.sends(k.askForm(page, "take"), http.StatusSeeOther))
	k.has(page, "The plan is made anew and in force: ")
	now, err := os.ReadFile(filepath.Join(k.folder, "plan", "plan.json"))
	if err != nil || string(now) == string(was) {
		t.Errorf("got the plan as it was, %v", err)
	}
	page, _ = k.asks("freer")
	k.has(page, "Moving more would save nothing that was found.")
}

// A form of before the server was started anew promises nothing: what it was about is not kept.
func TestAPromiseAfterARestart(t *testing.T) {
	k := servedKitchen(t)
	k.watching()
	page, path := k.asks("fits", "cheese=Quick curd", "pieces=10", "by-day=2027-03-13", "by-time=09:00")
	promise, before := k.askForm(page, "promise"), k.targets()
	k.start()
	if text := k.sends(promise, http.StatusConflict); !strings.Contains(text, "This question is not kept any more") || k.targets() != before {
		t.Errorf("got\n%s\nand\n%s", text, k.targets())
	}
	if w := k.ask("GET", path, ""); w.Code != http.StatusNotFound {
		t.Errorf("got %d for a question of before, want 404", w.Code)
	}
}
