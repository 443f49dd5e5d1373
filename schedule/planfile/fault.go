package planfile

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
)

// Fault says what is wrong with a plan.json and where. Line and Column are from
// 1, Column and Offset count bytes; all three are 0 when the fault is of the
// whole file. Key is the place in the file ("batches[2].stages[0].start"), ""
// when the text is not JSON at all.
type Fault struct {
	Line, Column int
	Offset       int64
	Key          string
	Got          string
	Want         string
}

// Error gives the fault in one line, with its place but without a file name.
func (f *Fault) Error() string {
	if f.Line == 0 {
		return f.Message()
	}
	return fmt.Sprintf("line %d, column %d: %s", f.Line, f.Column, f.Message())
}

// Message gives the fault without its line and column.
func (f *Fault) Message() string {
	text := f.Got
	if f.Key != "" {
		text = f.Key + " " + text
	}
	if f.Want != "" {
		text += "; want " + f.Want
	}
	return text
}

// at gives the fault the place of a byte of the file.
func (f *Fault) at(text []byte, offset int64) *Fault {
	offset = min(max(offset, 0), int64(len(text)))
	before := text[:offset]
	f.Offset = offset
	f.Line = bytes.Count(before, []byte("\n")) + 1
	f.Column = len(before) - bytes.LastIndexByte(before, '\n')
	return f
}

// trail is a place in the file: keys (string) and positions in lists (int).
type trail []any

// key and item lead one step further; the trail itself stays as it is.
func (t trail) key(k string) trail { return append(t[:len(t):len(t)], k) }
func (t trail) item(i int) trail   { return append(t[:len(t):len(t)], i) }

// String writes the trail as a maker would find it: batches[2].stages[0].start.
func (t trail) String() string {
	var b strings.Builder
	for _, step := range t {
		switch s := step.(type) {
		case int:
			b.WriteString("[" + strconv.Itoa(s) + "]")
		case string:
			if b.Len() > 0 {
				b.WriteByte('.')
			}
			b.WriteString(s)
		}
	}
	return b.String()
}

// locate finds the byte where the value at the trail begins, or, when a key on
// the way is missing, where the innermost value that exists begins. The text is
// known to be JSON.
func (t trail) locate(text []byte) int64 {
	dec := json.NewDecoder(bytes.NewReader(text))
	offset := valueStart(text, 0)
	for _, step := range t {
		open, err := dec.Token()
		if err != nil {
			return offset
		}
		found := false
		for i := 0; !found && dec.More(); i++ {
			want := step == any(i)
			if open == json.Delim('{') {
				key, err := dec.Token()
				if err != nil {
					return offset
				}
				want = key == step
			}
			if found = want; !found && dec.Decode(new(json.RawMessage)) != nil {
				return offset
			}
		}
		if !found {
			return offset
		}
		offset = valueStart(text, dec.InputOffset())
	}
	return offset
}

// valueStart skips what may stand between two values.
func valueStart(text []byte, offset int64) int64 {
	for offset < int64(len(text)) && strings.IndexByte(" \t\r\n:,", text[offset]) >= 0 {
		offset++
	}
	return offset
}
