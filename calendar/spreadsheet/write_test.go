package spreadsheet

import (
	"encoding/csv"
	"slices"
	"strings"
	"testing"
)

// What a spreadsheet would reckon is marked, wherever a reader of RFC 4180 finds it.
func TestCell(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"", ""}, {"plain", "plain"}, {"=1+1", "'=1+1"}, {"+1+1", "'+1+1"}, {"-1", "-1"}, {"-1-1", "'-1-1"}, {"-1.5", "'-1.5"}, {"@x", "'@x"},
		{"\t=1", "'␉=1"}, {"\r=1", "'␍=1"}, {"  =1", "'  =1"}, {"＝1", "'＝1"}, {"a=1", "a=1"}, {"a\nb", "a␊b"},
	} {
		if got := Cell(c.in); got != c.want {
			t.Errorf("%q: got %q, want %q", c.in, got, c.want)
		}
	}
}

// RFC 4180, section 2: lines end in CRLF; commas and quotation marks stand in quotation marks.
func TestWriteReadsBack(t *testing.T) {
	var b strings.Builder
	rows := [][]string{{`a "b", c; d`, ""}, {"=1", "-3"}}
	if err := Write(&b, []string{"one", "two"}, rows); err != nil {
		t.Fatal(err)
	}
	if want := "one,two\r\n\"a \"\"b\"\", c; d\",\r\n'=1,-3\r\n"; b.String() != want {
		t.Errorf("got %q, want %q", b.String(), want)
	}
	got, err := csv.NewReader(strings.NewReader(b.String())).ReadAll()
	if want := [][]string{{"one", "two"}, rows[0], {"'=1", "-3"}}; err != nil || !slices.EqualFunc(got, want, slices.Equal[[]string]) {
		t.Errorf("got %q, %v, want %q", got, err, want)
	}
	b.Reset()
	if err := Records(&b, []string{"one", "two"}, []map[string]string{{"two": "x", "three": "y"}}); err != nil || b.String() != "one,two\r\n,x\r\n" {
		t.Errorf("got %q, %v", b.String(), err)
	}
}
