package planner_test

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// dot is one point of a panel.
type dot struct {
	x, y float64
	mark byte
}

// How a panel is drawn, in characters.
const (
	panelWide = 64
	panelHigh = 8
)

// panel draws dots as plain text, both axes from 0 and linear: the left axis to the
// greatest y rounded up to one figure, the lower to right. Of dots that fall on one
// another the last is seen.
//
//	title
//	   20 |                 *
//	      |        *
//	    0 +*----------------
//	      0   40  80  120 160
func panel(title string, right float64, dots []dot) string {
	top := 0.0
	for _, d := range dots {
		top = max(top, d.y)
	}
	top = roundUp(top)
	rows := make([][]byte, panelHigh+1)
	for i := range rows {
		fill := " "
		if i == panelHigh {
			fill = "-"
		}
		rows[i] = []byte(strings.Repeat(fill, panelWide+1))
	}
	for _, d := range dots {
		row := panelHigh - int(math.Round(d.y/top*panelHigh))
		rows[row][int(math.Round(d.x/right*panelWide))] = d.mark
	}
	var b strings.Builder
	b.WriteString(title + "\n")
	for i, row := range rows {
		label, axis := "", "|"
		switch i {
		case 0:
			label = fmt.Sprintf("%g", top)
		case panelHigh / 2:
			label = fmt.Sprintf("%g", top/2)
		case panelHigh:
			label, axis = "0", "+"
		}
		b.WriteString(strings.TrimRight(fmt.Sprintf("%6s %s%s", label, axis, row), " ") + "\n")
	}
	b.WriteString(strings.Repeat(" ", 8))
	for i := range 4 {
		fmt.Fprintf(&b, "%-*g", panelWide/4, right*float64(i)/4)
	}
	fmt.Fprintf(&b, "%g\n", right)
	return b.String()
}

// roundUp gives the next of 1, 2, 4, 5, 6, 8, 10 times a power of ten.
func roundUp(v float64) float64 {
	if v <= 0 {
		return 1
	}
	ten := math.Pow(10, math.Floor(math.Log10(v)))
	for _, n := range []float64{1, 2, 4, 5, 6, 8} {
		if n*ten >= v {
			return n * ten
		}
	}
	return 10 * ten
}

func TestPanel(t *testing.T) {
	dots := []dot{{0, 0, '*'}, {80, 10, '*'}, {160, 19, '*'}}
	empty := "       |\n"
	want := "seconds\n" +
		"    20 |" + strings.Repeat(" ", 64) + "*\n" + empty + empty + empty +
		"    10 |" + strings.Repeat(" ", 32) + "*\n" + empty + empty + empty +
		"     0 +*" + strings.Repeat("-", 64) + "\n" +
		"        0" + strings.Repeat(" ", 15) + "40" + strings.Repeat(" ", 14) + "80" + strings.Repeat(" ", 14) + "120" + strings.Repeat(" ", 13) + "160\n"
	if got := panel("seconds", 160, dots); got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
	for v, want := range map[float64]float64{0: 1, 0.3: 0.4, 1: 1, 13.8: 20, 47: 50, 86: 100, 286: 400, 0.46: 0.5} {
		if got := roundUp(v); math.Abs(got-want) > 1e-9 {
			t.Errorf("roundUp(%g) = %g, want %g", v, got, want)
		}
	}
}
