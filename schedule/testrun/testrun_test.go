package testrun

import (
	"testing"

	"pgregory.net/rapid"
)

// said is a test that only writes down how it ended.
type said struct{ fatal, skip, failed, log bool }

func (s *said) Helper()      {}
func (s *said) Fatal(...any) { s.fatal = true }
func (s *said) Skip(...any)  { s.skip = true }
func (s *said) Error(...any) { s.failed = true }
func (s *said) Log(...any)   { s.log = true }

// What is missing is skipped on a maker's machine and fails where nothing may be missing.
func TestWhatIsMissing(t *testing.T) {
	t.Setenv(noSkips, "")
	here := &said{}
	Missing(here, "no browser")
	Without(here, "no axe")
	if *here != (said{skip: true, log: true}) {
		t.Errorf("got %+v, want it skipped and told", *here)
	}
	t.Setenv(noSkips, "1")
	there := &said{}
	Missing(there, "no browser")
	Without(there, "no axe")
	if *there != (said{fatal: true, failed: true}) {
		t.Errorf("got %+v, want failures", *there)
	}
}

// Rapid checks as often as it is told for one test, and as ever after it.
func TestChecksOfOneTest(t *testing.T) {
	count := func(t *testing.T) (n int) {
		rapid.Check(t, func(*rapid.T) { n++ })
		return n
	}
	usual := count(t)
	t.Run("few", func(t *testing.T) {
		Checks(t, 7)
		want := 7
		if Long || usual != 100 {
			want = usual
		}
		if n := count(t); n != want {
			t.Errorf("got %d checks, want %d", n, want)
		}
	})
	if n := count(t); n != usual {
		t.Errorf("got %d checks afterwards, want %d", n, usual)
	}
}
