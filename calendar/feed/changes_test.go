package feed

import (
	"strings"
	"testing"

	"ripeby/calendar/standing"
)

// What a new plan changes is one line in the log, one on the page that leads to the list, and nothing
// where nothing changes.
func TestChangesAreToldInOneLine(t *testing.T) {
	made := pageMade(t)
	if got, want := standing.ChangedText(made.Problem, made.Plan), "3 tasks changed, 2 of them until Thu 18 Mar 06:00"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	s := pageStood(t, made)
	root := s.address(t, "page").Path()
	line := `<a href="` + root + `changes">3 tasks changed<span class="unseen"> since the last plan</span></a>`
	if got := s.ask("GET", root).Body.String(); strings.Count(got, line) != 1 {
		t.Errorf("got %d of %s in\n%s", strings.Count(got, line), line, got)
	}
	made = pageMade(t)
	made.Plan.Changes = nil
	if got, want := standing.ChangedText(made.Problem, made.Plan), "nothing that was planned has moved"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	s = pageStood(t, made)
	root = s.address(t, "page").Path()
	if got := s.ask("GET", root).Body.String(); strings.Contains(got, "changes") {
		t.Errorf("nothing has changed, and it is told of:\n%s", got)
	}
	if got := s.ask("GET", root+"changes").Body.String(); !strings.Contains(got, "Nothing that was planned has moved.") {
		t.Errorf("got\n%s", got)
	}
}
