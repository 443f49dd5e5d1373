package main

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"hash"
	"io/fs"
	"os"
	"path"
	"slices"
	"strings"
	"time"

	"ripeby/config"
	"ripeby/config/recordfile"
)

// printer tells one content of a kitchen folder from another. It looks at names,
// sizes and times at each call, and reads the files when one of these has changed,
// or when it last read them some time ago: a file can change and keep all three.
type printer struct {
	fsys   fs.FS
	now    func() time.Time
	looked string // names, sizes and times when the files were last read
	print  string
	read   time.Time
}

// rereadAfter is how long a print is believed without reading the files.
const rereadAfter = time.Minute

// of gives the print.
func (f *printer) of() string {
	files := kitchenFiles(f.fsys)
	var looked strings.Builder
	for _, name := range files {
		fmt.Fprintf(&looked, "%q", name)
		if info, err := fs.Stat(f.fsys, name); err == nil {
			fmt.Fprintf(&looked, " %d %d %v", info.Size(), info.ModTime().UnixNano(), info.Mode())
		}
		looked.WriteByte('\n')
	}
	now := f.now()
	if looked.String() == f.looked && now.Sub(f.read) < rereadAfter && !now.Before(f.read) {
		return f.print
	}
	sum := sha256.New()
	for _, name := range files {
		if path.Dir(name) == recordfile.Folder {
			printRecord(sum, f.fsys, name)
			continue
		}
		fmt.Fprintf(sum, "%q ", name)
		printFile(sum, f.fsys, name)
	}
	f.looked, f.read, f.print = looked.String(), now, hex.EncodeToString(sum.Sum(nil))
	return f.print
}

// printFile adds a file's bytes, or why they cannot be had, as reading the kitchen folder
// would have them: of a file beyond the limit no more than that it is, whatever is changed in it
// short of that. The server keeps the print: where it is counted otherwise, every kitchen is
// planned anew.
func printFile(sum hash.Hash, fsys fs.FS, name string) {
	text, err := config.ReadRegularFS(fsys, name, config.MaxFileBytes)
	if err != nil {
		fmt.Fprintf(sum, "! %v\n", err)
		return
	}
	fmt.Fprintf(sum, "%d ", len(text))
	sum.Write(text)
}

// printRecord adds what a month of the record says that a plan goes by: no note alone, and nothing that was
// only measured.
func printRecord(sum hash.Hash, fsys fs.FS, name string) {
	text, err := config.ReadRegularFS(fsys, name, config.MaxFileBytes)
	if err != nil {
		fmt.Fprintf(sum, "%q ! %v\n", name, err)
		return
	}
	aside := map[int]bool{} // lines
	for _, e := range recordfile.Read(name, text, time.UTC).Entries {
		aside[e.Line] = e.PlansNothing()
	}
	n := 0
	for line := range strings.Lines(string(text)) {
		if n++; !aside[n] {
			fmt.Fprintf(sum, "%q %d %s", name, len(line), line)
		}
	}
}

// kitchenFolders are the folders that hold what is read of a kitchen.
var kitchenFolders = []string{".", "recipes", recordfile.Folder}

// kitchenFiles lists what reading a kitchen folder may look at, in the order of the
// names: files that are, or might have been meant as, YAML.
func kitchenFiles(fsys fs.FS) []string {
	var files []string
	for _, dir := range kitchenFolders {
		if info, err := fs.Stat(fsys, dir); err != nil || !info.IsDir() {
			continue
		}
		entries, _ := fs.ReadDir(fsys, dir)
		for _, e := range entries {
			end := strings.ToLower(path.Ext(e.Name()))
			if (end == ".yaml" || end == ".yml") && !strings.HasPrefix(e.Name(), ".") {
				files = append(files, path.Join(dir, e.Name()))
			}
		}
	}
	return files
}

// youngest is when a kitchen folder last changed, as far as its files and the
// folders that hold them tell.
func youngest(fsys fs.FS) time.Time {
	var last time.Time
	for _, name := range append(slices.Clone(kitchenFolders), kitchenFiles(fsys)...) {
		if info, err := fs.Stat(fsys, name); err == nil && info.ModTime().After(last) {
			last = info.ModTime()
		}
	}
	return last
}

// planPrint tells one content of the kept plan from another; "" for none.
func (o output) planPrint() string {
	info, err := os.Stat(o.planPath())
	if err != nil {
		return ""
	}
	return fmt.Sprintf("%d %d", info.Size(), info.ModTime().UnixNano())
}
