package main

import (
	"strings"
	"sync/atomic"
	"testing"
	"time"
)

// Two servers of one folder serve the same plan under the same addresses; a change is
// planned by one of them and served by both; an address that a third run takes back while
// a phone polls ends at both, and at no moment does the phone see anything else.
func TestServeTwiceOnOneFolder(t *testing.T) {
	folder := newFolder(t)
	one, two := servingOn(t, folder, nil), servingOn(t, folder, nil)
	both := []*serving{one, two}
	path := func() string { return one.path("everything") }
	same := func() bool {
		status, here, _ := one.get(path(), "")
		also, there, _ := two.get(path(), "")
		return status == 200 && also == 200 && icsWithoutSheets(here) == icsWithoutSheets(there)
	}
	one.wait("both serve one calendar", same)
	_, _, tag := one.get(path(), "")
	made := func() int { return strings.Count(one.err.String()+two.err.String(), "the plan is made anew") }
	before := made()
	rewrite(t, folder, "targets.yaml", "pieces: 8", "pieces: 6")
	one.wait("both serve the new one", func() bool {
		status, _, _ := one.get(path(), tag)
		return status == 200 && same()
	})
	time.Sleep(300 * time.Millisecond) // as long as either might take to begin again
	if n := made() - before; n != 1 {
		t.Errorf("the change was planned %d times, want once: %s%s", n, one.err.String(), two.err.String())
	}
	old := path()
	var unlike atomic.Int32
	end, polled := make(chan bool), make(chan bool)
	go func() {
		defer close(polled)
		for gone := false; ; {
			select {
			case <-end:
				return
			default:
			}
			status, _, _ := two.get(old, "")
			if status != 410 && (gone || status != 200) {
				unlike.Store(int32(status))
			}
			gone = gone || status == 410
		}
	}()
	if got := runWith(t.Context(), nil, "serve", "-C", folder, "--addresses", "--new-addresses=everything"); got.code != 0 {
		t.Fatal(got.err)
	}
	for _, s := range both {
		s.wait("the old address has ended", func() bool { status, _, _ := s.get(old, ""); return status == 410 })
	}
	close(end)
	<-polled
	if status := unlike.Load(); status != 0 {
		t.Errorf("a phone that polled got %d, want 200 until 410", status)
	}
	one.wait("both serve under the new address", func() bool { return path() != old && same() })
}
