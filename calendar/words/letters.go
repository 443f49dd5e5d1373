package words

import (
	"strings"
	"unicode/utf8"
)

// The measures of proportional letters, in the size of the letters.
const (
	letterSpace = 0.32 // between words
	widerFont   = 1.13 // where none of the fonts asked for is there, another may be so much wider
)

// Rows is how many rows a text takes at the most on paper, in Arial or what a browser takes for it, in a room
// so many letters wide: a letter is as wide as it is high. wider is how much wider than plain ones its letters
// are, 1 for plain ones. A word that is longer than a row is broken.
func Rows(text string, room, wider float64) int {
	var wide []float64
	for _, word := range strings.Fields(text) {
		wide = append(wide, InLetters(word)*wider)
	}
	rows := InRows(wide, room)
	if len(rows) == 0 {
		return 1
	}
	return rows[len(rows)-1] + 1
}

// InRows says in which row, from 0, each of some things of these widths ends that stand one after the other, a
// space between every two.
func InRows(wide []float64, room float64) (rows []int) {
	n, at := 0, 0.0
	for _, w := range wide {
		switch {
		case at == 0:
			at = w
		case at+letterSpace+w <= room:
			at += letterSpace + w
		default:
			n, at = n+1, w
		}
		for at > room {
			n, at = n+1, at-(room-1) // a broken word leaves up to a letter's room
		}
		rows = append(rows, n)
	}
	return rows
}

// InLetters is how wide a word is at the most, its letters being 1 high.
func InLetters(word string) float64 {
	sum := 0.0
	for _, r := range word {
		switch {
		case strings.ContainsRune("iljftI.,:;'|!()[]/-", r):
			sum += 0.35
		case strings.ContainsRune("mwMW@%&", r):
			sum += 0.92
		case r >= 'A' && r <= 'Z':
			sum += 0.72
		case r < utf8.RuneSelf:
			sum += 0.56
		default:
			sum += max(0.7, 0.6*float64(Wide(string(r))))
		}
	}
	return sum * widerFont
}
