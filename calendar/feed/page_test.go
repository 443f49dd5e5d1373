package feed

import (
	"bytes"
	"flag"
	"fmt"
	"html"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"ripeby/calendar/list"
	"ripeby/calendar/said"
	"ripeby/resources"
	"ripeby/schedule"
)

var update = flag.Bool("update", false, "write the kept pages anew")

// Each page of a small plan is as it was kept, the addresses apart.
func TestPagesAsKept(t *testing.T) {
	s := pageStood(t, pageMade(t))
	for _, part := range pageParts() {
		w := s.ask("GET", s.address(t, "page").Path()+part.path)
		got := settled(w)
		if w.Code != 200 {
			t.Errorf("%s: got %d, want 200", part.name, w.Code)
		}
		file := filepath.Join("testdata", part.name+".html")
		if *update {
			if err := os.WriteFile(file, got, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(got, want) {
			t.Errorf("%s differs; run go test ./calendar/feed -run TestPagesAsKept -update if that is right; got\n%s", file, got)
		}
	}
}

// settled is a page without what chance has drawn, and without its codes.
func settled(w *httptest.ResponseRecorder) []byte {
	got := regexp.MustCompile(`[a-z2-7]{26}`).ReplaceAll(w.Body.Bytes(), []byte("TOKEN"))
	return regexp.MustCompile(`<path fill="#000" d="[^"]*"/>`).ReplaceAll(got, []byte("<path/>"))
}

// hostile is a name with everything that may not come through as it is.
const hostile = "<script>alert(1)</script>\"' onclick=x \u202eevil\u2066 &amp; {{.Root}}\x00"

// Every text that people give is shown as text, on every page: no markup, no end of
// an attribute, and no mark that turns the direction of writing.
func TestPagesEscapeEveryText(t *testing.T) {
	made := pageMade(t)
	made.Problem.Kitchen.Name, made.Problem.Kitchen.People[0].Name = hostile, hostile
	made.Problem.Kitchen.Cold[0].Name, made.Problem.Kitchen.Cold[0].Shelves[0].Name = hostile, hostile
	p := made.Plan
	for i := range p.Batches {
		b := &p.Batches[i]
		b.ID, b.Cheese = strings.NewReplacer("/", "?#%2f", "\x00", "").Replace(hostile)+b.ID, hostile // a path holds neither
		for k := range b.Stages {
			b.Stages[k].Stage, b.Stages[k].Who, b.Stages[k].At = hostile, hostile, hostile
			for n := range b.Stages[k].Uses {
				b.Stages[k].Uses[n].Thing = hostile
			}
			for n := range b.Stages[k].BoxesAt {
				b.Stages[k].BoxesAt[n].Place, b.Stages[k].BoxesAt[n].Shelf = hostile, hostile
			}
		}
		for k := range b.Care {
			b.Care[k].Do = hostile
		}
		for k := range b.For {
			b.For[k].Target = hostile
		}
	}
	p.Batches[1].Milk.Supply, p.Milk = hostile, nil
	p.Rounds[0].Who, p.Rounds[0].Care[0] = hostile, schedule.RoundCare{Batch: p.Batches[0].ID, Do: hostile, Hands: 5}
	p.Targets[0].Target, p.Targets[0].Cheese, p.Targets[0].Because = hostile, hostile, hostile
	p.Warnings[0].Text, p.Warnings[1].Text = hostile, hostile
	p.Changes[0] = schedule.Change{Batch: p.Batches[0].ID, Stage: hostile, Was: p.From, WasWho: hostile, Now: p.From, NowWho: hostile, Because: hostile}
	p.Cautions[0] = schedule.Caution{Code: "x", Cheese: hostile, Stage: hostile, Text: hostile}
	s := pageStood(t, made)
	s.change(func(b *board) { b.status.Faults = []string{hostile} })
	root := s.address(t, "page").Path()
	for _, part := range append(pageParts(), struct{ name, path string }{"drawing", "batches.svg"}, struct{ name, path string }{"map", "cold/20270316T0820Z.svg"}, struct{ name, path string }{"small map", "cold/20270316T0820Z-0.svg"},
		struct{ name, path string }{"days", "batches/2027-03-16.svg"}, struct{ name, path string }{"more days", "batches/2027-03-16-desk.svg"}) {
		path := root + part.path
		switch part.name {
		case "sheet":
			path = root + "batch/" + sheetLink(t, s, root)
		case "place": // the other's name cannot stand in an address, and nothing leads to it
			path = root + "cold/now/kitchen%20fridge"
		}
		if part.name == "list" {
			path = root + "list/" + list.Coming(made.Problem, p, nil, made.Problem.From.DateIn(made.Problem.Kitchen.Zone))[0].Key
		}
		w := s.ask("GET", path)
		text := w.Body.String()
		if w.Code != 200 || !strings.Contains(text, "alert(1)") {
			t.Errorf("%s: got %d, want 200 and the name; got\n%s", part.name, w.Code, text)
		}
		for _, never := range []string{"<script>", `"' onclick`, "\u202e", "\u2066", "\x00", "&amp;amp; {{.Root}}<", "ZgotmplZ"} {
			if strings.Contains(text, never) {
				t.Errorf("%s holds %q", part.name, never)
			}
		}
	}
}

// sheetLink finds the way to a sheet in the list of batches.
func sheetLink(t *testing.T, s *stand, root string) string {
	t.Helper()
	text := s.ask("GET", root+"batches").Body.String()
	found := regexp.MustCompile(`href="` + regexp.QuoteMeta(root) + `batch/([^"]*)"`).FindStringSubmatch(text)
	if found == nil {
		t.Fatalf("no way to a sheet in\n%s", text)
	}
	return html.UnescapeString(found[1])
}

// What is now and what is next go by the clock at the moment of asking.
func TestPageGoesByTheClock(t *testing.T) {
	for _, c := range []struct {
		name   string
		at     time.Duration // after pageNow, 08:20
		now    string        // Nell's
		later  []string
		nobody bool
	}{
		{"before", -30 * time.Minute, "Nothing just now.", []string{"make Bramble hoop", "ripen Bramble hoop"}, true},
		{"its first minute", -20 * time.Minute, "make Bramble hoop", []string{"ripen Bramble hoop"}, false},
		{"within", 0, "make Bramble hoop", []string{"ripen Bramble hoop"}, false},
		{"its last minute", 39 * time.Minute, "make Bramble hoop", []string{"ripen Bramble hoop"}, false},
		{"after", 40 * time.Minute, "Nothing just now.", []string{"ripen Bramble hoop", "Earlier today: 1"}, true},
		{"long before, what has begun is past", -10 * 24 * time.Hour, "Nothing just now.", []string{"Tue 16 Mar"}, true},
		{"after everything", 20 * 24 * time.Hour, "Nothing just now.", []string{"Nothing more in this plan."}, true},
	} {
		s := pageStood(t, pageMade(t))
		s.clock.move(c.at)
		text := s.ask("GET", s.address(t, "page").Path()).Body.String()
		_, nell, _ := strings.Cut(text, `<h2 id="person-0"`)
		nell, _, _ = strings.Cut(nell, `<h2 id="person-1"`)
		now, next, _ := strings.Cut(nell, "<h3>Next</h3>")
		if !strings.Contains(now, c.now) || strings.Contains(now, "Nothing just now.") != c.nobody {
			t.Errorf("%s: got now %s, want %q", c.name, now, c.now)
		}
		if strings.Contains(next, "begun") {
			t.Errorf("%s: what has begun is next: %s", c.name, next)
		}
		for _, want := range c.later {
			if !strings.Contains(next, want) {
				t.Errorf("%s: got next %s, want %q", c.name, next, want)
			}
		}
	}
}

// Weeks and days can be paged through; what is no day, or lies beyond what can be
// shown, is not there.
func TestPagesOfOtherDays(t *testing.T) {
	s := pageStood(t, pageMade(t))
	root := s.address(t, "page").Path()
	for _, c := range []struct {
		path string
		want int
		text string
	}{
		{"week/2027-03-08", 200, "week 10 of 2027"}, {"week/2027-03-30", 200, "No work this week."}, {"week/1970-01-01", 200, "No work"}, {"week/2199-12-31", 200, "No work"},
		{"week/1969-12-31", 404, ""}, {"week/2200-01-01", 404, ""}, {"week/2027-3-8", 404, ""}, {"week/2027-02-30", 404, ""}, {"week/next", 404, ""}, {"week/2027-03-08/x", 404, ""},
		{"cold/2027-03-18", 200, "Thu 18 Mar 2027 at 12:00"}, {"cold/2027-13-01", 404, ""}, {"cold/20270316T0820Z.svg", 200, "<svg"}, {"cold/20270316T0820.svg", 404, ""}, {"cold/x.svg", 404, ""},
		{"cold/20270316T0820Z-0.svg", 200, `width="156"`}, {"cold/20270316T0820Z-2-large.svg", 200, `width="328"`}, {"cold/20270316T0820Z-3.svg", 404, ""}, {"cold/20270316T0820Z--1.svg", 404, ""},
		{"cold/20270316T0820Z-00.svg", 404, ""}, {"cold/20270316T0820Z-large.svg", 404, ""}, {"cold/20270316T0820Z-0.svg/wine%20fridge", 404, ""},
		{"cold/now", 404, ""}, {"cold/now/wine%20fridge", 200, "is now"}, {"cold/2027-03-18/wine%20fridge", 200, "Thu 18 Mar 2027 at 12:00"}, {"cold/now/top", 404, ""}, {"cold/now/cellar", 404, ""},
		{"cold/2027-02-30/wine%20fridge", 404, ""}, {"cold/now/wine%20fridge/x", 404, ""}, {"week/2027-03-08/x/y", 404, ""}, {"more", 200, "changes"}, {"more/x", 404, ""},
		{"batches/2027-03-18", 200, "batches/2027-03-18-desk.svg"}, {"batches/2027-03-18.svg", 200, `width="328"`}, {"batches/2027-03-18-desk.svg", 200, `width="968"`},
		{"batches/2027-03-18-desk", 404, ""}, {"batches/.svg", 404, ""}, {"batches/2027-3-18.svg", 404, ""}, {"batches/1970-01-01", 200, "<img"}, {"batches/2199-12-31", 200, "<img"}, {"batches/2199-12-31.svg", 200, "No batches"},
		{"batches.svg", 200, "<svg"}, {"batches.svg/x", 404, ""}, {"status/x", 404, ""}, {"calendars/x", 404, ""}, {"batch", 404, ""}, {"now", 404, ""}, {"worker.js", 200, "fetch"},
	} {
		w := s.ask("GET", root+c.path)
		if w.Code != c.want || !strings.Contains(w.Body.String(), c.text) {
			t.Errorf("%s: got %d, want %d with %q", c.path, w.Code, c.want, c.text)
		}
	}
}

// A drawing's own policy lets its style sheet through and nothing else.
func TestDrawingsKeepTheirStyle(t *testing.T) {
	s := pageStood(t, pageMade(t))
	for _, path := range []string{"batches.svg", "batches/2027-03-16.svg", "batches/2027-03-16-desk.svg", "cold/20270316T0820Z.svg", "cold/20270316T0820Z-0.svg"} {
		w := s.ask("GET", s.address(t, "page").Path()+path)
		if got := header(w, "Content-Security-Policy"); !strings.HasPrefix(got, "default-src 'none'; style-src 'sha256-") || strings.Contains(got, "unsafe") {
			t.Errorf("%s: got the policy %q", path, got)
		}
		if header(w, "Content-Type") != "image/svg+xml" || header(w, "Referrer-Policy") != "no-referrer" {
			t.Errorf("%s: got %v", path, w.Result().Header)
		}
	}
}

// A sheet that a calendar leads to leads nowhere else: it tells no other address and
// loads no script.
func TestSheetOfFeedLeadsNowhere(t *testing.T) {
	s := pageStood(t, pageMade(t))
	nell := s.address(t, "Nell")
	text := s.ask("GET", nell.SheetsPath()+"BH-270316-1").Body.String()
	if strings.Contains(text, "<nav") || strings.Contains(text, "/p/") || strings.Contains(text, "<script") || strings.Contains(text, "webcal") {
		t.Errorf("the sheet leads elsewhere:\n%s", text)
	}
	for _, want := range []string{"from Tue 16 Mar 07:30 to Tue 16 Mar 09:15", "tall pot", "1\u00a0h, Nell", "A curd that sets late is a risk.", "Local rules come first."} {
		if !strings.Contains(text, want) {
			t.Errorf("the sheet does not say %q", want)
		}
	}
}

// What a batch that has left the plan was at leads on to what is planned, and is not
// kept; the address itself, mistyped, tells nothing.
func TestPageLeadsOnFromWhatIsGone(t *testing.T) {
	s := pageStood(t, pageMade(t))
	page := s.address(t, "page").Path()
	for _, path := range []string{"batch/BH-1", "batch", "week/tomorrow", "cold/2027-02-30", "no/such/page", "status/x"} {
		w := s.ask("GET", page+path, "If-None-Match: *")
		text := w.Body.String()
		if w.Code != http.StatusNotFound || header(w, "Content-Type") != "text/html; charset=utf-8" || header(w, "Content-Security-Policy") != policy || header(w, "ETag") != "" ||
			!strings.Contains(text, `<a href="`+page+`">What is to be done now</a>`) || !strings.Contains(text, "<nav") {
			t.Errorf("%s: got %d, %s", path, w.Code, text)
		}
		if head := s.ask("HEAD", page+path); head.Code != w.Code || head.Body.Len() > 0 || header(head, "Content-Length") != fmt.Sprint(len(text)) {
			t.Errorf("%s: HEAD gives %d, %d bytes and length %s", path, head.Code, head.Body.Len(), header(head, "Content-Length"))
		}
		if s.kept.Find(s.board.Load(), resources.MomentOf(s.clock.now()), page+path) != nil {
			t.Errorf("%s is kept", path)
		}
	}
	if w := s.ask("GET", "/p/"+strings.Repeat("a", 26)+"/batch/BH-1"); w.Code != http.StatusNotFound || strings.Contains(w.Body.String(), "<") {
		t.Errorf("an unknown address: got %d, %s", w.Code, w.Body)
	}
}

// A plan of which nothing is left to do, or that has nothing in it, says so first of all; one that was made just
// now and begins in some minutes does not seem to lie ahead.
func TestPageOfAPlanThatIsDone(t *testing.T) {
	now := func(change func(*stand, *Made)) string {
		made := pageMade(t)
		s := pageStood(t, made)
		change(s, made)
		return s.ask("GET", s.address(t, "page").Path()).Body.String()
	}
	const over, nothing, later = "Nothing of this plan is left to do: the last of it was on Sat 20 Mar 09:00.", "Nothing is planned.", "This plan begins later"
	for _, c := range []struct {
		name   string
		change func(*stand, *Made)
		says   string
	}{
		{"in the middle", func(*stand, *Made) {}, ""},
		{"a minute before its end", func(s *stand, _ *Made) { s.clock.move(4*24*time.Hour + 39*time.Minute) }, ""},
		{"at its end", func(s *stand, _ *Made) { s.clock.move(4*24*time.Hour + 40*time.Minute) }, over},
		{"a year later", func(s *stand, _ *Made) { s.clock.move(366 * 24 * time.Hour) }, over},
		{"an empty plan", func(_ *stand, m *Made) {
			m.Plan.Batches, m.Plan.Rounds, m.Plan.Targets, m.Plan.Milk = nil, nil, nil, nil
		}, nothing},
		{"it begins in five minutes", func(_ *stand, m *Made) { m.Plan.From = resources.MomentOf(pageNow) + 5 }, ""},
		{"it begins in an hour", func(_ *stand, m *Made) { m.Plan.From = resources.MomentOf(pageNow) + 60 }, later},
	} {
		text := now(c.change)
		for _, line := range []string{over, nothing, later} {
			if strings.Contains(text, line) != (line == c.says) {
				t.Errorf("%s: got %s\nwant of these lines %q", c.name, text, c.says)
			}
		}
	}
}

// Batches that are over are folded away below those under way or to come.
func TestPastBatchesAreFoldedAway(t *testing.T) {
	s := pageStood(t, pageMade(t))
	batches := func() (open, folded string) {
		open, folded, _ = strings.Cut(s.ask("GET", s.address(t, "page").Path()+"batches").Body.String(), `<details data-fold="over">`)
		return open, folded
	}
	open, folded := batches()
	if !strings.Contains(open, "<bdi>BH-270310-1</bdi>") || !strings.Contains(open, "<bdi>BH-270316-1</bdi>") || folded != "" {
		t.Errorf("both are under way: %s", open)
	}
	s.clock.move(5 * 24 * time.Hour)
	open, folded = batches()
	if strings.Contains(open, "<bdi>BH-270310-1</bdi>") || !strings.Contains(open, "<bdi>BH-270316-1</bdi>") || !strings.Contains(folded, "Over: 1") || !strings.Contains(folded, "<bdi>BH-270310-1</bdi>") {
		t.Errorf("one is over: %s\n<details>%s", open, folded)
	}
	s.clock.move(30 * 24 * time.Hour)
	if open, folded = batches(); !strings.Contains(open, "The batches of the plan are all over.") || !strings.Contains(folded, "Over: 2") {
		t.Errorf("both are over: %s\n<details>%s", open, folded)
	}
}

// The calendars page says how often each client looks, from five minutes to a day or longer, and that the two that fetch from
// their own servers do not see a kitchen's own network. The figures are from memory of what each program offers in its
// settings, and for those that offer nothing from what publishers of feeds report.
func TestCalendarsSayHowOftenClientsLook(t *testing.T) {
	s := pageStood(t, pageMade(t))
	text := s.ask("GET", s.address(t, "page").Path()+"calendars").Body.String()
	for client, says := range map[string]string{"iPhone and iPad": "every 15 minutes to once a week", "Mac": "every 5 minutes", "Android": "every 15 minutes to once a day",
		"Thunderbird": "every 30 minutes", "Outlook on a computer": "every one to three hours", "Google Calendar and Outlook.com": "about every 3 hours, Google every 8 to 24 hours"} {
		_, how, found := strings.Cut(text[strings.Index(text, `id="late"`):], "<dt>"+client+"</dt>")
		if how, _, _ = strings.Cut(how, "</dd>"); !found || !strings.Contains(how, says) {
			t.Errorf("%s: got %q, want %q", client, how, says)
		}
	}
	if !strings.Contains(text, "cannot reach a server that is only on a kitchen's own network") {
		t.Error("it does not say that they cannot reach a kitchen's own network")
	}
}

// The week begins with today: the days before it are folded, and so is what is over or said to be done today. Another
// week begins with its Monday, and folds nothing.
func TestWeekBeginsWithToday(t *testing.T) {
	s := pageStood(t, pageMade(t))
	page := s.address(t, "page").Path()
	onScreen := func(path string) string {
		text, _, _ := strings.Cut(s.ask("GET", page+path).Body.String(), `<div class="onpaper">`)
		return text
	}
	order := func(text string, parts ...string) {
		t.Helper()
		for _, part := range parts {
			before, after, found := strings.Cut(text, part)
			if !found {
				t.Fatalf("got\n%s\nwant %q after what comes before it, not in\n%s", text, part, before)
			}
			text = after
		}
	}
	order(onScreen("week"), `tabindex="-1">Tue 16 Mar, today</h2>`, "Done or over: 1", "Collect Hill Farm cow", "</details>", "make Bramble hoop", "the round</bdi>: 1", "Wed 17 Mar</h2>", ">any time<")
	s.clock.move(25 * time.Hour)
	order(onScreen("week"), "Earlier this week: 3 lines", "Tue 16 Mar</h2>", "Wed 17 Mar, today</h2>", "Done or over: 1", "ripen Bramble hoop", "</section>", "Thu 18 Mar</h2>")
	for path, monday := range map[string]string{"week/2027-03-09": "Wed 10 Mar</h2>", "week/2027-03-22": "Nothing"} {
		if text := onScreen(path); strings.Contains(text, "Earlier this week") || strings.Contains(text, "Done or over") || strings.Contains(text, "today</h2>") {
			t.Errorf("%s: want nothing folded and no today, from %q on; got\n%s", path, monday, text)
		}
	}
	s.kitchen.change(func(k *kitchenAt) {
		k.told = &said.Told{Lately: []said.Word{{Nr: 1, At: resources.MomentOf(pageNow), Who: "Ivo", Batch: "BH-270310-1", Did: "pack"}}}
	})
	s.hear()
	order(onScreen("week"), "Fri 19 Mar</h2>", "Done or over: 1", "pack Bramble hoop", "(done Tue 16 Mar 08:20, Ivo)", "</details>\n</details>")
}

// The map of a shelf leads to the sheet of its place whatever that is called; a name that cannot stand in an address leads
// nowhere, and is told.
func TestPlacesWithOddNames(t *testing.T) {
	for name, leads := range map[string]bool{"Kühl & 50 % #1?": true, "a;b=c&d": true, "now": true, "2027-03-16": true, "20270316T0820Z.svg": true, "x.svg": true,
		"left/right": false, "..": false, `back\slash`: false} {
		made := pageMade(t)
		made.Problem.Kitchen.Cold[1].Name = name
		s := pageStood(t, made)
		root := s.address(t, "page").Path()
		text := s.ask("GET", root+"cold").Body.String()
		line := text[strings.LastIndex(text, `<p class="nothing">`):]
		line, _, _ = strings.Cut(line, "</p>")
		found := regexp.MustCompile(`href="([^"]*)"`).FindStringSubmatch(line)
		if (found != nil) != leads || !strings.Contains(line, "<bdi>"+html.EscapeString(name)+"</bdi>") {
			t.Errorf("%s: got %s, want a way to its sheet: %v", name, line, leads)
		}
		if found == nil {
			continue
		}
		if w := s.ask("GET", html.UnescapeString(found[1])); w.Code != 200 || !strings.Contains(w.Body.String(), "<h2><bdi>"+html.EscapeString(name)+" (4\u00a0°C)</bdi>") {
			t.Errorf("%s: %s gives %d, %s", name, found[1], w.Code, w.Body)
		}
	}
}

// Milk that is to be ordered today stands on top, until it is said to be or the moment is past; what leaves next says
// from where, and in how many boxes.
func TestPageBeginsWithMilkToOrder(t *testing.T) {
	made := pageMade(t)
	made.Problem.Kitchen.Milk = []resources.Milk{{Name: "Hill Farm cow", Order: 90}}
	collect := resources.MomentOf(pageNow.Add(2 * time.Hour))
	made.Plan.Batches[1].Milk, made.Plan.Milk = &schedule.Draw{Supply: "Hill Farm cow", Collect: collect}, nil
	s := pageStood(t, made)
	now := func() string { return s.ask("GET", s.address(t, "page").Path()).Body.String() }
	const order = `<a href="#milk">Order milk by 08:50</a>`
	text := now()
	line, _, _ := strings.Cut(text, `<section class="person"`)
	if !strings.Contains(line, order) || !strings.Contains(text, `<h2 id="milk">`) {
		t.Errorf("got on top\n%s\nwant %q", line, order)
	}
	if leaves := "Bramble hoop, 14\u00a0pieces (6\u00a0promised), BH-270310-1, kitchen fridge, in 2\u00a0boxes"; !strings.Contains(text, leaves) {
		t.Errorf("got\n%s\nwant that %q leaves next", text, leaves)
	}
	s.kitchen.change(func(k *kitchenAt) {
		k.told = &said.Told{Lately: []said.Word{{Nr: 1, At: resources.MomentOf(pageNow), Who: "Ivo", Milk: "Hill Farm cow", Day: resources.Date{Year: 2027, Month: 3, Day: 16}, Ordered: true}}}
	})
	s.hear()
	if strings.Contains(now(), order) {
		t.Error("it is ordered, and still stands on top")
	}
	s.kitchen.change(func(k *kitchenAt) { k.told = nil })
	s.hear()
	s.clock.move(31 * time.Minute)
	if strings.Contains(now(), order) {
		t.Error("its moment is past, and it still stands on top")
	}
}

// Somebody with work who is not in the kitchen any more still sees it, and a kitchen
// that begins its plan later says so.
func TestPageOfThoseWhoLeft(t *testing.T) {
	made := pageMade(t)
	made.Problem.Kitchen.People = made.Problem.Kitchen.People[1:]
	made.Plan.From = resources.MomentOf(pageNow.Add(time.Hour))
	s := pageStood(t, made)
	text := s.ask("GET", s.address(t, "page").Path()).Body.String()
	for _, want := range []string{"<bdi>Nell</bdi></h2>", "This plan begins later, on Tue 16 Mar 09:20."} {
		if !strings.Contains(text, want) {
			t.Errorf("got\n%s\nwant %q", text, want)
		}
	}
}
