package resources

import "testing"

func TestParseFactor(t *testing.T) {
	checkQuantities(t, "factor", func(text string) (Factor, error) { return ParseFactor(text) }, []quantityCase{
		{"1.18", "1180"}, {"1", "1000"}, {"0.5", "500"}, {"1.117", "1117"}, {"0", "0"}, {"-1.5", "-1500"},
		{"1,18", `decimals come after a point, and thousands have no comma: got "1,18"; write 1.18`},
		{"1.1804", `a factor has at most three decimals: got "1.1804"; write 1.18`},
		{"1.18 x", `a factor is a plain number, without a unit: got "1.18 x"; write 1.18`},
		{"more", `a factor is a plain number: got "more"; write 1.18`},
	})
}

func TestParsePercent(t *testing.T) {
	checkQuantities(t, "percent", func(text string) (Factor, error) { return ParsePercent(text) }, []quantityCase{
		{"15 %", "150"}, {"12.5%", "125"}, {"100 %", "1000"},
		{"15", `a share is told in percent: got "15"; write 15 %`},
		{"0.15 %", `a share has at most one decimal: got "0.15 %"; write 0.2 %`},
		{"15,5 %", `decimals come after a point, and thousands have no comma: got "15,5 %"; write 15.5 %`},
		{"some", `a share starts with a number: got "some"; write 15 %`},
	})
}

func TestFactorsAreReadBack(t *testing.T) {
	for _, f := range []Factor{0, 1, 150, 500, 1000, 1117, 1180, 2500} {
		readBack(t, FormatFactor(f), ParseFactor, FormatFactor)
		readBack(t, FormatPercent(f), ParsePercent, FormatPercent)
	}
}
