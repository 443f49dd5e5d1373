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

// The demo's weeks, the fullest too, as they open on their first day, with all days to come; its batches, cold places and each place
// are within three screens of a phone, and the maps of all shelves on one.
func TestDemoInLittleRoom(t *testing.T) {
	ctx := browser(t)
	s, address, _ := inBrowser(t, demoMade(t))
	s.clock.at = demoNow
	for _, path := range []string{"week", "week/2027-03-01", "week/2027-03-08", "week/2027-03-15", "week/2027-03-29", "batches", "batches/2027-03-08",
		"cold", "cold/2027-03-27", "cold/2027-03-10", "cold/now/dairy%20fridge", "cold/now/root%20cellar"} {
		for _, width := range []int64{320, phoneWide, 768, 1280} {
			see(t, ctx, width, "light", "screen")
			do(t, ctx, chromedp.Navigate(address+path))
			high := tell[float64](t, ctx, `document.documentElement.scrollHeight`)
			t.Logf("%s at %d: %v", path, width, high)
			if width == phoneWide && high > threeScreens {
				t.Errorf("%s at %d: %v px high, want %d at the most", path, width, high, threeScreens)
			}
			if end := tell[float64](t, ctx, `[...document.querySelectorAll(".map, .maps ~ .nothing")].at(-1)?.getBoundingClientRect().bottom ?? 0`); width == phoneWide && end > phoneHigh {
				t.Errorf("%s at %d: the maps end %v px down, want %d at the most", path, width, end, phoneHigh)
			}
			if low := tell[string](t, ctx, small); low != "" {
				t.Errorf("%s at %d: lower than 44 px: %s", path, width, low)
			}
			shoot(t, ctx, fmt.Sprintf("demo-%s-%d", pathName(path), width))
		}
	}
}

// pathName is a path as the name of a picture.
func pathName(path string) string { return strings.ReplaceAll(path+".", "/", "-") }
