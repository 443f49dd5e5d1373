package sheet

import (
	"strings"

	"ripeby/calendar/words"
)

// The measures of the page in millimetres: A4 with 10 mm kept free at each edge, by ISO 216. A little is kept back
// for what browsers round.
const (
	pageWide = 190.0
	pageHigh = 277.0 - 4
	pad      = 0.8 // above and below what stands in a cell, and 1.2 beside it
	beside   = 1.2
	border   = 0.3
	gap      = 1.6  // above a heading
	blank    = 14.0 // a place to write on
	briefly  = 12.0 // one for a time of day, or a name
	point    = 25.4 / 72
	leading  = 1.25
	plainly  = 0.96 // of what words.Rows takes for the widest of the usual fonts: one page is tried with these
	boldly   = 1.06
	head     = 1.5  // the name is so much larger
	small    = 0.88 // cautions are so much smaller
	ruled    = 7.0  // between lines to write on
)

// columns are how wide those of the stages are: name, by the plan, really, what goes in.
var columns = [4]float64{22, 50, 49, 69}

// Paper is the sheet as one page of A4 has room for it: the largest letters in which all of it fits, and where it does
// not fit in the smallest the most that does, with what is left out said.
func (s *Shown) Paper() *Shown {
	var out *Shown
	rungs := ladder()
	for _, r := range rungs {
		out = s.cut(r)
		if out.height() <= pageHigh {
			return out
		}
	}
	for n := len(s.Stages) - 1; n > 0; n-- {
		r := rungs[len(rungs)-1]
		r.stages = n
		if out = s.cut(r); out.height() <= pageHigh {
			break
		}
	}
	return out
}

// em is the size of the letters in millimetres.
func (s *Shown) em() float64 { return s.Letters * point }

// height is how high the sheet is on paper at the most.
func (s *Shown) height() float64 {
	em, row := s.em(), s.em()*leading
	rows := func(text string, wide, size, wider float64) float64 {
		return float64(words.Rows(text, wide/(em*size), wider)) * row * size
	}
	title := max(rows(s.Cheese, 0.6*pageWide, head, boldly), rows("Lot "+s.Lot+strings.Repeat("m", 8), 0.36*pageWide, head, boldly))
	sum := title + rows(s.Kitchen+"batch sheet, number in the plan: "+s.Number, pageWide, 1, plainly) + gap
	for _, text := range s.Stands {
		sum += rows(text, pageWide, 1, boldly)
	}
	for _, f := range s.Facts {
		sum += s.flow(f.Items, pageWide-20, blank) + 0.8
	}
	sum += gap + row + 2*pad
	for i := range s.Stages {
		sum += s.stageHeight(&s.Stages[i])
	}
	heading := gap + row
	for _, c := range s.Care {
		sum += s.flow(append([]Item{{Parts: []string{"Care, " + c.Do}}}, c.Days...), pageWide, blank) + gap
	}
	if len(s.For) > 0 {
		sum += rows("Where it goes: "+strings.Join(s.For, "; "), pageWide, 1, plainly) + gap
	}
	sum += heading + float64(s.Lines)*ruled
	for _, n := range s.Notes {
		sum += rows(n.When+": "+n.Text, pageWide, 1, plainly)
	}
	if len(s.Cautions) > 0 {
		sum += heading
	}
	for _, list := range [][]string{s.Cautions, s.Ends, s.LeftOut} {
		for _, text := range list {
			sum += rows("- "+text, pageWide-2*em, small, boldly)
		}
	}
	return sum
}

// stageHeight is how high one stage is.
func (s *Shown) stageHeight(t *Stage) float64 {
	if t.Wide {
		return s.wideHeight(t)
	}
	return s.narrowHeight(t)
}

// narrowHeight is how high a stage is with all its columns side by side.
func (s *Shown) narrowHeight(t *Stage) float64 {
	what := s.stack
	if s.Run {
		what = s.flow
	}
	return max(s.besidesWhat(t, columns[2]), what(t.What, columns[3]-2*beside, blank)+2*pad+border)
}

// wideHeight is how high a stage is with its last column below the others.
func (s *Shown) wideHeight(t *Stage) float64 {
	return s.besidesWhat(t, columns[2]+columns[3]) + s.flow(t.What, pageWide-columns[0]-2*beside, blank) + 2*pad + border
}

// besidesWhat is how high the first columns of a stage are, the third being so wide.
func (s *Shown) besidesWhat(t *Stage, third float64) float64 {
	em, rows := s.em(), 0
	name := words.Rows(t.Name, (columns[0]-2*beside)/em, boldly)
	for _, text := range t.Planned {
		rows += words.Rows(text, (columns[1]-2*beside)/em, plainly)
	}
	return max(float64(max(rows, name))*em*leading, s.stack(t.Really, third-2*beside, briefly)) + 2*pad + border
}

// stack is how high items are below one another, a place to write on being so wide.
func (s *Shown) stack(items []Item, room, write float64) (high float64) {
	for i := range items {
		high += s.flow(items[i:i+1], room, write)
	}
	return high
}

// flow is how high items are one after the other, a place to write on being so wide.
func (s *Shown) flow(items []Item, room, write float64) float64 {
	em, row := s.em(), s.em()*leading
	var wide []float64 // in letters
	var writes []int   // which of these are to write on
	for _, i := range items {
		if i.Box {
			wide = append(wide, 1.3)
		}
		for k, part := range i.Parts {
			if k > 0 {
				writes = append(writes, len(wide))
				wide = append(wide, write/em)
			}
			for _, word := range strings.Fields(part) {
				wide = append(wide, words.InLetters(word)*plainly)
			}
		}
		wide = append(wide, 0.9) // between two of them
	}
	rows := words.InRows(wide, room/em)
	if len(rows) == 0 {
		return 0
	}
	high := float64(rows[len(rows)-1]+1) * row
	last := -1
	for _, i := range writes {
		if rows[i] != last {
			last = rows[i]
			high += max(s.LineMM-row, 0)
		}
	}
	return high
}
