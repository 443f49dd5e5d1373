package keys

import (
	"fmt"
	"strings"
)

// Markdown writes the keys of a mapping as a table. A key below others has theirs before it:
// people.hours.
func Markdown(m *Mapping) string {
	var b strings.Builder
	b.WriteString("| key | written as | left out | example | what it is |\n| --- | --- | --- | --- | --- |\n")
	rows(&b, m, "")
	return b.String()
}

func rows(b *strings.Builder, m *Mapping, above string) {
	for _, k := range m.all() {
		fmt.Fprintf(b, "| `%s%s` | %s | %s | `%s` | %s |\n", above, k.Name, cell(k.As), cell(strings.TrimPrefix(k.absent(), "left out: ")), cell(k.Shown()), cell(k.Says))
		if k.In != nil {
			rows(b, k.In, above+k.Name+".")
		}
	}
}

// cell is a text in which no column ends.
func cell(text string) string { return strings.ReplaceAll(text, "|", `\|`) }
