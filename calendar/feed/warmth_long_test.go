//go:build long

package feed

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"ripeby/schedule/testrun"
)

// The line of a place stands on a page that fits a narrow phone, prints whole behind the shelves, and has
// no fault that axe knows, by day and by night.
func TestWarmthInABrowser(t *testing.T) {
	ctx := browser(t)
	s, address, _ := inBrowser(t, pageMade(t))
	axe, err := os.ReadFile(os.Getenv(axeFile))
	if err != nil {
		testrun.Without(t, "axe-core is not asked: "+axeFile+" does not name its axe.min.js")
	}
	s.opt.Warmth = steady{"wine fridge"}
	for _, path := range []string{"cold", "cold/now/wine%20fridge"} {
		for _, width := range []int64{320, phoneWide, 1280} {
			for _, scheme := range []string{"light", "dark"} {
				see(t, ctx, width, scheme, "screen")
				do(t, ctx, chromedp.Navigate(address+path))
				name := fmt.Sprintf("warmth-%s-%d-%s", strings.ReplaceAll(path, "/", "-"), width, scheme)
				if wide := tell[string](t, ctx, fmt.Sprintf(overflowing, width)); wide != "" {
					t.Errorf("%s: %s", name, wide)
				}
				if low := tell[string](t, ctx, small); low != "" {
					t.Errorf("%s: lower than 44 px: %s", name, low)
				}
				if drawn := tell[bool](t, ctx, `[...document.images].every(i => i.complete && i.naturalWidth > 0)`); !drawn {
					t.Errorf("%s: a picture is not there", name)
				}
				shoot(t, ctx, name)
				if axe != nil {
					askAxe(t, ctx, name, string(axe))
				}
			}
		}
	}
	if pages := printed(t, ctx, address+"cold/now/wine%20fridge"); pages > 2 {
		t.Errorf("the sheet of the place prints on %d pages, want 2 at the most", pages)
	}
}
