package words

import (
	"fmt"
	"strconv"
	"strings"

	"ripeby/resources"
	"ripeby/schedule"
)

// DosesAreYours is said once wherever what goes in is added up.
const DosesAreYours = "How much goes in is your own to say; ripeby only scales it."

// Dose says how much of a dose is taken, as it can be measured, and how much it would be exactly where that is
// another: "2.9 mL (exactly 2.857)". Where rounding changes it by more than a tenth, it says by how much.
func Dose(d *schedule.Dose) string {
	if d.Unweighed() {
		return "____" + Glue + "g (" + figures(d.Amount) + Glue + "% of the curd)" // to be filled in

	}
	if d.Rounded == 0 {
		return told(d.Amount, d.Unit) + " (less than can be measured here)"
	}
	s := told(d.Rounded, d.Unit)
	if d.Rounded != d.Amount {
		s += " (exactly " + figures(d.Amount)
		if off := 100 * (d.Rounded - d.Amount) / max(d.Amount, 1); off > 10 || off < -10 {
			s += fmt.Sprintf(", off by %d"+Glue+"%%", max(off, -off))
		}
		s += ")"
	}
	return s
}

// DoseLine is what goes in, how much of it, of which strength and from which packet. Names are written by name, and
// the amount, which is printable, by much.
func DoseLine(d *schedule.Dose, name, much func(string) string) string {
	s := name(d.What) + " " + much(Dose(d))
	if d.Strength != "" {
		s += ", of " + name(d.Strength)
	}
	if d.Lot != "" {
		s += ", packet " + name(d.Lot)
	}
	return s
}

// Sum is so many millionths of a unit, of all that is taken: "0.18 mL", "1.2 kg" of 1,200 g.
func Sum(n int64, unit string) string {
	if unit == "g" && n >= 1000*1_000_000 {
		n, unit = n/1000, "kg"
	}
	return told(n, unit)
}

// told is so much of a unit, spoons as those that are filled: "1/4 + 1/16 tsp".
func told(n int64, unit string) string {
	unit = Printable(unit)
	if resources.IsSpoon(unit) {
		if s, ok := spoons(n); ok {
			return s + Glue + unit
		}
	}
	return figures(n) + Glue + resources.UnitWord(unit, n <= 1_000_000)
}

// figures are so many millionths with no more than four figures, where some come after the point.
func figures(n int64) string {
	size := float64(n) / 1e6
	s := strconv.FormatFloat(size, 'f', -1, 64)
	if strings.Contains(s, ".") && len(strings.TrimLeft(strings.Replace(s, ".", "", 1), "0")) > 4 {
		places := 3
		for least := 1.0; size >= 10*least && places > 1; least *= 10 {
			places--
		}
		for least := 1.0; size < least && places < 6; least /= 10 {
			places++
		}
		s = strings.TrimRight(strconv.FormatFloat(size, 'f', places, 64), "0")
		s = strings.TrimSuffix(s, ".")
	}
	return s
}

// spoons are those that are filled for so many millionths of a spoon; false where there are none such.
func spoons(n int64) (string, bool) {
	const whole, smallest = 1_000_000, 64
	if n*smallest%whole != 0 {
		return "", false
	}
	var parts []string
	if n >= whole {
		parts = append(parts, strconv.FormatInt(n/whole, 10))
	}
	left := n % whole * smallest / whole
	for size := int64(smallest / 2); size > 0; size /= 2 {
		if left >= size {
			parts = append(parts, fmt.Sprintf("1/%d", smallest/size))
			left -= size
		}
	}
	return strings.Join(parts, " + "), len(parts) > 0
}
