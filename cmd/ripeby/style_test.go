package main_test

import (
	"bytes"
	"go/ast"
	"go/format"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode"
)

// The house rules that a machine can check, one test a rule. Each failure names
// the place and the rule. A new rule for people is first a test here.

const (
	mostLines    = 500 // of a file
	mostFuncLine = 80  // of a function
)

func TestFilesAreShort(t *testing.T) {
	for _, f := range sources(t) {
		if n := bytes.Count(f.text, []byte("\n")); n > mostLines {
			t.Errorf("%s: got %d lines, want at most %d: one idea a file", f.path, n, mostLines)
		}
	}
}

// roomLines and roomFiles are how large a room of the engine or of the calendar may be:
// what one can read in a day.
const (
	roomLines = 3000
	roomFiles = 25
)

func TestRoomsAreSmall(t *testing.T) {
	lines, files := map[string]int{}, map[string]int{}
	for _, f := range sources(t) {
		if f.test || !strings.HasPrefix(f.pkg, "schedule/cp") && !strings.HasPrefix(f.pkg, "calendar") {
			continue
		}
		files[f.pkg]++
		lines[f.pkg] += bytes.Count(f.text, []byte("\n"))
	}
	if len(files) < 10 {
		t.Fatalf("got %d rooms: nothing is tested", len(files))
	}
	for room := range files {
		if lines[room] > roomLines || files[room] > roomFiles {
			t.Errorf("%s: got %d lines in %d files, want %d in %d at the most: cut it in two that each have one idea", room, lines[room], files[room], roomLines, roomFiles)
		}
	}
}

func TestFunctionsAreShort(t *testing.T) {
	for _, f := range sources(t) {
		ast.Inspect(f.ast, func(n ast.Node) bool {
			if fn, ok := n.(*ast.FuncDecl); ok && !f.test && f.lines(fn) > mostFuncLine {
				t.Errorf("%s: %s: got %d lines, want at most %d", f.at(fn.Pos()), fn.Name.Name, f.lines(fn), mostFuncLine)
			}
			return true
		})
	}
}

func TestFilesAreFormatted(t *testing.T) {
	for _, f := range sources(t) {
		want, err := format.Source(f.text)
		if err != nil {
			t.Errorf("%s: %v", f.path, err)
		} else if !bytes.Equal(f.text, want) {
			t.Errorf("%s: is not as gofmt writes it", f.path)
		}
	}
}

// A package with more than one file says in doc.go what it is; the program's own
// package may say it in main.go. A package with one file says it there.
func TestPackagesSayWhatTheyAre(t *testing.T) {
	files, said := map[string]int{}, map[string]string{}
	for _, f := range sources(t) {
		if f.test {
			continue
		}
		files[f.pkg]++
		if f.ast.Doc == nil {
			continue
		}
		switch name := path.Base(f.path); {
		case said[f.pkg] == "doc.go":
		case name == "doc.go", name == "main.go" && f.ast.Name.Name == "main":
			said[f.pkg] = "doc.go"
		default:
			said[f.pkg] = name
		}
	}
	for pkg, n := range files {
		switch {
		case said[pkg] == "":
			t.Errorf("%s: no package comment", pkg)
		case n > 1 && said[pkg] != "doc.go":
			t.Errorf("%s: %d files but no doc.go that says what the package is and in which order to read it", pkg, n)
		}
	}
}

// A doc comment starts with the name it documents. In a group of constants or
// variables one comment above the group is enough.
func TestExportedNamesAreDocumented(t *testing.T) {
	for _, f := range sources(t) {
		if f.test {
			continue
		}
		for _, d := range f.ast.Decls {
			switch d := d.(type) {
			case *ast.FuncDecl:
				if exportedFunc(d) {
					wantDoc(t, f, d.Name, d.Doc)
				}
			case *ast.GenDecl:
				docOfSpecs(t, f, d)
			}
		}
	}
}

// exportedFunc says whether a function, or a method of an exported type, is seen
// from outside.
func exportedFunc(fn *ast.FuncDecl) bool {
	if !fn.Name.IsExported() || fn.Recv == nil {
		return fn.Name.IsExported()
	}
	typ := fn.Recv.List[0].Type
	if star, ok := typ.(*ast.StarExpr); ok {
		typ = star.X
	}
	if generic, ok := typ.(*ast.IndexExpr); ok {
		typ = generic.X
	}
	name, ok := typ.(*ast.Ident)
	return ok && name.IsExported()
}

func docOfSpecs(t *testing.T, f source, d *ast.GenDecl) {
	t.Helper()
	grouped := d.Lparen.IsValid() && d.Doc != nil
	for _, s := range d.Specs {
		switch s := s.(type) {
		case *ast.TypeSpec:
			doc := s.Doc
			if doc == nil {
				doc = d.Doc
			}
			if s.Name.IsExported() {
				wantDoc(t, f, s.Name, doc)
			}
		case *ast.ValueSpec:
			doc := s.Doc
			if doc == nil && !d.Lparen.IsValid() {
				doc = d.Doc
			}
			if s.Names[0].IsExported() && (doc != nil || !grouped) {
				wantDoc(t, f, s.Names[0], doc)
			}
		}
	}
}

func wantDoc(t *testing.T, f source, name *ast.Ident, doc *ast.CommentGroup) {
	t.Helper()
	text := doc.Text()
	word := strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '_' })
	if len(word) == 0 || word[0] != name.Name {
		first, _, _ := strings.Cut(text, "\n")
		t.Errorf("%s: %s: got comment %q, want one that starts with the name", f.at(name.Pos()), name.Name, first)
	}
}

// emptyWords say nothing about what a thing is.
var emptyWords = map[string]bool{"manager": true, "helper": true, "helpers": true, "util": true, "utils": true,
	"data": true, "info": true, "base": true}

// Names that others read, of files, packages, types, fields, functions, constants
// and variables of a package, say what the thing is. A function's own short names
// are its own affair, and so are a test's.
func TestNamesSayWhatThingsAre(t *testing.T) {
	for _, f := range sources(t) {
		if f.test {
			continue
		}
		words := camelWords(strings.TrimSuffix(path.Base(f.path), ".go"))
		for _, w := range append(words, f.ast.Name.Name) {
			if emptyWords[strings.ToLower(w)] {
				t.Errorf("%s: the word %q says nothing: name the file and the package for their nouns", f.path, w)
			}
		}
		for _, id := range packageNames(f.ast) {
			for _, w := range camelWords(id.Name) {
				if emptyWords[strings.ToLower(w)] {
					t.Errorf("%s: %s: the word %q says nothing: name the thing", f.at(id.Pos()), id.Name, w)
				}
			}
		}
	}
}

// packageNames gives the names that a file adds to its package, those of fields
// and interface methods included.
func packageNames(f *ast.File) []*ast.Ident {
	var ids []*ast.Ident
	for _, d := range f.Decls {
		if fn, ok := d.(*ast.FuncDecl); ok {
			ids = append(ids, fn.Name)
			continue
		}
		ast.Inspect(d, func(n ast.Node) bool {
			ids = append(ids, declares(n)...)
			_, function := n.(*ast.FuncType)
			return !function
		})
	}
	return ids
}

// declares gives the names that a node brings into being, x := … left aside.
func declares(n ast.Node) []*ast.Ident {
	switch n := n.(type) {
	case *ast.FuncDecl:
		return []*ast.Ident{n.Name}
	case *ast.TypeSpec:
		return []*ast.Ident{n.Name}
	case *ast.ValueSpec:
		return n.Names
	case *ast.Field:
		return n.Names
	}
	return nil
}

// camelWords cuts a name at its capitals, digits and underscores: "planData2" is
// plan, Data; "HTTPServer" is HTTP, Server.
func camelWords(name string) []string {
	return regexp.MustCompile(`[A-Z]+(?:[a-z]+)?|[a-z]+`).FindAllString(splitAcronym.ReplaceAllString(name, "${1}_${2}"), -1)
}

var splitAcronym = regexp.MustCompile(`([A-Z])([A-Z][a-z])`)

func TestNamesAreCutIntoWords(t *testing.T) {
	cases := []struct{ in, want string }{
		{"planData2", "plan Data"}, {"HTTPServer", "HTTP Server"}, {"database", "database"},
		{"Base", "Base"}, {"based_info", "based info"}, {"x", "x"},
	}
	for _, c := range cases {
		if got := strings.Join(camelWords(c.in), " "); got != c.want {
			t.Errorf("%s: got %q, want %q", c.in, got, c.want)
		}
	}
}

// No text that is kept names a place on one machine, or the host of a registry.
func TestTextsNameNoMachine(t *testing.T) {
	machine := regexp.MustCompile(`(?:^|[\s"'(=:` + "`" + `])/(?:` + `work|root|home|Users)/[A-Za-z.]|proxy\.golang` + `\.org|registry\.npmjs` + `|pypi\.org|[A-Z]:\\Users`)
	err := walkTexts(os.DirFS(filepath.Join("..", "..")), func(name string, text []byte) error {
		if name == "cmd/ripeby/style_test.go" || bytes.IndexByte(text, 0) >= 0 {
			return nil
		}
		for i, line := range strings.Split(string(text), "\n") {
			if found := machine.FindString(line); found != "" {
				t.Errorf("%s:%d: names %q, which is of one machine", name, i+1, strings.TrimSpace(found))
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}
