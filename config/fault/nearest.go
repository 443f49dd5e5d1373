package fault

import "strings"

// Nearest gives the candidate that the word was most likely meant to be, "" when
// none is near: equal but for capitals, or at most one slip of the finger for
// every three letters (one for short words). The first of equals wins.
//
// A slip is a letter too many, too few or wrong, or two neighbours swapped
// (Damerau, "A technique for computer detection and correction of spelling
// errors", 1964; the restricted form).
func Nearest(word string, candidates []string) string {
	if len(word) > 4*MaxName {
		return ""
	}
	best, least := "", max(1, len([]rune(word))/3)+1
	for _, c := range candidates {
		if strings.EqualFold(word, c) {
			return c
		}
		if d := slips([]rune(strings.ToLower(word)), []rune(strings.ToLower(c))); d < least {
			best, least = c, d
		}
	}
	if best != "" {
		return best
	}
	return begunWord(word, candidates)
}

// begunWord finds the one candidate that contains the word, or that the word
// contains, on a border of words: "fridge" for "kitchen fridge".
func begunWord(word string, candidates []string) string {
	found := ""
	for _, c := range candidates {
		a, b := " "+strings.ToLower(word)+" ", " "+strings.ToLower(c)+" "
		if strings.TrimSpace(a) == "" || !strings.Contains(b, a) && !strings.Contains(a, b) {
			continue
		}
		if found != "" {
			return "" // two would do: no guess
		}
		found = c
	}
	return found
}

// slips counts the least number of slips between two words, in O(len a x len b).
func slips(a, b []rune) int {
	rows := make([][]int, len(a)+1)
	for i := range rows {
		rows[i] = make([]int, len(b)+1)
		rows[i][0] = i
	}
	for j := range rows[0] {
		rows[0][j] = j
	}
	for i := 1; i <= len(a); i++ {
		for j := 1; j <= len(b); j++ {
			wrong := 1
			if a[i-1] == b[j-1] {
				wrong = 0
			}
			d := min(rows[i-1][j]+1, rows[i][j-1]+1, rows[i-1][j-1]+wrong)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				d = min(d, rows[i-2][j-2]+1)
			}
			rows[i][j] = d
		}
	}
	return rows[len(a)][len(b)]
}
