package spreadsheet

import (
	"encoding/csv"
	"io"
	"strconv"

	"ripeby/calendar/words"
)

// Write writes a table: the names of its columns, then its rows, each of as many cells. Columns of
// a table are only ever added, at the end. The error is that of the writer.
func Write(w io.Writer, heads []string, rows [][]string) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	for _, row := range append([][]string{heads}, rows...) {
		cells := make([]string, len(row))
		for i := range row {
			cells[i] = Cell(row[i])
		}
		if err := out.Write(cells); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// Cell makes a text safe for a spreadsheet.
func Cell(text string) string {
	if _, err := strconv.Atoi(text); err != nil && words.Formula(text) {
		return "'" + words.Printable(text)
	}
	return words.Printable(text)
}

// Records writes a table of rows that have their cells by column; a missing one is empty.
func Records(w io.Writer, heads []string, records []map[string]string) error {
	rows := make([][]string, len(records))
	for i, record := range records {
		rows[i] = make([]string, len(heads))
		for k, head := range heads {
			rows[i][k] = record[head]
		}
	}
	return Write(w, heads, rows)
}
