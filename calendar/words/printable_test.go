package words

import (
	"strings"
	"testing"
)

func TestPrintable(t *testing.T) {
	for _, c := range []struct{ name, in, want string }{
		{"plain", "Bramble hoop", "Bramble hoop"},
		{"letters", "Crème 心 גב", "Crème 心 גב"},
		{"newline", "a\nb\r", "a␊b␍"},
		{"nul and delete", "\x00\x7f", "␀␡"},
		{"escape", "\x1b[31m", "␛[31m"},
		{"next line", "a\u0085b", "a<U+0085>b"},
		{"right-to-left override", "a\u202eb", "a<U+202E>b"},
		{"isolate", "\u2067x\u2069", "<U+2067>x<U+2069>"},
		{"line separator", "a\u2028b", "a<U+2028>b"},
		{"zero width space", "a\u200bb", "a<U+200B>b"},
		{"byte order mark", "\ufeffa", "<U+FEFF>a"},
		{"soft hyphen", "a\u00adb", "a<U+00AD>b"},
		{"tag", "a\U000e0041", "a<U+E0041>"},
		{"hangul filler", "\u3164", "<U+3164>"},
		{"private", "\ue000", "<U+E000>"},
		{"broken", "a\xffb", "a\ufffdb"},
		{"no-break space", "a\u00a0b", "a b"},
		{"joiner between letters", "क्\u200dष", "क्\u200dष"},
		{"joiners in a row", "a\u200d\u200d\u200db", "a\u200db"},
		{"joined pictures", "👩\u200d🍳", "👩🍳"},
	} {
		if got := Printable(c.in); got != c.want {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
}

func TestShortName(t *testing.T) {
	for _, c := range []struct {
		in   string
		most int
		want string
		cut  bool
	}{
		{"short", 5, "short", false},
		{"longer", 5, "l...r", true},
		{strings.Repeat("a", 47) + "z", 48, strings.Repeat("a", 47) + "z", false},
		{strings.Repeat("a", 48) + "z", 48, strings.Repeat("a", 29) + "..." + strings.Repeat("a", 15) + "z", true},
		{strings.Repeat("心", 30), 20, strings.Repeat("心", 5) + "..." + strings.Repeat("心", 3), true},
	} {
		got, cut := Short(c.in, c.most)
		if got != c.want || cut != c.cut {
			t.Errorf("shortName(%q, %d): got %q, %t, want %q, %t", c.in, c.most, got, cut, c.want, c.cut)
		}
		if Wide(got) > c.most {
			t.Errorf("shortName(%q, %d): got %d columns", c.in, c.most, Wide(got))
		}
	}
}

func TestWrapText(t *testing.T) {
	for _, c := range []struct {
		in    string
		width int
		want  string
	}{
		{"", 5, ""},
		{"one two three", 7, "one two|three"},
		{"8" + Glue + "L, 16" + Glue + "pieces", 9, "8 L,|16 pieces"},
		{"unbreakable", 4, "unbr|eaka|ble"},
		{"心心心", 4, "心心|心"},
		{"心", 1, "心"}, // no narrower than one character
		{"a  b", 5, "a b"},
		{"e\u0301e\u0301e\u0301", 2, "e\u0301e\u0301|e\u0301"},
	} {
		if got := strings.Join(Wrap(c.in, c.width), "|"); got != c.want {
			t.Errorf("wrapText(%q, %d): got %q, want %q", c.in, c.width, got, c.want)
		}
	}
}
