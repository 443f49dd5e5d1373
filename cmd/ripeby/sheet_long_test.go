//go:build long

package main

import (
	"context"
	"encoding/base64"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	cdp "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// TestSheetsOfTheDemoPrintOnOnePage: every batch of the demo is one page of A4 as a browser prints it, in letters that
// can be read from an arm's length, with nothing left out. RIPEBY_SHOTS names a folder in which the PDFs are kept.
func TestSheetsOfTheDemoPrintOnOnePage(t *testing.T) {
	opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(installed(t, "chromium", "chromium-browser", "google-chrome")), chromedp.NoSandbox, chromedp.Flag("disable-dev-shm-usage", true))
	ctx, stop := chromedp.NewExecAllocator(t.Context(), opts...)
	t.Cleanup(stop)
	ctx, stop = chromedp.NewContext(ctx)
	t.Cleanup(stop)
	ctx, stop = context.WithTimeout(ctx, 5*time.Minute)
	t.Cleanup(stop)
	folder := filepath.Join(t.TempDir(), "demo")
	if err := os.CopyFS(folder, os.DirFS("demo/kitchen")); err != nil {
		t.Fatal(err)
	}
	if got := runWith(t.Context(), nil, "plan", "-C", folder, "--from", "2027-03-01 06:00", "--work", "100000"); got.code != exitMet && got.code != exitShort {
		t.Fatalf("exit code %d: %s", got.code, got.err)
	}
	plan, err := output{filepath.Join(folder, "plan")}.earlier()
	if err != nil {
		t.Fatal(err)
	}
	css, cheeses := true, map[string]bool{}
	for i := range plan.Batches {
		b := &plan.Batches[i]
		cheeses[b.Cheese] = true
		got := runWith(t.Context(), nil, "sheet", "-C", folder, b.ID, "--html")
		if got.code != exitMet || got.err != "" || strings.Contains(got.out, "Left out") {
			t.Fatalf("%s: exit code %d, %s, or something is left out", b.ID, got.code, got.err)
		}
		if size := regexp.MustCompile(`font-size:([0-9.]+)pt`).FindStringSubmatch(got.out); size == nil || size[1] == "7.5" {
			t.Errorf("%s: got letters %q, want more than the smallest", b.ID, size)
		}
		if err := chromedp.Do(ctx, chromedp.Navigate("data:text/html;base64,"+base64.StdEncoding.EncodeToString([]byte(got.out)))); err != nil {
			t.Fatal(err)
		}
		pdf, err := chromedp.Call(ctx, cdp.PrintToPDF, cdp.PrintToPDFParams{PreferCSSPageSize: &css})
		if err != nil {
			t.Fatal(err)
		}
		if pages := len(regexp.MustCompile(`/Type\s*/Page\b`).FindAll(pdf.Data, -1)); pages != 1 {
			t.Errorf("%s: got %d pages, want one", b.ID, pages)
		}
		if dir := os.Getenv("RIPEBY_SHOTS"); dir != "" {
			if err := os.WriteFile(filepath.Join(dir, b.ID+".pdf"), pdf.Data, 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
	if len(cheeses) < 3 {
		t.Errorf("got %d cheeses: too little is tested", len(cheeses))
	}
}
