package main_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"
	"sync"
	"testing"
)

// module is the name that go.mod gives.
const module = "ripeby"

// source is one Go file of the module.
type source struct {
	path string // from the module's root, with slashes
	pkg  string // folder, from the module's root
	test bool
	text []byte
	fset *token.FileSet
	ast  *ast.File
}

// at gives a position as path:line.
func (s source) at(p token.Pos) string {
	at := s.fset.Position(p)
	at.Column = 0
	return at.String()
}

// lines is how many lines a node covers.
func (s source) lines(n ast.Node) int {
	return s.fset.Position(n.End()).Line - s.fset.Position(n.Pos()).Line + 1
}

// readSources parses every Go file of the module once.
var readSources = sync.OnceValues(func() ([]source, error) {
	var all []source
	root := os.DirFS(filepath.Join("..", ".."))
	err := walkTexts(root, func(name string, text []byte) error {
		if path.Ext(name) != ".go" {
			return nil
		}
		fset := token.NewFileSet()
		tree, err := parser.ParseFile(fset, name, text, parser.ParseComments)
		if err != nil {
			return err
		}
		all = append(all, source{name, path.Dir(name), strings.HasSuffix(name, "_test.go"), text, fset, tree})
		return nil
	})
	return all, err
})

func sources(t *testing.T) []source {
	t.Helper()
	all, err := readSources()
	if err != nil {
		t.Fatalf("reading the module's Go files: %v", err)
	}
	if len(all) < 10 {
		t.Fatalf("found only %d Go files: the module's root is elsewhere", len(all))
	}
	return all
}

// walkTexts visits the module's files except those that git ignores.
func walkTexts(root fs.FS, visit func(name string, text []byte) error) error {
	return fs.WalkDir(root, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if name == ".git" && !d.IsDir() {
			return nil // a further work tree has a file there
		}
		if d.IsDir() {
			if name == ".git" || name == "out" || name == "ripeby-demo" {
				return fs.SkipDir
			}
			return nil
		}
		if ext := path.Ext(name); !d.Type().IsRegular() || name == module || ext == ".test" || ext == ".prof" {
			return nil
		}
		text, err := fs.ReadFile(root, name)
		if err != nil {
			return err
		}
		return visit(name, text)
	})
}
