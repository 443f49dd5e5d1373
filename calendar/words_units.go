package calendar

import (
	"fmt"
	"strings"

	"ripeby/resources"
)

// glue stands between a number and its unit where they must not be torn apart.
// It reaches pages only, which need it for the same.
const glue = "\u00a0"

// unglue puts plain spaces in its place.
func unglue(s string) string { return strings.ReplaceAll(s, glue, " ") }

// lengthText writes a length of time, as in "1 h 20 min".
func lengthText(m resources.Minutes) string { return glueUnits(resources.FormatMinutes(m)) }

// litresText writes a volume, as in "7.5 L".
func litresText(v resources.Millilitres) string { return glueUnits(resources.FormatVolume(v)) }

// degreesText writes a temperature, as in "4 °C".
func degreesText(t resources.MilliCelsius) string { return glueUnits(resources.ShowTemperature(t)) }

// glueUnits keeps each number and the word after it on one line.
func glueUnits(s string) string {
	b := []byte(s)
	var out strings.Builder
	for i, c := range b {
		if c == ' ' && i > 0 && b[i-1] >= '0' && b[i-1] <= '9' {
			out.WriteString(glue)
			continue
		}
		out.WriteByte(c)
	}
	return out.String()
}

// countText writes a number of things, as in "1 box", "16 pieces".
func countText(n int, one, many string) string {
	if n == 1 {
		return "1" + glue + one
	}
	return fmt.Sprintf("%d%s%s", n, glue, many)
}
