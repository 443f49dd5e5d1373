package main_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"strings"
	"testing"
)

// A package does nothing by being imported: no init, and no import for effect but
// the two that only carry files.
func TestImportingDoesNothing(t *testing.T) {
	for _, f := range sources(t) {
		for _, d := range f.ast.Decls {
			if fn, ok := d.(*ast.FuncDecl); ok && fn.Recv == nil && fn.Name.Name == "init" {
				t.Errorf("%s: init: do it where main can see it", f.at(fn.Pos()))
			}
		}
		for _, im := range f.ast.Imports {
			if f.test {
				continue // a test may need the zone tables whatever the machine has
			}
			blank := im.Name != nil && im.Name.Name == "_"
			tables := im.Path.Value == `"embed"` || im.Path.Value == `"time/tzdata"` && strings.HasPrefix(f.pkg, "cmd/")
			if blank && !tables {
				t.Errorf("%s: import of %s for its effect", f.at(im.Pos()), im.Path.Value)
			}
		}
	}
}

// A package-level variable is a constant that the language cannot write as one:
// it has its value where it is declared, and nothing in its package assigns to
// it, to a part of it, or takes its address.
func TestPackagesKeepNoState(t *testing.T) {
	vars := map[string]map[string]bool{}
	for _, f := range sources(t) {
		if f.test {
			continue
		}
		if vars[f.pkg] == nil {
			vars[f.pkg] = map[string]bool{}
		}
		for _, v := range packageVars(f) {
			vars[f.pkg][v.id.Name] = v.id.Name != "_"
			if !v.valued {
				t.Errorf("%s: var %s has no value where it is declared", f.at(v.id.Pos()), v.id.Name)
			}
		}
	}
	for _, f := range sources(t) {
		for _, d := range f.ast.Decls {
			if fn, ok := d.(*ast.FuncDecl); ok && !f.test && fn.Body != nil {
				for _, id := range written(fn, vars[f.pkg]) {
					t.Errorf("%s: %s is written to, but it belongs to the whole package", f.at(id.Pos()), id.Name)
				}
			}
		}
	}
}

type packageVar struct {
	id     *ast.Ident
	valued bool
}

// packageVars lists a file's package-level variables; one filled by go:embed has
// its value.
func packageVars(f source) []packageVar {
	var out []packageVar
	for _, d := range f.ast.Decls {
		g, ok := d.(*ast.GenDecl)
		if !ok || g.Tok != token.VAR {
			continue
		}
		for _, s := range g.Specs {
			v := s.(*ast.ValueSpec)
			for _, id := range v.Names {
				out = append(out, packageVar{id, len(v.Values) > 0 || embeds(g.Doc) || embeds(v.Doc)})
			}
		}
	}
	return out
}

func embeds(doc *ast.CommentGroup) bool {
	if doc == nil {
		return false
	}
	for _, c := range doc.List {
		if strings.HasPrefix(c.Text, "//go:embed ") {
			return true
		}
	}
	return false
}

// written gives the places in a function that write to one of the package's
// variables. A name that the function declares itself is another thing.
func written(fn *ast.FuncDecl, vars map[string]bool) []*ast.Ident {
	own := map[string]bool{}
	var found []*ast.Ident
	ast.Inspect(fn, func(n ast.Node) bool {
		for _, id := range declares(n) {
			own[id.Name] = true
		}
		var left []ast.Expr
		switch n := n.(type) {
		case *ast.AssignStmt:
			left = n.Lhs
			if n.Tok != token.DEFINE {
				return true
			}
		case *ast.RangeStmt:
			left = []ast.Expr{n.Key, n.Value}
			if n.Tok != token.DEFINE {
				return true
			}
		}
		for _, e := range left {
			if id, ok := e.(*ast.Ident); ok {
				own[id.Name] = true
			}
		}
		return true
	})
	note := func(e ast.Expr) {
		if id := rootName(e); id != nil && vars[id.Name] && !own[id.Name] {
			found = append(found, id)
		}
	}
	ast.Inspect(fn.Body, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.AssignStmt:
			for _, l := range n.Lhs {
				note(l)
			}
		case *ast.IncDecStmt:
			note(n.X)
		case *ast.UnaryExpr:
			if n.Op == token.AND {
				note(n.X)
			}
		}
		return true
	})
	return found
}

// rootName is the variable that an expression such as a.b[c].d is a part of.
func rootName(e ast.Expr) *ast.Ident {
	switch e := e.(type) {
	case *ast.Ident:
		return e
	case *ast.SelectorExpr:
		return rootName(e.X)
	case *ast.IndexExpr:
		return rootName(e.X)
	case *ast.StarExpr:
		return rootName(e.X)
	case *ast.ParenExpr:
		return rootName(e.X)
	}
	return nil
}

// TestWritesAreSeen guards the rule itself.
func TestWritesAreSeen(t *testing.T) {
	cases := []struct {
		name, body string
		want       int
	}{
		{"assigned", "table = nil", 1},
		{"an element", "table[1].x = 2", 1},
		{"counted up", "table[1]++", 1},
		{"address taken", "use(&table)", 1},
		{"only read", "use(table[1])", 0},
		{"a local of the same name", "table := 1; table = 2; use(table)", 0},
		{"a loop variable of the same name", "for table := range 3 { table++ }", 0},
	}
	for _, c := range cases {
		text := "package p\nfunc f() { " + c.body + " }"
		tree, err := parser.ParseFile(token.NewFileSet(), "p.go", text, 0)
		if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		if got := len(written(tree.Decls[0].(*ast.FuncDecl), map[string]bool{"table": true})); got != c.want {
			t.Errorf("%s: got %d writes, want %d", c.name, got, c.want)
		}
	}
}
