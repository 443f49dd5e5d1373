package resources

import (
	"fmt"
	"strings"
	"testing"
)

// Check digits: GS1 General Specifications 7.9; the first two numbers are those of its worked
// examples as the pages on Digital Link URIs of the barcode writer in PostScript have them; the next
// is a barcode number that pages on them have used for long, the last two were worked out by hand.
func TestCheckDigit(t *testing.T) {
	for digits, want := range map[string]string{
		"0952123454321": "3", "10614141123456789": "7", "629104150021": "3",
		"7351353": "7", // 3*3+5+3*3+1+3*5+3+3*7 = 63
		"0":       "0",
	} {
		if got := CheckDigit(digits); got != want {
			t.Errorf("%s: got %s, want %s", digits, got, want)
		}
	}
}

func TestParseGTIN(t *testing.T) {
	const digits = "a GTIN has 8, 12, 13 or 14 digits"
	checkQuantities(t, "GTIN", func(text string) (string, error) {
		g, err := ParseGTIN(text)
		return string(g), err
	}, []quantityCase{
		{"09521234543213", "09521234543213"}, {"9521234543213", "09521234543213"}, {"6291041500213", "06291041500213"}, {"629 1041 500213", "06291041500213"},
		{"73513537", "00000073513537"}, {"036000291452", "00036000291452"},
		{"9521234543218", `the last digit of a GTIN follows from the others, and here it would be 3: one of them is wrong: got "9521234543218"`},
		{"9521234543231", `the last digit of a GTIN follows from the others, and here it would be 7: one of them is wrong: got "9521234543231"`},
		{"952123454321", `the last digit of a GTIN follows from the others, and here it would be 4: one of them is wrong: got "952123454321"`},
		{"95212345432", digits + `: got "95212345432"`}, {"", digits + `: got ""`}, {"952123454321x", digits + `: got "952123454321x"`},
		{"095212345432139", digits + `: got "095212345432139"`}, {"٠٩٥٢١٢٣٤", digits + `: got "٠٩٥٢١٢٣٤"`},
	})
}

func TestParseArea(t *testing.T) {
	checkQuantities(t, "area", func(text string) (string, error) {
		a, err := ParseArea(text)
		return FormatArea(a), err
	}, []quantityCase{
		{"60 x 40 mm", "60 x 40 mm"}, {"6.35 x 3.39 cm", "63.5 x 33.9 mm"}, {"4 × 6 in", "101.6 x 152.4 mm"}, {"5 cm x 25 mm", "50 x 25 mm"},
		{"60 x 40", `a size needs its unit: got "60 x 40"; write 60 x 40 mm (or cm, in)`},
		{"60 mm", `this size has two sides, width x height: got "60 mm"; write 60 x 40 mm`},
		{"60 x 40 x 12 mm", `this size has two sides, width x height: got "60 x 40 x 12 mm"; write 60 x 40 mm`},
		{"60 x 0 mm", `each side of a size is more than 0: got "60 x 0 mm"; write 60 x 40 mm`},
	})
	checkQuantities(t, "distance", func(text string) (string, error) {
		d, err := ParseDistance(text)
		return FormatMillimetres(d), err
	}, []quantityCase{
		{"7 mm", "7 mm"}, {"63.5mm", "63.5 mm"}, {"0.5 in", "12.7 mm"}, {"0 mm", "0 mm"},
		{"7", `a distance needs its unit: got "7"; write 7 mm (or cm, in)`}, {"-1 mm", `a distance cannot be less than 0: got "-1 mm"`},
	})
}

// What a sheet does not say is worked out; what does not fit is told by the key that is at fault.
func TestSheets(t *testing.T) {
	mm := func(x float64) Micrometres { return Micrometres(x * 1000) }
	label := Area{mm(60), mm(40)}
	for _, c := range []struct {
		name  string
		paper string
		label Area
		sheet Sheet
		want  string
	}{
		{"paper alone", "A4", label, Sheet{Left: -1, Top: -1}, "3 x 7 from 15, 8.5 by 60, 40"},
		{"letter alone", "Letter", label, Sheet{Left: -1, Top: -1}, "3 x 6 from 17.95, 19.7 by 60, 40"},
		{"all is said", "A4", Area{mm(60), mm(30)}, Sheet{Columns: 3, Rows: 8, Left: mm(7), Top: mm(15), Across: mm(63.5), Down: mm(33.9)}, "3 x 8 from 7, 15 by 63.5, 33.9"},
		{"edge to edge", "A4", Area{mm(70), mm(37)}, Sheet{Columns: 3, Rows: 8, Left: -1, Top: -1}, "3 x 8 from 0, 0.5 by 70, 37"},
		{"from a corner on", "A6", label, Sheet{Left: mm(2), Top: mm(2), Across: mm(62), Down: mm(42)}, "1 x 3 from 2, 2 by 62, 42"},
		{"one that is the paper", "A6", Area{mm(105), mm(148)}, Sheet{Columns: 1, Rows: 1, Left: -1, Top: -1}, "1 x 1 from 0, 0 by 105, 148"},
		{"too wide", "A6", Area{mm(110), mm(40)}, Sheet{Left: -1, Top: -1}, "columns: no label of 110 mm fits across on A6, which is 105 mm"},
		{"too many", "A4", label, Sheet{Columns: 4, Rows: 8, Left: mm(7), Top: 0}, "columns: the last of 4 ends at 247 mm, and A4 is 210 mm; rows: the last of 8 ends at 320 mm, and A4 is 297 mm"},
		{"on each other", "A4", label, Sheet{Columns: 2, Rows: 2, Across: mm(59), Down: mm(40)}, "across: the labels would lie on each other: they are 60 mm, and the next one begins after 59 mm"},
		{"more than anybody cuts", "500 x 500 mm", Area{mm(20), mm(10)}, Sheet{Columns: 25, Rows: 50, Left: -1, Top: -1}, "rows: 1250 labels on one sheet are more than the limit of 1000"},
	} {
		p, err := ParsePaper(c.paper)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
		}
		s := c.sheet
		s.Paper = p
		s.Fill(c.label)
		var told []string
		for _, m := range s.Misfits(c.label) {
			told = append(told, m.Key+": "+m.What)
		}
		got := strings.Join(told, "; ")
		if got == "" {
			got = fmt.Sprintf("%d x %d from %s, %s by %s, %s", s.Columns, s.Rows, decimals(int64(s.Left), 3), decimals(int64(s.Top), 3), decimals(int64(s.Across), 3), decimals(int64(s.Down), 3))
		}
		if got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.want)
		}
	}
	if _, err := ParsePaper("A9"); err == nil || err.Error() != `this is not a paper: got "A9"; write A4, A5, A6 or Letter, or its size, such as 100 x 150 mm` {
		t.Errorf("A9: got %v", err)
	}
	if _, err := ParsePaper("501 x 20 mm"); err == nil {
		t.Error("501 mm is taken for a paper")
	}
	if u := UsualLabels(); len(u.Sheet.Misfits(u.Size)) > 0 || u.Sheet.Cells() != 21 {
		t.Errorf("the usual sheet: %+v", u.Sheet)
	}
}
