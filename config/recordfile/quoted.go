package recordfile

import (
	"strconv"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// quoted reads a text in quotation marks, double or single, as YAML has them.
func (s *scanner) quoted() node {
	n := node{at: s.at, quoted: true}
	mark := s.line[s.at]
	s.at++
	var text strings.Builder
	for !s.stopped() {
		switch {
		case s.over():
			s.cut = true
		case mark == '\'' && strings.HasPrefix(s.line[s.at:], "''"):
			text.WriteByte('\'')
			s.at += 2
		case s.line[s.at] == mark:
			s.at++
			n.text = text.String()
			return n
		case mark == '"' && s.line[s.at] == '\\':
			s.escaped(&text)
		default:
			text.WriteByte(s.line[s.at])
			s.at++
		}
	}
	return n
}

// simpleEscape gives what YAML 1.2, section 5.7, has a letter for.
func simpleEscape(c byte) (rune, bool) {
	switch c {
	case '0':
		return 0, true
	case 'a':
		return '\a', true
	case 'b':
		return '\b', true
	case 't', '\t':
		return '\t', true
	case 'n':
		return '\n', true
	case 'v':
		return '\v', true
	case 'f':
		return '\f', true
	case 'r':
		return '\r', true
	case 'e':
		return 0x1b, true
	case ' ', '"', '/', '\\':
		return rune(c), true
	case 'N':
		return 0x85, true
	case '_':
		return 0xa0, true
	case 'L':
		return 0x2028, true
	case 'P':
		return 0x2029, true
	}
	return 0, false
}

// escaped reads what a backslash begins. JSON writes a letter beyond the first 65,536 as
// two halves.
func (s *scanner) escaped(text *strings.Builder) {
	at := s.at
	if s.at += 2; s.at > len(s.line) {
		s.cut = true
		return
	}
	c := s.line[at+1]
	if r, ok := simpleEscape(c); ok {
		text.WriteRune(r)
		return
	}
	r, ok := s.hex(map[byte]int{'x': 2, 'u': 4, 'U': 8}[c])
	if s.stopped() {
		return
	}
	if ok && utf16.IsSurrogate(r) && strings.HasPrefix(s.line[s.at:], `\u`) {
		s.at += 2
		low, _ := s.hex(4)
		r = utf16.DecodeRune(r, low)
		ok = r != utf8.RuneError
	}
	if !ok || !utf8.ValidRune(r) {
		s.wrong(at, "a backslash in quotation marks begins a letter's number, and this is none", `\\ for the backslash itself`)
		return
	}
	text.WriteRune(r)
}

// hex reads so many hexadecimal digits; none is not what was meant.
func (s *scanner) hex(digits int) (rune, bool) {
	if s.at+digits > len(s.line) {
		s.cut = true
		return 0, false
	}
	n, err := strconv.ParseUint(s.line[s.at:s.at+digits], 16, 32)
	s.at += digits
	return rune(n), err == nil && digits > 0
}
