package address

import (
	"errors"
	"io/fs"
	"strings"
	"testing"
	"time"
)

// Addresses are made once, hold 130 random bits each, and stay when people come.
func TestBookComplete(t *testing.T) {
	first, added := (&Book{}).Complete([]string{"Nell", "Ivo"})
	if !added || len(first.Addresses) != 7 {
		t.Fatalf("got %v and %d addresses, want 7 new ones", added, len(first.Addresses))
	}
	seen := map[string]bool{}
	for _, a := range first.Addresses {
		// 26 letters of 32: 130 bits.
		if len(a.Token) != 26 || strings.Trim(a.Token, tokenLetters) != "" || seen[a.Token] {
			t.Errorf("%s: got the token %q, want 26 letters of 32, another each time", a.Label(), a.Token)
		}
		seen[a.Token] = true
	}
	if again, added := first.Complete([]string{"Ivo", "Nell"}); added || len(again.Addresses) != 7 {
		t.Error("got new addresses for the same people, want none")
	}
	more, added := first.Complete([]string{"Nell", "Zoe"})
	if !added || len(more.Addresses) != 9 || len(first.Addresses) != 7 {
		t.Errorf("got %d addresses and %d in the first book, want 9 and 7", len(more.Addresses), len(first.Addresses))
	}
	for i, a := range first.Addresses {
		if more.Addresses[i] != a {
			t.Errorf("%s: got another address, want the same", a.Label())
		}
	}
}

// A book is read back as it was kept; what was taken back is kept as digests only.
func TestBookKept(t *testing.T) {
	store := &files{text: map[string][]byte{}}
	old, _ := (&Book{}).Complete([]string{"Nell", "page"})
	renewed, labels := old.Renew("page") // a person may have the name of something else: both go
	if len(labels) != 3 {
		t.Errorf("got %v taken back, want the page and both addresses of the person of that name", labels)
	}
	renewed, labels = renewed.Renew("Nell")
	if len(labels) != 2 {
		t.Errorf("got %v taken back, want Nell's, to read and to write at", labels)
	}
	book, _ := renewed.Complete([]string{"Nell"})
	if err := book.Keep(store); err != nil {
		t.Fatal(err)
	}
	text := string(store.text[File])
	back, err := Read(store)
	if err != nil {
		t.Fatal(err)
	}
	for _, a := range old.Addresses {
		want := InUse
		if a.Label() == "page" || a.Label() == "Nell" {
			want = Revoked
			if strings.Contains(text, a.Token) {
				t.Errorf("%s: the file still holds the token that was taken back", a.Label())
			}
		}
		if _, got := back.Find(a.Token); got != want {
			t.Errorf("%s: got %d, want %d", a.Label(), got, want)
		}
	}
	if _, got := back.Find(NewToken()); got != Unknown {
		t.Errorf("a token that never was: got %d, want unknown", got)
	}
	all, labels := back.Renew("")
	if len(all.Addresses) != 0 || len(labels) != len(back.Addresses) || len(all.revoked) != len(back.revoked)+len(labels) {
		t.Errorf("got %d addresses left, %d revoked; want none, and all of them", len(all.Addresses), len(all.revoked))
	}
	if none, labels := back.Renew("nobody"); len(labels) != 0 || len(none.Addresses) != len(back.Addresses) {
		t.Errorf("got %v taken back, want nothing", labels)
	}
}

// A file that is damaged is an error, and never taken for an empty one: that would
// give every phone a 404.
func TestBookDamaged(t *testing.T) {
	good, _ := (&Book{}).Complete(nil)
	store := &files{text: map[string][]byte{}}
	if err := good.Keep(store); err != nil {
		t.Fatal(err)
	}
	text := string(store.text[File])
	for name, broken := range map[string]string{
		"cut short":        text[:len(text)/2],
		"empty":            "",
		"another format":   strings.Replace(text, bookFormat, "ripeby/addresses/9", 1),
		"a short token":    strings.Replace(text, good.Addresses[0].Token, "abc", 1),
		"a path for token": strings.Replace(text, good.Addresses[0].Token, "../../../../../../../../../x", 1),
		"an odd digest":    strings.Replace(text, `"revoked": []`, `"revoked": ["12"]`, 1),
	} {
		store.text[File] = []byte(broken)
		if _, err := Read(store); err == nil || !strings.Contains(err.Error(), "put back a good copy") {
			t.Errorf("%s: got %v, want an error that says what to do", name, err)
		}
	}
	store.text[File] = []byte(text)
	store.full = errors.New("disk full")
	if err := good.Keep(store); err == nil {
		t.Error("a full disk: got no error")
	}
}

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

// Nobody says more than so much in a minute, or in a day; what was not looked at is not counted.
func TestPace(t *testing.T) {
	var p Pace
	now := time.Date(2027, 3, 16, 8, 0, 0, 0, time.UTC)
	for i := range TapsAMinute {
		if wait := p.Wait("a", now.Add(time.Duration(i)*time.Second)); wait != 0 {
			t.Fatalf("the %d-th: got %v to wait, want none", i+1, wait)
		}
	}
	at := now.Add(TapsAMinute * time.Second)
	if wait := p.Wait("a", at); wait != (60-TapsAMinute)*time.Second {
		t.Errorf("one more: got %v to wait", wait)
	}
	if wait := p.Wait("b", at); wait != 0 {
		t.Errorf("somebody else: got %v to wait, want none", wait)
	}
	p.Back("a")
	if wait := p.Wait("a", at); wait != 0 {
		t.Errorf("when one was taken off: got %v to wait, want none", wait)
	}
	n := TapsAMinute
	for at = now.Add(time.Hour); p.Wait("a", at) == 0; at = at.Add(time.Minute) {
		n++
	}
	if n != TapsADay {
		t.Errorf("got %d in a day, want %d", n, TapsADay)
	}
	if wait := p.Wait("a", now.Add(25*time.Hour)); wait != 0 {
		t.Errorf("the next day: got %v to wait, want none", wait)
	}
}
