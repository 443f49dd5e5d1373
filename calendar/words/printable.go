package words

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Printable makes a name harmless to show: control characters, marks that change
// the direction of writing, characters without a look of their own and broken
// UTF-8 are replaced by something that can be seen. Joiners stay where letters
// need them; between pictures they are dropped, since readers disagree on how
// wide the joined picture is.
func Printable(s string) string {
	var b strings.Builder
	letter := false // a joiner may stand here
	for i, r := range s {
		switch {
		case r == utf8.RuneError && !strings.HasPrefix(s[i:], "\ufffd"):
			b.WriteRune('\ufffd')
		case r < 0x20:
			b.WriteRune('\u2400' + r) // the picture of the control
		case r == 0x7f:
			b.WriteRune('\u2421')
		case r == '\u200c' || r == '\u200d':
			if letter {
				b.WriteRune(r)
			}
		case r == '\u2028' || r == '\u2029' || unicode.Is(unicode.Cf, r) || unicode.Is(unicode.Cc, r) ||
			unicode.Is(unicode.Other_Default_Ignorable_Code_Point, r):
			fmt.Fprintf(&b, "<U+%04X>", r)
		case unicode.Is(unicode.Zs, r):
			b.WriteByte(' ')
		case !unicode.IsPrint(r):
			fmt.Fprintf(&b, "<U+%04X>", r)
		default:
			b.WriteRune(r)
		}
		letter = unicode.IsLetter(r) || (letter && unicode.IsMark(r))
	}
	return b.String()
}

// Formula reports whether a spreadsheet would take a text for a formula, also after spaces and in
// the wide forms of its signs. An apostrophe in front has it taken for a text.
func Formula(s string) bool {
	first, size := utf8.DecodeRuneInString(strings.TrimLeft(s, " \u00a0"))
	return size > 0 && strings.ContainsRune("=+-@\t\r\n\uff1d\uff0b\uff0d\uff20", first)
}
