package feed

import (
	"strings"
	"testing"

	"ripeby/schedule"
)

// The labels of a batch are a page with a style of its own, which its policy lets through; a batch
// without a lot has none, and says why.
func TestLabelsOnThePage(t *testing.T) {
	made := sampleMade(t, 2)
	made.Plan.Batches[0].Lot = "BH-270316-1"
	made.Problem.Recipes = []schedule.Recipe{{Name: "Bramble hoop", Keeps: 4 * 1440}}
	s := stood(t, made)
	root := s.address(t, "page").Path()
	for _, c := range []struct {
		path   string
		status int
		want   string
	}{
		{"labels/BH-1", 200, `<div class="label lot1 x0 y0">`},
		{"labels/BH-1/4", 200, `<div class="label lot1 x0 y1">`},
		{"labels/BH-1/22", 200, "There is nothing to print yet: the first label is to go to cell 22, and a sheet has 21."},
		{"labels/BH-2", 200, "There is nothing to print yet: BH-2 has no lot yet."},
		{"labels/BH-1/0", 404, "Not in the plan"}, {"labels/BH-1/x", 404, "Not in the plan"}, {"labels/BH-1/1/1", 404, "Not in the plan"},
		{"labels/BH-9", 404, "Not in the plan"}, {"labels", 404, "Not in the plan"},
		{"batch/BH-1", 200, `labels/BH-1">Labels to print</a>`},
	} {
		w := s.ask("GET", root+c.path)
		if w.Code != c.status || !strings.Contains(w.Body.String(), c.want) {
			t.Errorf("%s: got %d, want %d and %s in\n%s", c.path, w.Code, c.status, c.want, w.Body)
		}
	}
	w := s.ask("GET", root+"labels/BH-1")
	if got := header(w, "Content-Security-Policy"); !strings.Contains(got, "default-src 'none'; style-src 'sha256-") || strings.Contains(got, "unsafe") {
		t.Errorf("got policy %s", got)
	}
	if !strings.Contains(w.Body.String(), `<a href="`+root+`labels/BH-1/21" aria-label="Begin at cell 21">`) || !strings.Contains(w.Body.String(), `<a href="`+root+`batch/BH-1">Back`) {
		t.Error("it does not lead to its cells and back")
	}
	if strings.Contains(s.ask("GET", root+"batch/BH-2").Body.String(), "Labels to print") {
		t.Error("the sheet of a batch without a lot leads to labels")
	}
}
