package testrun

import "os"

// noSkips names the environment variable under which nothing may be missing.
const noSkips = "RIPEBY_NO_SKIPS"

// Missing ends a test that cannot do its work because something is not on this machine,
// such as a browser. The test is skipped; it fails where RIPEBY_NO_SKIPS is set, as
// .ci/run does, for there nobody would read that it was skipped.
func Missing(t interface {
	Helper()
	Fatal(...any)
	Skip(...any)
}, what string) {
	t.Helper()
	if os.Getenv(noSkips) != "" {
		t.Fatal(what + "; with " + noSkips + " set this is a failure")
		return
	}
	t.Skip(what)
}

// Without is told of a part of a test that something is missing for. The test goes on
// without that part, and where RIPEBY_NO_SKIPS is set it fails.
func Without(t interface {
	Helper()
	Error(...any)
	Log(...any)
}, what string) {
	t.Helper()
	if os.Getenv(noSkips) != "" {
		t.Error(what)
		return
	}
	t.Log(what)
}
