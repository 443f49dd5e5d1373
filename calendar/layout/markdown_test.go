package layout

import "testing"

func TestMarkdownText(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"a|b", `a\|b`}, {`a\`, `a\\`}, {"*x*", `\*x\*`}, {"<br>", `\<br\>`}, {"1. x", `1\. x`}, {"BH-270316-1", "BH-270316-1"},
		{"- x", `\- x`}, {"http://x.org", `http\://x.org`}, {"www.x.org", `www\.x.org`}, {"@you", `\@you`}, {"4.5 L", `4\.5 L`}, {"a 4.5 L", "a 4.5 L"},
	} {
		if got := MarkdownText(c.in); got != c.want {
			t.Errorf("markdownText(%q): got %q, want %q", c.in, got, c.want)
		}
	}
}
