package main

import (
	"bytes"
	"strings"
	"testing"
)

// The page of changes that the program carries: days, newest first, and under each
// what a maker notices, in the form that DEVELOPERS.md asks for.
func TestChangesAreDatedAndSayWhatRipebyNowDoes(t *testing.T) {
	all, err := readChanges(changesPage)
	if err != nil {
		t.Fatalf("CHANGES.md: %v", err)
	}
	if len(all) == 0 {
		t.Fatal("CHANGES.md: got no day, want some")
	}
	for _, of := range all {
		if len(of.entries) == 0 {
			t.Errorf("CHANGES.md: %s: got nothing new, want something or no heading", of.day)
		}
		for _, entry := range of.entries {
			if !strings.HasPrefix(entry, "ripeby now ") || !strings.HasSuffix(entry, ".") {
				t.Errorf("CHANGES.md: %s: got %q, want a sentence that begins \"ripeby now\"", of.day, entry)
			}
		}
	}
}

func TestChangesAreReadAndPrinted(t *testing.T) {
	const page = `# What is new

Said to readers of the page.

## 2026-11-29

- ripeby now tells what is new
  (` + "`ripeby version --changes`" + `).
- ripeby now *also* rests.

## 2026-11-25

- ripeby now plans.
`
	all, err := readChanges(page)
	if err != nil {
		t.Fatal(err)
	}
	var got bytes.Buffer
	writeChanges(&got, all, 40)
	want := `2026-11-29
- ripeby now tells what is new (ripeby
  version --changes).
- ripeby now also rests.

2026-11-25
- ripeby now plans.
`
	if got.String() != want {
		t.Errorf("got:\n%s\nwant:\n%s", got.String(), want)
	}
}

func TestChangesOfAWrongForm(t *testing.T) {
	cases := []struct{ name, page, want string }{
		{"a heading without a day", "## Soon\n", `line 1: got heading "Soon"`},
		{"older above newer", "## 2026-11-25\n- ripeby now plans.\n## 2026-11-29\n", "line 3: got 2026-11-29 below 2026-11-25"},
		{"a day twice", "## 2026-11-25\n## 2026-11-25\n", "line 2: got 2026-11-25 below 2026-11-25"},
		{"a sentence outside the list", "## 2026-11-25\nripeby now plans.\n", `line 2: got "ripeby now plans."`},
		{"an entry that begins in its middle", "## 2026-11-25\n  plans.\n", `line 2: got "  plans."`},
	}
	for _, c := range cases {
		if _, err := readChanges(c.page); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: got %v, want %s", c.name, err, c.want)
		}
	}
}
