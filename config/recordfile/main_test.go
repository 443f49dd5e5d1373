package recordfile_test

import (
	"os"
	"testing"

	"ripeby/schedule/testrun"
)

// TestMain runs the tests; or, where a test has started this program again, says things
// into a record until it dies (kill_test.go).
func TestMain(m *testing.M) {
	if dir := os.Getenv(childFolder); dir != "" {
		os.Exit(child(dir))
	}
	testrun.Main(m)
}
