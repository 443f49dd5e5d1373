package main

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"ripeby/calendar/address"
)

// heard is a stream that is read while it is written to.
type heard struct {
	mu   sync.Mutex
	text bytes.Buffer
}

func (h *heard) Write(p []byte) (int, error) {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.text.Write(p)
}

func (h *heard) String() string {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.text.String()
}

// serving is ripeby serve under test.
type serving struct {
	t        *testing.T
	folder   string
	out, err heard
	site     string
	client   *http.Client
	stop     func() int
}

// servingOn runs ripeby serve on the folder until the test ends.
func servingOn(t *testing.T, folder string, change func(*program), args ...string) *serving {
	t.Helper()
	s := &serving{t: t, folder: folder, client: &http.Client{Timeout: 10 * time.Second}}
	p := newProgram(streams{nil, &s.out, &s.err}, func(string) string { return "" })
	if change != nil {
		change(p)
	}
	ctx, cancel := context.WithCancel(context.Background())
	code := make(chan int, 1)
	go func() {
		code <- p.execute(ctx, append([]string{"serve", "-C", folder, "--listen", "127.0.0.1:0", "--every", "100ms", "--work", "100000"}, args...))
	}()
	s.stop = sync.OnceValue(func() int { cancel(); return <-code })
	t.Cleanup(func() { s.stop() })
	s.wait("it listens", func() bool {
		if found := regexp.MustCompile(`Serving on (\S+);`).FindStringSubmatch(s.out.String()); found != nil {
			s.site = found[1]
		}
		return s.site != ""
	})
	return s
}

// wait waits until something holds.
func (s *serving) wait(what string, holds func() bool) {
	s.t.Helper()
	for end := time.Now().Add(60 * time.Second); time.Now().Before(end); time.Sleep(10 * time.Millisecond) {
		if holds() {
			return
		}
	}
	s.t.Fatalf("it never came to this: %s\noutput: %s\nerrors: %s", what, s.out.String(), s.err.String())
}

// path finds an address by its label.
func (s *serving) path(label string) string {
	s.t.Helper()
	book, err := address.Read(ownFiles{output{filepath.Join(s.folder, "plan")}, func(string) {}})
	if err != nil {
		s.t.Fatal(err)
	}
	for _, a := range book.Addresses {
		if a.Label() == label {
			return a.Path()
		}
	}
	s.t.Fatalf("no address for %q", label)
	return ""
}

// get asks for a path; a failed request has status 0.
func (s *serving) get(path, tag string) (status int, body, newTag string) {
	r, err := http.NewRequest("GET", s.site+path, nil)
	if err != nil {
		s.t.Fatal(err)
	}
	if tag != "" {
		r.Header.Set("If-None-Match", tag)
	}
	answer, err := s.client.Do(r)
	if err != nil {
		return 0, err.Error(), ""
	}
	defer answer.Body.Close()
	text, err := io.ReadAll(answer.Body)
	if err != nil {
		return 0, err.Error(), ""
	}
	return answer.StatusCode, string(text), answer.Header.Get("ETag")
}

// newFolder begins a kitchen whose targets lie ahead of the real clock.
func newFolder(t *testing.T) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "meadow")
	if got := runWith(t.Context(), nil, "new", dir); got.code != 0 {
		t.Fatal(got.err)
	}
	return dir
}

// rewrite changes a file of the folder, as an editor does: by moving a new one there.
func rewrite(t *testing.T, folder, name, old, new string) {
	t.Helper()
	file := filepath.Join(folder, name)
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(text), old) {
		t.Fatalf("%s does not hold %q", name, old)
	}
	if err := os.WriteFile(file+"~", []byte(strings.Replace(string(text), old, new, 1)), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Rename(file+"~", file); err != nil {
		t.Fatal(err)
	}
}

// From the first plan to the last: a changed folder, one with a fault, addresses
// taken back by another run, and the end.
func TestServeFollowsTheFolder(t *testing.T) {
	folder := newFolder(t)
	s := servingOn(t, folder, nil)
	all := s.path("everything")
	tag := ""
	s.wait("a calendar", func() bool {
		status, _, got := s.get(all, "")
		tag = got
		return status == 200
	})
	if status, _, _ := s.get(all, tag); status != 304 {
		t.Errorf("unchanged: got %d, want 304", status)
	}

	rewrite(t, folder, "targets.yaml", "pieces: 8", "pieces: 6")
	body := ""
	s.wait("the new plan", func() bool {
		status, text, got := s.get(all, tag)
		if status == 200 {
			tag, body = got, text
		}
		return status == 200 && strings.Contains(text, "6 pieces")
	})
	// What the phone gets is what the kept plan says.
	if kept, err := os.ReadFile(filepath.Join(folder, "plan", "tasks.ics")); err != nil || icsWithoutSheets(body) != icsWithoutSheets(string(kept)) {
		t.Errorf("the calendar is not the kept one (%v), links apart", err)
	}

	rewrite(t, folder, "targets.yaml", "pieces: 6", "pieces: six")
	_, page, _ := s.get(s.path("page"), "")
	s.wait("the page names the fault", func() bool {
		_, page, _ = s.get(s.path("page"), "")
		return strings.Contains(page, "targets.yaml:") && strings.Contains(page, "last good plan")
	})
	if strings.Contains(page, folder) {
		t.Error("the page tells where on the machine the folder is")
	}
	if status, _, _ := s.get(all, tag); status != 304 {
		t.Errorf("with a fault: got %d, want 304", status)
	}
	rewrite(t, folder, "targets.yaml", "pieces: six", "pieces: 6")
	s.wait("the fault is gone", func() bool {
		_, page, _ = s.get(s.path("page"), "")
		return !strings.Contains(page, "last good plan")
	})
	if status, _, _ := s.get(all, tag); status != 304 {
		t.Errorf("mended, as it was: got %d, want 304", status)
	}

	whole, err := os.ReadFile(filepath.Join(folder, "targets.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	rewrite(t, folder, "targets.yaml", string(whole), "") // half saved
	s.wait("the page says that nothing is wanted any more", func() bool {
		_, page, _ = s.get(s.path("page"), "")
		return strings.Contains(page, "targets.yaml wants nothing") && strings.Contains(page, "last good plan")
	})
	if status, _, _ := s.get(all, tag); status != 304 {
		t.Errorf("with no targets: got %d, want 304", status)
	}
	if err := os.WriteFile(filepath.Join(folder, "targets.yaml"), whole, 0o644); err != nil {
		t.Fatal(err)
	}
	s.wait("the targets are back", func() bool {
		_, page, _ = s.get(s.path("page"), "")
		return !strings.Contains(page, "last good plan")
	})

	old := s.path("everything")
	if got := runWith(t.Context(), nil, "serve", "-C", folder, "--addresses", "--new-addresses=everything"); got.code != 0 || !strings.Contains(got.out, "Taken back: 1 address.") {
		t.Errorf("got %d, %q, %q", got.code, got.out, got.err)
	}
	s.wait("410", func() bool { status, _, _ := s.get(old, ""); return status == 410 })
	if status, _, _ := s.get(s.path("everything"), ""); status != 200 {
		t.Errorf("the new address: got %d, want 200", status)
	}
	if code := s.stop(); code != 0 || !strings.HasSuffix(s.out.String(), "Stopped.\n") {
		t.Errorf("got %d and %q, want 0 and a last word", code, s.out.String())
	}
	for _, label := range []string{"everything", "Wren", "cold places", "page"} {
		if token := regexp.MustCompile(`[a-z2-7]{26}`).FindString(s.path(label)); token == "" || strings.Contains(s.out.String()+s.err.String(), token) {
			t.Errorf("the address for %s was printed where there is no terminal", label)
		}
	}
}

// icsWithoutSheets leaves out the links, which only a served calendar has.
func icsWithoutSheets(text string) string {
	return regexp.MustCompile(`URL:[^\r]*\r\n( [^\r]*\r\n)*`).ReplaceAllString(text, "")
}

// While another run has its turn the server waits, and then plans.
func TestServeTakesItsTurn(t *testing.T) {
	folder := newFolder(t)
	s := servingOn(t, folder, nil)
	s.wait("a calendar", func() bool { status, _, _ := s.get(s.path("everything"), ""); return status == 200 })
	_, _, tag := s.get(s.path("everything"), "")
	mine, err := output{filepath.Join(folder, "plan")}.takeTurn()
	if err != nil || !mine.held {
		t.Skip("folders are not locked here")
	}
	rewrite(t, folder, "targets.yaml", "pieces: 8", "pieces: 6")
	time.Sleep(500 * time.Millisecond)
	if status, _, _ := s.get(s.path("everything"), tag); status != 304 {
		t.Errorf("during the other's turn: got %d, want 304", status)
	}
	mine.end()
	s.wait("the new plan", func() bool { status, _, _ := s.get(s.path("everything"), tag); return status == 200 })
	if strings.Contains(s.err.String(), "another ripeby") {
		t.Errorf("it complained: %s", s.err.String())
	}
}

// The plan that another run makes is served, and not made again.
func TestServeShowsWhatPlanMakes(t *testing.T) {
	folder := newFolder(t)
	if got := runWith(t.Context(), nil, "plan", "-C", folder, "--work", "100000"); got.code != 0 {
		t.Fatal(got.err)
	}
	s := servingOn(t, folder, nil)
	s.wait("a calendar", func() bool { status, _, _ := s.get(s.path("everything"), ""); return status == 200 })
	_, _, tag := s.get(s.path("everything"), "")
	if got := runWith(t.Context(), nil, "plan", "-C", folder, "--work", "100000", "--fresh", "--from", time.Now().AddDate(0, 0, 2).Format("2006-01-02 15:04")); got.code != 0 {
		t.Fatal(got.err)
	}
	s.wait("the other plan", func() bool { status, _, _ := s.get(s.path("everything"), tag); return status == 200 })
	time.Sleep(300 * time.Millisecond)
	if strings.Contains(s.err.String(), "made anew") {
		t.Errorf("the plan was made again: %s", s.err.String())
	}
}

// A folder that cannot be read is no reason not to serve its last plan, with the
// page saying what is wrong; without a plan there is nothing to serve.
func TestServeAFolderThatCannotBeRead(t *testing.T) {
	folder := newFolder(t)
	rewrite(t, folder, "targets.yaml", "pieces: 8", "pieces: eight")
	if got := runWith(t.Context(), nil, "serve", "-C", folder); got.code != exitWrong || !strings.Contains(got.err, "targets.yaml:") {
		t.Errorf("without a plan: got %d and %q, want 2 and the fault", got.code, got.err)
	}
	rewrite(t, folder, "targets.yaml", "pieces: eight", "pieces: 8")
	if got := runWith(t.Context(), nil, "plan", "-C", folder, "--work", "100000"); got.code != 0 {
		t.Fatal(got.err)
	}
	rewrite(t, folder, "kitchen.yaml", "people", "poeple")
	// A copy of a folder can have files of one moment, or older than the plan.
	long := time.Now().Add(-24 * time.Hour)
	for _, name := range []string{"kitchen.yaml", ""} {
		if err := os.Chtimes(filepath.Join(folder, name), long, long); err != nil {
			t.Fatal(err)
		}
	}
	s := servingOn(t, folder, nil)
	s.wait("a calendar", func() bool {
		status, body, _ := s.get(s.path("everything"), "")
		return status == 200 && strings.Contains(body, "BEGIN:VEVENT")
	})
	if kept, err := os.ReadFile(filepath.Join(folder, "plan", "tasks.ics")); err != nil {
		t.Error(err)
	} else if _, body, _ := s.get(s.path("everything"), ""); icsWithoutSheets(body) != icsWithoutSheets(string(kept)) {
		t.Error("the calendar is not the kept one, links apart")
	}
	s.wait("the page names the fault", func() bool {
		_, page, _ := s.get(s.path("page"), "")
		return strings.Contains(page, "kitchen.yaml:")
	})
}

// A kept plan that is damaged, and a folder for it that cannot be written to, are told on
// the page a line each, by the file's name and not by where it is on this machine.
func TestServeTellsNoPlaceOnThisMachine(t *testing.T) {
	folder := newFolder(t)
	s := servingOn(t, folder, nil)
	s.wait("a calendar", func() bool { status, _, _ := s.get(s.path("everything"), ""); return status == 200 })
	for _, damage := range []struct{ text, want string }{{"{", "<li>plan.json:1:"}, {strings.Repeat(" ", 100), "<li>plan.json: the file is empty"}} {
		if err := os.WriteFile(filepath.Join(folder, "plan", "plan.json"), []byte(damage.text), 0o644); err != nil {
			t.Fatal(err)
		}
		s.wait("the page names the plan", func() bool {
			_, page, _ := s.get(s.path("page"), "")
			return strings.Contains(page, damage.want)
		})
		_, page, _ := s.get(s.path("page"), "")
		if strings.Contains(page, folder) || strings.Contains(page, "␊") || !strings.Contains(page, "<li>This is the earlier plan.") {
			t.Errorf("got %s; want the lines apart, and nothing of %s", page, folder)
		}
	}
	w := &watched{out: output{folder}}
	if got := w.told(output{folder}.cannot(os.ErrPermission)).Error(); strings.Contains(got, folder) || !strings.Contains(got, "kept in its folder:") {
		t.Errorf("got %q", got)
	}
}

// The addresses' file is its owner's alone; one that was open to others is closed,
// with a word about it.
func TestAddressesAreTheOwnersAlone(t *testing.T) {
	folder := newFolder(t)
	if got := runWith(t.Context(), nil, "serve", "-C", folder, "--addresses"); got.code != 0 {
		t.Fatal(got.err)
	}
	file := filepath.Join(folder, "plan", address.File)
	mode := func() os.FileMode {
		info, err := os.Stat(file)
		if err != nil {
			t.Fatal(err)
		}
		return info.Mode().Perm()
	}
	if mode() != 0o600 {
		t.Errorf("got mode %o, want 600", mode())
	}
	if err := os.Chmod(file, 0o644); err != nil {
		t.Fatal(err)
	}
	got := runWith(t.Context(), nil, "serve", "-C", folder, "--addresses")
	if mode() != 0o600 || !strings.Contains(got.err, "could be read by others; now it cannot") {
		t.Errorf("got mode %o and %q, want 600 and a word about it", mode(), got.err)
	}
	// The file is readable text, with the format's name.
	text, err := os.ReadFile(file)
	if err != nil || !json.Valid(text) || !strings.Contains(string(text), "ripeby/addresses/1") {
		t.Errorf("got %q (%v)", text, err)
	}
}
