package fault

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// MaxName is how many characters a name may have.
const MaxName = 80

// Whole reads a plain whole number between two limits. Quotes around it make no
// difference.
func Whole(least, most int) func(string) (int, error) {
	return func(text string) (int, error) {
		n, err := strconv.Atoi(strings.TrimSpace(text))
		if err != nil || strings.HasPrefix(text, "+") {
			if big := strings.TrimLeft(text, "0123456789") == "" && text != ""; !big {
				return 0, Fault{What: "a plain whole number is wanted here", Got: Clip(text)}
			}
			n = most + 1
		}
		switch {
		case n < least:
			return 0, Fault{What: fmt.Sprintf("this number is at least %d", least), Got: Clip(text)}
		case n > most:
			return 0, Fault{What: fmt.Sprintf("this is more than the limit of %d", most), Got: Clip(text)}
		}
		return n, nil
	}
}

// Above0 refuses a quantity of nothing.
func Above0[T cmp.Ordered](parse func(string) (T, error)) func(string) (T, error) {
	return func(text string) (T, error) {
		var zero T
		v, err := parse(text)
		if err == nil && v <= zero {
			err = Fault{What: "this must be more than 0", Got: Clip(text)}
		}
		return v, err
	}
}

// Truth reads true or false.
func Truth(text string) (bool, error) {
	switch text {
	case "true":
		return true, nil
	case "false":
		return false, nil
	}
	return false, Fault{What: "yes or no is written as true or false", Got: Clip(text), Want: "true or false"}
}

// Name reads a name: its letters are kept, and it is something that can be
// printed on one line and found again.
func Name(text string) (string, error) {
	switch {
	case strings.TrimSpace(text) == "":
		return "", Fault{What: "a name cannot be empty"}
	case utf8.RuneCountInString(text) > MaxName:
		return "", Fault{What: fmt.Sprintf("a name has at most %d characters", MaxName), Got: Clip(text)}
	case strings.TrimSpace(text) != text:
		return "", Fault{What: "a name neither starts nor ends with a space", Got: text}
	case strings.ContainsFunc(text, Unprintable):
		return "", Fault{What: "a name is a single line of letters, digits and signs", Got: Clip(text)}
	}
	return text, nil
}

// Unprintable finds control characters, line breaks of any kind and invisible
// marks that turn the direction of writing.
func Unprintable(r rune) bool {
	return unicode.IsControl(r) || r == '\u2028' || r == '\u2029' || unicode.Is(unicode.Bidi_Control, r) || r == utf8.RuneError || r == '\ufeff'
}
