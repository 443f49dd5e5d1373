package feed

import (
	"strings"
	"testing"

	"ripeby/calendar/address"
)

// The page to print of a batch: under every address of the page, of a batch too that is in the plan no more, with a
// policy that lets its own style through; and never where a calendar leads.
func TestPaperOnThePage(t *testing.T) {
	s := stood(t, sampleMade(t, 3))
	root := s.address(t, "page").Path()
	for _, c := range []struct {
		path   string
		status int
		want   string
	}{
		{"batch/BH-1/paper", 200, `<a href="` + root + `batch/BH-1">Back</a>`},
		{"batch/BH-0/paper", 200, `<a href="` + root + `">Back</a>`},
		{"batch/BH-2/paper", 200, "There is nothing to print yet: the record cannot be read just now."},
		{"batch/BH-9/paper", 404, "Not in the plan"}, {"batch/BH-1/paper/1", 404, "Not in the plan"}, {"batch/BH-1/papers", 404, "Not in the plan"},
		{"batch/BH-1", 200, `href="` + root + `batch/BH-1/paper">One page to print`},
	} {
		w := s.ask("GET", root+c.path)
		if w.Code != c.status || !strings.Contains(w.Body.String(), c.want) {
			t.Errorf("%s: got %d, want %d and %s in\n%s", c.path, w.Code, c.status, c.want, w.Body)
		}
	}
	if got := header(s.ask("GET", root+"batch/BH-1/paper"), "Content-Security-Policy"); !strings.Contains(got, "default-src 'none'; style-src 'sha256-") {
		t.Errorf("got policy %s", got)
	}
	for _, a := range s.board.Load().book.Addresses {
		if !a.Kind.IsCalendar() {
			continue
		}
		for _, path := range []string{a.SheetsPath() + "BH-1" + "/paper", a.Path() + "batch/BH-1/paper"} {
			if w := s.ask("GET", path); w.Code != 404 || strings.Contains(w.Body.String(), "BH-1") {
				t.Errorf("%s %s: got %d, want 404", a.Kind, path, w.Code)
			}
		}
		if w := s.ask("GET", a.SheetsPath()+"BH-1"); a.Kind == address.Everything && (w.Code != 200 || strings.Contains(w.Body.String(), "paper")) {
			t.Errorf("the sheet that a calendar leads to: got %d, or it leads on", w.Code)
		}
	}
}
