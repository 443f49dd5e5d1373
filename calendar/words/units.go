package words

import (
	"fmt"
	"strings"

	"ripeby/resources"
)

// Glue stands between a number and its unit where they must not be torn apart.
const Glue = "\u00a0"

// Unglue puts plain spaces where there is [Glue].
func Unglue(s string) string { return strings.ReplaceAll(s, Glue, " ") }

// Length writes a length of time, as in "1 h 20 min".
func Length(m resources.Minutes) string { return glueUnits(resources.FormatMinutes(m)) }

// Litres writes a volume, as in "7.5 L".
func Litres(v resources.Millilitres) string { return glueUnits(resources.FormatVolume(v)) }

// Degrees writes a temperature, as in "4 °C".
func Degrees(t resources.MilliCelsius) string { return glueUnits(resources.ShowTemperature(t)) }

// glueUnits keeps each number and the word after it on one line.
func glueUnits(s string) string {
	b := []byte(s)
	var out strings.Builder
	for i, c := range b {
		if c == ' ' && i > 0 && b[i-1] >= '0' && b[i-1] <= '9' {
			out.WriteString(Glue)
			continue
		}
		out.WriteByte(c)
	}
	return out.String()
}

// Count writes a number of things, as in "1 box", "16 pieces".
func Count(n int, one, many string) string {
	if n == 1 {
		return "1" + Glue + one
	}
	return fmt.Sprintf("%d%s%s", n, Glue, many)
}
