package main

import (
	"fmt"
	"math/big"

	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/dose"
)

// mix is a question that ripeby mix answers: what it wants, and the answer to that, beside the words as they were
// given.
type mix struct {
	name, example string
	wants         []mixWant
	answer        func(given []*big.Rat, words []string) ([]string, error)
}

// What weighs how much a litre, in grams. Milk of 1.03 kg is common practice; water at 20 °C has 0.998 kg.
const (
	gramsOfWater = 1000
	gramsOfMilk  = 1030
)

// mixes are all of them, in the order in which they are told.
var mixes = []mix{
	{"brine", "18 % 10 L", []mixWant{percentOf("salt"), weightOf("water", gramsOfWater)}, brineAnswer},
	{"strength", "800 g 4 L", []mixWant{weightOf("salt", 0), weightOf("water", gramsOfWater)}, strengthAnswer},
	{"raise", "18 % 20 % 10 kg", []mixWant{percentOf("the brine"), percentOf("the brine that is wanted"), weightOf("brine", 0)}, raiseAnswer},
	{"baume", "18", []mixWant{degreesUpTo(70)}, baumeAnswer},
	{"salometer", "20", []mixWant{degreesUpTo(100)}, salometerAnswer},
	{"vat", "2 L", []mixWant{litresOf("cheese")}, vatAnswer},
	{"salt", "1.5 % 2.4 kg", []mixWant{asWritten("per cent of the curd"), asWritten("the weight of the curd")}, saltAnswer},
	{"drying", "80 g 12 %", []mixWant{weightOf("cheese", 0), percentOf("what dries off")}, dryingAnswer},
	{"blend", "40 % 0.05 % 3.5 % 1000 kg", []mixWant{percentOf("the first"), percentOf("the second"), percentOf("what is wanted"), weightOf("what is wanted", 0)}, blendAnswer},
	{"fatten", "4 % 500 kg 35 % 10 %", []mixWant{percentOf("what there is"), weightOf("what there is", 0), percentOf("what is added"), percentOf("what is wanted")}, fattenAnswer},
	{"dose", "45 IMCU 10 L 150 IMCU/mL", []mixWant{asWritten("a dose per litre"), asWritten("the litres of milk"), asWritten("the strength")}, doseAnswer},
	{"calcium", "12 L", []mixWant{weightOf("milk", gramsOfMilk)}, calciumAnswer},
}

// byWeight is what per cents of brine are of.
const byWeight = "Per cents are by weight of the brine (w/w); a litre of water is taken as 1 kg."

// grams is a weight as it can be measured, with what it would be exactly.
func grams(g *big.Rat) string {
	switch {
	case g.Sign() == 0:
		return "nothing"
	case g.Cmp(big.NewRat(1000, 1)) >= 0 && !g.IsInt():
		return kilograms(g) + " (rounded to whole grams)"
	case g.IsInt():
		return kilograms(g)
	}
	d := dose.Weight(g)
	return words.Unglue(words.Dose(&d))
}

// tooStrong says why no brine has so many per cent.
func tooStrong(percent *big.Rat) error {
	if percent.Cmp(dose.Saturated()) > 0 {
		return fmt.Errorf("at 20 °C a brine holds no more than %s %% of salt, by weight of the brine", dose.Saturated().FloatString(1))
	}
	return nil
}

func brineAnswer(given []*big.Rat, said []string) ([]string, error) {
	if err := tooStrong(given[0]); err != nil {
		return nil, err
	}
	salt := dose.BrineSalt(given[0], given[1])
	all := new(big.Rat).Add(salt, given[1])
	return []string{fmt.Sprintf("Salt: %s, in %s of water; together %s.", grams(salt), said[1], kilograms(all)), byWeight}, nil
}

// kilograms is a weight to the nearest gram.
func kilograms(g *big.Rat) string {
	return resources.FormatMass(resources.Milligrams(wholeOf(g)) * gram)
}

// wholeOf is the nearest whole number.
func wholeOf(x *big.Rat) int64 {
	n := new(big.Rat).Add(x, big.NewRat(1, 2))
	return new(big.Int).Div(n.Num(), n.Denom()).Int64()
}

func strengthAnswer(given []*big.Rat, said []string) ([]string, error) {
	percent := dose.BrinePercent(given[0], given[1])
	if err := tooStrong(percent); err != nil {
		return nil, fmt.Errorf("%s of salt do not dissolve in %s of water: %w", said[0], said[1], err)
	}
	return []string{fmt.Sprintf("Strength: %s %%, rounded to hundredths.", percent.FloatString(2)), byWeight}, nil
}

func raiseAnswer(given []*big.Rat, said []string) ([]string, error) {
	if err := tooStrong(given[1]); err != nil {
		return nil, err
	}
	if given[0].Cmp(given[1]) > 0 {
		return nil, fmt.Errorf("%s is stronger than %s: salt makes no brine weaker", said[0], said[1])
	}
	return []string{fmt.Sprintf("Salt to add: %s, to %s of brine.", grams(dose.BrineRaise(given[0], given[1], given[2])), said[2]),
		"Per cents are by weight of the brine (w/w)."}, nil
}

func baumeAnswer(given []*big.Rat, said []string) ([]string, error) {
	return []string{fmt.Sprintf("%s degrees Baumé: %s times as heavy as water, rounded to ten-thousandths.", said[0], dose.OfBaume(given[0]).FloatString(4)),
		"This is the scale of modulus 145, for what is heavier than water; other hydrometers have others."}, nil
}

func salometerAnswer(given []*big.Rat, said []string) ([]string, error) {
	return []string{fmt.Sprintf("%s degrees: %s %% of salt, rounded to hundredths.", said[0], dose.OfSalometer(given[0]).FloatString(2)),
		"100 degrees are a saturated brine, " + dose.Saturated().FloatString(1) + " % by weight of the brine (w/w) at 20 °C."}, nil
}

func vatAnswer(given []*big.Rat, said []string) ([]string, error) {
	return []string{fmt.Sprintf("Brine: %s L at least, for %s of cheese.", dose.BrineLeast(given[0]).FloatString(2), said[0]),
		"This is a supplier's rule: one and a half times as much brine as cheese, by volume. How long a cheese stays in it is your own to find out."}, nil
}

func saltAnswer(_ []*big.Rat, said []string) ([]string, error) {
	percent, err := resources.ParseAmount(said[0])
	if err != nil {
		return nil, err
	}
	if percent.Unit != resources.Percent || percent.Rat().Cmp(big.NewRat(100, 1)) >= 0 {
		return nil, fmt.Errorf("salt is a share of the curd, in %% and below 100: got %q", said[0])
	}
	curd, err := weightOf("curd", 0).read(said[1])
	if err != nil {
		return nil, err
	}
	n := schedule.Need{What: "Salt:", Per: schedule.PerCurd, Amount: percent}
	d := dose.Once(&n, 0, resources.Milligrams(wholeOf(curd.Mul(curd, big.NewRat(gram, 1)))), resources.Amount{})
	return []string{words.Unglue(words.DoseLine(&d, words.Printable, words.Unglue)) + ", for " + said[1] + " of curd.",
		"Per cents are by weight of the curd. Of cheese in a brine it is what the brine loses."}, nil
}

func dryingAnswer(given []*big.Rat, said []string) ([]string, error) {
	return []string{fmt.Sprintf("Before: %s, to have %s when %s have dried off.", grams(dose.BeforeLoss(given[0], given[1])), said[0], said[1]),
		"Per cents are of the weight before. How much dries off is your own to weigh."}, nil
}

func blendAnswer(given []*big.Rat, said []string) ([]string, error) {
	first, second, ok := dose.Blend(given[0], given[1], given[2], given[3])
	if !ok {
		return nil, fmt.Errorf("no mix of %s and %s has %s", said[0], said[1], said[2])
	}
	return []string{fmt.Sprintf("Of the first (%s): %s. Of the second (%s): %s.", said[0], grams(first), said[1], grams(second)),
		"Per cents and amounts are by weight."}, nil
}

func fattenAnswer(given []*big.Rat, said []string) ([]string, error) {
	add, ok := dose.BlendWith(given[0], given[1], given[2], given[3])
	if !ok {
		return nil, fmt.Errorf("no amount of what has %s brings %s to %s", said[2], said[0], said[3])
	}
	return []string{fmt.Sprintf("To add (%s): %s. Together %s.", said[2], grams(add), kilograms(new(big.Rat).Add(add, given[1]))), "Per cents and amounts are by weight."}, nil
}

func doseAnswer(_ []*big.Rat, said []string) ([]string, error) {
	amount, err := resources.ParseAmount(said[0])
	if err != nil {
		return nil, err
	}
	litres, err := litresOf("milk").read(said[1])
	if err != nil {
		return nil, err
	}
	strength, err := resources.ParseStrength(said[2])
	if err != nil {
		return nil, err
	}
	if amount.Unit != strength.Holds.Unit && amount.Unit != strength.In || amount.Unit == resources.Percent {
		return nil, fmt.Errorf("a dose in %s says nothing of what has %s", amount.Unit, said[2])
	}
	n := schedule.Need{What: "Take", Per: schedule.PerLitre, Amount: amount, Strength: strength}
	d := dose.Once(&n, resources.Millilitres(wholeOf(litres.Mul(litres, big.NewRat(1000, 1)))), 0, resources.Amount{})
	return []string{words.Unglue(words.DoseLine(&d, words.Printable, words.Unglue)) + ", for " + said[1] + " of milk.", words.DosesAreYours}, nil
}

func calciumAnswer(given []*big.Rat, said []string) ([]string, error) {
	dry, wet := dose.CalciumMost(given[0])
	return []string{fmt.Sprintf("Calcium chloride for %s of milk: no more than %s without water, or %s as the dihydrate.", said[0], grams(dry), grams(wet)),
		"It is what the United States allow at most, 0.02 % of the milk's weight (21 CFR 133); a litre of milk is taken as 1.03 kg. It is no dose: yours, and what your own rules allow, are yours to find out."}, nil
}
