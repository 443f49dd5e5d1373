package resources

import (
	"fmt"
	"math/big"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// The units of amounts that others go by. A count has its own word.
const (
	Percent = "%"
	Drops   = "drops"
)

// unitOf is a unit of amounts: how much of its kind it is, and what else it is called.
type unitOf struct {
	name     string
	kind     UnitKind
	num, den int64    // of g or mL; 0 where it is neither
	also     []string // in lower case, singular; these are offered and never taken
}

// UnitKind tells what amounts can be added: weights with weights, what is measured with what is measured.
type UnitKind int

// The kinds of units.
const (
	Counted  UnitKind = iota // sachets, and whatever else has a word: each its own
	Weighed                  // in g
	Measured                 // in mL: volumes, spoons and drops
	Active                   // IMCU, DCU: each its own
	Shared                   // %
)

// units are those that an amount is written in. US spoons and the pound are of NIST Handbook 44, Appendix C (1 tsp
// = 4.92892159375 mL, 1 tbsp = 3 tsp, 1 oz = 28.349523125 g); metric spoons have 5 and 15 mL. For a drop there is
// no standard: 0.05 mL, 20 to the mL, is common practice.
var units = []unitOf{
	{"mg", Weighed, 1, 1000, []string{"milligram"}},
	{"g", Weighed, 1, 1, []string{"gram", "gramme", "gr", "gm"}},
	{"kg", Weighed, 1000, 1, []string{"kilo", "kilogram"}},
	{"oz", Weighed, 28_349_523_125, 1_000_000_000, []string{"ounce"}},
	{"lb", Weighed, 45_359_237, 100_000, []string{"pound"}},
	{"mL", Measured, 1, 1, []string{"millilitre", "milliliter", "cc"}},
	{"L", Measured, 1000, 1, []string{"litre", "liter", "ltr"}},
	{"tsp", Measured, 492_892_159_375, 100_000_000_000, []string{"teaspoon", "ts", "teaspoonful"}},
	{"tbsp", Measured, 1_478_676_478_125, 100_000_000_000, []string{"tablespoon", "tb", "tbs"}},
	{"tsp (metric)", Measured, 5, 1, nil},
	{"tbsp (metric)", Measured, 15, 1, nil},
	{Drops, Measured, 1, 20, nil},
	{"IMCU", Active, 0, 0, nil},
	{"DCU", Active, 0, 0, nil},
	{Percent, Shared, 0, 0, []string{"percent", "per cent", "pct"}},
}

// KindOf tells which kind a unit is of.
func KindOf(unit string) UnitKind {
	if i := slices.IndexFunc(units, func(u unitOf) bool { return u.name == unit }); i >= 0 {
		return units[i].kind
	}
	return Counted
}

// IsSpoon reports whether a unit is a spoon, which is told in fractions.
func IsSpoon(unit string) bool {
	return strings.HasPrefix(unit, "tsp") || strings.HasPrefix(unit, "tbsp")
}

// InUnit is so much of one unit in another; false where they are not of one kind.
func InUnit(size *big.Rat, from, to string) (*big.Rat, bool) {
	if from == to {
		return size, true
	}
	a := slices.IndexFunc(units, func(u unitOf) bool { return u.name == from })
	b := slices.IndexFunc(units, func(u unitOf) bool { return u.name == to })
	if a < 0 || b < 0 || units[a].kind != units[b].kind || units[a].num == 0 {
		return nil, false
	}
	r := new(big.Rat).Mul(size, big.NewRat(units[a].num, units[a].den))
	return r.Quo(r, big.NewRat(units[b].num, units[b].den)), true
}

// UnitWord is a unit beside a number: what is counted takes the plural where it is more than one.
func UnitWord(unit string, one bool) string {
	switch {
	case unit == Drops && one:
		return "drop"
	case one || KindOf(unit) != Counted:
		return unit
	}
	for _, many := range []string{unit + "es", unit + "s"} {
		if singular(many) == unit {
			return many
		}
	}
	return unit // one whose plural would be read as another word
}

// amountUnit reads the unit that stands behind the number of a text.
func amountUnit(t, text string) (string, error) {
	const most = 24 // letters of a word that is counted
	plain := strings.ReplaceAll(t, " (", "(")
	switch plain {
	case "":
		return "", &QuantityError{"an amount needs its unit", text, amountSample}
	case "l":
		return "L", nil
	case "ml":
		return "mL", nil
	case "drop":
		return Drops, nil
	}
	word := singular(t)
	for _, u := range units {
		if plain == strings.ReplaceAll(u.name, " (", "(") {
			return u.name, nil
		}
	}
	for _, u := range units {
		if strings.EqualFold(word, u.name) || strings.EqualFold(t, u.name) || slices.Contains(u.also, strings.ToLower(word)) {
			return "", &QuantityError{fmt.Sprintf("%q is not how this unit is written", t), text, strings.Replace(text, t, u.name, 1)}
		}
	}
	for spoon, size := range map[string]string{"tsp": "4.93 mL", "tbsp": "14.79 mL"} {
		if strings.HasPrefix(t, spoon) {
			number := strings.TrimSpace(strings.TrimSuffix(text, t))
			return "", &QuantityError{"there are two sizes of " + spoon, text, fmt.Sprintf("%s %s (the US one, %s) or %s %s (metric)", number, spoon, size, number, spoon)}
		}
	}
	bad := func(r rune) bool { return !unicode.IsLetter(r) && r != '-' }
	first, _ := utf8.DecodeRuneInString(word)
	if utf8.RuneCountInString(word) > most || strings.ContainsFunc(word, bad) || !unicode.IsLetter(first) || !utf8.ValidString(word) {
		return "", &QuantityError{"this is not a unit, nor a word for what is counted", text, amountSample}
	}
	return word, nil
}

// singular is the word for one of what is counted.
func singular(word string) string {
	for _, end := range []string{"sses", "xes", "ches", "shes"} {
		if strings.HasSuffix(word, end) {
			return strings.TrimSuffix(word, "es")
		}
	}
	if one, ok := strings.CutSuffix(word, "s"); ok && len(one) > 1 && !strings.HasSuffix(one, "s") {
		return one
	}
	return word
}
