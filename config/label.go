package config

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v3"

	"ripeby/config/fault"
	"ripeby/resources"
	"ripeby/schedule"
)

// labels reads how labels are printed; nil where nothing is said.
func labels(o *object) *resources.Labels {
	f, ok := o.inner("label")
	if !ok {
		return nil
	}
	out := &resources.Labels{Lines: labelLines(f)}
	out.Maker, _ = either(f, "maker", "", labelText)
	if out.Size, ok = take(f, "size", labelSize); ok {
		out.Sheet = sheetOf(f, out.Size)
	}
	return out
}

// labelText reads a text that is to stand on a label.
func labelText(text string) (string, error) {
	switch {
	case utf8.RuneCountInString(text) > MaxLabelText:
		return "", Fault{What: fmt.Sprintf("a text on a label has at most %d characters", MaxLabelText), Got: clip(text)}
	case strings.ContainsFunc(text, fault.Unprintable):
		return "", Fault{What: "a text on a label is a single line of letters, digits and signs", Got: clip(text)}
	}
	return strings.TrimSpace(text), nil
}

// labelSize reads the size of a label, which must have room for letters.
func labelSize(text string) (resources.Area, error) {
	size, err := resources.ParseArea(text)
	switch {
	case err != nil:
	case size.Width < resources.LeastLabelWidth || size.Height < resources.LeastLabelHeight:
		err = Fault{What: "a label is at least " + resources.FormatArea(resources.Area{Width: resources.LeastLabelWidth, Height: resources.LeastLabelHeight}), Got: clip(text)}
	case size.Width > resources.MostPaper || size.Height > resources.MostPaper:
		err = Fault{What: "a label is at most " + resources.FormatMillimetres(resources.MostPaper) + " on either side", Got: clip(text)}
	}
	return size, err
}

// roll is what labels are printed on one after another, each a page of its own.
const roll = "roll"

// sheetOf reads what labels are printed on, and sees that they fit there; nil for a roll.
func sheetOf(f *object, label resources.Area) *resources.Sheet {
	s := &resources.Sheet{Paper: resources.Papers()[0], Left: -1, Top: -1}
	at, key := f, func(string) string { return "size" } // by what a misfit is told
	switch n := f.get("sheet"); {
	case n == nil:
	case n.Kind == yaml.ScalarNode && n.Value == roll:
		return nil
	case n.Kind == yaml.ScalarNode:
		var ok bool
		if s.Paper, ok = value(f, "sheet", resources.ParsePaper); !ok {
			return s
		}
	default:
		in, ok := f.inner("sheet")
		if !ok {
			return s
		}
		before := len(f.page.loader.faults)
		s.Paper, _ = take(in, "paper", resources.ParsePaper)
		s.Columns, _ = either(in, "columns", 0, whole(1, resources.MostCells))
		s.Rows, _ = either(in, "rows", 0, whole(1, resources.MostCells))
		s.Left, _ = either(in, "left", -1, resources.ParseDistance)
		s.Top, _ = either(in, "top", -1, resources.ParseDistance)
		s.Across, _ = either(in, "across", 0, above0(resources.ParseDistance))
		s.Down, _ = either(in, "down", 0, above0(resources.ParseDistance))
		if len(f.page.loader.faults) > before {
			return s
		}
		at, key = in, func(key string) string { return key }
	}
	s.Fill(label)
	for _, m := range s.Misfits(label) {
		at.fault(key(m.Key), Fault{What: m.What})
	}
	return s
}

// labelLines reads what stands on a label; the usual lines where that is left out.
func labelLines(f *object) []resources.LabelLine {
	if f.get("lines") == nil {
		return nil
	}
	var known []string
	for _, l := range resources.LabelLines() {
		known = append(known, string(l))
	}
	lines, nodes := each(f, "lines", func(text string) (resources.LabelLine, error) {
		if !slices.Contains(known, text) {
			bad := Fault{What: "this is nothing that can stand on a label", Got: clip(text), Near: nearest(text, known)}
			if bad.Near == "" {
				bad.Want = "one of " + strings.Join(known, ", ")
			}
			return "", bad
		}
		return resources.LabelLine(text), nil
	})
	for i, l := range lines {
		if slices.Contains(lines[:i], l) {
			f.faultAt(nodes[i], "lines", Fault{What: "this line stands there twice", Got: string(l)})
		}
	}
	if len(f.list("lines")) == 0 {
		f.fault("lines", Fault{What: "name at least one line", Want: f.shown("lines")})
	}
	return lines
}

// mostCodeWithGTIN is how long a recipe's code may be beside a GTIN: GS1 has room for 20 characters
// in a lot, and 10 of them are the date, dashes and a number of two digits.
const mostCodeWithGTIN = 10

// label reads what a recipe says of its label.
func (l *loader) label(o *object, r *schedule.Recipe) (out schedule.Label) {
	f, ok := o.inner("label")
	if !ok {
		return out
	}
	out.Milk, _ = either(f, "milk", "", treatment)
	out.Ingredients, _ = either(f, "ingredients", "", labelText)
	out.Keep, _ = either(f, "keep", "", labelText)
	out.Weight, _ = either(f, "weight", 0, above0(resources.ParseMass))
	out.BestBefore, _ = take(f, "date", bestBefore)
	out.GTIN, ok = either(f, "gtin", "", resources.ParseGTIN)
	plain := func(c rune) bool { return c < '!' || c > 'z' }
	if ok && out.GTIN != "" && (len(r.Code) > mostCodeWithGTIN || strings.ContainsFunc(r.Code, plain)) {
		f.fault("gtin", Fault{What: fmt.Sprintf("beside a GTIN the recipe's code, with which its lots begin, is at most %d of the letters a to z, digits, points and dashes", mostCodeWithGTIN), Got: r.Code, Want: "code: AB"})
	}
	return out
}

// treatment reads how milk was treated.
func treatment(text string) (schedule.Treatment, error) {
	known := []string{string(schedule.Raw), string(schedule.Pasteurised), string(schedule.Thermised)}
	if slices.Contains(known, text) {
		return schedule.Treatment(text), nil
	}
	return "", Fault{What: "the milk of a label is raw, pasteurised or thermised", Got: clip(text), Near: nearest(text, known)}
}

// bestBefore reads what the date on a label is called.
func bestBefore(text string) (bool, error) {
	known := []string{"use by", "best before"}
	if slices.Contains(known, text) {
		return text == known[1], nil
	}
	return false, Fault{What: "the date of a label is use by or best before", Got: clip(text), Near: nearest(text, known)}
}
