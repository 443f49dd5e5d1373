package generalsolver

import (
	"fmt"
	"strconv"
	"strings"
)

// Values is named values as a model reads them, one a line.
type Values struct{ strings.Builder }

// Note writes a remark.
func (w *Values) Note(text string) { fmt.Fprintf(w, "%% %s\n", text) }

// Number writes a whole number.
func (w *Values) Number(name string, n int) { fmt.Fprintf(w, "%s = %d;\n", name, n) }

// List writes numbers or truths.
func (w *Values) List(name string, list any) {
	text := strings.ReplaceAll(strings.Trim(fmt.Sprint(list), "[]"), " ", ", ")
	fmt.Fprintf(w, "%s = [%s];\n", name, text)
}

// Table writes rows of numbers, one after another, for the given index sets.
func (w *Values) Table(name, index string, rows [][]int) {
	dims := strings.Count(index, ",") + 1
	fmt.Fprintf(w, "%s = array%dd(%s, [", name, dims, index)
	for _, row := range rows {
		for _, n := range row {
			w.WriteString(strconv.Itoa(n) + ",")
		}
	}
	w.WriteString("]);\n")
}

// Sets writes a list of sets.
func (w *Values) Sets(name string, rows [][]int) {
	fmt.Fprintf(w, "%s = [%s];\n", name, setTexts(rows))
}

// Ranges writes a list of sets from one number to another.
func (w *Values) Ranges(name string, rows [][2]int) {
	var texts []string
	for _, r := range rows {
		texts = append(texts, fmt.Sprintf("%d..%d", r[0], r[1]))
	}
	fmt.Fprintf(w, "%s = [%s];\n", name, strings.Join(texts, ", "))
}

func setTexts(rows [][]int) string {
	var texts []string
	for _, row := range rows {
		texts = append(texts, strings.ReplaceAll(strings.Trim(fmt.Sprint(row), "[]"), " ", ","))
	}
	if len(texts) == 0 {
		return ""
	}
	return "{" + strings.Join(texts, "}, {") + "}"
}
