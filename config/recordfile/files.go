package recordfile

import (
	"fmt"
	"path"
	"regexp"
	"slices"
	"strings"

	"ripeby/resources"
)

// Folder is where the record is, below the kitchen folder.
const Folder = "record"

// monthOf is the file of the month in which something is written.
func monthOf(day resources.Date) string {
	return fmt.Sprintf("%04d-%02d.yaml", day.Year, int(day.Month))
}

// OfMonth reports whether a name is of a file of the record: a month's, or a copy of it
// that a synced folder made beside it ("2027-03 (copy).yaml").
func OfMonth(name string) bool {
	return regexp.MustCompile(`^\d{4}-\d{2}\b.*\.yaml$`).MatchString(name)
}

// InOrder puts names of files in the order in which they are read, that of writing as far
// as the names tell: months in order, of a month its own file before copies of it.
func InOrder(names []string) []string {
	sorted := slices.Clone(names)
	slices.SortFunc(sorted, func(a, b string) int {
		return strings.Compare(strings.TrimSuffix(a, ".yaml"), strings.TrimSuffix(b, ".yaml"))
	})
	return sorted
}

// Below is a file's name as faults and entries have it.
func Below(name string) string { return path.Join(Folder, name) }
