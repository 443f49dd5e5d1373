//go:build long

package feed

import (
	"fmt"
	"os"
	"testing"

	"github.com/chromedp/chromedp"

	"ripeby/schedule/testrun"
)

// The page on trust, as whoever comes without https sees it: like all others it stands out to no side, has
// large targets and its own style, which its policy lets in by what it is, and axe-core finds nothing.
func TestTrustInABrowser(t *testing.T) {
	ctx := browser(t)
	s, addr, _ := vouched(t)
	axe, err := os.ReadFile(os.Getenv(axeFile))
	if err != nil {
		testrun.Without(t, "axe-core is not asked: "+axeFile+" does not name its axe.min.js")
	}
	for name, path := range map[string]string{"trust": "/trust", "trust-key": s.address(t, "page").Path()} {
		for _, width := range []int64{320, 768, 1280} {
			for _, scheme := range []string{"light", "dark"} {
				name := fmt.Sprintf("%s-%d-%s", name, width, scheme)
				see(t, ctx, width, scheme, "screen")
				do(t, ctx, chromedp.Navigate("http://"+addr+path))
				if title := tell[string](t, ctx, `document.querySelector("h1").textContent`); title != "How a phone trusts this server" {
					t.Fatalf("%s: got the page %q", name, title)
				}
				if edge := tell[string](t, ctx, `getComputedStyle(document.querySelector(".button")).borderTopWidth`); edge != "2px" {
					t.Errorf("%s: the style is not let in", name)
				}
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
			t.Errorf("%s on paper shows what only a screen can use: %q", name, shown)
		}
		shoot(t, ctx, name+"-print")
	}
}
