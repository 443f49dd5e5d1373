//go:build long

package sheet_test

import (
	"context"
	"encoding/base64"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	cdp "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"ripeby/calendar/sample"
	"ripeby/calendar/sheet"
	"ripeby/schedule/testrun"
)

// browser is a Chromium of a test's own, for so long.
func browser(t *testing.T, long time.Duration) context.Context {
	t.Helper()
	program, err := exec.LookPath("chromium")
	if err != nil {
		testrun.Missing(t, "there is no chromium here")
	}
	opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(program), chromedp.NoSandbox, chromedp.Flag("disable-dev-shm-usage", true))
	ctx, stop := chromedp.NewExecAllocator(t.Context(), opts...)
	t.Cleanup(stop)
	ctx, stop = chromedp.NewContext(ctx)
	t.Cleanup(stop)
	ctx, stop = context.WithTimeout(ctx, long)
	t.Cleanup(stop)
	return ctx
}

// opens has the browser open a sheet.
func opens(t *testing.T, ctx context.Context, s *sheet.Shown) {
	t.Helper()
	if err := chromedp.Do(ctx, chromedp.Navigate("data:text/html;base64,"+base64.StdEncoding.EncodeToString([]byte(page(t, s))))); err != nil {
		t.Fatal(err)
	}
}

// TestPrintedOnOnePage: whatever there is of a batch, its sheet is one page of A4 as a browser prints it. RIPEBY_SHOTS
// names a folder in which the PDFs are kept.
func TestPrintedOnOnePage(t *testing.T) {
	ctx := browser(t, 10*time.Minute)
	css := true // A4 is what the page itself asks for
	for name, s := range sheets(t) {
		opens(t, ctx, s)
		got, err := chromedp.Call(ctx, cdp.PrintToPDF, cdp.PrintToPDFParams{PreferCSSPageSize: &css})
		if err != nil {
			t.Fatal(err)
		}
		if pages := len(regexp.MustCompile(`/Type\s*/Page\b`).FindAll(got.Data, -1)); pages != 1 {
			t.Errorf("%s: got %d pages, want one, in letters of %g points", name, pages, s.Paper().Letters)
		}
		if !strings.Contains(string(got.Data), "[0 0 594.95") && !strings.Contains(string(got.Data), "[0 0 595") {
			t.Errorf("%s: it is not A4", name)
		}
		if dir := os.Getenv("RIPEBY_SHOTS"); dir != "" {
			if err := os.WriteFile(filepath.Join(dir, name+".pdf"), got.Data, 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// TestOnAPhone: the page is no wider than a phone of 320 px, nothing stands out of it, and what is tapped is large.
func TestOnAPhone(t *testing.T) {
	ctx := browser(t, 5*time.Minute)
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(320, 900, chromedp.EmulateMobile, chromedp.EmulateTouch)); err != nil {
		t.Fatal(err)
	}
	for name, s := range sheets(t) {
		opens(t, ctx, s)
		out, err := chromedp.Run(ctx, chromedp.Evaluate[string](`[...document.querySelectorAll("body *")]
			.filter(e => !e.closest("thead") && e.getBoundingClientRect().right > 321 || e.matches("a") && (e.offsetHeight < 44 || e.offsetWidth < 44))
			.slice(0, 3).map(e => e.tagName + "." + e.className + " " + e.textContent.slice(0, 30)).join(", ")
			+ (document.scrollingElement.scrollWidth > 320 ? " it is " + document.scrollingElement.scrollWidth + " wide" : "")`))
		if err != nil {
			t.Fatal(err)
		}
		if out != "" {
			t.Errorf("%s: %s", name, out)
		}
		if dir := os.Getenv("RIPEBY_SHOTS"); dir != "" && name == "much" {
			shot, err := chromedp.Run(ctx, chromedp.FullScreenshot(100))
			if err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(filepath.Join(dir, "phone.png"), shot, 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// sheets are sheets of all kinds: of little and of much, drawn at random, and of names that have broken pages.
func sheets(t *testing.T) map[string]*sheet.Shown {
	t.Helper()
	p := sample.Kitchen()
	all := map[string]*sheet.Shown{}
	add := func(name string, stages, needs, turns, note, looks int) {
		plan, entries := full(p, stages, needs, turns, note, looks)
		all[name] = shown(t, known(t, p, plan, nil, entries))
	}
	add("usual", 6, 3, 3, 60, 3)
	add("much", 6, 20, 14, 2000, 4)
	add("most", 60, 60, 300, 2000, 400)
	dice := rand.New(rand.NewPCG(20261201, 15))
	for i := range 16 {
		stages, needs := 1+dice.IntN(1+i), dice.IntN(1+3*i)
		add(fmt.Sprintf("drawn-%02d", i), stages, needs, dice.IntN(30), dice.IntN(2000), dice.IntN(1+2*i))
	}
	for name, nasty := range sample.NastyNames {
		q := sample.Kitchen()
		plan, _ := dosed(q)
		sample.Rename(q, plan, nasty)
		all["name-"+strings.ReplaceAll(name, " ", "-")] = shown(t, known(t, q, plan, nil, nil))
	}
	all["capitals"] = shown(t, known(t, p, capitals(p), nil, nil))
	return all
}
