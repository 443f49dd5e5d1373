package resources

import (
	"fmt"
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestParseAmount(t *testing.T) {
	show := func(text string) (string, error) {
		a, err := ParseAmount(text)
		return fmt.Sprintf("%d/%d %s", a.Num, a.Den, a.Unit), err
	}
	checkQuantities(t, "amount", show, []quantityCase{
		{"0.12 g", "3/25 g"}, {"2g", "2/1 g"}, {"4.5 IMCU", "9/2 IMCU"}, {"1.25 DCU", "5/4 DCU"}, {"1.5 %", "3/2 %"}, {"1.5%", "3/2 %"},
		{"1/8 tsp", "1/8 tsp"}, {"1 1/2 tsp", "3/2 tsp"}, {"2/16 tsp (metric)", "1/8 tsp (metric)"}, {"1 tbsp(metric)", "1/1 tbsp (metric)"},
		{"3 drops", "3/1 drops"}, {"1 drop", "1/1 drops"}, {"1 sachet", "1/1 sachet"}, {"2 sachets", "2/1 sachet"}, {"3 boxes", "3/1 box"}, {"2 glass", "2/1 glass"},
		{"5 ml", "5/1 mL"}, {"1 l", "1/1 L"}, {"8 oz", "8/1 oz"}, {"250 mg", "250/1 mg"},
		{"0.12", `an amount needs its unit: got "0.12"; write 0.12 g, 2 mL, 1/8 tsp or 1 sachet`},
		{"a pinch", `an amount starts with a number: got "a pinch"; write 0.12 g, 2 mL, 1/8 tsp or 1 sachet`},
		{"2 grams", `"grams" is not how this unit is written: got "2 grams"; write 2 g`},
		{"2 teaspoons", `"teaspoons" is not how this unit is written: got "2 teaspoons"; write 2 tsp`},
		{"2 imcu", `"imcu" is not how this unit is written: got "2 imcu"; write 2 IMCU`},
		{"1 tsp (AU)", `there are two sizes of tsp: got "1 tsp (AU)"; write 1 tsp (the US one, 4.93 mL) or 1 tsp (metric)`},
		{"0 g", `an amount is more than 0: got "0 g"`}, {"-1 g", `an amount is more than 0: got "-1 g"`},
		{"1/0 tsp", `nothing is divided by 0: got "1/0 tsp"; write 1/8 tsp`},
		{"0,12 g", `decimals come after a point, and thousands have no comma: got "0,12 g"; write 0.12 g`},
		{"100001 g", `more than the limit of 100000 g: got "100001 g"`},
		{"1 small sachet", `this is not a unit, nor a word for what is counted: got "1 small sachet"; write 0.12 g, 2 mL, 1/8 tsp or 1 sachet`},
		{"1.5/2 tsp", `an amount is written as a plain decimal number: got "1.5/2 tsp"; write 1.5 g, 1.5 mL, 1.5 tsp or 1.5 sachet`},
	})
}

func TestParseStrength(t *testing.T) {
	const want = "; write 200 IMCU/mL or 25 DCU/sachet"
	show := func(text string) (string, error) {
		s, err := ParseStrength(text)
		return fmt.Sprintf("%s in %s", FormatAmount(s.Holds), s.In), err
	}
	checkQuantities(t, "strength", show, []quantityCase{
		{"200 IMCU/mL", "200 IMCU in mL"}, {"280 IMCU / ml", "280 IMCU in mL"}, {"25 DCU/sachet", "25 DCU in sachet"}, {"25 DCU/sachets", "25 DCU in sachet"},
		{"200", `a strength is so much in one of something: got "200"` + want},
		{"200 IMCU", `a strength is so much in one of something: got "200 IMCU"` + want},
		{"200 /mL", `an amount needs its unit: got "200 /mL"` + want},
		{"1/8", `a strength is so much in one of something: got "1/8"` + want},
		{"20 %/mL", `a strength is so much in one of something else: got "20 %/mL"` + want},
		{"2 g/g", `a strength is so much in one of something else: got "2 g/g"` + want},
		{"0.01 IMCU/mL", `a strength is at least 0.1: got "0.01 IMCU/mL"` + want},
	})
}

// What units are of each other. US measures by NIST Handbook 44, Appendix C (a teaspoon is 1/768 of the gallon of
// 3785.411784 mL); the decimals of its parts are worked
// out from it.
func TestUnitsOfTheNISTHandbook44AppendixC(t *testing.T) {
	for _, c := range []struct {
		amount, in, want string
	}{
		{"1 tsp", "mL", "4.92892159375"}, {"1/2 tsp", "mL", "2.4645"}, {"1/4 tsp", "mL", "1.2322"}, {"1/8 tsp", "mL", "0.6161"},
		{"1/16 tsp", "mL", "0.3081"}, {"1/32 tsp", "mL", "0.1540"}, {"1/64 tsp", "mL", "0.0770"},
		{"1 tbsp", "mL", "14.78676478125"}, {"1 tbsp", "tsp", "3"}, {"1 tsp (metric)", "mL", "5"}, {"1 tbsp (metric)", "mL", "15"},
		{"1 lb", "kg", "0.45359237"}, {"1 lb", "oz", "16"}, {"1 oz", "g", "28.349523125"},
		{"20 drops", "mL", "1"}, // 0.05 mL a drop is common practice, and no standard
		{"768 tsp", "mL", "3785.411784"}, {"250 mg", "g", "0.25"}, {"1.5 L", "mL", "1500"},
	} {
		a, err := ParseAmount(c.amount)
		if err != nil {
			t.Fatal(err)
		}
		got, ok := InUnit(a.Rat(), a.Unit, c.in)
		places := len(c.want) - strings.Index(c.want+".", ".") - 1
		if !ok || got.FloatString(max(places, 0)) != c.want {
			t.Errorf("%s: got %v %s, want %s", c.amount, got, c.in, c.want)
		}
	}
	for _, c := range [][2]string{{"g", "mL"}, {"IMCU", "DCU"}, {"sachet", "tub"}, {"sachet", "g"}, {"%", "g"}} {
		if got, ok := InUnit(big.NewRat(1, 1), c[0], c[1]); ok {
			t.Errorf("1 %s: got %v %s, want that it cannot be said", c[0], got, c[1])
		}
	}
}

// Whatever number of whatever unit there is, it is printed as it is read.
func TestEveryAmountIsReadBack(t *testing.T) {
	words := []string{"sachet", "box", "glass", "cache", "lens", "dish", "s", "chess", "é"}
	for _, u := range units {
		words = append(words, u.name)
	}
	rapid.Check(t, func(t *rapid.T) {
		over := rapid.Int64Range(1, 1_000_000).Draw(t, "over")
		size := big.NewRat(rapid.Int64Range(1, over*1000).Draw(t, "top"), over)
		text := fmt.Sprintf("%s/%s %s", size.Num(), size.Denom(), rapid.SampledFrom(words).Draw(t, "unit"))
		a, err := ParseAmount(text)
		if err != nil {
			if strings.Contains(err.Error(), "at most 9 digits") {
				return
			}
			t.Fatal(err)
		}
		if again, err := ParseAmount(FormatAmount(a)); err != nil || again != a || a.Rat().Cmp(size) != 0 {
			t.Fatalf("%q is read as %v and printed as %q, which is read as %v, %v", text, a, FormatAmount(a), again, err)
		}
	})
}
