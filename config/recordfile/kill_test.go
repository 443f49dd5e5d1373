package recordfile_test

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"ripeby/config/recordfile"
	"ripeby/resources"
	"ripeby/schedule/record"
)

// A process of its own says words into a record on the real disk and dies at a named place.
// A kill loses nothing that was written, so it proves no flush (liar_test.go does); it
// proves the lock, the order of what is done, and that half a line harms nobody.

// places are where a process may die.
var places = []string{"before the write", "within the write", "between write and flush", "between flush and flush of the folder", "between flush and answer"}

// What a child is told.
const (
	childFolder = "RIPEBY_TEST_RECORD"   // the kitchen folder
	childWords  = "RIPEBY_TEST_WORDS"    // what to say, in order
	childPlace  = "RIPEBY_TEST_DIES_AT"  // one of places; "" for nowhere
	childWrites = "RIPEBY_TEST_DIES_FOR" // at which of its entries, from 1
)

// child says each word once, and answers each on a line.
func child(dir string) int {
	nth, _ := strconv.Atoi(os.Getenv(childWrites))
	d := &dying{Disk: recordfile.OnDisk(dir), place: os.Getenv(childPlace), nth: nth}
	for _, word := range strings.Fields(os.Getenv(childWords)) {
		d.entry++
		w, err := recordfile.Begin(d, time.UTC)
		if err != nil {
			fmt.Println(err)
			return 1
		}
		added, err := w.Add(resources.Date{Year: 2027, Month: 3, Day: 1}, record.Entry{At: 29_990_000, Note: "ä note of " + word, Once: word})
		w.End()
		if err != nil {
			fmt.Println(err)
			return 1
		}
		d.mayDie("between flush and answer")
		fmt.Println("kept", word, added[0].Nr)
	}
	return 0
}

// dying is the machine's own disk, beside which the process ends.
type dying struct {
	recordfile.Disk
	place string
	nth   int
	entry int
}

func (d *dying) mayDie(place string) {
	if d.place == place && d.entry == d.nth {
		self, _ := os.FindProcess(os.Getpid())
		_ = self.Kill()
		select {} // until the signal has come
	}
}

func (d *dying) Append(name string) (recordfile.File, error) {
	f, err := d.Disk.Append(name)
	return dyingFile{f, d}, err
}

func (d *dying) Flush() error {
	d.mayDie("between flush and flush of the folder")
	return d.Disk.Flush()
}

type dyingFile struct {
	recordfile.File
	disk *dying
}

func (f dyingFile) Write(text []byte) (int, error) {
	f.disk.mayDie("before the write")
	if f.disk.place == "within the write" && f.disk.entry == f.disk.nth {
		_, _ = f.File.Write(text[:len(text)/2])
		f.disk.mayDie("within the write")
	}
	n, err := f.File.Write(text)
	f.disk.mayDie("between write and flush")
	return n, err
}

// runChild has a process say words, and gives what it answered.
func runChild(t *testing.T, dir string, words []string, place string, nth int) (kept []string, out string, err error) {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(self)
	cmd.Env = append(os.Environ(), childFolder+"="+dir, childWords+"="+strings.Join(words, " "), childPlace+"="+place, childWrites+"="+strconv.Itoa(nth))
	var all bytes.Buffer
	cmd.Stdout, cmd.Stderr = &all, &all
	err = cmd.Run()
	for _, line := range strings.Split(all.String(), "\n") {
		if word := strings.Fields(line); len(word) == 3 && word[0] == "kept" {
			kept = append(kept, word[1])
		}
	}
	return kept, all.String(), err
}

// TestKilledAtEachPlace has each place once.
func TestKilledAtEachPlace(t *testing.T) { killed(t, len(places), places) }

// killed has a process say three words, die at a place, and be followed by another that
// says again what was not answered.
func killed(t *testing.T, kills int, at []string) {
	t.Helper()
	dir := t.TempDir()
	dice := rand.New(rand.NewPCG(20270312, 200))
	var all []string
	for kill := range kills {
		words := []string{fmt.Sprint("w", kill, "a"), fmt.Sprint("w", kill, "b"), fmt.Sprint("w", kill, "c")}
		all = append(all, words...)
		place := at[kill%len(at)]
		kept, out, err := runChild(t, dir, words, place, 1+dice.IntN(len(words)))
		if err == nil || len(kept) == len(words) {
			t.Fatalf("%s: it did not die: %s", place, out)
		}
		if again, out, err := runChild(t, dir, words[len(kept):], "", 0); err != nil || len(again) != len(words)-len(kept) {
			t.Fatalf("%s: what was not answered, said again: got %q of %q (%v): %s", place, again, words[len(kept):], err, out)
		}
	}
	mustHaveSaid(t, dir, all)
	if rest, out, err := runChild(t, dir, []string{"m1", "m2", "m3", "m4", "m5", "m6", "m7", "m8", "m9", "m10"}, "", 0); err != nil || len(rest) != 10 {
		t.Fatalf("ten more: got %q (%v): %s", rest, err, out)
	}
	mustHaveSaid(t, dir, append(all, "m1", "m10"))
}

// mustHaveSaid reads a record, and wants each word once and each number once.
func mustHaveSaid(t *testing.T, dir string, words []string) {
	t.Helper()
	w, err := recordfile.Begin(recordfile.OnDisk(dir), time.UTC)
	if err != nil {
		t.Fatal(err)
	}
	defer w.End()
	said, numbers := map[string]int{}, map[int]int{}
	for _, e := range w.Book().All() {
		said[e.Once]++
		if numbers[e.Nr]++; numbers[e.Nr] > 1 || e.Note != "ä note of "+e.Once {
			t.Errorf("%s:%d: number %d is there twice, or the note is wrong: %q", e.File, e.Line, e.Nr, e.Note)
		}
		text, err := os.ReadFile(filepath.Join(dir, e.File))
		if lines := strings.Split(string(text), "\n"); err != nil || e.Line > len(lines) || !strings.Contains(lines[e.Line-1], strconv.Quote(e.Once)) {
			t.Errorf("%s:%d is not where %q stands (%v)", e.File, e.Line, e.Once, err)
		}
	}
	for _, word := range words {
		if said[word] != 1 {
			t.Errorf("%q is there %d times, want once", word, said[word])
		}
	}
	for _, f := range w.Faults() {
		if !strings.Contains(f.What, "cut short") {
			t.Error(f)
		}
	}
}

// TestEightWritersAtOnce are eight processes; nobody's line is lost or mixed, and the
// numbers have no gap.
func TestEightWritersAtOnce(t *testing.T) {
	const writers, each = 8, 12
	dir := t.TempDir()
	var all []string
	var wait sync.WaitGroup
	for i := range writers {
		var words []string
		for k := range each {
			words = append(words, fmt.Sprint("p", i, "w", k))
		}
		all = append(all, words...)
		wait.Go(func() {
			if kept, out, err := runChild(t, dir, words, "", 0); err != nil || len(kept) != each {
				t.Errorf("writer %d: got %d answers, want %d (%v): %s", i, len(kept), each, err, out)
			}
		})
	}
	wait.Wait()
	mustHaveSaid(t, dir, all)
	w, err := recordfile.Begin(recordfile.OnDisk(dir), time.UTC)
	if err != nil {
		t.Fatal(err)
	}
	defer w.End()
	if got := w.Book().LastNr(); got != writers*each {
		t.Errorf("the last number is %d, want %d", got, writers*each)
	}
}
