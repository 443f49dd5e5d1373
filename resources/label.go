package resources

import (
	"fmt"
	"slices"
)

// Labels is how a kitchen prints the labels of what it packs.
type Labels struct {
	Maker string      // name and address as they are to stand there; "" where that is not said
	Size  Area        // of one label
	Sheet *Sheet      // nil: labels one after another on a roll, each a page of its own
	Lines []LabelLine // nil: [UsualLines], and a code where there is a GTIN
}

// LabelLine is one thing that stands on a label, by the word that kitchen.yaml has for it.
type LabelLine string

// What can stand on a label.
const (
	LineName        LabelLine = "name"        // of the cheese
	LineMilk        LabelLine = "milk"        // how it was treated, where the recipe says so
	LineIngredients LabelLine = "ingredients" // as the recipe has them, milk in bold
	LineWeight      LabelLine = "weight"
	LineUseBy       LabelLine = "use_by"
	LineEstimate    LabelLine = "estimate" // that the date is the maker's own estimate
	LinePacked      LabelLine = "packed"
	LineKeep        LabelLine = "keep" // how it is kept
	LineLot         LabelLine = "lot"
	LineMaker       LabelLine = "maker"
	LineCode        LabelLine = "code" // a QR code
	LineGS1         LabelLine = "gs1"  // what the code of a GTIN says, in letters
)

// LabelLines are all of them, in the order in which they are told.
func LabelLines() []LabelLine {
	return []LabelLine{LineName, LineMilk, LineIngredients, LineWeight, LineUseBy, LineEstimate, LinePacked, LineKeep, LineLot, LineMaker, LineCode, LineGS1}
}

// UsualLines are those of a label of which the kitchen does not say what stands on it.
func UsualLines() []LabelLine {
	return []LabelLine{LineName, LineMilk, LineIngredients, LineWeight, LineUseBy, LineKeep, LineLot, LineMaker}
}

// UsualLabels is how labels are printed where kitchen.yaml does not say.
func UsualLabels() *Labels {
	size := Area{60 * Millimetre, 40 * Millimetre}
	return &Labels{Size: size, Sheet: usualSheet(Papers()[0], size)}
}

func usualSheet(p Paper, label Area) *Sheet {
	s := &Sheet{Paper: p, Left: -1, Top: -1}
	s.Fill(label)
	return s
}

// Paper is paper that labels are printed on.
type Paper struct {
	Name string // "A4"; its size where it has no name
	Area
}

// Papers are those that have a name: ISO 216, and 8.5 x 11 in. The first is the usual one.
func Papers() []Paper {
	return []Paper{
		{"A4", Area{210 * Millimetre, 297 * Millimetre}},
		{"A5", Area{148 * Millimetre, 210 * Millimetre}},
		{"A6", Area{105 * Millimetre, 148 * Millimetre}},
		{"Letter", Area{215_900, 279_400}},
	}
}

// ParsePaper reads the name of a paper, or its size: "A4", "100 x 150 mm".
func ParsePaper(text string) (Paper, error) {
	all := Papers()
	if i := slices.IndexFunc(all, func(p Paper) bool { return p.Name == text }); i >= 0 {
		return all[i], nil
	}
	const want = "A4, A5, A6 or Letter, or its size, such as 100 x 150 mm"
	size, err := ParseArea(text)
	switch {
	case err != nil:
		return Paper{}, &QuantityError{"this is not a paper", text, want}
	case size.Width > MostPaper || size.Height > MostPaper:
		return Paper{}, &QuantityError{"paper is at most " + FormatMillimetres(MostPaper) + " on either side", text, want}
	}
	return Paper{FormatArea(size), size}, nil
}

// The limits of what labels are printed on. What is smaller than the least label has no room for
// letters that can be read.
const (
	LeastLabelWidth  = 20 * Millimetre
	LeastLabelHeight = 10 * Millimetre
	MostPaper        = 500 * Millimetre
	MostCells        = 1000 // labels on one sheet
)

// plainMargin is what a sheet is left with at each edge where the kitchen does not say where its
// labels lie: most printers cannot print nearer to it.
const plainMargin = 5 * Millimetre

// Sheet is a sheet of labels in columns and rows. Left and Top are where the first label's corner
// lies; Across and Down lead from a label's edge to the same edge of the next one.
type Sheet struct {
	Paper
	Columns, Rows int
	Left, Top     Micrometres
	Across, Down  Micrometres
}

// Cells is how many labels a sheet has.
func (s *Sheet) Cells() int { return s.Columns * s.Rows }

// Fill works out what the kitchen does not say of a sheet, where 0 stands for not said and, of Left
// and Top, below 0 does: labels lie edge to edge, as many as leave a plain margin, in the middle.
func (s *Sheet) Fill(label Area) {
	fill := func(paper, label Micrometres, from, step *Micrometres, count *int) {
		if *step == 0 {
			*step = label
		}
		first := max(*from, 0)
		if *from < 0 {
			first = plainMargin
		}
		if *count == 0 && paper-plainMargin-first >= label {
			*count = 1 + int((paper-plainMargin-first-label)/max(*step, 1))
		}
		if *from < 0 {
			*from = max(0, paper-label-Micrometres(max(*count-1, 0))**step) / 2
		}
	}
	fill(s.Width, label.Width, &s.Left, &s.Across, &s.Columns)
	fill(s.Height, label.Height, &s.Top, &s.Down, &s.Rows)
}

// Misfit is why labels do not fit on a sheet, and by which of its keys.
type Misfit struct{ Key, What string }

// Misfits are why labels of a size do not fit on a sheet; none where they do.
func (s *Sheet) Misfits(label Area) (out []Misfit) {
	check := func(key, stepKey, way string, count int, from, step, label, paper Micrometres) {
		ends := from + Micrometres(max(count-1, 0))*step + label
		switch {
		case count < 1:
			out = append(out, Misfit{key, fmt.Sprintf("no label of %s fits %s on %s, which is %s", FormatMillimetres(label), way, s.Name, FormatMillimetres(paper))})
		case step < label && count > 1:
			out = append(out, Misfit{stepKey, fmt.Sprintf("the labels would lie on each other: they are %s, and the next one begins after %s", FormatMillimetres(label), FormatMillimetres(step))})
		case ends > paper:
			out = append(out, Misfit{key, fmt.Sprintf("the last of %d ends at %s, and %s is %s", count, FormatMillimetres(ends), s.Name, FormatMillimetres(paper))})
		}
	}
	check("columns", "across", "across", s.Columns, s.Left, s.Across, label.Width, s.Width)
	check("rows", "down", "down", s.Rows, s.Top, s.Down, label.Height, s.Height)
	if len(out) == 0 && s.Cells() > MostCells {
		out = append(out, Misfit{"rows", fmt.Sprintf("%d labels on one sheet are more than the limit of %d", s.Cells(), MostCells)})
	}
	return out
}
