package config

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"go.yaml.in/yaml/v3"

	"ripeby/resources"
	"ripeby/schedule"
)

// layout is how a new target is written. Between brackets only quoted counts.
type layout struct {
	quoted bool // every key and text stands in quotation marks, as in JSON
	inline bool // the target is one mapping in braces after its dash
	dash   int  // spaces before the dash
	key    int  // from the dash to the keys
	wants  wantsLayout
}

// wantsLayout is how the wants of a target are written.
type wantsLayout struct {
	inline bool // one list in brackets
	dash   int  // from the keys to the dashes
	lines  bool // each want has a line a key
}

// firstLayout is that of a target with none before it.
func firstLayout(dash int, t NewTarget) layout {
	return layout{dash: dash, key: 2, wants: wantsLayout{inline: len(t.Wants) <= 1, dash: 2}}
}

// layoutOf follows the target that is the last one so far.
func layoutOf(dash int, last *yaml.Node, t NewTarget) layout {
	l := firstLayout(dash, t)
	last = solid(last)
	if len(last.Content) == 0 {
		return l
	}
	first := last.Content[0]
	l.quoted = doubleQuoted(first)
	l.inline = last.Style&yaml.FlowStyle != 0
	l.key = max(first.Column-1-dash, 2)
	if l.inline {
		l.key = max(last.Column-1-dash, 2)
	}
	at := keyAt(last, "want")
	if l.inline || at < 0 {
		return l
	}
	if wants := last.Content[at+1]; wants.Kind == yaml.SequenceNode && wants.Anchor == "" && len(wants.Content) > 0 {
		l.wants.inline = wants.Style&yaml.FlowStyle != 0
		l.wants.dash = max(wants.Column-first.Column, 0)
		l.wants.lines = wants.Content[0].Kind == yaml.MappingNode && wants.Content[0].Style&yaml.FlowStyle == 0
	}
	return l
}

// doubleQuoted reports whether a key is written as in JSON.
func doubleQuoted(n *yaml.Node) bool { return n.Style&yaml.DoubleQuotedStyle != 0 }

// pair is a key and its value, as they are written.
type pair struct{ key, value string }

// head is what stands before the wants.
func (l layout) head(t NewTarget) []pair {
	pairs := []pair{{l.name("name"), l.scalar(t.Name)}, {l.name("by"), l.scalar(t.By)}}
	if t.Packed != 0 {
		pairs = append(pairs, pair{l.name("packed"), l.scalar(resources.FormatMinutes(t.Packed))})
	}
	return pairs
}

// want is one want; what is so without being written is left out.
func (l layout) want(w schedule.Want) []pair {
	pairs := []pair{{l.name("cheese"), l.scalar(w.Cheese)}, {l.name("pieces"), strconv.Itoa(w.Pieces)}}
	if w.Price != unwrittenPrice() {
		pairs = append(pairs, pair{l.name("price"), resources.FormatMoney(w.Price)})
	}
	if w.Promised {
		pairs = append(pairs, pair{l.name("promised"), "true"})
	}
	return pairs
}

// braces writes a mapping on one line.
func braces(pairs []pair) string {
	written := make([]string, len(pairs))
	for i, p := range pairs {
		written[i] = p.key + ": " + p.value
	}
	return "{" + strings.Join(written, ", ") + "}"
}

// brackets writes the wants on one line.
func (l layout) brackets(wants []schedule.Want) string {
	written := make([]string, len(wants))
	for i, w := range wants {
		written[i] = braces(l.want(w))
	}
	return "[" + strings.Join(written, ", ") + "]"
}

// flow writes a target on one line.
func (l layout) flow(t NewTarget) string {
	return braces(append(l.head(t), pair{l.name("want"), l.brackets(t.Wants)}))
}

// flows writes targets on one line, as a list has them between its brackets.
func (l layout) flows(add []NewTarget) string {
	written := make([]string, len(add))
	for i, t := range add {
		written[i] = l.flow(t)
	}
	return strings.Join(written, ", ")
}

// blocks writes targets in lines, each as the last one so far is, nil for none; with an
// empty line above each where they are spaced.
func blocks(add []NewTarget, spaced bool, dash int, last *yaml.Node) (lines []string) {
	for _, t := range add {
		l := firstLayout(dash, t)
		if last != nil {
			l = layoutOf(dash, last, t)
		}
		if spaced {
			lines = append(lines, "")
		}
		lines = append(lines, l.block(t)...)
	}
	return lines
}

// block writes a target in lines, from its dash on.
func (l layout) block(t NewTarget) []string {
	dash := strings.Repeat(" ", l.dash) + "-" + strings.Repeat(" ", l.key-1)
	if l.inline {
		return []string{dash + l.flow(t)}
	}
	inline := l.wants.inline || len(t.Wants) == 0
	pairs := l.head(t)
	if inline {
		pairs = append(pairs, pair{l.name("want"), l.brackets(t.Wants)})
	}
	lines := inLines(dash, pairs)
	if inline {
		return lines
	}
	keys := strings.Repeat(" ", l.dash+l.key)
	lines = append(lines, keys+l.name("want")+":")
	dash = keys + strings.Repeat(" ", l.wants.dash) + "- "
	for _, w := range t.Wants {
		if l.wants.lines {
			lines = append(lines, inLines(dash, l.want(w))...)
		} else {
			lines = append(lines, dash+braces(l.want(w)))
		}
	}
	return lines
}

// inLines writes a mapping with a line a key, the first after a dash.
func inLines(dash string, pairs []pair) []string {
	lines := make([]string, len(pairs))
	for i, p := range pairs {
		lines[i] = dash + p.key + ": " + p.value
		dash = strings.Repeat(" ", len(dash))
	}
	return lines
}

// name writes a key.
func (l layout) name(key string) string {
	if l.quoted {
		return `"` + key + `"`
	}
	return key
}

// scalar writes a text, in quotation marks where it would otherwise be something
// else or nothing to YAML.
func (l layout) scalar(text string) string {
	if !l.quoted && plain(text) {
		return text
	}
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range text {
		switch {
		case r == '"' || r == '\\':
			b.WriteString(`\` + string(r))
		case !unicode.IsPrint(r) && r <= 0xffff:
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// plain reports whether a text needs no quotation marks, in brackets or outside. It
// is on the side of caution: letters, digits and the signs of everyday names.
func plain(text string) bool {
	ordinary := func(r rune) bool {
		return unicode.IsLetter(r) || unicode.IsDigit(r) || strings.ContainsRune(" -_.:'()/+", r)
	}
	strange := func(r rune) bool { return !ordinary(r) }
	first := strings.TrimLeftFunc(text, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) })
	switch {
	case text == "" || first == text || strings.ContainsFunc(text, strange),
		strings.Contains(text, ": "), strings.HasSuffix(text, ":"), strings.HasSuffix(text, " "):
		return false
	}
	return (&yaml.Node{Kind: yaml.ScalarNode, Value: text}).ShortTag() == "!!str" && !slices.Contains(truths(), strings.ToLower(text))
}

// truths are words that other readers of YAML take for true or false.
func truths() []string { return []string{"y", "n", "yes", "no", "on", "off"} }
