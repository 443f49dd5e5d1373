package fault

import (
	"regexp"
	"strconv"
	"strings"
	"unicode"
)

// What a fault says to write is tried before it is said: a suggestion that would be refused as
// well, because it repeats the mistake, helps nobody. Where a reader has none that it takes
// itself, one is made of what was written with one thing mended, or else one of its kind.

// Suggested is the fault of a value with a suggestion that its reader takes, if one is found.
func Suggested[T any](f Fault, text string, parse func(string) (T, error)) Fault {
	takes := func(text string) bool {
		_, err := parse(text)
		return err == nil
	}
	if f.Near != "" || takesAny(takes, f.Want) {
		return f
	}
	for _, try := range append(mended(f.Want), append(mended(text), samples()...)...) {
		if takesAny(takes, try) {
			f.Want = try
			return f
		}
	}
	return f
}

// takesAny reports whether a reader takes one of the ways of writing that a suggestion names.
func takesAny(takes func(string) bool, want string) bool {
	for _, one := range WaysOf(want) {
		if takes(one) {
			return true
		}
	}
	return false
}

// WaysOf are the ways of writing that a suggestion names: "90 min (or h, d)" one, "8 or 7.5"
// two, with no key before them and no quotation marks round them.
func WaysOf(want string) (out []string) {
	for _, one := range regexp.MustCompile(`,? or `).Split(want, -1) {
		one = regexp.MustCompile(`^[a-z_]+: `).ReplaceAllString(strings.TrimSuffix(one, " (or"), "")
		before, _, _ := strings.Cut(one, " (") // an explanation; but not of 4 qt (US)
		for _, one := range []string{one, before} {
			if plain, err := strconv.Unquote(one); err == nil {
				one = plain
			}
			if one != "" {
				out = append(out, one)
			}
		}
	}
	return append(out, want)
}

// mended is what was written with one thing mended: without a minus, with a point for a comma,
// a number alone, a whole one, another number in its place, on one line and shorter.
func mended(text string) []string {
	plain := strings.Join(strings.FieldsFunc(text, func(r rune) bool { return Unprintable(r) || unicode.IsSpace(r) }), " ")
	if plain == "" {
		return nil
	}
	number := regexp.MustCompile(`-?\d+([.,]\d+)?`)
	short := []rune(plain)
	return []string{plain, strings.ReplaceAll(plain, "-", ""), strings.ReplaceAll(plain, ",", "."),
		number.FindString(plain), strings.TrimLeft(regexp.MustCompile(`\d+`).FindString(plain), "0"), number.ReplaceAllString(plain, "1"),
		strings.TrimSpace(string(short[:min(len(short), MaxName/2)])), strings.TrimFunc(plain, unicode.IsPunct), strings.ToLower(plain)}
}

// samples are one way of writing of each kind of value.
func samples() []string {
	return []string{"Easter market", "AB", "1", "12", "100", "true", "4 L", "75 g", "30 min", "24 h", "10 d", "4 °C", "2-6 °C", "40 x 30 x 12 cm", "06:00", "mon-fri",
		"mon-fri 06:00-08:00", "2027-03-27", "2027-03-27 07:00", "6.50", "week", "easter", "3 pieces"}
}
