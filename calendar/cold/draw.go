package cold

import (
	"fmt"
	"strings"

	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule/coldroom"
)

// A shelf drawn with plain characters. Edges fall on whole columns and lines, so
// boxes that touch share an edge; a box is blank inside, bare floor has dots. Where
// boxes of several batches stand in one spot, what is before a + is below the rest.
//
//	+---------+--------+
//	|         |........|
//	|  A x 2  |........|
//	|         +-----+..|
//	|         |  B  |..|
//	+---------+-----+--+

// Limits of a drawing: a character is about twice as high as wide, so a shelf that
// is as deep as wide takes half as many lines as columns. Where a box has no room
// for its letter, lines are drawn finer, up to linesMost.
const (
	linesEven = 20
	linesMost = 60
)

// shelfDrawing is a drawing of so many columns and lines between the first edge and
// the last.
type shelfDrawing struct {
	columns, lines int64
	cells          [][]byte // from the back to the front
}

// drawShelf draws piles with their labels into at most width columns. It is not ok
// where some label does not come out whole inside its own pile: the piles are too
// small for the width, overlap, or stand out over the shelf.
func drawShelf(size resources.Size, piles []coldroom.Pile, labels []string, width int) (*shelfDrawing, bool) {
	w, d := int64(size.Width), int64(size.Depth)
	if w <= 0 || d <= 0 {
		return nil, false
	}
	widest := int64(width - 1)
	columns := max(2, min(widest, 2*linesEven*w/d))
	for {
		even := max(2, (d*columns+w)/(2*w)) // as many lines as are to scale with the columns
		for lines := min(even, linesMost); lines <= linesMost; lines++ {
			s := &shelfDrawing{columns: columns, lines: lines}
			if s.draw(w, d, piles, labels) {
				return s, true
			}
		}
		if columns == widest {
			return nil, false
		}
		columns = min(widest, columns+8)
	}
}

// on gives the column, or the line from the front, that is nearest to a length.
func on(length, whole, steps int64) int64 {
	return max(0, min(steps, (2*length*steps+whole)/(2*whole)))
}

// draw reports whether every label could be written.
func (s *shelfDrawing) draw(w, d int64, piles []coldroom.Pile, labels []string) bool {
	s.cells = make([][]byte, s.lines+1)
	for i := range s.cells {
		s.cells[i] = []byte(strings.Repeat(".", int(s.columns+1)))
	}
	s.frame(0, 0, s.columns, s.lines)
	type spot struct {
		row, column int64
		text        string
	}
	piles, texts := heaps(piles, labels)
	spots := make([]spot, len(piles))
	for i, p := range piles {
		x0, x1 := on(int64(p.X), w, s.columns), on(int64(p.X+p.Width), w, s.columns)
		y0, y1 := s.lines-on(int64(p.Y+p.Depth), d, s.lines), s.lines-on(int64(p.Y), d, s.lines)
		if p.X < 0 || p.Y < 0 || int64(p.X+p.Width) > w || int64(p.Y+p.Depth) > d {
			return false
		}
		text, ok := widest(texts[i], x1-x0-1)
		if !ok || y1-y0 < 2 {
			return false
		}
		for y := y0 + 1; y < y1; y++ {
			copy(s.cells[y][x0+1:x1], strings.Repeat(" ", int(x1-x0-1)))
		}
		s.frame(x0, y0, x1, y1)
		spots[i] = spot{(y0 + y1) / 2, x0 + 1 + (x1-x0-1-int64(len(text)))/2, text}
	}
	for _, p := range spots {
		copy(s.cells[p.row][p.column:], p.text)
	}
	for i, p := range spots { // a pile that covers another shows
		if !s.whole(p.row, p.column, p.text) || overlaps(piles[:i], piles[i]) {
			return false
		}
	}
	return true
}

// whole reports whether a label stands there with no letter beside it.
func (s *shelfDrawing) whole(row, column int64, text string) bool {
	end := column + int64(len(text))
	beside := string(s.cells[row][column-1]) + string(s.cells[row][end])
	return string(s.cells[row][column:end]) == text && strings.Trim(beside, " |+-") == ""
}

func overlaps(piles []coldroom.Pile, p coldroom.Pile) bool {
	for _, o := range piles {
		if o.X < p.X+p.Width && p.X < o.X+o.Width && o.Y < p.Y+p.Depth && p.Y < o.Y+o.Depth {
			return true
		}
	}
	return false
}

// heaps puts the piles of one spot together, with the ways to label all of it from the bottom.
func heaps(piles []coldroom.Pile, labels []string) (out []coldroom.Pile, texts [][]string) {
	for i, p := range piles {
		label := pileLabels(labels[i], p.Boxes)
		n := len(out) - 1
		if p.Below == 0 || n < 0 {
			out, texts = append(out, p), append(texts, label)
			continue
		}
		out[n].Boxes += p.Boxes
		joins := []string{" + ", "+", "+"}
		for k := range joins {
			texts[n][k] += joins[k] + label[k]
		}
	}
	return out, texts
}

// pileLabels are a letter with the number of boxes on one another, the widest first.
func pileLabels(letter string, boxes int) []string {
	if boxes == 1 {
		return []string{letter, letter, letter}
	}
	return []string{fmt.Sprintf("%s x %d", letter, boxes), fmt.Sprintf("%sx%d", letter, boxes), fmt.Sprintf("%s%d", letter, boxes)}
}

// widest is the first of some labels for which there is room.
func widest(texts []string, room int64) (string, bool) {
	for _, t := range texts {
		if int64(len(t)) <= room {
			return t, true
		}
	}
	return "", false
}

// frame draws the edges of a rectangle over what is there.
func (s *shelfDrawing) frame(x0, y0, x1, y1 int64) {
	for x := x0; x <= x1; x++ {
		s.edge(x, y0, '-')
		s.edge(x, y1, '-')
	}
	for y := y0; y <= y1; y++ {
		s.edge(x0, y, '|')
		s.edge(x1, y, '|')
	}
	for _, y := range []int64{y0, y1} {
		s.cells[y][x0], s.cells[y][x1] = '+', '+'
	}
}

// edge draws a piece of an edge; edges that cross or meet make a corner.
func (s *shelfDrawing) edge(x, y int64, mark byte) {
	if at := s.cells[y][x]; at == '+' || (at == '-' || at == '|') && at != mark {
		mark = '+'
	}
	s.cells[y][x] = mark
}

// scale says how large a column and a line are, to the nearest millimetre.
func (s *shelfDrawing) scale(size resources.Size) string {
	tenths := func(length, steps int64) string {
		mm := (2*length/1000 + steps) / (2 * steps)
		return fmt.Sprintf("%d.%d", mm/10, mm%10)
	}
	return fmt.Sprintf("Front edge below; a column is %s%scm, a line %s%scm.", tenths(int64(size.Width), s.columns), words.Glue, tenths(int64(size.Depth), s.lines), words.Glue)
}
