package config

import (
	"bytes"
	"sort"
	"strings"

	"go.yaml.in/yaml/v3"
)

// insertionOf finds the place of more targets, and writes them for that place. The
// text can be read, and root is its tree. What is written as null has no place.
//
//	targets:                      targets: [
//	  - name: a                     {name: a}, # a comment
//	    by: …                       ^ the place without the comment; with it, its end
//	      # deeper than the dash  ]
//	  ^ the place
//	  # not deeper
func insertionOf(text []byte, root *yaml.Node, add []NewTarget) (insertion, *Fault) {
	body := bytes.TrimPrefix(text, []byte("\ufeff"))
	d := draft{text: body}
	var ins insertion
	switch key := keyAt(root, "targets"); {
	case root == nil:
		ins = d.firstOfAll(add)
	case key < 0: // the only mapping without a key is {}
		ins = insertion{d.bracket(root, '{') + 1, `"targets": [` + layout{quoted: true}.flows(add) + "]"}
	case !null(root.Content[key+1]):
		ins = d.afterLast(root.Content[key], solid(root.Content[key+1]), add)
	default:
		if n := root.Content[key+1]; solid(n).Value != "" {
			return ins, &Fault{File: targetsFile, Line: n.Line, Column: n.Column, What: "this says that there are no targets, so none can be added below it", Got: clip(solid(n).Value), Want: "targets: []"}
		}
		ins = d.first(root, root.Content[key], add)
	}
	ins.at += len(text) - len(body)
	return ins, nil
}

// draft is a text that a place is looked for in.
type draft struct{ text []byte }

// firstOfAll is the place in a file that holds no more than comments: its end, or
// before the mark ... that ends the document.
func (d draft) firstOfAll(add []NewTarget) insertion {
	at := 0
	for at < len(d.text) && !bytes.HasPrefix(d.text[at:], []byte("...")) {
		at = d.nextLine(at)
	}
	return d.lines(at, append([]string{"targets:"}, blocks(add, false, 2, nil)...))
}

// first is the place below the key targets with nothing after it, or within { }.
func (d draft) first(root, key *yaml.Node, add []NewTarget) insertion {
	w := d.walkPast(d.offset(key))
	if root.Style&yaml.FlowStyle == 0 {
		return d.lines(d.below(w.at, key.Column-1), blocks(add, false, key.Column+1, nil))
	}
	for w.at < len(d.text) && d.text[w.at] != ':' && w.gap(w.at) {
		w.at++
	}
	colon := ":"
	if bytes.HasPrefix(d.text[w.at:], []byte(":")) {
		w.at, colon = w.at+1, ""
	}
	return insertion{w.at, colon + " [" + layout{quoted: doubleQuoted(key)}.flows(add) + "]"}
}

// afterLast is the place after the last target of a list.
func (d draft) afterLast(key, list *yaml.Node, add []NewTarget) insertion {
	if len(list.Content) == 0 {
		return insertion{d.bracket(list, '[') + 1, layout{quoted: doubleQuoted(key)}.flows(add)}
	}
	last := list.Content[len(list.Content)-1]
	if list.Style&yaml.FlowStyle != 0 {
		return d.afterBracket(last, add)
	}
	dash := list.Column - 1
	lines := blocks(add, len(list.Content) > 1 && d.spaced(last), dash, last)
	leaf := lastLeaf(last)
	return d.lines(d.below(d.walkPast(d.offset(leaf)).at, dash), lines)
}

// afterBracket is the place after the last target of a list in brackets. One that
// begins its line is followed by ones that do. A comment stays on its target's line,
// and a comma that ends the list goes on doing so.
func (d draft) afterBracket(last *yaml.Node, add []NewTarget) insertion {
	start := d.offset(last)
	end := d.walkPast(start).at
	line := lineStart(d.text, start)
	before := string(d.text[line:start])
	indent := before[:indentOf(before)]
	own := indent == before
	rest := string(d.text[end:lineEnd(d.text, end)])
	tail := strings.TrimLeft(rest, " \t")
	after, comma := strings.CutPrefix(tail, ",")
	head, foot := ", ", "" // what stands before each entry, and after it
	at, brk := end, d.lineBreak(end)
	switch after = strings.TrimLeft(after, " \t"); {
	case strings.HasPrefix(after, "#"):
		if !own {
			indent += "  "
		}
		at, head = end+len(rest), brk+indent+", "
		if comma {
			head, foot = brk+indent, ","
		}
	case own:
		head = "," + brk + indent
	}
	text := ""
	for _, t := range add {
		text += head + layoutOf(0, last, t).flow(t) + foot
	}
	return insertion{at, text}
}

// lines puts whole lines before the line that begins at an offset, or at the end of
// the text, where a missing line break goes on missing.
func (d draft) lines(at int, lines []string) insertion {
	brk := d.lineBreak(at)
	text := strings.Join(lines, brk)
	if at == 0 || strings.IndexByte("\r\n", d.text[at-1]) >= 0 {
		return insertion{at, text + brk}
	}
	return insertion{at, brk + text}
}

// lineBreak is how lines end around an offset.
func (d draft) lineBreak(at int) string {
	n := bytes.LastIndexAny(d.text[:at], "\r\n")
	if n < 0 {
		if n = bytes.IndexAny(d.text, "\r\n"); n < 0 {
			return "\n"
		}
	}
	switch {
	case d.text[n] == '\n' && n > 0 && d.text[n-1] == '\r', d.text[n] == '\r' && n+1 < len(d.text) && d.text[n+1] == '\n':
		return "\r\n"
	}
	return string(d.text[n : n+1])
}

// nextLine is where the line after that of an offset begins.
func (d draft) nextLine(at int) int {
	at = lineEnd(d.text, at)
	if bytes.HasPrefix(d.text[at:], []byte("\r\n")) {
		return at + 2
	}
	return min(at+1, len(d.text))
}

// below is the beginning of the first line below an offset that is indented no
// further than so much; empty lines before it stay below.
func (d draft) below(at, indent int) int {
	at = d.nextLine(at)
	for next := at; next < len(d.text); {
		line := string(d.text[next:lineEnd(d.text, next)])
		if strings.TrimSpace(line) != "" && len(line)-len(strings.TrimLeft(line, " ")) <= indent {
			break
		}
		next = d.nextLine(next)
		if strings.TrimSpace(line) != "" {
			at = next
		}
	}
	return at
}

// spaced reports whether an empty line, with comments after it or without, stands
// above a target.
func (d draft) spaced(target *yaml.Node) bool {
	for at := lineStart(d.text, d.offset(target)); at > 0; {
		end := at - 1
		if d.text[end] == '\n' && end > 0 && d.text[end-1] == '\r' {
			end--
		}
		at = lineStart(d.text, end)
		line := strings.TrimSpace(string(d.text[at:end]))
		if line == "" {
			return true
		}
		if line[0] != '#' {
			return false
		}
	}
	return false
}

// offset is where a node begins, its anchor left aside.
func (d draft) offset(n *yaml.Node) int {
	at := sort.Search(len(d.text), func(at int) bool {
		line, column := place(d.text, at)
		return line > n.Line || line == n.Line && column >= n.Column
	})
	if n.Anchor != "" {
		at = min(at+len("&")+len(n.Anchor), len(d.text))
		for at < len(d.text) && strings.IndexByte(" \t\r\n", d.text[at]) >= 0 {
			at++
		}
	}
	return at
}

// bracket is where the bracket of an empty list or mapping stands.
func (d draft) bracket(n *yaml.Node, open byte) int {
	at := d.offset(n)
	return min(at+max(bytes.IndexByte(d.text[at:], open), 0), len(d.text)-1)
}

// walkPast walks from the beginning of the text past the value that begins at an
// offset: a single one, or all between brackets.
func (d draft) walkPast(at int) *walk {
	w := &walk{text: d.text}
	for w.at < at && w.flaw == nil {
		w.step()
	}
	for depth := len(w.open); w.at < len(w.text) && w.flaw == nil && (w.at <= at || len(w.open) > depth); {
		w.step()
	}
	return w
}

// lastLeaf is the last value of a tree that is not itself made of lines: a single one,
// or one in brackets. In place of nothing it is the key before it.
func lastLeaf(n *yaml.Node) *yaml.Node {
	for n.Kind != yaml.AliasNode && n.Style&yaml.FlowStyle == 0 && len(n.Content) > 0 {
		last := len(n.Content) - 1
		if c := n.Content[last]; n.Kind == yaml.MappingNode && c.Kind == yaml.ScalarNode && c.Value == "" {
			last--
		}
		n = n.Content[last]
	}
	return n
}
