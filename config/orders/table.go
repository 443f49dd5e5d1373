package orders

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"ripeby/config"
	"ripeby/config/fault"
)

// columns are the words of the header.
var columns = []string{"date", "who", "cheese", "pieces", "price"}

// mayLack is the column that may be missing.
const mayLack = "price"

// header is how the header is written.
const header = "date,who,cheese,pieces,price"

// table is a file of orders as lines of cells.
type table struct {
	file    string
	heads   []string // of each column; "" for one without a word over it
	lines   []cells
	refused config.Faults
}

// cells are those of one line, without the spaces around them.
type cells struct {
	nr   int // of the line in the file, from 1
	text []string
}

// read takes the file apart. The fault is of the whole file; what is wrong with a line alone is
// among the refused.
func (t *table) read(text []byte) *config.Fault {
	text, bad := t.readable(text)
	if bad != nil {
		return bad
	}
	between, bad := t.between(text)
	if bad != nil {
		return bad
	}
	r := csv.NewReader(bytes.NewReader(text))
	r.Comma = between
	r.TrimLeadingSpace = between != '\t' // a quotation mark may stand behind a space; of tabs it would take the next one too
	r.FieldsPerRecord = -1               // how many cells a line has is told in our own words
	for {
		record, err := r.Read()
		var parse *csv.ParseError
		switch {
		case err == io.EOF && t.heads == nil:
			return t.whole(0, config.Fault{What: "this file is empty", Want: header})
		case err == io.EOF:
			return nil
		case errors.As(err, &parse) && t.heads == nil:
			return t.whole(parse.StartLine, quotes(parse))
		case errors.As(err, &parse):
			t.refuse(parse.StartLine, quotes(parse))
			continue
		case err != nil:
			return t.whole(0, config.Fault{What: err.Error()})
		}
		nr, _ := r.FieldPos(0)
		for i := range record {
			record[i] = strings.TrimSpace(record[i])
		}
		switch {
		case blank(record):
		case t.heads == nil:
			if bad := t.header(nr, record); bad != nil {
				return bad
			}
		case len(t.lines)+len(t.refused) >= MaxLines:
			return t.whole(nr, config.Fault{What: fmt.Sprintf("these are more than the limit of %d lines with an order; split the file", MaxLines)})
		default:
			t.lines = append(t.lines, cells{nr, record})
		}
	}
}

// between is what stands between cells, by the first line that holds something: none of the
// words of a header has it within.
func (t *table) between(text []byte) (rune, *config.Fault) {
	nr := 0
	for line := range bytes.Lines(text) {
		nr++
		if len(bytes.TrimSpace(line)) == 0 {
			continue
		}
		var found []rune
		for _, r := range ",;\t" {
			if bytes.ContainsRune(line, r) {
				found = append(found, r)
			}
		}
		switch len(found) {
		case 1:
			return found[0], nil
		case 0:
			return 0, t.whole(nr, config.Fault{What: "this line is to name the columns, with a comma, a semicolon or a tab between them", Got: fault.Clip(string(bytes.TrimSpace(line))), Want: header})
		}
		return 0, t.whole(nr, config.Fault{What: "different signs stand between the columns; use one, a comma, a semicolon or a tab", Got: fault.Clip(string(bytes.TrimSpace(line))), Want: header})
	}
	return ',', nil // nothing at all, which is told as that
}

// header takes the line that names the columns.
func (t *table) header(nr int, record []string) *config.Fault {
	heads := make([]string, len(record))
	for i, written := range record {
		word := strings.ToLower(written)
		heads[i] = word
		switch {
		case word == "":
		case !slices.Contains(columns, word):
			return t.whole(nr, config.Fault{What: "there is no column of this name", Got: fault.Clip(written), Want: header + " in any order", Near: fault.Nearest(word, columns)})
		case slices.Contains(heads[:i], word):
			return t.whole(nr, config.Fault{What: "this column is there twice", Got: word, Want: header + ", each once"})
		}
	}
	for _, word := range columns {
		if word != mayLack && !slices.Contains(heads, word) {
			return t.whole(nr, config.Fault{What: "the column " + word + " is missing", Want: header})
		}
	}
	t.heads = heads
	return nil
}

// cell is what a line has in a column; "" where there is no such column.
func (t *table) cell(line *cells, head string) string {
	i := slices.Index(t.heads, head)
	if i < 0 {
		return ""
	}
	return unmarked(line.text[i])
}

// unmarked takes the apostrophe away by which a spreadsheet is told that a text is no formula:
// our own tables have it in front of a name that begins like one.
func unmarked(cell string) string {
	if text, ok := strings.CutPrefix(cell, "'"); ok && strings.IndexAny(text, "=+-@") == 0 {
		return text
	}
	return cell
}

// whole is a fault of the file, with the line at which it is found, 0 for none.
func (t *table) whole(nr int, f config.Fault) *config.Fault {
	f.File, f.Line = t.file, nr
	return &f
}

// refuse notes what is wrong with a line.
func (t *table) refuse(nr int, f config.Fault) { t.refused = append(t.refused, *t.whole(nr, f)) }

// blank reports whether nothing stands in any cell.
func blank(record []string) bool {
	return !slices.ContainsFunc(record, func(cell string) bool { return cell != "" })
}

// quotes says what is wrong with quotation marks (RFC 4180, section 2, rules 5 to 7). A mark that
// is not closed goes on over lines, and each is named, for none of them is read as an order.
func quotes(e *csv.ParseError) config.Fault {
	f := config.Fault{What: "a quotation mark is not closed, or stands within a cell", Want: `"…" round the whole cell, and "" for a mark within it`}
	if e.Line > e.StartLine {
		f.What += fmt.Sprintf("; lines %d to %d are taken for one and not read", e.StartLine, e.Line)
	}
	return f
}
