package ical

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// clean makes one line of a name or a text, fit to stand in a calendar: every kind
// of line break and tab becomes a space, and what no reader sees but a reader may
// trip over is dropped: control characters (RFC 5545, 3.1, allows none but a tab),
// the marks that switch the direction of writing (unicode.Bidi_Control) and byte
// order marks. Bytes that are no UTF-8 become U+FFFD. Letters of every script,
// joined emoji, commas, quotes and backslashes stay; the encoder escapes them.
func clean(s string) string {
	return strings.Join(strings.Split(cleanLines(s), "\n"), " ")
}

// cleanLines is clean for a text of several lines: line breaks of every kind stay,
// as \n. Only a DESCRIPTION may carry them.
func cleanLines(s string) string {
	var b strings.Builder
	b.Grow(len(s))
	s = strings.ReplaceAll(s, "\r\n", "\n")
	for _, r := range s {
		switch {
		case r == '\t':
			b.WriteByte(' ')
		case cleanBreaks(r):
			b.WriteByte('\n')
		case unicode.IsControl(r), unicode.Is(unicode.Bidi_Control, r), r == '\uFEFF':
		default:
			// Ranging over a string gives U+FFFD for each byte that is no UTF-8.
			b.WriteRune(r)
		}
	}
	return b.String()
}

// cleanBreaks reports whether the rune ends a line: LF, VT, FF, CR, NEL, and the
// separators of lines and paragraphs (Unicode Standard, 5.8).
func cleanBreaks(r rune) bool {
	switch r {
	case '\n', '\v', '\f', '\r', '\u0085', '\u2028', '\u2029':
		return true
	}
	return false
}

// cleanCategory is clean for a CATEGORIES value, which some readers split at a
// comma even when it is escaped.
func cleanCategory(s string) string {
	return strings.Join(strings.FieldsFunc(clean(s), func(r rune) bool { return r == ',' || r == ' ' }), " ")
}

// cleanEmpty reports whether nothing would be seen of a text.
func cleanEmpty(s string) bool {
	for _, r := range s {
		if !unicode.IsSpace(r) && r != utf8.RuneError {
			return false
		}
	}
	return true
}
