package main

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"ripeby/config"
	"ripeby/resources"
	"ripeby/schedule"
)

// counted looks tell how often a file system's files were opened.
type opened struct {
	fstest.MapFS
	n int
}

func (o *opened) Open(name string) (fs.File, error) {
	o.n++
	return o.MapFS.Open(name)
}

// Every change of what is read changes the print; nothing else does.
func TestPrinterSeesChanges(t *testing.T) {
	start := time.Date(2027, 3, 1, 6, 0, 0, 0, time.UTC)
	file := func(text string, age time.Duration) *fstest.MapFile {
		return &fstest.MapFile{Data: []byte(text), ModTime: start.Add(-age), Mode: 0o644}
	}
	fresh := func() fstest.MapFS {
		return fstest.MapFS{"kitchen.yaml": file("a", 1), "targets.yaml": file("b", 1), "recipes/one.yaml": file("c", 1), "plan/plan.json": file("{}", 1)}
	}
	tests := []struct {
		name   string
		change func(fstest.MapFS)
		want   bool
	}{
		{"nothing", func(fstest.MapFS) {}, false},
		{"the text", func(f fstest.MapFS) { f["targets.yaml"] = file("bb", 0) }, true},
		{"the text, of the same length", func(f fstest.MapFS) { f["targets.yaml"] = file("x", 0) }, true},
		{"only the time", func(f fstest.MapFS) { f["targets.yaml"] = file("b", 0) }, false},
		{"a new recipe", func(f fstest.MapFS) { f["recipes/two.yaml"] = file("", 0) }, true},
		{"a recipe gone", func(f fstest.MapFS) { delete(f, "recipes/one.yaml") }, true},
		{"a recipe with another name", func(f fstest.MapFS) { f["recipes/uno.yaml"] = f["recipes/one.yaml"]; delete(f, "recipes/one.yaml") }, true},
		{"a file with the wrong end, which is a fault", func(f fstest.MapFS) { f["recipes/two.YML"] = file("", 0) }, true},
		{"what an editor leaves", func(f fstest.MapFS) { f[".targets.yaml.swp"] = file("x", 0); f["targets.yaml~"] = file("x", 0) }, false},
		{"a hidden file", func(f fstest.MapFS) { f["recipes/.two.yaml"] = file("x", 0) }, false},
		{"the plan", func(f fstest.MapFS) { f["plan/plan.json"] = file("{ }", 0) }, false},
		{"a file beyond the limit, which is a fault", func(f fstest.MapFS) { f["targets.yaml"] = file(strings.Repeat("b", config.MaxFileBytes+1), 0) }, true},
		{"a pipe in place of a file", func(f fstest.MapFS) { f["targets.yaml"] = &fstest.MapFile{Mode: fs.ModeNamedPipe} }, true},
	}
	for _, c := range tests {
		files := fresh()
		p := &printer{fsys: files, now: func() time.Time { return start }}
		before := p.of()
		c.change(files)
		if got := p.of() != before; got != c.want {
			t.Errorf("%s: the print changed: %v, want %v", c.name, got, c.want)
		}
	}
}

// A server that is started anew knows the folder again by a print that an older one has kept.
func TestPrintStaysWhatItWas(t *testing.T) {
	files := fstest.MapFS{"kitchen.yaml": {Data: []byte("a")}, "targets.yaml": {}, "recipes/one.yaml": {Data: []byte("b\nc")}}
	sum := sha256.Sum256([]byte(`"kitchen.yaml" 1 a"targets.yaml" 0 "recipes/one.yaml" 3 b` + "\nc"))
	p := &printer{fsys: files, now: func() time.Time { return time.Time{} }}
	if got, want := p.of(), hex.EncodeToString(sum[:]); got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

// Files are read only when something about them changed, or after a while: a file
// may change and keep its length and time.
func TestPrinterReadsSeldom(t *testing.T) {
	at := time.Date(2027, 3, 1, 6, 0, 0, 0, time.UTC)
	disk := &opened{MapFS: fstest.MapFS{"kitchen.yaml": {Data: []byte("a"), ModTime: at, Mode: 0o644}}}
	p := &printer{fsys: disk, now: func() time.Time { return at }}
	first := p.of()
	readWith := disk.n
	disk.n = 0
	p.of()
	if disk.n >= readWith {
		t.Errorf("opened %d times when nothing changed, %d at first", disk.n, readWith)
	}
	disk.MapFS["kitchen.yaml"].Data = []byte("x")
	if p.of() != first {
		t.Error("read again at once, want it not to be")
	}
	at = at.Add(rereadAfter)
	if p.of() == first {
		t.Error("never read again")
	}
}

// A plan alone tells enough of its kitchen for the calendars.
func TestKitchenOfAPlan(t *testing.T) {
	plan := &schedule.Plan{Kitchen: "Saltgrass Lane", TimeZone: "Europe/Dublin", From: 30_000_000,
		Batches: []schedule.Batch{{Stages: []schedule.Task{{Who: "Nell"}, {}, {Who: "Ivo"}, {Who: "Nell"}}}},
		Rounds:  []schedule.RoundBlock{{Who: "Zoe"}, {}}}
	p, err := kitchenOf(plan)
	if err != nil || p.Kitchen.Name != "Saltgrass Lane" || p.Kitchen.Zone.String() != "Europe/Dublin" || len(p.Kitchen.People) != 3 {
		t.Errorf("got %+v (%v)", p, err)
	}
	plan.TimeZone = "Europe/Nowhere"
	if _, err := kitchenOf(plan); err == nil {
		t.Error("got no error for a zone that is not there")
	}
}

// A plan that begins later keeps its start; any other is carried on from now.
func TestServePlansFrom(t *testing.T) {
	now := time.Date(2027, 3, 1, 6, 0, 0, 0, time.UTC)
	p := &program{now: func() time.Time { return now }}
	at := resources.MomentOf(now)
	for _, c := range []struct {
		name    string
		demo    bool
		earlier *schedule.Plan
		want    string
	}{
		{"no plan yet", false, nil, ""},
		{"an older plan", false, &schedule.Plan{From: at - 1}, ""},
		{"a later plan", false, &schedule.Plan{From: at + 60}, "2027-03-01T07:00:00Z"},
		{"the demo", true, &schedule.Plan{From: at + 60}, ""},
	} {
		if got := (&watched{p: p, from: kitchen{demo: c.demo}}).start(c.earlier); got != c.want {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
	if err := folderFault(errors.New("open /a/b: no")); err.Error() != "the kitchen folder is not there, or cannot be read" {
		t.Errorf("got %q, want no path in it", err)
	}
}
