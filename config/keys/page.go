package keys

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"
)

// Listing writes the keys of files for a terminal of so many columns, and below them how the kinds
// of value that occur are written.
func Listing(files []File, width int) string {
	var b strings.Builder
	for _, f := range files {
		for _, part := range broken(f.Name+": "+f.Says, width-2) {
			b.WriteString("# " + part + "\n")
		}
		b.WriteString("\n" + Sample(f.Top, width) + "\n")
	}
	kinds := kindsOf(files)
	if len(kinds) == 0 {
		return strings.TrimSuffix(b.String(), "\n")
	}
	longest := 0
	for _, k := range kinds {
		longest = max(longest, utf8.RuneCountInString(k.Name))
	}
	b.WriteString("# How values are written\n")
	for _, k := range kinds {
		line{"# " + k.Name, k.Written}.into(&b, longest+4, width)
	}
	return b.String()
}

// Page writes the keys of files as a page of tables.
func Page(files []File) string {
	var b strings.Builder
	b.WriteString("# Keys of the kitchen folder\n\nEvery key that may be written, as the program itself reads it: `ripeby keys --markdown` prints this page. A key below\nanother has that one before it.\n")
	for _, f := range files {
		fmt.Fprintf(&b, "\n## %s\n\n%s\n\n%s", f.Name, sentence(f.Says), Markdown(f.Top))
	}
	b.WriteString("\n## How values are written\n\n| value | written |\n| --- | --- |\n")
	for _, k := range kindsOf(files) {
		fmt.Fprintf(&b, "| %s | %s |\n", k.Name, cell(k.Written))
	}
	return b.String()
}

// kindsOf are the kinds of value that occur in files.
func kindsOf(files []File) []Kind {
	var occur func(m *Mapping, k Kind) bool
	occur = func(m *Mapping, k Kind) bool {
		return slices.ContainsFunc(m.all(), func(key Key) bool {
			return strings.Contains(key.As, k.Name) || key.In != nil && occur(key.In, k)
		})
	}
	return slices.DeleteFunc(Kinds(), func(k Kind) bool {
		return !slices.ContainsFunc(files, func(f File) bool { return occur(f.Top, k) })
	})
}
