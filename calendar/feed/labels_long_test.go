//go:build long

package feed

import (
	"fmt"
	"os"
	"testing"

	"github.com/chromedp/chromedp"

	"ripeby/schedule"
	"ripeby/schedule/testrun"
)

// The page of labels on a phone and a desk, light and dark: the sheet scrolls by itself, what is tapped
// is large, its own style is let through, and on paper only the labels are left.
func TestLabelsInABrowser(t *testing.T) {
	made := pageMade(t)
	made.Plan.Batches[0].Lot = made.Plan.Batches[0].ID
	made.Problem.Recipes = []schedule.Recipe{{Name: "Bramble hoop", Keeps: 4 * 1440, Label: schedule.Label{Milk: schedule.Raw, Keep: "below 5 °C", Weight: 80_000}}}
	ctx := browser(t)
	_, address, _ := inBrowser(t, made)
	axe, err := os.ReadFile(os.Getenv(axeFile))
	if err != nil {
		testrun.Without(t, "axe-core is not asked: "+axeFile+" does not name its axe.min.js")
	}
	for _, width := range []int64{320, 1280} {
		for _, scheme := range []string{"light", "dark"} {
			name := fmt.Sprintf("labels-%d-%s", width, scheme)
			see(t, ctx, width, scheme, "screen")
			do(t, ctx, chromedp.Navigate(address+"labels/"+made.Plan.Batches[0].ID))
			tell[int](t, ctx, `document.querySelector("details").open = true, 0`)
			if wide := tell[string](t, ctx, fmt.Sprintf(overflowing, width)); wide != "" {
				t.Errorf("%s: %s", name, wide)
			}
			if low := tell[string](t, ctx, `[...document.querySelectorAll("a, summary")].filter(e => { const r = e.getBoundingClientRect(); return r.height < 44 || r.width < 44 }).map(e => e.textContent).join(", ")`); low != "" {
				t.Errorf("%s: under 44 px: %s", name, low)
			}
			if cells := tell[int](t, ctx, `[...document.querySelectorAll(".label")].filter(e => Math.abs(e.getBoundingClientRect().width - 60 * 96 / 25.4) < 0.1).length`); cells != 3 {
				t.Errorf("%s: %d labels are 60 mm wide, want 3", name, cells)
			}
			shoot(t, ctx, name)
			if axe != nil {
				askAxe(t, ctx, name, string(axe))
			}
		}
	}
	see(t, ctx, 1000, "dark", "print")
	if shown := tell[string](t, ctx, `[...document.querySelectorAll("h1, h2, a, li")].filter(e => e.offsetParent).map(e => e.textContent).join(", ")`); shown != "" {
		t.Errorf("on paper there is more than labels: %s", shown)
	}
}
