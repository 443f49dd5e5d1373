package config

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// whole reads a plain whole number between two limits. Quotes around it make no
// difference.
func whole(least, most int) func(string) (int, error) {
	return func(text string) (int, error) {
		n, err := strconv.Atoi(strings.TrimSpace(text))
		if err != nil || strings.HasPrefix(text, "+") {
			if big := strings.TrimLeft(text, "0123456789") == "" && text != ""; !big {
				return 0, Fault{What: "a plain whole number is wanted here", Got: clip(text)}
			}
			n = most + 1
		}
		switch {
		case n < least:
			return 0, Fault{What: fmt.Sprintf("this number is at least %d", least), Got: clip(text)}
		case n > most:
			return 0, Fault{What: fmt.Sprintf("this is more than the limit of %d", most), Got: clip(text)}
		}
		return n, nil
	}
}

// above0 refuses a quantity of nothing.
func above0[T cmp.Ordered](parse func(string) (T, error)) func(string) (T, error) {
	return func(text string) (T, error) {
		var zero T
		v, err := parse(text)
		if err == nil && v <= zero {
			err = Fault{What: "this must be more than 0", Got: clip(text)}
		}
		return v, err
	}
}

// truth reads true or false.
func truth(text string) (bool, error) {
	switch text {
	case "true":
		return true, nil
	case "false":
		return false, nil
	}
	return false, Fault{What: "yes or no is written as true or false", Got: clip(text), Want: "true or false"}
}

// nameText reads a name: its letters are kept, and it is something that can be
// printed on one line and found again.
func nameText(text string) (string, error) {
	switch {
	case strings.TrimSpace(text) == "":
		return "", Fault{What: "a name cannot be empty"}
	case utf8.RuneCountInString(text) > MaxNameLength:
		return "", Fault{What: fmt.Sprintf("a name has at most %d characters", MaxNameLength), Got: clip(text)}
	case strings.TrimSpace(text) != text:
		return "", Fault{What: "a name neither starts nor ends with a space", Got: text}
	case strings.ContainsFunc(text, unprintable):
		return "", Fault{What: "a name is a single line of letters, digits and signs", Got: clip(text)}
	}
	return text, nil
}

// unprintable finds control characters, line breaks of any kind and invisible
// marks that turn the direction of writing.
func unprintable(r rune) bool {
	return unicode.IsControl(r) || r == '\u2028' || r == '\u2029' || unicode.Is(unicode.Bidi_Control, r) || r == utf8.RuneError || r == '\ufeff'
}

// codeText reads a recipe's code, which becomes a part of lot numbers.
func codeText(text string) (string, error) {
	bad := func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && !strings.ContainsRune("-._", r)
	}
	if text == "" || utf8.RuneCountInString(text) > MaxCodeLength || strings.ContainsFunc(text, bad) {
		return "", Fault{What: fmt.Sprintf("a code is 1 to %d letters, digits, points and dashes without spaces", MaxCodeLength), Got: clip(text), Want: "code: AB"}
	}
	return text, nil
}

// initials makes a code of a name's words, "" when none starts with a letter or
// digit.
func initials(name string) string {
	var code []rune
	for _, word := range strings.Fields(name) {
		for _, r := range word {
			if unicode.IsLetter(r) || unicode.IsDigit(r) {
				code = append(code, unicode.ToUpper(r))
				break
			}
		}
	}
	return string(code[:min(len(code), MaxCodeLength)])
}
