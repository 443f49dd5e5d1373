package measured

import (
	"regexp"
	"strings"

	"ripeby/resources"
	"ripeby/schedule"
)

// Side is where what was measured lies beside the limits of a recipe.
type Side int

// The sides. A limit itself is inside.
const (
	NotCompared Side = iota // there is no limit, or it is no number of its kind
	Inside
	Below
	Above
)

// Of says where what was written of a measure lies.
func Of(m *schedule.Measure, is string) Side {
	got, ok := Number(is)
	if !ok {
		return NotCompared
	}
	side := NotCompared
	for _, limit := range []struct {
		at   resources.Reading
		sign int
		out  Side
	}{{m.From, -1, Below}, {m.To, 1, Above}} {
		sign, ok := resources.CompareReadings(got, limit.at)
		switch {
		case !ok:
		case sign == limit.sign:
			return limit.out
		default:
			side = Inside
		}
	}
	return side
}

// aComma is a number with a comma that can only part its decimals: 4,5 and 0,125, but not 1,200, which some write for
// twelve hundred.
var aComma = regexp.MustCompile(`^(-?(?:\d+),(?:\d{1,2}|\d{4,})|-?0,\d+)(\D.*)?$`)

// Number reads what was measured as people write it: with a decimal comma, a plus, or pH behind the number. It is false
// for what is no number.
func Number(is string) (resources.Reading, bool) {
	text := strings.TrimSpace(strings.ReplaceAll(is, "−", "-"))
	text = strings.TrimPrefix(text, "+")
	if len(text) > 2 && strings.EqualFold(text[len(text)-2:], "pH") {
		text = strings.TrimSpace(text[:len(text)-2])
	}
	if aComma.MatchString(text) {
		text = strings.Replace(text, ",", ".", 1)
	}
	r, err := resources.ParseReading(text)
	return r, err == nil
}
