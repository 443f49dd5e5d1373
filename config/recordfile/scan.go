package recordfile

import (
	"fmt"
	"strings"
)

// A line is taken apart here, and not by a YAML library: that would make 680 of 11:20, false
// of no and two keys of "soft, whey clear", and could not tell a line that a full disk cut
// short from one that was written wrong. What it reads is YAML in braces all the same, JSON
// included, but for texts without quotation marks, which may hold commas.

// node is one value of a line.
type node struct {
	kind   nodeKind
	at     int    // offset in the line
	text   string // of a single value, its quotation marks taken off
	quoted bool
	pairs  []pair // of braces
	items  []node // of a list
}

type nodeKind int

const (
	single nodeKind = iota
	list
	braces
)

// pair is a key and its value.
type pair struct {
	key   string
	at    int
	value node
}

// flaw is what is wrong with a line, at an offset.
type flaw struct {
	at         int
	what, want string
}

// scanner walks along one line. The first flaw, or the line's end, ends the walk.
type scanner struct {
	line string
	at   int
	flaw *flaw
	cut  bool // the line ended before its braces did
}

// scan takes one line apart, from its dash on. Without its closing brace a line is cut,
// whatever else is wrong with it.
func scan(line string) (entry node, cut bool, wrong *flaw) {
	s := &scanner{line: line}
	s.skip()
	if !s.take('-') {
		return node{}, false, &flaw{s.at, "an entry is one line that begins with a dash", example}
	}
	if s.skip(); s.over() {
		return node{}, true, nil
	}
	if !s.next('{') {
		return node{}, false, &flaw{s.at, "an entry is one line in braces", example}
	}
	entry = s.braces(0)
	if !s.stopped() {
		if s.skip(); !s.over() && !(s.next('#') && s.at > 0 && spaceBefore(line, s.at)) {
			s.wrong(s.at, "nothing but a comment stands after the closing brace of an entry; each entry has a line of its own", "")
		}
	}
	if s.cut || s.flaw != nil && !closed(line) {
		return node{}, true, nil
	}
	return entry, false, s.flaw
}

// example is how an entry looks.
const example = "- {at: 2027-03-13 08:10, who: Nell, batch: AB-270312-1, did: drain, pieces: 14}"

// closed reports whether the last thing of a line is a brace, a comment aside.
func closed(line string) bool {
	last := strings.LastIndexByte(line, '}')
	if last < 0 {
		return false
	}
	rest := line[last+1:]
	return strings.TrimSpace(rest) == "" || (rest[0] == ' ' || rest[0] == '\t') && strings.HasPrefix(strings.TrimSpace(rest), "#")
}

func spaceBefore(line string, at int) bool { return line[at-1] == ' ' || line[at-1] == '\t' }

func (s *scanner) over() bool    { return s.at >= len(s.line) }
func (s *scanner) stopped() bool { return s.cut || s.flaw != nil }

func (s *scanner) next(c byte) bool { return !s.over() && s.line[s.at] == c }

func (s *scanner) take(c byte) bool {
	if !s.next(c) {
		return false
	}
	s.at++
	return true
}

func (s *scanner) skip() {
	for s.next(' ') || s.next('\t') {
		s.at++
	}
}

func (s *scanner) wrong(at int, what, want string) {
	if !s.stopped() {
		s.flaw = &flaw{at, what, want}
	}
}

// deepest is how deep braces and lists may lie in each other; no entry needs more than
// three.
const deepest = 8

// value reads what stands after a colon or in a list; in says what it stands in.
func (s *scanner) value(in nodeKind, depth int) node {
	switch s.skip(); {
	case s.over():
		s.cut = true
		return node{}
	case depth > deepest:
		s.wrong(s.at, fmt.Sprintf("braces and lists lie in each other more than the limit of %d deep", deepest), "")
		return node{}
	case s.next('{'):
		return s.braces(depth)
	case s.next('['):
		return s.list(depth)
	case s.next('"'), s.next('\''):
		return s.quoted()
	}
	return s.plain(in)
}

// braces reads {key: value, …}.
func (s *scanner) braces(depth int) node {
	n := node{kind: braces, at: s.at}
	s.at++
	for !s.stopped() {
		s.skip()
		if s.take('}') {
			return n
		}
		p := pair{at: s.at}
		p.key = s.key()
		if !s.stopped() {
			p.value = s.value(braces, depth+1)
			n.pairs = append(n.pairs, p)
			s.between('}', "a comma or the closing brace")
		}
	}
	return n
}

// list reads [value, …].
func (s *scanner) list(depth int) node {
	n := node{kind: list, at: s.at}
	s.at++
	for !s.stopped() {
		s.skip()
		if s.take(']') {
			return n
		}
		n.items = append(n.items, s.value(list, depth+1))
		s.between(']', "a comma or the closing bracket")
	}
	return n
}

// between wants a comma, or the end of what values stand in, which it leaves.
func (s *scanner) between(end byte, what string) {
	if s.stopped() {
		return
	}
	switch s.skip(); {
	case s.over():
		s.cut = true
	case s.take(','), s.next(end):
	default:
		s.wrong(s.at, what+" is wanted here; a text with brackets or quotation marks in it stands in quotation marks", "")
	}
}

// key reads a key and the colon after it.
func (s *scanner) key() string {
	if s.next('"') || s.next('\'') {
		key := s.quoted().text
		if s.stopped() {
			return ""
		}
		if s.skip(); s.over() {
			s.cut = true
		} else if !s.take(':') {
			s.wrong(s.at, "a colon is wanted after a key", "")
		}
		return key
	}
	from := s.at
	for !s.over() && !strings.ContainsRune(",{}[]\"", rune(s.line[s.at])) {
		if s.line[s.at] == ':' && (s.at+1 == len(s.line) || strings.ContainsRune(" \t,}]", rune(s.line[s.at+1]))) {
			key := strings.TrimSpace(s.line[from:s.at])
			if s.at++; key == "" {
				s.wrong(from, "a key is wanted before a colon", "")
			}
			return key
		}
		s.at++
	}
	word := strings.TrimSpace(s.line[from:s.at])
	switch key, rest, colon := strings.Cut(word, ":"); {
	case s.over():
		s.cut = true
	case colon && rest == "":
		s.wrong(from, fmt.Sprintf("a space is missing after the colon of %q", word), key+": …")
	case colon:
		s.wrong(from, fmt.Sprintf("a space is missing after the colon of %q", word), key+": "+rest)
	case word == "":
		s.wrong(s.at, "a key and its value are wanted here", "did: drain")
	default:
		s.wrong(from, fmt.Sprintf("a key and its value are wanted here, not %q alone; a text with a comma before such words stands in quotation marks", word), "")
	}
	return ""
}

// plain reads a value without quotation marks, as it is written. In braces it goes on over
// a comma unless a key follows.
func (s *scanner) plain(in nodeKind) node {
	n := node{at: s.at}
	for !s.over() {
		c := s.line[s.at]
		if c == ',' && (in == list || s.keyFollows()) || c == ']' && in == list || c == '}' && in == braces {
			break
		}
		if strings.IndexByte("[]{}", c) >= 0 {
			s.wrong(s.at, "a text with brackets in it stands in quotation marks", "")
			return n
		}
		s.at++
	}
	if s.over() {
		s.cut = true
	}
	n.text = strings.TrimSpace(s.line[n.at:s.at])
	return n
}

// keyFollows reports whether what stands after the comma here is a key, or nothing.
func (s *scanner) keyFollows() bool {
	rest := strings.TrimLeft(s.line[s.at+1:], " \t")
	if rest == "" || rest[0] == '}' {
		return true
	}
	if rest[0] == '"' || rest[0] == '\'' {
		ahead := &scanner{line: rest}
		ahead.quoted()
		ahead.skip()
		return !ahead.stopped() && ahead.next(':')
	}
	if end := strings.IndexAny(rest, ",{}[]\""); end >= 0 {
		if c := rest[end]; c == '{' || c == '[' || c == '"' {
			end++ // the value of a key, perhaps: drew: {…
		}
		rest = rest[:end]
	}
	word, _, colon := strings.Cut(rest, ":")
	return colon && (known(strings.TrimSpace(word)) || strings.Contains(rest, ": ") || strings.Contains(rest, ":\t") || strings.HasSuffix(rest, ":"))
}
