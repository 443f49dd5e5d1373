// Package demo is the example kitchen that `ripeby plan --demo` plans: two
// people, three cheeses, and the weeks up to and just after Easter 2027. It
// is an ordinary kitchen folder, carried inside the program, so that the first
// plan needs nothing but the program itself.
package demo

import (
	"embed"
	"io/fs"
)

// From is the planning start of the demo, in the kitchen's local time: a Monday
// morning, four weeks before Easter, just before that day's cow's milk comes, which is
// ordered already.
const From = "2027-03-01 08:00"

//go:embed kitchen
var files embed.FS

// Files is the demo's kitchen folder: kitchen.yaml, targets.yaml and begun.yaml
// stand at its root, the recipes under recipes. It cannot be written to.
func Files() fs.FS {
	root, err := fs.Sub(files, "kitchen")
	if err != nil {
		panic("the demo kitchen is not in the program: " + err.Error()) // only a broken build can say so
	}
	return root
}
