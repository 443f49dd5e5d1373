package measured

import (
	"strings"

	"ripeby/resources"
	"ripeby/schedule"
)

// Limits are those of a recipe: "4.4 to 4.7", "25 to 27 °C", "from 25 °C", "up to 4.7"; "" where it has none.
func Limits(m *schedule.Measure) string {
	from, to := resources.FormatReading(m.From), resources.FormatReading(m.To)
	switch {
	case from == "" && to == "":
		return ""
	case to == "":
		return "from " + from
	case from == "":
		return "up to " + to
	case m.From == m.To:
		return from
	case m.From.Unit == m.To.Unit:
		return resources.ReadingNumber(m.From) + " to " + to
	}
	return from + " to " + to
}

// Line is what is to be written down: "pH 4.4 to 4.7", "smell".
func Line(m *schedule.Measure) string { return strings.TrimSpace(m.What + " " + Limits(m)) }

// Lines are all that are to be written down, after each other.
func Lines(all []schedule.Measure) string {
	lines := make([]string, len(all))
	for i := range all {
		lines[i] = Line(&all[i])
	}
	return strings.Join(lines, ", ")
}

// Outside says on which side of the limits what was written lies, and what the recipe says of that: "pH 4.9: above
// 4.7, the recipe says: wait an hour and look again". It is "" for what lies inside, and for what is not compared.
func Outside(m *schedule.Measure, is string) string {
	text := m.What + " " + strings.TrimSpace(is)
	switch Of(m, is) {
	case Below:
		text += ": below " + resources.FormatReading(m.From)
	case Above:
		text += ": above " + resources.FormatReading(m.To)
	default:
		return ""
	}
	if m.Else != "" {
		text += ", the recipe says: " + m.Else
	}
	return text
}
