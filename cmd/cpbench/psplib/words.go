package psplib

import (
	"fmt"
	"strconv"
	"strings"
)

// word is a name, a number or a sign, and where it stands.
type word struct {
	text string
	line int
}

// value is what a name of a .dzn file stands for: one number, a list or table of
// numbers, or a list of sets.
type value struct {
	nums   []int
	single bool
	across int // numbers in a row of a table; 0 for a list
	sets   [][]int
	line   int
}

// dzn is a .dzn file while it is read.
type dzn struct {
	words  []word
	at     int
	values map[string]value
}

// wordsOf splits a text into words; what stands after % on a line is none.
func wordsOf(text string) []word {
	var out []word
	for i, line := range strings.Split(text, "\n") {
		line, _, _ = strings.Cut(line, "%")
		for _, sign := range []string{"=", ";", "[", "]", "{", "}", "(", ")", ",", ".."} {
			line = strings.ReplaceAll(line, sign, " "+sign+" ")
		}
		for _, f := range strings.Fields(line) {
			out = append(out, word{f, i + 1})
		}
	}
	return out
}

func (p *dzn) last() int {
	if len(p.words) == 0 {
		return 1
	}
	return p.words[len(p.words)-1].line
}

// next is the next word, an empty one at the end.
func (p *dzn) next() word {
	if p.at >= len(p.words) {
		return word{"", p.last()}
	}
	p.at++
	return p.words[p.at-1]
}

// peek is the text of the next word.
func (p *dzn) peek() string {
	if p.at >= len(p.words) {
		return ""
	}
	return p.words[p.at].text
}

func (p *dzn) want(text string) error {
	if w := p.next(); w.text != text {
		return &Fault{w.line, "a sign", strconv.Quote(w.text), text}
	}
	return nil
}

func (p *dzn) number() (int, error) {
	w := p.next()
	n, err := strconv.Atoi(w.text)
	if err != nil || n > mostNumber || n < -mostNumber {
		return 0, &Fault{w.line, "a number", strconv.Quote(w.text), fmt.Sprintf("a whole number within %d of 0", mostNumber)}
	}
	return n, nil
}

// read takes a number, a list or a table.
func (p *dzn) read() (value, error) {
	switch p.peek() {
	case "[":
		return p.bracket()
	case "array2d":
		return p.table()
	}
	n, err := p.number()
	return value{nums: []int{n}, single: true}, err
}

// bracket takes [1, 2, …] or [{1, 2}, {}, …].
func (p *dzn) bracket() (value, error) {
	var v value
	if err := p.want("["); err != nil {
		return v, err
	}
	for p.peek() != "]" {
		if p.peek() == "{" {
			set, err := p.set()
			if err != nil {
				return v, err
			}
			v.sets = append(v.sets, set)
		} else {
			n, err := p.number()
			if err != nil {
				return v, err
			}
			v.nums = append(v.nums, n)
		}
		if p.peek() != "]" {
			if err := p.want(","); err != nil {
				return v, err
			}
		}
	}
	return v, p.want("]")
}

func (p *dzn) set() ([]int, error) {
	p.next()
	out := []int{}
	for p.peek() != "}" {
		n, err := p.number()
		if err != nil {
			return nil, err
		}
		out = append(out, n)
		if p.peek() != "}" {
			if err := p.want(","); err != nil {
				return nil, err
			}
		}
	}
	return out, p.want("}")
}

// table takes array2d(1..rows, 1..columns, [all numbers]).
func (p *dzn) table() (value, error) {
	line := p.next().line
	if err := p.want("("); err != nil {
		return value{}, err
	}
	size, across := 1, 0
	for range 2 {
		for _, text := range []string{"1", ".."} {
			if err := p.want(text); err != nil {
				return value{}, err
			}
		}
		n, err := p.number()
		if err != nil {
			return value{}, err
		}
		if n < 0 || n > mostTasks {
			return value{}, &Fault{line, "rows or columns", n, fmt.Sprintf("up to %d", mostTasks)}
		}
		size, across = size*n, n
		if err := p.want(","); err != nil {
			return value{}, err
		}
	}
	v, err := p.bracket()
	if err != nil {
		return v, err
	}
	if len(v.nums) != size || v.sets != nil {
		return v, &Fault{line, "a table", fmt.Sprintf("%d numbers", len(v.nums)), fmt.Sprintf("%d", size)}
	}
	v.across = across
	return v, p.want(")")
}
