package seen

import (
	"errors"
	"fmt"
	"io/fs"
	"strings"
	"testing"

	"ripeby/schedule"
)

// files is a Store in memory.
type files struct {
	text map[string][]byte
	full error // what writing fails with
}

func (f *files) Read(name string) ([]byte, error) {
	if text, ok := f.text[name]; ok {
		return text, nil
	}
	return nil, fs.ErrNotExist
}

func (f *files) Write(name string, text []byte) error {
	if f.full == nil {
		f.text[name] = text
	}
	return f.full
}

var (
	short = schedule.Warning{Code: "round-too-short", Text: "The round is too short.", At: 30_000_000}
	pot   = schedule.Warning{Code: "x", Text: "The pot is small."}
)

// What one has seen the others have not, it outlives a restart, and a warning that says something else is to be
// answered anew.
func TestSeenByOneAlone(t *testing.T) {
	store := &files{text: map[string][]byte{}}
	book, err := Read(store)
	if err != nil {
		t.Fatal(err)
	}
	these := []schedule.Warning{short, pot}
	book = book.With("Nell", KeyOf(short), these)
	if err := book.Keep(store); err != nil {
		t.Fatal(err)
	}
	if strings.Contains(string(store.text[File]), "round") {
		t.Errorf("the file tells what the warning says:\n%s", store.text[File])
	}
	if book, err = Read(store); err != nil {
		t.Fatal(err)
	}
	later, other := short, short
	later.At++
	other.Text += " By 5 min."
	for _, c := range []struct {
		name, person string
		w            schedule.Warning
		want         bool
	}{{"hers", "Nell", short, true}, {"his", "Ivo", short, false}, {"another", "Nell", pot, false}, {"at another time", "Nell", later, false}, {"in other words", "Nell", other, false}} {
		if got := book.Has(c.person, c.w); got != c.want {
			t.Errorf("%s: got %v, want %v", c.name, got, c.want)
		}
	}
}

// The book does not grow: answers to what the plan warns of no more are let go, nothing is kept of what is no warning of
// it, and there are never more than so many.
func TestSeenIsBounded(t *testing.T) {
	book := Book{}.With("Nell", KeyOf(short), []schedule.Warning{short, pot})
	if again := book.With("Nell", KeyOf(short), []schedule.Warning{short}); len(again.marks) != 1 {
		t.Errorf("twice the same: got %d answers, want 1", len(again.marks))
	}
	if none := book.With("Nell", "0123", []schedule.Warning{short}); len(none.marks) != 1 || !none.Has("Nell", short) {
		t.Errorf("of what is no warning: got %v", none.marks)
	}
	if book = book.With("Ivo", KeyOf(pot), []schedule.Warning{pot}); book.Has("Nell", short) || !book.Has("Ivo", pot) {
		t.Errorf("the plan warns of the pot alone: got %v", book.marks)
	}
	for i := range Most + 10 {
		book = book.With(fmt.Sprint("person ", i), KeyOf(pot), []schedule.Warning{pot})
	}
	if len(book.marks) != Most || !book.Has(fmt.Sprint("person ", Most+9), pot) {
		t.Errorf("got %d answers, want %d, the last of them", len(book.marks), Most)
	}
}

// A file that is damaged is told, and all warnings are to be answered once more.
func TestSeenDamaged(t *testing.T) {
	for name, text := range map[string]string{"cut short": `{"format": "ripeby/se`, "of another format": `{"format": "ripeby/seen/9"}`,
		"too large": `{"format": "ripeby/seen/1", "seen": [` + strings.Repeat(`{},`, Most) + `{}]}`} {
		book, err := Read(&files{text: map[string][]byte{File: []byte(text)}})
		if err == nil || !strings.Contains(err.Error(), "not seen") || book.Has("Nell", short) {
			t.Errorf("%s: got %v", name, err)
		}
	}
	if err := (Book{}).Keep(&files{full: errors.New("disk full")}); err == nil {
		t.Error("a full disk: got no error")
	}
}
