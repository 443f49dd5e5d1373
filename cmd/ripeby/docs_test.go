package main_test

import (
	"go/ast"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"
)

// What pages and comments say of the house is held against the house: a name that is
// not there any more sends a reader the wrong way, and nobody notices but the reader.

// house is the module's root.
var house = os.DirFS(filepath.Join("..", ".."))

// words is a text for people: a page, a package's comment or another comment.
type words struct {
	at   string // where it begins, as path or path:line
	dir  string // the folder that it speaks from
	text string
	page bool // a page, and not a comment
}

// pages gives the module's pages; those of a package's testdata are what it reads or
// writes.
func pages(t *testing.T) []words {
	t.Helper()
	var all []words
	err := walkTexts(house, func(name string, text []byte) error {
		if path.Ext(name) == ".md" && !strings.Contains(path.Dir(name), "/testdata") {
			all = append(all, words{name, path.Dir(name), string(text), true})
		}
		return nil
	})
	if err != nil || len(all) < 3 {
		t.Fatalf("found %d pages: %v", len(all), err)
	}
	return all
}

// comments gives every comment of the module's Go files.
func comments(t *testing.T) []words {
	t.Helper()
	var all []words
	for _, f := range sources(t) {
		for _, c := range f.ast.Comments {
			all = append(all, words{f.at(c.Pos()), f.pkg, c.Text(), false})
		}
	}
	return all
}

var (
	fileName = regexp.MustCompile(`[\w./*][\w./*-]*\.(?:go|md|mzn|mjs|py|txtar)\b`)
	linkTo   = regexp.MustCompile(`(?:\]\(|src=")([^)"#:]+)[)"]`)
	folder   = regexp.MustCompile("`(?:\\./)?((?:cmd|schedule|resources|calendar|config|testdata)/[\\w/.*-]*)")
	codeName = regexp.MustCompile(`\b[a-z]+[A-Z]\w*\b`)
	linkName = regexp.MustCompile(`\[\*?(?:\w+\.)*([A-Za-z]\w*)\]`)
	quoted   = regexp.MustCompile("`[^`\n]+`")
	testName = regexp.MustCompile(`\b(?:Test|Benchmark|Fuzz|Example)[A-Z]\w*`)
)

// anywhere lists files that are of no one place: every package has its doc.go, and a
// table goes where the maker has it written.
var anywhere = []string{"doc.go", "week.md"}

// TestFilesThatAreNamedAreThere looks up every file and folder of ours that a page or
// a comment names: beside it, or from the module's root. A star stands for anything.
func TestFilesThatAreNamedAreThere(t *testing.T) {
	for _, w := range append(pages(t), comments(t)...) {
		for _, name := range filesNamed(w) {
			if !isThere(house, w.dir, name) && !slices.Contains(anywhere, name) {
				t.Errorf("%s: names %s, which is not there", w.at, name)
			}
		}
	}
}

// filesNamed gives what a text names as files and folders.
func filesNamed(w words) []string {
	all := fileName.FindAllString(w.text, -1)
	if !w.page {
		return all
	}
	for _, found := range append(linkTo.FindAllStringSubmatch(w.text, -1), folder.FindAllStringSubmatch(w.text, -1)...) {
		all = append(all, strings.TrimSuffix(found[1], "/..."))
	}
	return all
}

// TestLinksWithinAPageLead wants a heading for every link to a part of the same page.
func TestLinksWithinAPageLead(t *testing.T) {
	heading := regexp.MustCompile(`(?m)^#+ (.*)$`)
	within := regexp.MustCompile(`\]\(#([^)]+)\)`)
	links := 0
	for _, w := range pages(t) {
		var parts []string
		for _, h := range heading.FindAllStringSubmatch(w.text, -1) {
			parts = append(parts, anchor(h[1]))
		}
		for _, to := range within.FindAllStringSubmatch(w.text, -1) {
			links++
			if !slices.Contains(parts, to[1]) {
				t.Errorf("%s: leads to #%s, and has only %q", w.at, to[1], parts)
			}
		}
	}
	if links == 0 {
		t.Error("no links within any page: README has some")
	}
}

// anchor is what a link to a heading is called.
func anchor(heading string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == ' ':
			return '-'
		case unicode.IsLetter(r) || unicode.IsDigit(r) || r == '-' || r == '_':
			return unicode.ToLower(r)
		}
		return -1
	}, heading)
}

// isThere looks a name up.
func isThere(root fs.FS, dir, name string) bool {
	for _, at := range []string{path.Join(dir, name), path.Clean(name)} {
		if found, err := fs.Glob(root, at); err == nil && len(found) > 0 {
			return true
		}
	}
	return false
}

// TestTestsThatAreNamedAreThere looks up every test that a page or a comment names; as
// for go test -run, the beginning of a name is enough.
func TestTestsThatAreNamedAreThere(t *testing.T) {
	var there []string
	for _, f := range sources(t) {
		for _, id := range packageNames(f.ast) {
			there = append(there, id.Name)
		}
	}
	for _, w := range append(pages(t), comments(t)...) {
		for _, name := range testName.FindAllString(w.text, -1) {
			if !slices.ContainsFunc(there, func(n string) bool { return strings.HasPrefix(n, name) }) {
				t.Errorf("%s: names %s, which is not there", w.at, name)
			}
		}
	}
}

// ofNoCode lists words that look like names of ours and are none: units, standards, and
// names that stand for any.
var ofNoCode = []string{"mL", "iCalendar", "innerWidth", "planData2", "pH"}

// TestNamesOfCodeAreThere looks up every name of Go code that a comment has in
// [brackets], that a page has in back quotes, or that has a capital within.
func TestNamesOfCodeAreThere(t *testing.T) {
	there := map[string]bool{}
	for _, f := range sources(t) {
		ast.Inspect(f.ast, func(n ast.Node) bool {
			if id, ok := n.(*ast.Ident); ok {
				there[id.Name] = true
			}
			return true
		})
	}
	for _, w := range append(pages(t), comments(t)...) {
		for _, name := range codeNames(w) {
			if !there[name] && !slices.Contains(ofNoCode, name) {
				t.Errorf("%s: names %s, which is not there", w.at, name)
			}
		}
	}
}

// codeNames gives the names of Go code in a text.
func codeNames(w words) []string {
	if w.page {
		return codeName.FindAllString(strings.Join(quoted.FindAllString(w.text, -1), " "), -1)
	}
	all := codeName.FindAllString(w.text, -1)
	for _, link := range linkName.FindAllStringSubmatch(w.text, -1) {
		all = append(all, link[1])
	}
	return all
}

// TestReadingOrdersNameEveryFile wants the comment of a package with several files to
// name each of them but its tests, and no other.
func TestReadingOrdersNameEveryFile(t *testing.T) {
	files, said := map[string][]string{}, map[string]string{}
	for _, f := range sources(t) {
		if f.test {
			continue
		}
		files[f.pkg] = append(files[f.pkg], path.Base(f.path))
		said[f.pkg] += f.ast.Doc.Text()
	}
	for pkg, names := range files {
		if len(names) <= 2 {
			continue // doc.go and what it is about
		}
		order := fileName.FindAllString(said[pkg], -1)
		for _, name := range names {
			if name != "doc.go" && !slices.Contains(order, name) {
				t.Errorf("%s: the comment of the package does not say when to read %s", pkg, name)
			}
		}
	}
}

// TestNamesInPagesAreSeen guards the rules themselves.
func TestNamesInPagesAreSeen(t *testing.T) {
	cases := []struct {
		name, text string
		page       bool
		want       string
	}{
		{"a file beside the page", "see `reason.go`, reasons.go.", true, "reason.go reasons.go"},
		{"a file elsewhere", "(`cp/kernel/solver.go`)", true, "cp/kernel/solver.go"},
		{"any of several", "then week_*.go", false, "week_*.go"},
		{"a link", "[that page](cmd/ripeby/CHANGES.md) and [a part](#above)", true, "cmd/ripeby/CHANGES.md cmd/ripeby/CHANGES.md"},
		{"a picture", `<img src="testdata/demo/plan.svg" alt="">`, true, "testdata/demo/plan.svg"},
		{"a link elsewhere", "[there](https://example.org/x)", true, ""},
		{"a package", "go test `./schedule/cp/...` and `schedule/planner`", true, "schedule/cp schedule/planner"},
		{"a file of a kitchen", "`kitchen.yaml`, plan.json", true, ""},
		{"a value of a package", "fmt.Sprint, config.MaxCount", false, ""},
	}
	for _, c := range cases {
		if got := strings.Join(filesNamed(words{text: c.text, page: c.page}), " "); got != c.want {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
	const text = "the lookUnits of [Plan], [*cp.Model] and [schedule.Batch.MarkCritical], `kernelShare` and [2027-03-12, fillRest]"
	for page, want := range map[bool]string{true: "kernelShare", false: "lookUnits kernelShare fillRest Plan Model MarkCritical"} {
		if got := strings.Join(codeNames(words{text: text, page: page}), " "); got != want {
			t.Errorf("names of code, page %v: got %q, want %q", page, got, want)
		}
	}
}
