package config

import (
	"fmt"
	"strings"
)

// punctuation walks a text that is not YAML and gives the first flaw of its
// quotation marks, brackets and commas. It knows as much of YAML as that takes, and
// is asked only after the library has refused the text; in what the library takes it
// finds nothing, which a test holds.
func punctuation(text []byte) (flaw, bool) {
	w := walk{text: text}
	for w.at < len(text) && w.flaw == nil {
		w.step()
	}
	if w.flaw == nil && w.inside() {
		w.flaw = w.unclosed()
	}
	switch {
	case w.flaw == nil:
		return flaw{}, false
	case w.likely != nil:
		return *w.likely, true
	}
	return *w.flaw, true
}

// walk is how far a text has been read.
//
//	pots: [{name: "tall pot", holds: 4 L}]
//	      ^^    ^          ^ ^
//	      ||    |          | an entry begins
//	      ||    |          ended: only , : ] } may follow
//	      ||    the entry's only colon
//	      two open
type walk struct {
	text   []byte
	at     int
	open   []int // offsets of the brackets that are not closed yet
	outer  []int // for each, the colons of the entry that it stands in
	colons int   // within brackets, since the last comma
	ended  byte  // what closed a value that has ended: a mark, a bracket, * for an alias; 0 for none
	since  int   // offset at which that value began
	bare   bool  // a text without marks has ended, which may go on in the next line
	likely *flaw // an open bracket that the flaw comes from, if there is one
	flaw   *flaw
}

func (w *walk) found(at int, what, want string) { w.flaw = &flaw{at, what, want} }

// gap reports whether a space or the end of a line stands at an offset.
func (w *walk) gap(at int) bool {
	return at >= len(w.text) || strings.IndexByte(" \t\r\n", w.text[at]) >= 0
}

func (w *walk) inside() bool { return len(w.open) > 0 }

// step takes the next character, or the text that begins with it.
func (w *walk) step() {
	c := w.text[w.at]
	switch {
	case c == '\n' || c == '\r':
		w.line()
	case c == ' ' || c == '\t':
		w.at++
	case c == '#':
		w.at = lineEnd(w.text, w.at)
	case w.inside() && w.bare && strings.IndexByte(",[]{}?", c) < 0 && (c != ':' || !w.gap(w.at+1)):
		w.unmarked() // goes on from the line above
	case c == ']' || c == '}':
		w.close(c)
	case c == ',' && w.inside():
		w.at++
		w.ended, w.bare, w.colons = 0, false, 0
	case c == ':' && (w.gap(w.at+1) || w.inside()):
		w.colon()
	case w.ended != 0 || w.inside() && w.bare && (c == '[' || c == '{'):
		w.goesOn()
	case c == '[' || c == '{':
		w.open, w.outer = append(w.open, w.at), append(w.outer, w.colons)
		w.at++
		w.bare, w.colons = false, 0
	case c == '"' || c == '\'':
		w.quoted(c)
	case (c == '-' || c == '?') && w.gap(w.at+1) || c == '?' && w.inside():
		w.at++
	case strings.IndexByte("&*!", c) >= 0:
		w.mark(c)
	case (c == '|' || c == '>') && !w.inside():
		w.block()
	default:
		w.unmarked()
	}
}

// line goes to the next line. Outside brackets a value ends with its line, but for a
// text without marks that goes on in lines indented further. Within brackets a key
// that stands no further to the right than the line with the bracket was most likely
// meant to stand after it, if anything turns out to be wrong.
func (w *walk) line() {
	from := lineStart(w.text, w.at)
	for w.at < len(w.text) && (w.text[w.at] == '\n' || w.text[w.at] == '\r') {
		w.at++
	}
	next := string(w.text[w.at:lineEnd(w.text, w.at)])
	if !w.inside() {
		goesOn := w.bare && indentOf(next) > w.indentAt(from)
		w.ended, w.bare = 0, false
		if goesOn && keyOf(next) == "" {
			w.at += indentOf(next)
			w.unmarked()
		}
		return
	}
	first := lineStart(w.text, w.open[0])
	if w.likely == nil && indentOf(next) <= w.indentAt(first) && keyOf(next) != "" {
		w.likely = w.unclosed()
	}
}

// indentAt is [indentOf] of the line that begins at an offset.
func (w *walk) indentAt(from int) int { return indentOf(string(w.text[from:lineEnd(w.text, from)])) }

// unclosed: the innermost bracket is never closed.
func (w *walk) unclosed() *flaw {
	at := w.open[len(w.open)-1]
	if w.text[at] == '[' {
		return &flaw{at, "the bracket [ is opened here and not closed", "] where the list ends"}
	}
	return &flaw{at, "the bracket { is opened here and not closed", "} where its keys and values end"}
}

// close takes a closing bracket.
func (w *walk) close(c byte) {
	n := len(w.open) - 1
	if n < 0 {
		w.found(w.at, fmt.Sprintf("the bracket %c closes nothing", c), "the text in quotation marks if the bracket belongs to it")
		return
	}
	opened := w.text[w.open[n]]
	if closing := opened + 2; closing != c { // in ASCII, [ and ] and { and } are two apart
		line, column := place(w.text, w.open[n])
		w.found(w.at, fmt.Sprintf("the bracket %c of line %d, column %d is not closed before this %c", opened, line, column, c),
			fmt.Sprintf("%c first", closing))
		return
	}
	w.ended, w.since, w.bare = c, w.open[n], false
	w.colons = w.outer[n]
	w.open, w.outer = w.open[:n], w.outer[:n]
	w.at++
}

// colon takes the colon after a key. Between two commas there is one.
func (w *walk) colon() {
	if w.inside() {
		if w.colons++; w.colons > 1 {
			w.found(w.at, "a second colon between two commas", "a comma before the next key, or quotation marks around text with a colon in it")
			return
		}
	}
	w.ended, w.bare = 0, false
	w.at++
}

// quoted takes a text in quotation marks.
func (w *walk) quoted(c byte) {
	from := w.at
	for w.at++; w.at < len(w.text); w.at++ {
		switch {
		case c == '"' && w.text[w.at] == '\\':
			w.at++
		case w.text[w.at] != c:
		case c == '\'' && w.at+1 < len(w.text) && w.text[w.at+1] == c:
			w.at++
		default:
			w.at++
			w.ended, w.since = c, from
			return
		}
	}
	w.at = len(w.text)
	w.found(from, fmt.Sprintf("the quotation mark %c is opened here and not closed", c), "the same mark where the text ends")
}

// goesOn: something stands after a value that has ended.
func (w *walk) goesOn() {
	switch quote := w.ended == '"' || w.ended == '\''; {
	case quote && lineStart(w.text, w.since) != lineStart(w.text, w.at):
		line, _ := place(w.text, w.at)
		w.found(w.since, fmt.Sprintf("the quotation mark %c is opened here and closed only on line %d", w.ended, line), "the same mark where the text ends")
	case quote && (!w.inside() || !w.gap(w.at-1)):
		w.found(w.at, "the text goes on after its closing quotation mark",
			fmt.Sprintf("marks around all of it; a mark within is written %s", map[byte]string{'"': `\"`, '\'': "''"}[w.ended]))
	case w.inside():
		w.found(w.at, "a comma is missing before this", "a comma between two entries")
	default:
		w.found(w.at, "the text goes on after what has ended", "all of it in quotation marks, or the rest in a line of its own")
	}
}

// mark takes an anchor, an alias or a tag.
func (w *walk) mark(c byte) {
	w.since = w.at
	for w.at++; !w.gap(w.at) && (!w.inside() || strings.IndexByte(",[]{}", w.text[w.at]) < 0); w.at++ {
	}
	if c == '*' {
		w.ended = c
	}
}

// block passes over a text of several lines, which ends before a line that is
// indented no further than what holds it: the key before it, or the dash.
func (w *walk) block() {
	from := lineStart(w.text, w.at)
	holds := from
	for at := from; at < w.at; at++ {
		if c := w.text[at]; c != ' ' && c != '\t' {
			holds = at
			if c != '-' || !w.gap(at+1) {
				break
			}
		}
	}
	for w.at = lineEnd(w.text, w.at); w.at < len(w.text); {
		end := w.at
		for w.at < len(w.text) && (w.text[w.at] == '\n' || w.text[w.at] == '\r') {
			w.at++
		}
		line := string(w.text[w.at:lineEnd(w.text, w.at)])
		if strings.TrimSpace(line) != "" && indentOf(line) <= holds-from {
			w.at = end
			return
		}
		w.at += len(line)
	}
}

// unmarked takes a text without quotation marks: to the end of the line, to a comment
// or to the colon after a key; within brackets also to a comma or a bracket.
func (w *walk) unmarked() {
	for w.at++; w.at < len(w.text); w.at++ {
		c := w.text[w.at]
		switch {
		case c == '\n' || c == '\r', c == '#' && w.gap(w.at-1), c == ':' && w.gap(w.at+1):
			w.bare = true
			return
		case w.inside() && strings.IndexByte(",[]{}?", c) >= 0:
			w.bare = true
			return
		}
	}
	w.bare = true
}
