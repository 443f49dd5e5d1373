package feed

import (
	"fmt"
	"net/http"
	"strings"
	"testing"
	"time"

	"ripeby/calendar/served"
	"ripeby/resources"
)

// A page is drawn once a minute, and at once when anything that it shows has changed.
func TestPageIsKeptForAMinute(t *testing.T) {
	s := pageStood(t, pageMade(t))
	path := s.address(t, "page").Path()
	find := func() *served.Answer {
		return s.kept.Find(s.board.Load(), resources.MomentOf(s.clock.now()), path)
	}
	first := s.ask("GET", path)
	drawn := find()
	if drawn == nil || string(drawn.Text) != first.Body.String() {
		t.Fatalf("kept: %v", drawn)
	}
	s.clock.move(30 * time.Second)
	if again := s.ask("GET", path); again.Body.String() != first.Body.String() || find() != drawn {
		t.Error("within the minute it is drawn again")
	}
	s.clock.move(30 * time.Second)
	if later := s.ask("GET", path); !strings.Contains(later.Body.String(), "08:21") || find() == drawn {
		t.Errorf("a minute later it is the same: %s", later.Body)
	}
	s.change(func(b *board) { b.status.Planning, b.status.Since = true, s.clock.now() })
	if planning := s.ask("GET", path); !strings.Contains(planning.Body.String(), "The plan is being made anew.") {
		t.Error("it does not say that the plan is being made anew")
	}
	other := pageMade(t)
	other.Plan.Batches[1].Stages[0].Stage, other.Print = "warm the milk", "other"
	s.show(other)
	if shown := s.ask("GET", path); !strings.Contains(shown.Body.String(), "warm the milk") {
		t.Error("it shows the plan before")
	}
}

// An address that was taken back gets nothing that was drawn for it.
func TestWhatIsKeptOfARevokedAddress(t *testing.T) {
	s := pageStood(t, pageMade(t))
	path := s.address(t, "page").Path()
	if w := s.ask("GET", path+"week/2027-01-01"); w.Code != http.StatusOK {
		t.Fatalf("got %d %s", w.Code, w.Body)
	}
	book, _ := s.board.Load().book.Renew("page")
	s.watch.redraw(book, s.board.Load().made)
	if w := s.ask("GET", path+"week/2027-01-01"); w.Code != http.StatusGone {
		t.Errorf("an address that was taken back: got %d, want 410", w.Code)
	}
}

// BenchmarkPage asks for pages of a plan of 150 batches, within the same minute and a
// minute later each time.
func BenchmarkPage(b *testing.B) {
	s := pageStood(b, sampleMade(b, 150))
	for _, part := range []string{"", "batches", "calendars"} {
		path := s.address(b, "page").Path() + part
		for _, step := range []time.Duration{0, time.Minute} {
			b.Run(fmt.Sprintf("%s/after=%v", part, step), func(b *testing.B) {
				for b.Loop() {
					s.clock.move(step)
					if w := s.ask("GET", path); w.Code != http.StatusOK {
						b.Fatal(w.Code)
					}
				}
			})
		}
	}
}
