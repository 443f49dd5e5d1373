//go:build long

package feed

import (
	"context"
	"fmt"
	"net/url"
	"regexp"
	"testing"
	"time"

	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// mostShift is how much of a page may move by itself, by the score of the Layout Instability API (W3C, Web
// Incubator CG): the share of the window that moved times how far it moved.
const mostShift = 0.02

// shifts adds up what moves from the first moment on. What moves right after a touch is taken for its doing
// by the API, and nobody touches anything here.
const shifts = `window.moved = 0;
new PerformanceObserver(list => { for (const e of list.getEntries()) window.moved += e.value; }).observe({type: "layout-shift", buffered: true});`

// Nothing moves on a phone while a page comes, pictures and all, nor when it comes up to date by itself.
func TestNothingMovesByItself(t *testing.T) {
	ctx := browser(t)
	see(t, ctx, phoneWide, "light", "screen")
	if _, err := chromedp.Call(ctx, network.SetBypassServiceWorker, network.SetBypassServiceWorkerParams{Bypass: true}); err != nil {
		t.Fatal(err)
	}
	if _, err := chromedp.Call(ctx, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: shifts}); err != nil {
		t.Fatal(err)
	}
	made := demoMade(t)
	s, address, _ := inBrowser(t, made)
	s.clock.move(demoNow.Sub(pageNow))
	const asOf = `document.querySelector("footer time").textContent`
	const settled = `new Promise(done => setTimeout(() => done([...document.images].every(i => i.complete && i.naturalWidth > 0) ? window.moved : -1), 700))`
	for _, path := range []string{"", "week", "batches", "cold", "cold/now/dairy%20fridge", "more"} {
		do(t, ctx, chromedp.Navigate(address+path))
		if moved := tell[float64](t, ctx, settled); moved < 0 || moved >= mostShift {
			t.Errorf("%q: while it came %v moved, want less than %v, and all pictures there", path, moved, mostShift)
		}
		before := tell[string](t, ctx, asOf)
		s.clock.move(time.Minute)
		changed := *made
		plan := *made.Plan
		plan.Targets = append(plan.Targets[:0:0], plan.Targets...)
		for i := range plan.Targets {
			plan.Targets[i].Target += " of the town" + path
		}
		changed.Plan, changed.Print = &plan, "after "+path
		s.show(&changed)
		becomes(t, ctx, fmt.Sprintf(`%s !== %q`, asOf, before))
		if moved := tell[float64](t, ctx, settled); moved < 0 || moved >= mostShift {
			t.Errorf("%q: with the new plan %v moved, want less than %v, and all pictures there", path, moved, mostShift)
		}
		s.show(made)
	}
	// It would be seen.
	tell[int](t, ctx, `document.getElementById("main").insertAdjacentHTML("afterbegin", "<p>" + "Late. ".repeat(100) + "</p>"), 0`)
	if moved := tell[float64](t, ctx, settled); moved < mostShift {
		t.Errorf("with a paragraph that comes late %v moved, want %v or more", moved, mostShift)
	}
}

// The parts stand on one line of a narrow phone, each as wide as a finger, and need no scrolling.
func TestPartsStandOnOneLine(t *testing.T) {
	ctx := browser(t)
	_, address, _ := inBrowser(t, pageMade(t))
	for _, width := range []int64{320, phoneWide} {
		see(t, ctx, width, "light", "screen")
		do(t, ctx, chromedp.Navigate(address+"more"))
		if rows := tell[int](t, ctx, `new Set([...document.querySelectorAll(".tabs li")].map(e => e.getBoundingClientRect().top)).size`); rows != 1 {
			t.Errorf("at %d: got %d lines of parts, want one", width, rows)
		}
		if wide := tell[string](t, ctx, `(e => e.scrollWidth > e.clientWidth ? e.scrollWidth + " in " + e.clientWidth : "")(document.querySelector(".tabs"))`); wide != "" {
			t.Errorf("at %d: the parts take %s", width, wide)
		}
		if narrow := tell[string](t, ctx, `[...document.querySelectorAll(".tabs a")].filter(e => e.getBoundingClientRect().width < 44).map(e => e.textContent).join(", ")`); narrow != "" {
			t.Errorf("at %d: narrower than 44 px: %s", width, narrow)
		}
	}
}

// sheets counts the pages of a PDF.
var sheets = regexp.MustCompile(`/Type\s*/Page\b`)

// printed counts the sheets of A4 that a page takes.
func printed(t *testing.T, ctx context.Context, address string) int {
	t.Helper()
	do(t, ctx, chromedp.Navigate(address))
	prefer := true
	pdf, err := chromedp.Call(ctx, page.PrintToPDF, page.PrintToPDFParams{PaperWidth: 8.27, PaperHeight: 11.69, PreferCSSPageSize: &prefer})
	if err != nil {
		t.Fatal(err)
	}
	return len(sheets.FindAllIndex(pdf.Data, -1))
}

// The sheet of each of the demo's cold places prints on one page, on days on which little stands there and much.
func TestPlacesPrintOnOnePage(t *testing.T) {
	ctx := browser(t)
	made := demoMade(t)
	_, address, _ := inBrowser(t, made)
	see(t, ctx, 1000, "light", "")
	if n := printed(t, ctx, address+"batches"); n < 2 {
		t.Errorf("the batches take %d pages, want more: pages are not counted", n)
	}
	for _, place := range made.Problem.Kitchen.Cold {
		for _, day := range []string{"2027-03-02", "2027-03-15", "2027-03-20", "2027-03-24", "2027-03-27"} {
			path := fmt.Sprintf("cold/%s/%s", day, url.PathEscape(place.Name))
			if n := printed(t, ctx, address+path); n != 1 {
				t.Errorf("%s: got %d pages, want one", path, n)
			}
		}
	}
}
