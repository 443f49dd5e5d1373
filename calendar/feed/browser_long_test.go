//go:build long

package feed

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/testrun"
)

// axeFile names the environment variable with the path of axe-core's axe.min.js, and
// shotsFolder the one with a folder that pictures of the pages are put in.
const (
	axeFile     = "RIPEBY_AXE"
	shotsFolder = "RIPEBY_SHOTS"
)

// browser starts a Chromium that is installed, for as long as the test runs.
func browser(t *testing.T) context.Context {
	t.Helper()
	program := ""
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if found, err := exec.LookPath(name); err == nil {
			program = found
			break
		}
	}
	if program == "" {
		testrun.Missing(t, "there is no chromium, chromium-browser or google-chrome here")
	}
	opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(program), chromedp.NoSandbox, chromedp.Flag("disable-dev-shm-usage", true))
	ctx, stop := chromedp.NewExecAllocator(t.Context(), opts...)
	t.Cleanup(stop)
	ctx, stop = chromedp.NewContext(ctx)
	t.Cleanup(stop)
	ctx, stop = context.WithTimeout(ctx, 3*time.Minute)
	t.Cleanup(stop)
	if err := chromedp.Do(ctx); err != nil {
		t.Fatalf("%s does not start: %v", program, err)
	}
	return ctx
}

// inBrowser serves a plan on loopback and gives the address of the page.
func inBrowser(t *testing.T, made *Made) (s *stand, address string, web *httptest.Server) {
	t.Helper()
	s = pageStood(t, made)
	web = httptest.NewServer(s)
	t.Cleanup(func() { gone(web) })
	return s, web.URL + s.address(t, "page").Path(), web
}

// gone ends a server at once, whoever listens.
func gone(web *httptest.Server) {
	web.CloseClientConnections()
	web.Close()
}

// do takes steps in the page.
func do(t *testing.T, ctx context.Context, steps ...chromedp.Action[chromedp.Void]) {
	t.Helper()
	if err := chromedp.Do(ctx, steps...); err != nil {
		t.Fatal(err)
	}
}

// tell gives what a script in the page tells.
func tell[T any](t *testing.T, ctx context.Context, script string) T {
	t.Helper()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](script, chromedp.EvalAwaitPromise))
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// see makes pages of a width see a light or a dark scheme, on a screen or on paper.
func see(t *testing.T, ctx context.Context, width int64, scheme, medium string) {
	t.Helper()
	var opts []chromedp.EmulateViewportOption
	if width < 500 {
		opts = append(opts, chromedp.EmulateMobile, chromedp.EmulateTouch)
	}
	do(t, ctx, chromedp.EmulateViewport(width, 900, opts...))
	if _, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: medium,
		Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}}); err != nil {
		t.Fatal(err)
	}
}

// overflowing names what stands out to the right of a window of so many pixels:
// nothing may, but inside what scrolls by itself. A phone's innerWidth grows with
// what stands out, so it is not asked alone.
const overflowing = `(most => {
	const wide = Math.max(document.scrollingElement.scrollWidth, innerWidth);
	const out = [...document.querySelectorAll("body *")].filter(e => e.getBoundingClientRect().right > most + 1 && !e.closest(".scroll, .tabs, .skip, .unseen, thead"))
		.slice(0, 5).map(e => e.tagName + "." + e.className + " " + Math.round(e.getBoundingClientRect().right));
	return wide > most ? "the page is " + wide + " wide in " + most + ": " + out.join(", ") : "";
})(%d)`

// small names what is to be touched but is lower than 44 px; links within a sentence
// are not counted (WCAG 2.2, 2.5.8 leaves them out too).
const small = `[...document.querySelectorAll("a, summary")].filter(e => !e.matches(".skip, p:not(:has(.button)) a"))
	.filter(e => { const r = e.getBoundingClientRect(); return r.width > 0 && r.height < 44; })
	.map(e => e.textContent.trim() + " " + Math.round(e.getBoundingClientRect().height)).join(", ")`

// Every page at the width of a phone, a tablet and a desk, light, dark and on paper:
// nothing stands out to the side, targets are large, and axe-core finds nothing.
func TestPagesInABrowser(t *testing.T) {
	ctx := browser(t)
	_, address, _ := inBrowser(t, pageMade(t))
	axe, err := os.ReadFile(os.Getenv(axeFile))
	if err != nil {
		testrun.Without(t, "axe-core is not asked: "+axeFile+" does not name its axe.min.js")
	}
	for _, part := range append(pageParts(), pagePart{"gone", "batch/none"}) {
		for _, width := range []int64{320, 768, 1280} {
			for _, scheme := range []string{"light", "dark"} {
				name := fmt.Sprintf("%s-%d-%s", part.name, width, scheme)
				see(t, ctx, width, scheme, "screen")
				do(t, ctx, chromedp.Navigate(address+part.path))
				if wide := tell[string](t, ctx, fmt.Sprintf(overflowing, width)); wide != "" {
					t.Errorf("%s: %s", name, wide)
				}
				if low := tell[string](t, ctx, small); low != "" {
					t.Errorf("%s: lower than 44 px: %s", name, low)
				}
				shoot(t, ctx, name)
				if axe != nil {
					askAxe(t, ctx, name, string(axe))
				}
			}
		}
		see(t, ctx, 1000, "light", "print")
		if shown := tell[string](t, ctx, onScreenOnly); shown != "" {
			t.Errorf("%s on paper shows what only a screen can use: %q", part.name, shown)
		}
		shoot(t, ctx, part.name+"-print")
	}
}

// onScreenOnly names what paper has no use for but shows.
const onScreenOnly = `[...document.querySelectorAll("nav, .skip, .button, .jump")].filter(e => e.offsetParent).map(e => e.textContent.trim()).join(", ")`

// askAxe has axe-core look at the page that is open.
func askAxe(t *testing.T, ctx context.Context, name, axe string) {
	t.Helper()
	tell[int](t, ctx, axe+";0")
	found := tell[string](t, ctx, `axe.run(document, {resultTypes: ["violations"]}).then(r => JSON.stringify(r.violations.map(
		v => v.id + ": " + v.help + ": " + v.nodes.slice(0, 3).map(n => n.html).join(" | "))))`)
	var list []string
	if err := json.Unmarshal([]byte(found), &list); err != nil {
		t.Fatal(err)
	}
	for _, v := range list {
		t.Errorf("%s: axe-core: %s", name, v)
	}
}

// shoot keeps a picture where the folder for them is named.
func shoot(t *testing.T, ctx context.Context, name string) {
	t.Helper()
	folder := os.Getenv(shotsFolder)
	if folder == "" {
		return
	}
	png, err := chromedp.Run(ctx, chromedp.FullScreenshot(100))
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(folder, name+".png"), png, 0o644); err != nil {
		t.Fatal(err)
	}
}

// With a keyboard alone: the first stop is the way past the parts, and it leads there.
func TestPageByKeyboard(t *testing.T) {
	ctx := browser(t)
	_, address, _ := inBrowser(t, pageMade(t))
	do(t, ctx, chromedp.Navigate(address), chromedp.KeyEvent("\t"))
	first := tell[string](t, ctx, `document.activeElement.textContent`)
	do(t, ctx, chromedp.KeyEvent("\r"), chromedp.Sleep(200*time.Millisecond))
	then := tell[string](t, ctx, `document.activeElement.id`)
	if first != "To the content" || then != "main" {
		t.Errorf("got %q and then %q, want the way to the content and the content", first, then)
	}
}

// Whoever is somewhere with the keyboard stays there when the page comes up to date: at a
// link, a fold that is open, a heading that was jumped to, or the content as a whole.
func TestPageByKeyboardStays(t *testing.T) {
	ctx := browser(t)
	s, address, _ := inBrowser(t, pageMade(t))
	s.clock.move(11 * time.Hour) // so that there is something to unfold
	do(t, ctx, chromedp.Navigate(address))
	const where = `(e => e.tagName + e.id + (e.getAttribute("href") ?? "") + [...document.querySelectorAll(e.tagName)].indexOf(e))(document.activeElement)`
	for _, at := range []string{`querySelector(".job h4 a")`, `querySelectorAll("summary")[1]`, `getElementById("person-1")`, `getElementById("main")`} {
		before := tell[string](t, ctx, `document.`+at+`.focus(), `+where)
		changed := pageMade(t)
		changed.Plan.Targets[0].Target = "Market of " + before
		changed.Print = changed.Plan.Targets[0].Target
		s.show(changed)
		tell[bool](t, ctx, `dispatchEvent(new Event("online"))`)
		becomes(t, ctx, fmt.Sprintf(`document.getElementById("main").textContent.includes(%q)`, changed.Plan.Targets[0].Target))
		if after := tell[string](t, ctx, where); after != before {
			t.Errorf("somebody at %s is then at %s", before, after)
		}
	}
}

// The page comes up to date by itself when it is looked at again, and stays, and says
// so, when the server is gone.
func TestPageRefreshesAndStays(t *testing.T) {
	ctx := browser(t)
	made := pageMade(t)
	s, address, web := inBrowser(t, made)
	const body, again = `document.body.innerText`, `dispatchEvent(new Event("online"))`
	do(t, ctx, chromedp.Navigate(address))
	tell[bool](t, ctx, `navigator.serviceWorker.ready.then(() => true)`)
	do(t, ctx, chromedp.Navigate(address))
	if text := tell[string](t, ctx, body); !strings.Contains(text, "Nell") || strings.Contains(text, "No connection") {
		t.Fatalf("the page shows %q", text)
	}
	changed := pageMade(t)
	changed.Plan.Batches[1].Stages[0].Stage = "warm the milk"
	changed.Print = "changed"
	s.show(changed)
	tell[bool](t, ctx, again)
	becomes(t, ctx, `document.body.innerText.includes("warm the milk")`)
	gone(web)
	tell[bool](t, ctx, again)
	becomes(t, ctx, `document.getElementById("offline").textContent.includes("No connection")`)
	for path, want := range map[string]string{"": "warm the milk", "week": "The week", "batches": "Batches over days", "cold": "Cold places"} {
		do(t, ctx, chromedp.Navigate(address+path))
		becomes(t, ctx, `[...document.images].every(i => i.complete && i.naturalWidth > 0)`)
		if text := tell[string](t, ctx, body); !strings.Contains(text, want) {
			t.Errorf("without the server %q shows %q, want %q", path, text, want)
		}
		// That it is old stands there from the beginning, with its time, above the rest and
		// still there when somebody has scrolled down.
		if says := tell[string](t, ctx, `document.getElementById("offline").textContent`); !strings.Contains(says, "as it was on Tue 16 Mar 2027 08:20.") {
			t.Errorf("without the server %q says %q", path, says)
		}
		see(t, ctx, 320, "light", "screen")
		if at := tell[float64](t, ctx, `scrollTo({top: 900, behavior: "instant"}), document.getElementById("offline").getBoundingClientRect().top`); at < 0 || at > 10 {
			t.Errorf("without the server %q says so at %v px from the top of the window", path, at)
		}
		do(t, ctx, chromedp.Navigate(address+path))
		shoot(t, ctx, "offline-"+path)
	}
}

// A server that takes a request and never answers counts as out of reach after some
// seconds, and what is new counts again when it answers.
func TestPageOfAServerThatHangs(t *testing.T) {
	ctx := browser(t)
	s := pageStood(t, pageMade(t))
	var hangs atomic.Bool
	over := make(chan bool)
	web := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if hangs.Load() {
			select {
			case <-over:
			case <-r.Context().Done():
			}
		}
		s.ServeHTTP(w, r)
	}))
	t.Cleanup(func() { gone(web) })
	t.Cleanup(func() { hangs.Store(false); close(over) })
	address := web.URL + s.address(t, "page").Path()
	do(t, ctx, chromedp.Navigate(address))
	tell[bool](t, ctx, `navigator.serviceWorker.ready.then(() => true)`)
	do(t, ctx, chromedp.Navigate(address))
	hangs.Store(true)
	began := time.Now()
	do(t, ctx, chromedp.Navigate(address+"week"))
	if text := tell[string](t, ctx, `document.body.innerText`); !strings.Contains(text, "The week") || !strings.Contains(text, "No connection") {
		t.Errorf("after %v: %q", time.Since(began), text)
	}
	hangs.Store(false)
	do(t, ctx, chromedp.Navigate(address+"week"))
	if text := tell[string](t, ctx, `document.body.innerText`); strings.Contains(text, "No connection") {
		t.Errorf("it answers again: %q", text)
	}
}

// The sheet of a batch that leaves the plan while somebody reads it leads on, and is not
// shown from memory later.
func TestSheetOfABatchThatLeavesThePlan(t *testing.T) {
	ctx := browser(t)
	s, address, web := inBrowser(t, pageMade(t))
	do(t, ctx, chromedp.Navigate(address))
	tell[bool](t, ctx, `navigator.serviceWorker.ready.then(() => true)`)
	do(t, ctx, chromedp.Navigate(address+"batch/BH-270316-1"))
	changed := pageMade(t)
	changed.Plan.Batches, changed.Print = changed.Plan.Batches[:1], "changed"
	s.show(changed)
	tell[bool](t, ctx, `dispatchEvent(new Event("online"))`)
	becomes(t, ctx, `document.body.innerText.includes("What is to be done now") && document.title.startsWith("Not in the plan")`)
	gone(web)
	if kept := tell[bool](t, ctx, `caches.match(location.href).then(Boolean)`); kept {
		t.Error("the sheet is still kept")
	}
}

// The days of a full week, with two pieces of work and a round on each, stand on one sheet of A4, whatever comes after them, and no
// word of a usual length is broken.
func TestWeekPrintsOnOneSheet(t *testing.T) {
	ctx := browser(t)
	made := pageMade(t)
	b := &made.Plan.Batches[1]
	b.ID = "WH-270316-1"
	first := b.Stages[0]
	b.Stages = nil
	made.Plan.Rounds = nil
	for day := range 6 {
		for k, name := range []string{"make", "ladle"} {
			stage := first
			stage.Stage, stage.Start = fmt.Sprintf("%s %d", name, day), first.Start.Add(resources.Minutes(day)*resources.Day+resources.Minutes(k)*100)
			stage.Ends, stage.Hold = stage.Start.Add(stage.Work), 0
			b.Stages = append(b.Stages, stage)
		}
		made.Plan.Rounds = append(made.Plan.Rounds, schedule.RoundBlock{Start: first.Start.Add(resources.Minutes(day)*resources.Day + 600), Minutes: 20, Who: "Ivo",
			Care: []schedule.RoundCare{{Batch: b.ID, Do: "turn", Hands: 5}}})
	}
	_, address, _ := inBrowser(t, made)
	const dot = 25.4 / 96 // millimetres; the margins of the sheet are 12 each
	width, height := (210-2*12)/dot, (297-2*12)/dot
	see(t, ctx, int64(width), "light", "print")
	do(t, ctx, chromedp.Navigate(address+"week"))
	if rows := tell[int](t, ctx, `document.querySelectorAll(".weekday tbody tr").length`); rows < 28 {
		t.Fatalf("the week has %d rows, want 28 or more", rows)
	}
	if end := tell[float64](t, ctx, `[...document.querySelectorAll(".weekday")].at(-1).getBoundingClientRect().bottom + scrollY`); end > height {
		t.Errorf("the days end %.0f mm down, want within %.0f", end*dot, height*dot)
	}
	broken := tell[string](t, ctx, `[...document.querySelectorAll(".work bdi")].filter(e => /^[\w-]+$/.test(e.textContent) && e.getClientRects().length > 1).map(e => e.textContent).join(", ")`)
	if broken != "" {
		t.Errorf("broken over lines: %s", broken)
	}
	if folded := tell[string](t, ctx, `[...document.querySelectorAll(".opens")].filter(d => d.querySelector("ul, table").getBoundingClientRect().height < 1).map(d => d.textContent).join(", ")`); folded != "" {
		t.Errorf("folded on paper: %s", folded)
	}
	shoot(t, ctx, "week-full-print")
}

// becomes waits until something holds in the page.
func becomes(t *testing.T, ctx context.Context, holds string) {
	t.Helper()
	for range 300 {
		if tell[bool](t, ctx, holds) {
			return
		}
		time.Sleep(50 * time.Millisecond)
	}
	t.Fatalf("it never came to this: %s", holds)
}

// Names as long as anybody gives them, without a place to break, stand out nowhere.
func TestPagesOfLongNamesInABrowser(t *testing.T) {
	ctx := browser(t)
	made := pageMade(t)
	long := strings.Repeat("Bramblehoop", 27)
	made.Problem.Kitchen.Name, made.Problem.Kitchen.People[0].Name = long, long
	made.Problem.Kitchen.Cold[0].Name, made.Plan.Targets[0].Target = long, long
	for i := range made.Plan.Batches {
		b := &made.Plan.Batches[i]
		b.Cheese = long
		for k := range b.Stages {
			b.Stages[k].Stage, b.Stages[k].Who, b.Stages[k].At = long, long, long
			for n := range b.Stages[k].Uses {
				b.Stages[k].Uses[n].Thing = long
			}
		}
	}
	_, address, _ := inBrowser(t, made)
	for _, part := range pageParts() {
		for _, width := range []int64{320, 900, 1280} {
			see(t, ctx, width, "light", "screen")
			do(t, ctx, chromedp.Navigate(address+part.path))
			if wide := tell[string](t, ctx, fmt.Sprintf(overflowing, width)); wide != "" {
				t.Errorf("%s at %d: %s", part.name, width, wide)
			}
			shoot(t, ctx, fmt.Sprintf("long-%s-%d", part.name, width))
		}
	}
}
