package main

import (
	"bufio"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"ripeby/calendar/address"
	"ripeby/schedule/testrun"
)

// A server that is killed while it plans, at whatever moment, leaves the old plan or
// the new one whole, and the addresses as they were.
func TestServeKilled(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("there is no kill -9 there")
	}
	rounds := testrun.Rounds(4, 20)
	folder := newFolder(t)
	program := ownProgram(t)
	out := output{filepath.Join(folder, "plan")}
	if got := runWith(t.Context(), nil, "serve", "-C", folder, "--addresses"); got.code != 0 {
		t.Fatal(got.err)
	}
	if got := runWith(t.Context(), nil, "plan", "-C", folder, "--work", "100000"); got.code != 0 {
		t.Fatal(got.err)
	}
	addresses, err := os.ReadFile(out.path(address.File))
	if err != nil {
		t.Fatal(err)
	}
	dice := rand.New(rand.NewPCG(20270316, 1))
	pieces, seen := 8, map[string]int{}
	for round := range rounds {
		was := wantedNow(t, out)
		next := 8 + 6 - pieces // 8 and 6 in turn
		kill := startProgram(t, program, folder)
		rewrite(t, folder, "targets.yaml", fmt.Sprintf("pieces: %d", pieces), fmt.Sprintf("pieces: %d", next))
		pieces = next
		time.Sleep(time.Duration(dice.IntN(160)) * time.Millisecond)
		kill()
		switch wanted := wantedNow(t, out); wanted {
		case next:
			seen["new"]++
		case was:
			seen["old"]++
		default:
			t.Errorf("round %d: the plan is for %d pieces, want %d or %d", round, wanted, was, next)
		}
		if now, err := os.ReadFile(out.path(address.File)); err != nil || string(now) != string(addresses) {
			t.Fatalf("round %d: the addresses are not as they were (%v)", round, err)
		}
	}
	t.Logf("killed %d times: %d times the old plan was there, %d times the new", rounds, seen["old"], seen["new"])
	// What a kill left behind is mended by the next server.
	s := servingOn(t, folder, nil)
	s.wait("the plan of the folder", func() bool {
		status, body, _ := s.get(s.path("everything"), "")
		return status == 200 && wantedNow(t, out) == pieces && strings.Contains(body, fmt.Sprintf(": %d of %d (", pieces, pieces))
	})
}

// wantedNow is how many pieces the kept plan's first target wants.
func wantedNow(t *testing.T, out output) int {
	t.Helper()
	plan, err := out.earlier()
	if err != nil || plan == nil {
		t.Fatalf("got no plan (%v), want the old one or the new one", err)
	}
	return plan.Targets[0].Wanted
}

// ownProgram is this test's own program under the name ripeby, by which TestMain
// knows that it is to be ripeby.
func ownProgram(t *testing.T) string {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	program := filepath.Join(t.TempDir(), "ripeby")
	if err := os.Symlink(self, program); err != nil {
		t.Fatal(err)
	}
	return program
}

// startProgram starts ripeby serve in a process of its own and waits until it
// listens.
func startProgram(t *testing.T, program, folder string) (kill func()) {
	t.Helper()
	cmd := exec.Command(program, "serve", "-C", folder, "--listen", "127.0.0.1:0", "--every", "100ms", "--work", "100000")
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	kill = func() {
		_ = cmd.Process.Kill()
		_ = cmd.Wait() // it ends by the kill
	}
	t.Cleanup(kill)
	if first, err := bufio.NewReader(out).ReadString('\n'); err != nil || !strings.HasPrefix(first, "Serving on ") {
		t.Fatalf("got %q (%v), want it to serve", first, err)
	}
	return kill
}
