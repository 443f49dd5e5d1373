package recordfile

import (
	"slices"
	"time"

	"ripeby/schedule/record"
)

// Columns are the keys of all entries, for a table of them; those of a subject stand
// before what is said of it.
func Columns() []string {
	columns := slices.Clone(common[:4])
	add := func(keys ...string) {
		for _, key := range keys {
			if !slices.Contains(columns, key) {
				columns = append(columns, key)
			}
		}
	}
	for _, s := range subjects {
		add(s.key)
		add(s.which...)
	}
	for _, s := range subjects {
		add(s.facts...)
	}
	add(common[4:]...)
	return columns
}

// Row is an entry as the texts of its columns, empty where it says nothing.
func Row(e record.Entry, zone *time.Location) []string {
	w := &lineWriter{zone: zone, bare: true, row: map[string]string{}}
	w.entry(&e)
	var cells []string
	for _, key := range Columns() {
		cells = append(cells, w.row[key])
	}
	return cells
}
