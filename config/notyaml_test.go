package config

import (
	"errors"
	"flag"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"ripeby/schedule/testrun"
)

// notYAMLOf is the one fault of a kitchen.yaml that is not YAML; "" when it is.
func notYAMLOf(text string) (Fault, bool) {
	_, err := LoadFS(fstest.MapFS{"kitchen.yaml": {Data: []byte(text)}, "targets.yaml": {}}, Options{From: saltgrassFrom})
	var faults Faults
	errors.As(err, &faults)
	for _, f := range faults {
		if strings.HasPrefix(f.What, "this is not YAML") {
			return f, true
		}
	}
	return Fault{}, false
}

// In each text a » stands before the place that the fault should name.
func TestNotYAMLNamesThePlaceAndTheCause(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"a tab", "kitchen:\n  name: a\n»\tstep: 5 min\n", "indented with a tab; write spaces"},
		{"a tab after spaces", "kitchen:\n  name: a\n  »\tstep: 5 min\n", "indented with a tab"},
		{"a tab on the first line", "»\tkitchen:\n", "indented with a tab"},
		{"a space missing", "kitchen:\n  name: a\n  step:»5 min\n  room: 4 °C\n", "a space is missing after the colon; write step: 5 min"},
		{"a space missing on the first line of keys", "kitchen:\n  step:»5 min\n  room: 4 °C\n", "a space is missing after the colon; write step: 5 min"},
		{"a space missing on the last line", "kitchen:\n  room: 4 °C\n  step:»5 min\n", "a space is missing after the colon; write step: 5 min"},
		{"a space missing in a list", "pots:\n  - name:»tall\n    holds: 4 L\n", "a space is missing after the colon; write - name: tall"},
		{"a space missing after a dash", "pots:\n  -»name: tall\n   holds: 4 L\n", "a space is missing after the dash; write - name: tall"},
		{"no colon", "kitchen:\n  name: a\n  »step 5 min\n  room: 4 °C\n", "this line has no colon"},
		{"no colon on the first line of keys", "kitchen:\n  »step 5 min\n  room: 4 °C\n", "this line has no colon"},
		{"two colons", "kitchen:\n  name: Heron»: Yard\n", `a second colon in one line; write name: "Heron: Yard"`},
		{"two colons, letters of two bytes", "kitchen:\n  name: Hérön»: Yard\n", `write name: "Hérön: Yard"`},
		{"two colons between commas", "pots: [{name: a»: b, holds: 4 L}]\n", "a second colon between two commas"},
		{"a comma missing before a key", "pots: [{name: a holds»: 4 L}]\n", "a second colon between two commas; write a comma before the next key"},
		{"a comma missing between brackets", "pots: [{name: a} »{name: b}]\n", "a comma is missing before this"},
		{"a comma missing after quotation marks", "pots: [\"a\" »\"b\"]\n", "a comma is missing before this"},
		{"a quotation mark open to the end", "kitchen:\n  name: »\"Heron\n  step: 5 min\n", `mark " is opened here and not closed`},
		{"the other mark", "kitchen:\n  name: »'Heron\n  step: 5 min\n", "mark ' is opened here and not closed"},
		{"a quotation mark open to the next", "kitchen:\n  name: »\"Heron\n  step: 5 min\n  room: \"4 °C\"\n", `mark " is opened here and closed only on line 4`},
		{"text after a quotation mark", "kitchen:\n  name: \"Heron\" »Yard\n  step: 5 min\n", "goes on after its closing quotation mark"},
		{"an apostrophe", "kitchen:\n  name: 'Finn'»s yard'\n  step: 5 min\n", "a mark within is written ''"},
		{"a bracket open to the next key", "pots: »[{name: a}, {name: b}\npeople: []\n", "the bracket [ is opened here and not closed; write ]"},
		{"a bracket open to the end", "kitchen: »{name: a,\n  step: 5 min\n", "the bracket { is opened here and not closed; write }"},
		{"the wrong bracket", "pots: [{name: a}, {name: b»]\n", "the bracket { of line 1, column 19 is not closed before this ]"},
		{"a bracket too many", "pots: [a, b]»]\npeople: []\n", "the bracket ] closes nothing"},
		{"text after a bracket", "pots: [a, b]», c\npeople: []\n", "goes on after what has ended"},
		{"too far to the right", "pots:\n  - name: a\n     »holds: 4 L\n", "indented further than the one above"},
		{"too far to the left", "kitchen:\n   name: a\n  »step: 5 min\n", "indented like none of those"},
		{"a key where a dash is wanted", "pots:\n  - name: a\n  »holds: 4 L\n", "where the list's next dash is wanted"},
		{"a dash among keys", "kitchen:\n  name: a\n  »- step: 5 min\n", "this dash stands among keys"},
		{"a list after its key", "pots: »- name: a\n", "a list cannot begin after a key"},
		{"a sign", "kitchen:\n  name: »@home\n", `text cannot begin with @; write it in quotation marks, as in "@home"`},
		{"nothing before a comma", "pots: [», a]\n", "nothing stands before this ,"},
		{"a backslash", "kitchen:\n  name: \"Heron »\\d\"\n", "this backslash stands for nothing"},
		{"an alias", "kitchen:\n  step: »*minutes\n", "nothing above has the anchor &minutes"},
		{"below a text of several lines", "kitchen:\n  name: |\n    \"Heron\n    [ Yard\n  step:»5 min\n  room: 4 °C\n", "a space is missing after the colon"},
		{"line ends of two characters", "kitchen:\r\n  name: a\r\n  step:»5 min\r\n  room: 4 °C\r\n", "write step: 5 min"},
	} {
		at := strings.Index(c.text, "»")
		line := strings.Count(c.text[:at], "\n") + 1
		column := len([]rune(c.text[strings.LastIndex(c.text[:at], "\n")+1:at])) + 1
		f, ok := notYAMLOf(strings.Replace(c.text, "»", "", 1))
		if !ok {
			t.Errorf("%s: taken for YAML", c.name)
			continue
		}
		if got, want := fmt.Sprintf("%d:%d", f.Line, f.Column), fmt.Sprintf("%d:%d", line, column); got != want || !strings.Contains(f.Error(), c.want) {
			t.Errorf("%s:\n got %v\nwant %s with %q", c.name, f, want, c.want)
		}
	}
}

// typos is how often one is drawn; a long hunt takes more.
var typos = flag.Int("typos", testrun.Rounds(1000, 3000), "slips of the pen that are tried on the contract's example")

// One character is left out of the contract's example, or something is typed before or
// instead of it. Where the library refuses what comes of it, the fault has a line and
// a column of the file, and mostly those of the slip; where the library takes it,
// the punctuation has no flaw.
func TestNotYAMLAfterOneSlip(t *testing.T) {
	files := saltgrass(t)
	names := []string{"kitchen.yaml", button, "targets.yaml", "begun.yaml"}
	typed := []string{"", "", "\t", " ", "  ", "\"", "'", ":", ": ", ",", "[", "]", "{", "}", "-", "- ", "#", "@", "\n", "\\"}
	r := rand.New(rand.NewPCG(1, 2027))
	refused, near, same := 0, 0, 0
	for range *typos {
		text := []rune(string(files[names[r.IntN(len(names))]].Data))
		at, left := r.IntN(len(text)), r.IntN(2)
		before := string(text[:at])
		bent := []byte(before + typed[r.IntN(len(typed))] + string(text[at+left:]))
		_, second, err := documents(bent)
		if err == nil {
			if f, ok := punctuation(bent); ok && second == nil {
				line, column := place(bent, f.at)
				t.Fatalf("got %q at %d:%d of a text that is YAML:\n%s", f.what, line, column, bent)
			}
			continue
		}
		refused++
		p := page{loader: &loader{}}
		p.notYAML(err, bent)
		got := p.loader.faults[0]
		lines := strings.Split(string(bent), "\n")
		if got.Line < 1 || got.Line > len(lines) || got.Column < 1 || got.Column > len([]rune(lines[got.Line-1]))+1 {
			t.Fatalf("got %v, want a place in the file:\n%s", got, bent)
		}
		line, column := place(bent, len(before))
		if got.Line == line {
			same++
		}
		if max(line-got.Line, got.Line-line) <= 1 {
			near++
		} else if testing.Verbose() {
			t.Logf("slip at %d:%d: %v (%v)", line, column, got, err)
		}
	}
	t.Logf("of %d refused texts %d have the line of the slip, %d that or one beside it", refused, same, near)
	if refused < *typos/10 || near*10 < refused*9 {
		t.Errorf("of %d refused texts %d have the line of the slip or one beside it, want nine in ten of many", refused, near)
	}
}

// The place is looked for in a file of the largest size too, within seconds; in a quick run
// of a quarter of that.
func TestNotYAMLAtTheEndOfALargeFile(t *testing.T) {
	const one, last = "- {name: x, holds: 1 L}\n", "- {name: x holds: 1 L}\n"
	n := MaxFileBytes/testrun.Rounds(4, 1)/len(one) - 1
	start := time.Now()
	f, ok := notYAMLOf(strings.Repeat(one, n) + last)
	if took := time.Since(start); took > 20*time.Second {
		t.Errorf("took %v", took)
	}
	if !ok || f.Line != n+1 || f.Column != 17 {
		t.Errorf("got %v, want the colon in line %d", f, n+1)
	}
	t.Logf("took %v", time.Since(start))
}
