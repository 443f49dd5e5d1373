package main_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path"
	"slices"
	"strings"
	"testing"
)

// What would make two runs with the same input differ, and is not seen in the
// imports alone. Which packages may import chance and clocks at all says deps_test.go.

// The clock is read in cmd only: everywhere else the same input gives the same
// bytes. A context that ends by itself reads it too.
func TestTheClockIsReadInCmdOnly(t *testing.T) {
	for _, f := range sources(t) {
		if f.test || strings.HasPrefix(f.pkg, "cmd/") || f.pkg == "calendar/feed" {
			continue
		}
		for _, sel := range clockReadings(f.ast) {
			t.Errorf("%s: %s: the clock is read in cmd", f.at(sel.Pos()), sel.Sel.Name)
		}
	}
}

// Dice are thrown with a seed that is written down, rand.New over a rand.NewPCG of
// two numbers: the package's own functions draw theirs anew in every run. In cmd
// the seed may come from the command line, and schedule/chance is given it by cmd.
func TestDiceHaveAWrittenSeed(t *testing.T) {
	for _, f := range sources(t) {
		if f.test || slices.Contains(forTests, f.pkg) { // tests say which
			continue
		}
		for _, sel := range unseeded(f.ast, !strings.HasPrefix(f.pkg, "cmd/") && f.pkg != "schedule/chance") {
			t.Errorf("%s: %s: two runs would differ", f.at(sel.Pos()), sel.Sel.Name)
		}
	}
}

// clockReadings gives the places in a file that read the clock.
func clockReadings(f *ast.File) []*ast.SelectorExpr {
	reads := named(uses(f, "time"), "Now", "Since", "Until", "After", "AfterFunc", "Tick", "NewTimer", "NewTicker")
	ends := named(uses(f, "context"), "WithTimeout", "WithTimeoutCause", "WithDeadline", "WithDeadlineCause")
	return append(reads, ends...)
}

// named keeps what has one of the names.
func named(all []*ast.SelectorExpr, names ...string) []*ast.SelectorExpr {
	return slices.DeleteFunc(all, func(sel *ast.SelectorExpr) bool { return !slices.Contains(names, sel.Sel.Name) })
}

// unseeded gives the places in a file that throw dice of which nobody wrote down the
// seed; where written is true, a seed is two numbers in the source.
func unseeded(f *ast.File, written bool) []*ast.SelectorExpr {
	seeded := []string{"New", "NewPCG", "Rand", "PCG", "Source"}
	numbers := map[ast.Expr]bool{}
	ast.Inspect(f, func(n ast.Node) bool {
		if call, ok := n.(*ast.CallExpr); ok {
			numbers[call.Fun] = !slices.ContainsFunc(call.Args, func(e ast.Expr) bool { _, number := e.(*ast.BasicLit); return !number })
		}
		return true
	})
	return slices.DeleteFunc(uses(f, "math/rand/v2"), func(sel *ast.SelectorExpr) bool {
		return slices.Contains(seeded, sel.Sel.Name) && (!written || sel.Sel.Name != "NewPCG" || numbers[sel])
	})
}

// uses gives the places in a file that name something of an imported package, under
// whatever name it is imported.
func uses(f *ast.File, imported string) []*ast.SelectorExpr {
	name := ""
	for _, im := range f.Imports {
		if strings.Trim(im.Path.Value, `"`) != imported {
			continue
		}
		if name = path.Base(strings.TrimSuffix(imported, "/v2")); im.Name != nil {
			name = im.Name.Name
		}
	}
	var found []*ast.SelectorExpr
	ast.Inspect(f, func(n ast.Node) bool {
		if sel, ok := n.(*ast.SelectorExpr); ok {
			if id, ok := sel.X.(*ast.Ident); ok && name != "" && id.Name == name {
				found = append(found, sel)
			}
		}
		return true
	})
	return found
}

// Names of a package that stand in a file without the package's own would be passed
// over by all that looks for it.
func TestNoImportWithoutItsName(t *testing.T) {
	for _, f := range sources(t) {
		for _, im := range f.ast.Imports {
			if im.Name != nil && im.Name.Name == "." {
				t.Errorf("%s: import . of %s: say where a name comes from", f.at(im.Pos()), im.Path.Value)
			}
		}
	}
}

// TestClocksAndDiceAreSeen guards the rules themselves.
func TestClocksAndDiceAreSeen(t *testing.T) {
	cases := []struct {
		name, imports, body string
		clocks, dice        int
	}{
		{"the clock", `"time"`, "time.Now()", 1, 0},
		{"the clock by another name", `t "time"`, "t.Since(x)", 1, 0},
		{"a span of time", `"time"`, "use(time.Minute)", 0, 0},
		{"a context that ends by itself", `"context"`, "context.WithTimeout(ctx, 5)", 1, 0},
		{"a context that somebody ends", `"context"`, "context.WithCancel(ctx)", 0, 0},
		{"what is done at a context's end", `"context"`, "context.AfterFunc(ctx, f)", 0, 0},
		{"what is done after a time", `"time"`, "time.AfterFunc(5, f)", 1, 0},
		{"dice of the package", `"math/rand/v2"`, "rand.IntN(6)", 0, 1},
		{"dice of the package by another name", `dice "math/rand/v2"`, "dice.IntN(6)", 0, 1},
		{"a seed that is written down", `"math/rand/v2"`, "rand.New(rand.NewPCG(20, 27))", 0, 0},
		{"a seed from elsewhere", `"math/rand/v2"`, "rand.New(rand.NewPCG(20, seed))", 0, 1},
		{"a source that needs no seed", `"math/rand/v2"`, "rand.New(rand.NewChaCha8(x))", 0, 1},
	}
	for _, c := range cases {
		tree, err := parser.ParseFile(token.NewFileSet(), "p.go", "package p\nimport "+c.imports+"\nfunc f() { "+c.body+" }", 0)
		if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		if got := len(clockReadings(tree)); got != c.clocks {
			t.Errorf("%s: got %d readings of the clock, want %d", c.name, got, c.clocks)
		}
		if got := len(unseeded(tree, true)); got != c.dice {
			t.Errorf("%s: got %d throws without a seed, want %d", c.name, got, c.dice)
		}
	}
}
