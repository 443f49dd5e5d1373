package keys

import "strings"

// Columns are the names of the columns of [Table]. They are only ever added to, at the end.
func Columns() []string {
	return []string{"file", "key", "written", "left_out", "example", "says"}
}

// Table gives the keys of files as rows of a table, in the order of [Page]; a key below others has
// theirs before it: people.hours.
func Table(files []File) (rows [][]string) {
	for _, f := range files {
		rows = tableOf(rows, f.Name, f.Top, "")
	}
	return rows
}

func tableOf(rows [][]string, file string, m *Mapping, above string) [][]string {
	for _, k := range m.all() {
		rows = append(rows, []string{file, above + k.Name, k.As, strings.TrimPrefix(k.absent(), "left out: "), k.Shown(), k.Says})
		if k.In != nil {
			rows = tableOf(rows, file, k.In, above+k.Name+".")
		}
	}
	return rows
}
