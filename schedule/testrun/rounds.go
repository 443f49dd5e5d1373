package testrun

import (
	"flag"
	"strconv"
)

// Rounds is how many rounds a test has in this run.
func Rounds(quick, long int) int {
	if Long {
		return long
	}
	return quick
}

// rapidChecks is rapid's own number of checks of a property; a long run has them all.
const rapidChecks = "100"

// Checks has rapid check so few times in a quick run, for as long as the test lasts. Who
// asks for another number, by -rapid.checks or RAPID_CHECKS, gets that.
func Checks(t interface {
	Cleanup(func())
	Fatal(...any)
}, quick int) {
	f := flag.Lookup("rapid.checks")
	if Long || f.Value.String() != rapidChecks {
		return
	}
	set := func(n string) {
		if err := f.Value.Set(n); err != nil {
			t.Fatal(err)
		}
	}
	set(strconv.Itoa(quick))
	t.Cleanup(func() { set(rapidChecks) })
}
