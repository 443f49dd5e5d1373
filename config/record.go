package config

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"slices"
	"time"

	"go.yaml.in/yaml/v3"

	"ripeby/config/keys"
	"ripeby/config/recordfile"
	"ripeby/schedule/record"
)

// Keys are all keys that a kitchen folder may have, file by file, the record's last.
func Keys() []keys.File { return slices.Concat(keys.Files(), recordfile.Keys()) }

// Record is what the record of a kitchen folder says.
type Record struct {
	Book *record.Book
	Zone *time.Location
	// Cut are lines that end before their closing brace, which count for nothing.
	Cut Faults
	// Targets are the names of targets.yaml as they are written, of repeated ones without
	// their dates: those too that lie before any planning start.
	Targets []string
}

// LoadRecord reads the record of the kitchen folder dir, while nobody adds to it. A folder
// without one has an empty Book. The error is [Faults] where kitchen.yaml or a line of the
// record is wrong; what could be read is given all the same.
func LoadRecord(dir string) (*Record, error) {
	done, err := recordfile.Shared(dir)
	if err != nil {
		return nil, err
	}
	defer done()
	return LoadRecordFS(os.DirFS(dir))
}

// LoadRecordFS is [LoadRecord] for a folder that is not on the disk.
func LoadRecordFS(fsys fs.FS) (*Record, error) {
	l := &loader{fsys: fsys, sure: map[string]bool{}, sound: map[string]bool{}}
	l.problem.Kitchen.Zone = time.UTC
	if p, ok := l.page(kitchenFile, true); ok {
		l.kitchen(p)
	}
	r := &Record{Zone: l.problem.Kitchen.Zone}
	r.Book, r.Cut = l.record()
	r.Targets = l.targetNames()
	if len(l.faults) > 0 {
		return r, l.faults.Sorted()
	}
	return r, nil
}

// record reads record/*.yaml: each entry that can be read, and the lines that were cut.
func (l *loader) record() (book *record.Book, cut Faults) {
	var entries []record.Entry
	for _, name := range l.recordFiles() {
		text, err := ReadRegularFS(l.fsys, recordfile.Below(name), recordfile.MaxBytes)
		if err != nil {
			l.unreadable(recordfile.Below(name), err)
			continue
		}
		m := recordfile.Read(recordfile.Below(name), text, l.problem.Kitchen.Zone)
		entries, cut = append(entries, m.Entries...), append(cut, m.Cut...)
		if l.zoneKnown { // without it each moment would be a fault of its own
			l.faults = append(l.faults, m.Faults...)
		}
	}
	return record.NewBook(entries), cut
}

// recordFiles lists the months, and complains of what was surely meant as one.
func (l *loader) recordFiles() (files []string) {
	err := look(l.fsys, recordfile.Folder, true)
	var entries []fs.DirEntry
	if err == nil {
		entries, err = fs.ReadDir(l.fsys, recordfile.Folder)
	}
	if err != nil {
		if !errors.Is(err, fs.ErrNotExist) {
			l.unreadable(recordfile.Folder, err)
		}
		return nil
	}
	for _, e := range entries {
		name := path.Join(recordfile.Folder, e.Name())
		switch {
		case e.Name()[0] == '.' || e.IsDir():
		case recordfile.OfMonth(e.Name()):
			files = append(files, e.Name())
		case misnamed(name):
			l.misnamed(name)
		case path.Ext(name) == ".yaml":
			l.fault(Fault{File: name, What: "a file of the record is named for its month; rename it, as in record/2027-03.yaml"})
		}
	}
	if len(files) > recordfile.MaxFiles {
		l.fault(Fault{File: recordfile.Folder, What: fmt.Sprintf("%d months are more than the limit of %d", len(files), recordfile.MaxFiles)})
		return nil
	}
	return recordfile.InOrder(files)
}

// targetNames gives the names in targets.yaml, as far as it can be read; what is wrong with
// it, reading the whole folder says.
func (l *loader) targetNames() (names []string) {
	quiet := &loader{fsys: l.fsys}
	p, ok := quiet.page(targetsFile, false)
	if !ok || p.root == nil || p.root.Kind != yaml.MappingNode {
		return nil
	}
	for i := 0; i+1 < len(p.root.Content); i += 2 {
		for _, n := range solid(p.root.Content[i+1]).Content {
			if name := nameOf(n, "name"); p.root.Content[i].Value == "targets" && name != "" {
				names = append(names, name)
			}
		}
	}
	return names
}
