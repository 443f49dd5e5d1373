package main

import (
	_ "embed"
	"fmt"
	"io"
	"strings"
	"time"
)

// changesPage is what is new for a maker, as it stands in the repository.
//
//go:embed CHANGES.md
var changesPage string

// changesOf is what became new on one day, each a sentence or two.
type changesOf struct {
	day     string // as 2026-11-29
	entries []string
}

// readChanges takes the page apart: a heading for each day, newest first, and a list
// under it. What is said above the first day is for readers of the page.
func readChanges(page string) ([]changesOf, error) {
	var all []changesOf
	for i, line := range strings.Split(page, "\n") {
		day, isDay := strings.CutPrefix(line, "## ")
		entry, isEntry := strings.CutPrefix(line, "- ")
		more, isMore := strings.CutPrefix(line, "  ")
		switch last := len(all) - 1; {
		case isDay:
			if _, err := time.Parse(time.DateOnly, day); err != nil {
				return nil, fmt.Errorf("line %d: got heading %q, want a day such as 2026-11-29", i+1, day)
			}
			if last >= 0 && day >= all[last].day {
				return nil, fmt.Errorf("line %d: got %s below %s, want the newest first", i+1, day, all[last].day)
			}
			all = append(all, changesOf{day: day})
		case last < 0 || line == "":
		case isEntry:
			all[last].entries = append(all[last].entries, entry)
		case isMore && len(all[last].entries) > 0:
			all[last].entries[len(all[last].entries)-1] += " " + more
		default:
			return nil, fmt.Errorf("line %d: got %q, want a list under a day", i+1, line)
		}
	}
	return all, nil
}

// writeChanges prints what is new, without the page's marks for code and stress.
func writeChanges(w io.Writer, all []changesOf, width int) {
	unmarked := strings.NewReplacer("`", "", "*", "")
	for i, of := range all {
		if i > 0 {
			line(w, "")
		}
		line(w, of.day)
		for _, entry := range of.entries {
			item(w, width, unmarked.Replace(entry))
		}
	}
}
