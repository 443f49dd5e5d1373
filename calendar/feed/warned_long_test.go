//go:build long

package feed

import (
	"testing"

	"github.com/chromedp/chromedp"
)

// A tap says that a warning is seen: it leaves this page at once, with nothing that waits or is refused, and goes into no
// record. Without a script the form does the same.
func TestWarningIsSeenInABrowser(t *testing.T) {
	ctx := browser(t)
	s, l, address := writingInBrowser(t)
	see(t, ctx, phoneWide, "light", "screen")
	do(t, ctx, chromedp.Navigate(address))
	const left, tap = `document.querySelectorAll(".warned li").length`, `document.querySelector(".warned button[value=seen]").click()`
	if n := tell[int](t, ctx, left); n != 2 {
		t.Fatalf("got %d warnings, want 2", n)
	}
	shoot(t, ctx, "warned-360")
	tell[int](t, ctx, tap+`, `+tap+`, 0`)
	becomes(t, ctx, left+` === 1 && document.getElementById("waiting").hidden`)
	do(t, ctx, chromedp.Navigate(address))
	if n := tell[int](t, ctx, left); n != 1 {
		t.Errorf("opened again: got %d warnings, want 1", n)
	}
	tell[int](t, ctx, `document.querySelector(".warned form").dataset.plainly = "yes", 0`)
	tell[int](t, ctx, `setTimeout(() => `+tap+`), 0`)
	becomes(t, ctx, `document.readyState === "complete" && document.querySelectorAll("main .person").length > 0 && `+left+` === 0`)
	if all := l.all(); len(all) > 0 {
		t.Errorf("the record was told %+v", all)
	}
	if shown, _, _ := s.warnings(t, "Ivo"); shown != 2 {
		t.Errorf("Ivo sees %d, want both", shown)
	}
}
