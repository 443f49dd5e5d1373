package dose

import (
	"math/big"

	"ripeby/resources"
	"ripeby/schedule"
)

// Once is the dose of one need by itself, beside any plan: for so many litres of milk, or so much curd; rounded to
// what can be measured with a scale, the zero Amount for the usual ones.
func Once(n *schedule.Need, litres resources.Millilitres, curd resources.Milligrams, scale resources.Amount) schedule.Dose {
	d, _ := doseOf(n, size{litres: litres, curd: curd}, resources.Strength{}, scale)
	return d
}

// Weight is so many grams as they can be measured with the usual scales.
func Weight(grams *big.Rat) schedule.Dose {
	amount, unit, rounded := measurable(grams, "g", resources.Amount{})
	return schedule.Dose{Amount: parts(amount), Rounded: parts(rounded), Unit: unit}
}

// doseOf scales a need and rounds it; fits as for [scaled].
func doseOf(n *schedule.Need, by size, packet resources.Strength, scale resources.Amount) (schedule.Dose, bool) {
	d := schedule.Dose{What: n.What}
	amount, unit, of, fits := scaled(n, by, packet)
	if !of.IsZero() {
		d.Strength = resources.FormatStrength(of)
	}
	rounded := amount
	if d.Unit = unit; unit != resources.Percent {
		amount, d.Unit, rounded = measurable(amount, unit, scale)
	}
	d.Amount, d.Rounded = parts(amount), parts(rounded)
	return d, fits
}
