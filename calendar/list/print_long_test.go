//go:build long

package list_test

import (
	"bytes"
	"context"
	"encoding/base64"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"testing"
	"time"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"ripeby/calendar/list"
	"ripeby/resources"
	"ripeby/schedule/testrun"
)

// TestPrintedOnOnePage: the list and the delivery note are one page of A4 each, as a browser prints them.
// RIPEBY_SHOTS names a folder in which the PDFs are kept.
func TestPrintedOnOnePage(t *testing.T) {
	program, err := exec.LookPath("chromium")
	if err != nil {
		testrun.Missing(t, "there is no chromium here")
	}
	opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(program), chromedp.NoSandbox, chromedp.Flag("disable-dev-shm-usage", true))
	ctx, stop := chromedp.NewExecAllocator(t.Context(), opts...)
	t.Cleanup(stop)
	ctx, stop = chromedp.NewContext(ctx)
	t.Cleanup(stop)
	ctx, stop = context.WithTimeout(ctx, time.Minute)
	t.Cleanup(stop)
	p, plan, at := market(t)
	shown, err := list.Show(p, plan, at)
	if err != nil {
		t.Fatal(err)
	}
	note, err := list.NoteOf(p, plan, at, resources.Business{Name: "Corner shop", Address: "2 Quay Row"}, nil)
	if err != nil {
		t.Fatal(err)
	}
	for name, write := range map[string]func(*bytes.Buffer) error{
		"list": func(b *bytes.Buffer) error { return shown.HTML(b) },
		"note": func(b *bytes.Buffer) error { return note.HTML(b) },
	} {
		var b bytes.Buffer
		if err := write(&b); err != nil {
			t.Fatal(err)
		}
		if err := chromedp.Do(ctx, chromedp.Navigate("data:text/html;base64,"+base64.StdEncoding.EncodeToString(b.Bytes()))); err != nil {
			t.Fatal(err)
		}
		got, err := chromedp.Call(ctx, page.PrintToPDF, page.PrintToPDFParams{PaperWidth: 8.27, PaperHeight: 11.69})
		if err != nil {
			t.Fatal(err)
		}
		pdf := got.Data
		if pages := len(regexp.MustCompile(`/Type\s*/Page\b`).FindAll(pdf, -1)); pages != 1 {
			t.Errorf("%s: got %d pages of %d bytes, want one", name, pages, len(pdf))
		}
		if dir := os.Getenv("RIPEBY_SHOTS"); dir != "" {
			if err := os.WriteFile(filepath.Join(dir, name+".pdf"), pdf, 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}
