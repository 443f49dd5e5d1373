package recordfile

import (
	"slices"
	"time"

	"ripeby/config/keys"
	"ripeby/schedule/record"
)

// Columns are the keys of all entries, for a table of them; those of a subject stand
// before what is said of it.
func Columns() []string {
	var columns []string
	add := func(all ...keys.Key) {
		for _, key := range all {
			if !slices.Contains(columns, key.Name) {
				columns = append(columns, key.Name)
			}
		}
	}
	add(common[:4]...)
	for _, s := range subjects {
		add(s.name)
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
