package recordfile_test

import (
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"ripeby/config/recordfile"
	"ripeby/resources"
	"ripeby/schedule/record"
)

// TestLineEndsOfOthers: what a maker wrote by hand without a line's end, and what was cut,
// stay as they are, and the next entry has a line of its own.
func TestLineEndsOfOthers(t *testing.T) {
	march := resources.Date{Year: 2027, Month: 3, Day: 14}
	for _, c := range []struct{ name, before, want string }{
		{"a whole line without an end", "- {at: 2027-03-13 08:10, note: by hand}", "- {nr: 1, at: \"2027-01-08 09:20\", note: \"new\"}\n"},
		{"a cut line, whose number is not given again", "- {nr: 7, at: 2027-03-13 08:10, no", "- {nr: 8, at: \"2027-01-08 09:20\", note: \"new\"}\n"},
		{"a line that is wrong", "- {nr: 8, at: never}\r\n", "- {nr: 9, at: \"2027-01-08 09:20\", note: \"new\"}\n"},
		{"nothing", "", "- {nr: 1, at: \"2027-01-08 09:20\", note: \"new\"}\n"},
	} {
		dir := t.TempDir()
		path := filepath.Join(dir, "record", "2027-03.yaml")
		if err := errors.Join(os.Mkdir(filepath.Dir(path), 0o755), os.WriteFile(path, []byte(c.before), 0o644)); err != nil {
			t.Fatal(err)
		}
		w, err := recordfile.Begin(recordfile.OnDisk(dir), time.UTC)
		if err != nil {
			t.Fatal(err)
		}
		added, err := w.Add(march, record.Entry{At: 29_990_000 - 600 + 40, Note: "new"})
		w.End()
		if err != nil {
			t.Fatal(err)
		}
		text, err := os.ReadFile(path)
		want := c.before
		if want != "" && !strings.HasSuffix(want, "\n") {
			want += "\n"
		}
		if want += strings.Replace(c.want, "09:20", added[0].At.In(time.UTC).Format("15:04"), 1); err != nil || string(text) != want {
			t.Errorf("%s: got\n%q (%v), want\n%q", c.name, text, err, want)
		}
		if lines := strings.Split(string(text), "\n"); !strings.Contains(lines[added[0].Line-1], `"new"`) {
			t.Errorf("%s: it is said to stand on line %d", c.name, added[0].Line)
		}
	}
}

// TestMonthOfWriting: the file goes by the day of writing, and what is written at once goes
// into one write.
func TestMonthOfWriting(t *testing.T) {
	dir := t.TempDir()
	w, err := recordfile.Begin(recordfile.OnDisk(dir), time.UTC)
	if err != nil {
		t.Fatal(err)
	}
	defer w.End()
	for _, day := range []resources.Date{{Year: 2027, Month: 3, Day: 31}, {Year: 2027, Month: 4, Day: 1}} {
		if _, err := w.Add(day, record.Entry{Note: "one"}, record.Entry{Note: "two", Once: day.String()}); err != nil {
			t.Fatal(err)
		}
	}
	again, err := w.Add(resources.Date{Year: 2027, Month: 5, Day: 1}, record.Entry{Note: "two", Once: "2027-03-31"}, record.Entry{Note: "new", Once: "k"}, record.Entry{Note: "new", Once: "k"})
	if err != nil || again[0].Nr != 2 || again[0].File != "record/2027-03.yaml" || again[1].Nr != 5 || again[2].Nr != 5 || again[2].File != "record/2027-05.yaml" {
		t.Errorf("got %+v (%v), want number 2 as it was, and number 5 twice", again, err)
	}
	if got := w.Book().LastNr(); got != 5 {
		t.Errorf("got the last number %d, want 5", got)
	}
}

// TestNothingIsWrittenThatIsNotRead: a name that no reader would take is refused before
// anything is written.
func TestNothingIsWrittenThatIsNotRead(t *testing.T) {
	dir := t.TempDir()
	w, err := recordfile.Begin(recordfile.OnDisk(dir), time.UTC)
	if err != nil {
		t.Fatal(err)
	}
	defer w.End()
	day := resources.Date{Year: 2027, Month: 3, Day: 31}
	for _, e := range []record.Entry{{}, {Note: " \t"}, {Who: "a\nb", Note: "x"}, {Note: strings.Repeat("x", 2001)}, {Subject: record.Subject{Kind: record.OfBatch, Name: "B"}}} {
		if _, err := w.Add(day, record.Entry{Note: "good"}, e); err == nil {
			t.Errorf("%+v was written", e)
		}
	}
	if left, _ := filepath.Glob(filepath.Join(dir, "record", "*.yaml")); len(left) > 0 {
		t.Errorf("got the files %q, want none", left)
	}
	if added, err := w.Add(day, record.Entry{Note: "\xff"}); err != nil || added[0].Note != "\ufffd" || added[0].Nr != 1 {
		t.Errorf("got %+v (%v), want the text mended", added, err)
	}
}

// TestFullMonth: a month that would grow past what is read is not written to.
func TestFullMonth(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "record", "2027-03.yaml")
	full := strings.Repeat("#", recordfile.MaxBytes-20) + "\n"
	if err := errors.Join(os.Mkdir(filepath.Dir(path), 0o755), os.WriteFile(path, []byte(full), 0o644)); err != nil {
		t.Fatal(err)
	}
	w, err := recordfile.Begin(recordfile.OnDisk(dir), time.UTC)
	if err != nil {
		t.Fatal(err)
	}
	defer w.End()
	if _, err := w.Add(resources.Date{Year: 2027, Month: 3, Day: 31}, record.Entry{Note: "one"}); err == nil || !strings.Contains(err.Error(), "limit of 4194304 bytes") {
		t.Errorf("got %v, want that the month is full", err)
	}
	if _, err := w.Add(resources.Date{Year: 2027, Month: 4, Day: 1}, record.Entry{Note: "one"}); err != nil {
		t.Errorf("the next month: %v", err)
	}
}

// TestReadersWaitForWriters: while somebody adds, nobody reads; several may read.
func TestReadersWaitForWriters(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("a process's own locks do not keep it out there")
	}
	dir := t.TempDir()
	if done, err := recordfile.Shared(dir); err != nil {
		t.Errorf("no record yet: %v", err)
	} else {
		done()
	}
	w, err := recordfile.Begin(recordfile.OnDisk(dir), time.UTC)
	if err != nil {
		t.Fatal(err)
	}
	began := make(chan error)
	go func() {
		done, err := recordfile.Shared(dir)
		if err == nil {
			defer done()
		}
		began <- err
	}()
	select {
	case err := <-began:
		t.Errorf("it was read while somebody added (%v)", err)
	case <-time.After(100 * time.Millisecond):
	}
	w.End()
	if err := <-began; err != nil {
		t.Error(err)
	}
	one, err1 := recordfile.Shared(dir)
	other, err2 := recordfile.Shared(dir)
	if err := errors.Join(err1, err2); err != nil {
		t.Fatal(err)
	}
	one()
	other()
}

// TestWhatIsInTheWay says what stands where the record is to be.
func TestWhatIsInTheWay(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "record"), nil, 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := recordfile.Begin(recordfile.OnDisk(dir), time.UTC); err == nil || !strings.HasPrefix(err.Error(), "the record cannot be read: ") {
		t.Errorf("a file in the place of the folder: got %v", err)
	}
	dir = t.TempDir()
	if err := os.MkdirAll(filepath.Join(dir, "record", "batches"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink("/dev/null", filepath.Join(dir, "record", "2027-03.yaml")); err == nil {
		if _, err := recordfile.Begin(recordfile.OnDisk(dir), time.UTC); err == nil || !strings.Contains(err.Error(), "no file of the usual kind") {
			t.Errorf("a device in the place of a month: got %v", err)
		}
	}
}
