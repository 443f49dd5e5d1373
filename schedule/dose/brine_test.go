package dose

import (
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

// r reads a number that a test writes.
func r(t interface{ Fatal(...any) }, text string) *big.Rat {
	x, ok := new(big.Rat).SetString(text)
	if !ok {
		t.Fatal(text)
	}
	return x
}

// Brines as they are published, and what follows from the formulas.
func TestPublishedBrines(t *testing.T) {
	for _, c := range []struct {
		source string
		got    *big.Rat
		places int
		want   string
	}{
		{"D11, a web page on the strength of a brine: 800 g in 4 L of water", BrinePercent(r(t, "0.8"), r(t, "4")), 2, "16.67"},
		{"D12, cheeseforum.org, topic 1043: 35.9 g in 100 g of water", BrinePercent(r(t, "35.9"), r(t, "100")), 1, "26.4"},
		{"D14, labdirect.com.au, salinometer: 20 degrees", OfSalometer(r(t, "20")), 2, "5.28"},
		{"D16, worked out: 10 kg that fell from 20 to 18 %", BrineRaise(r(t, "18"), r(t, "20"), r(t, "10")), 3, "0.250"},
		{"D20, cheesemaking.com.au, using a brine: one and a half times the cheese's volume", BrineLeast(r(t, "2")), 1, "3.0"},
		{"12.3, worked out: 80 g at sale with a loss of 12 %", BeforeLoss(r(t, "80"), r(t, "12")), 1, "90.9"},
	} {
		if got := c.got.FloatString(c.places); got != c.want {
			t.Errorf("%s: got %s, want %s", c.source, got, c.want)
		}
	}
	// D13, worked out, 1000 p / (100 - p): g of salt for a kg of water.
	for percent, want := range map[string]string{"2": "20.4", "6": "63.8", "8": "87.0", "10": "111.1", "12": "136.4", "15": "176.5", "18": "219.5", "20": "250.0", "22": "282.1", "25": "333.3", "26.4": "358.7"} {
		if got := BrineSalt(r(t, percent), r(t, "1000")).FloatString(1); got != want {
			t.Errorf("D13, %s %%: got %s g, want %s g", percent, got, want)
		}
	}
	// D15, from memory: the Baumé scale of the US Bureau of Standards for what is heavier than water.
	for degrees, want := range map[string]string{"10": "1.0741", "12": "1.0902", "15": "1.1154", "16": "1.1240", "18": "1.1417", "20": "1.1600", "24": "1.1983"} {
		if got := OfBaume(r(t, degrees)).FloatString(4); got != want {
			t.Errorf("D15, %s degrees Baumé: got %s, want %s", degrees, got, want)
		}
	}
	// D19, worked out: 12 L of milk of 1.03 kg, 0.02 % of its weight.
	if dry, wet := CalciumMost(r(t, "12360")); dry.FloatString(2) != "2.47" || wet.FloatString(2) != "3.27" {
		t.Errorf("D19: got %s and %s g, want 2.47 and 3.27 g", dry.FloatString(2), wet.FloatString(2))
	}
}

// Standardising as it is published.
func TestPublishedBlends(t *testing.T) {
	cream, skim, ok := Blend(r(t, "40"), r(t, "0.05"), r(t, "3.5"), r(t, "1000"))
	if !ok || cream.FloatString(1) != "86.4" || skim.FloatString(1) != "913.6" {
		t.Errorf("D7, dairyconsultant.co.uk, Pearson's square: got %v and %v", cream, skim)
	}
	milk, skim, ok := Blend(r(t, "3.9"), r(t, "0"), r(t, "2.6"), r(t, "3.9"))
	if !ok || milk.FloatString(1) != "2.6" || skim.FloatString(1) != "1.3" {
		t.Errorf("D10, chadhasales.com, how to standardise milk: got %v and %v", milk, skim)
	}
	for _, c := range []struct{ source, a, amount, b, want, add string }{
		{"D8, uoguelph.ca, standardization problems: 160 kg of cream", "40", "160", "0", "32", "40"},
		{"D9, the same: 500 kg of milk", "4", "500", "35", "10", "120"},
		{"nothing is added to what is right", "4", "500", "35", "4", "0"},
	} {
		if got, ok := BlendWith(r(t, c.a), r(t, c.amount), r(t, c.b), r(t, c.want)); !ok || got.FloatString(0) != c.add {
			t.Errorf("%s: got %v, %v, want %s", c.source, got, ok, c.add)
		}
	}
	for _, c := range [][3]string{{"4", "35", "3"}, {"4", "35", "36"}, {"4", "4", "4"}} {
		if _, _, ok := Blend(r(t, c[0]), r(t, c[1]), r(t, c[2]), r(t, "1")); ok {
			t.Errorf("%v: a blend is found", c)
		}
	}
	if _, ok := BlendWith(r(t, "4"), r(t, "1"), r(t, "35"), r(t, "35")); ok {
		t.Error("some amount of cream is found that makes milk of it")
	}
}

// What is mixed has the strength that was asked for, exactly, and nothing is lost.
func TestMixesAreWhatWasAsked(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		percent := func(name string) *big.Rat { return big.NewRat(rapid.Int64Range(1, 260).Draw(t, name), 10) }
		p, q, water := percent("p"), percent("q"), big.NewRat(rapid.Int64Range(1, 100_000).Draw(t, "water"), 7)
		salt := BrineSalt(p, water)
		if got := BrinePercent(salt, water); got.Cmp(p) != 0 {
			t.Fatalf("%v %% comes out at %v", p, got)
		}
		if p.Cmp(q) > 0 {
			brine := new(big.Rat).Add(BrineSalt(q, water), water)
			more := new(big.Rat).Add(BrineSalt(q, water), BrineRaise(q, p, brine))
			if more.Cmp(salt) != 0 {
				t.Fatalf("from %v to %v %%: got %v of salt in all, want %v", q, p, more, salt)
			}
		}
		share := big.NewRat(rapid.Int64Range(0, 10).Draw(t, "share"), 10)
		want := new(big.Rat).Add(p, new(big.Rat).Mul(share, new(big.Rat).Sub(q, p)))
		ofP, ofQ, ok := Blend(p, q, want, water)
		if !ok {
			if p.Cmp(q) != 0 {
				t.Fatalf("no blend of %v and %v %% has %v %%", p, q, want)
			}
			return
		}
		fat := new(big.Rat).Add(new(big.Rat).Mul(ofP, p), new(big.Rat).Mul(ofQ, q))
		if all := new(big.Rat).Add(ofP, ofQ); all.Cmp(water) != 0 || fat.Quo(fat, all).Cmp(want) != 0 || ofP.Sign() < 0 || ofQ.Sign() < 0 {
			t.Fatalf("%v of %v %% and %v of %v %% are not %v of %v %%", ofP, p, ofQ, q, water, want)
		}
		if more, ok := BlendWith(p, ofP, q, want); ok && ofP.Sign() > 0 && more.Cmp(ofQ) != 0 {
			t.Fatalf("got %v to add, want %v", more, ofQ)
		}
	})
}
