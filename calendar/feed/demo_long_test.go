//go:build long

package feed

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"ripeby/calendar/note"
	"ripeby/cmd/ripeby/demo"
	"ripeby/config"
	"ripeby/schedule/planner"
)

// demoNow is a Monday of the demo's fullest week, before its work.
var demoNow = time.Date(2027, 3, 22, 8, 0, 0, 0, time.UTC)

// demoMade is the plan of the demo as ripeby plan makes it.
func demoMade(t *testing.T) *Made {
	t.Helper()
	problem, err := config.LoadFS(demo.Files(), config.Options{From: demo.From})
	if err != nil {
		t.Fatal(err)
	}
	plan, err := planner.Plan(t.Context(), problem, planner.Options{})
	if err != nil {
		t.Fatal(err)
	}
	note.Revise(problem, plan, nil)
	return &Made{Problem: problem, Plan: plan, Print: "demo", Fresh: true}
}

// A phone of 360 x 740, and how much of a page is within three of its screens.
const (
	phoneWide, phoneHigh = 360, 740
	threeScreens         = 3 * phoneHigh
)

// The demo's fullest week, as it opens on its first day with all days before it, and its cold places on each day, are within
// three screens of a phone; the parts stand on one line.
func TestDemoInLittleRoom(t *testing.T) {
	ctx := browser(t)
	s, address, _ := inBrowser(t, demoMade(t))
	s.clock.at = demoNow
	for _, c := range []struct {
		path string
		most float64
	}{
		{"week", threeScreens}, {"week/2027-03-01", threeScreens}, {"week/2027-03-08", threeScreens}, {"week/2027-03-15", threeScreens}, {"week/2027-03-29", threeScreens},
		{"cold", threeScreens}, {"cold/2027-03-27", threeScreens}, {"cold/2027-03-10", threeScreens}, {"", 20000}, {"batches", 20000}, {"cold/now/dairy%20fridge", 20000},
	} {
		for _, width := range []int64{320, phoneWide, 768, 1280} {
			see(t, ctx, width, "light", "screen")
			do(t, ctx, chromedp.Navigate(address+c.path))
			high := tell[float64](t, ctx, `document.documentElement.scrollHeight`)
			t.Logf("%s at %d: %v", c.path, width, high)
			if width == phoneWide && high > c.most {
				t.Errorf("%s at %d: %v px high, want %v at the most", c.path, width, high, c.most)
			}
			if low := tell[string](t, ctx, small); low != "" {
				t.Errorf("%s at %d: lower than 44 px: %s", c.path, width, low)
			}
			shoot(t, ctx, fmt.Sprintf("demo-%s-%d", pathName(c.path), width))
		}
	}
}

// pathName is a path as the name of a picture.
func pathName(path string) string { return strings.ReplaceAll(path+".", "/", "-") }
