package label

import (
	"errors"
	"flag"
	"fmt"
	"strings"
	"testing"

	"ripeby/calendar/sample"
	"ripeby/resources"
	"ripeby/schedule"
)

var update = flag.Bool("update", false, "write the golden files anew")

// dairy is the sample kitchen with all that a label can say.
func dairy() *schedule.Problem {
	p := sample.Kitchen()
	p.Recipes[0].Label = schedule.Label{Milk: schedule.Raw, Ingredients: "cow's milk, salt, rennet, cultures", Keep: "below 5 °C", Weight: 80_000}
	p.Kitchen.Labels = resources.UsualLabels()
	p.Kitchen.Labels.Maker = "Saltgrass <Lane> & Co, 3 Quay Row"
	return p
}

func hoops(p *schedule.Problem, labels int) Lot {
	return Lot{Lot: "BH-270316-1", Cheese: "Bramble hoop", Packed: sample.At(p.Kitchen.Zone, "2027-03-28 19:00"), IsPacked: true, Labels: labels}
}

// text is a label in one line a line, bold between asterisks.
func text(l *Label) string {
	var out []string
	for _, line := range l.Lines {
		s := ""
		for _, p := range line.Parts {
			if p.Bold {
				p.Text = "*" + p.Text + "*"
			}
			s += p.Text
		}
		out = append(out, s)
	}
	if l.Code != "" {
		out = append(out, "code "+l.Code)
	}
	return strings.Join(out, "\n")
}

func TestWhatStandsOnALabel(t *testing.T) {
	all := resources.LabelLines()
	for _, c := range []struct {
		name   string
		change func(*schedule.Problem, *Lot)
		want   string
	}{
		{"the usual lines", nil, "*Bramble hoop*\nMade with raw *milk*\nIngredients: cow's *milk*, salt, rennet, cultures\n80 g\nUse by 3 Apr 2027\nKeep below 5 °C\nLot BH-270316-1\nSaltgrass <Lane> & Co, 3 Quay Row"},
		{"all lines", func(p *schedule.Problem, _ *Lot) {
			p.Kitchen.Labels.Lines = all
			p.Recipes[0].Label.GTIN, p.Recipes[0].Label.BestBefore, p.Recipes[0].Label.Milk = "09521234543213", true, schedule.Thermised
		}, "*Bramble hoop*\nMade with thermised *milk*\nIngredients: cow's *milk*, salt, rennet, cultures\n80 g\nBest before 3 Apr 2027\nThe date is the maker's own estimate\nPacked 28 Mar 2027\nKeep below 5 °C\nLot BH-270316-1\n" +
			"Saltgrass <Lane> & Co, 3 Quay Row\n(01)09521234543213(15)270403(10)BH-270316-1\ncode https://id.gs1.org/01/09521234543213/10/BH-270316-1?15=270403"},
		{"raw milk is never left out", func(p *schedule.Problem, _ *Lot) {
			p.Kitchen.Labels.Lines = []resources.LabelLine{resources.LineLot, resources.LineName, resources.LineWeight}
		}, "Lot BH-270316-1\n*Bramble hoop*\nMade with raw *milk*\n80 g"},
		{"not even without a name", func(p *schedule.Problem, _ *Lot) { p.Kitchen.Labels.Lines = []resources.LabelLine{resources.LineLot} }, "Lot BH-270316-1\nMade with raw *milk*"},
		{"a code without a GTIN is the lot", func(p *schedule.Problem, _ *Lot) {
			p.Recipes[0].Label.Milk = schedule.Pasteurised
			p.Kitchen.Labels.Lines = []resources.LabelLine{resources.LineName, resources.LineCode, resources.LineGS1}
		}, "*Bramble hoop*\ncode BH-270316-1"},
		{"bold as the maker has it", func(p *schedule.Problem, _ *Lot) {
			p.Recipes[0].Label = schedule.Label{Ingredients: "*Kuhmilch*, Salz"}
			p.Kitchen.Labels.Lines = []resources.LabelLine{resources.LineIngredients}
		}, "Ingredients: *Kuhmilch*, Salz"},
		{"milkweed is no milk", func(p *schedule.Problem, _ *Lot) {
			p.Recipes[0].Label = schedule.Label{Ingredients: "Milk, milkweed"}
			p.Kitchen.Labels.Lines = []resources.LabelLine{resources.LineIngredients}
		}, "Ingredients: *Milk*, milkweed"},
		{"the mean of what was weighed", func(p *schedule.Problem, lot *Lot) {
			p.Recipes[0].Label = schedule.Label{}
			lot.Weighed, lot.Of = 1_025_000, 14 // 73.2 g
			p.Kitchen.Labels.Lines = []resources.LabelLine{resources.LineWeight}
		}, "73 g"},
		{"the recipe's piece", func(p *schedule.Problem, _ *Lot) {
			p.Recipes[0].Label, p.Recipes[0].Piece = schedule.Label{}, 75_000
			p.Kitchen.Labels.Lines = []resources.LabelLine{resources.LineWeight}
		}, "75 g"},
		{"nothing said of labels, and the recipe gone", func(p *schedule.Problem, lot *Lot) {
			p.Kitchen.Labels, p.Recipes, lot.Keeps = nil, nil, 2*resources.Day
		}, "*Bramble hoop*\nUse by 30 Mar 2027\nLot BH-270316-1"},
		{"keeps as it was", func(p *schedule.Problem, lot *Lot) {
			lot.Keeps = resources.Day
			p.Kitchen.Labels.Lines = []resources.LabelLine{resources.LineUseBy}
			p.Recipes[0].Label = schedule.Label{}
		}, "Use by 29 Mar 2027"},
	} {
		p := dairy()
		lot := hoops(p, 1)
		if c.change != nil {
			c.change(p, &lot)
		}
		if got := text(Of(p, lot)); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.want)
		}
	}
}

// The address is the worked example of the pages on Digital Link URIs of the barcode writer in
// PostScript (bwipp), (01) (10) and (17) of it as an element string.
func TestGS1(t *testing.T) {
	day := resources.Date{Year: 2026, Month: 12, Day: 31}
	for _, c := range []struct{ got, want string }{
		{DigitalLink("09521234543213", "ABC123", day, false), "https://id.gs1.org/01/09521234543213/10/ABC123?17=261231"},
		{DigitalLink("09521234543213", "A/1", day, true), "https://id.gs1.org/01/09521234543213/10/A%2F1?15=261231"},
		{Elements("09521234543213", "ABC123", day, false, 75_000), "(01)09521234543213(17)261231(10)ABC123"},
		// Net weight is for what is sold by weight, whose GTIN begins with 9; in grams by (3103).
		{Elements("99521234543216", "ABC123", day, true, 75_000), "(01)99521234543216(15)261231(3103)000075(10)ABC123"},
		{sixDigits(resources.Date{Year: 2005, Month: 1, Day: 2}), "050102"},
	} {
		if c.got != c.want {
			t.Errorf("got %s, want %s", c.got, c.want)
		}
	}
}

// The table is that of Directive 76/211/EEC, Annex I, 2.4 (legislation.gov.uk); 80, 150, 250 and
// 400 g are worked out from it by hand.
func TestShortfall(t *testing.T) {
	for _, c := range []struct {
		declared, t1, t2 resources.Milligrams
		ok               bool
	}{
		{80_000, 75_500, 71_000, true}, {150_000, 143_250, 136_500, true}, {250_000, 241_000, 232_000, true}, {400_000, 388_000, 376_000, true},
		{50_000, 45_500, 41_000, true}, {100_000, 95_500, 91_000, true}, {200_000, 191_000, 182_000, true}, {300_000, 291_000, 282_000, true},
		{500_000, 485_000, 470_000, true}, {1_000_000, 985_000, 970_000, true}, {5_000, 4_550, 4_100, true},
		{4_999, 0, 0, false}, {1_000_001, 0, 0, false}, {0, 0, 0, false},
	} {
		if t1, t2, ok := Shortfall(c.declared); t1 != c.t1 || t2 != c.t2 || ok != c.ok {
			t.Errorf("%s: got %d, %d, %v", resources.FormatMass(c.declared), t1, t2, ok)
		}
	}
}

func TestPage(t *testing.T) {
	p := dairy()
	p.Kitchen.Labels.Lines = append(resources.UsualLines(), resources.LineCode)
	p.Kitchen.Labels.Sheet = &resources.Sheet{Paper: resources.Papers()[2], Columns: 1, Rows: 3, Left: 7_000, Top: 15_000, Down: 42_000}
	lot := hoops(p, 3)
	lot.Weighed, lot.Of = 230_000, 3
	got, err := Page(p, []Lot{lot}, Options{Start: 2, Back: "../batch/BH-270316-1", Cells: "BH-270316-1/"})
	if err != nil {
		t.Fatal(err)
	}
	if err := sample.Golden("page.html", got, *update); err != nil {
		t.Error(err)
	}
	text := string(got)
	for what, n := range map[string]int{`<div class="sheet`: 2, `<div class="label`: 3, `x0 y1"`: 1, `x0 y2"`: 1, `x0 y0"`: 1, `href="#code1"`: 3} {
		if got := strings.Count(text, what); got != n {
			t.Errorf("%s: got %d, want %d", what, got, n)
		}
	}
	for _, word := range []string{"safe to eat", "<Lane>", "ZgotmplZ", " style="} {
		if strings.Contains(text, word) {
			t.Errorf("the page says %s", word)
		}
	}
}

// What is too much is refused, and the limits are told.
func TestWhatIsRefused(t *testing.T) {
	page := func(labels int, opt Options, change func(*schedule.Problem)) error {
		p := dairy()
		if change != nil {
			change(p)
		}
		_, err := Page(p, []Lot{hoops(p, labels)}, opt)
		return err
	}
	for _, c := range []struct {
		name   string
		labels int
		opt    Options
		change func(*schedule.Problem)
		want   string
	}{
		{"all is well", 1, Options{}, nil, "<nil>"},
		{"none", 0, Options{}, nil, "there is no label to print"},
		{"the most", MostLabels, Options{Start: 21}, nil, "<nil>"},
		{"too many", MostLabels + 1, Options{}, nil, "more than 1000 labels at once are more than the limit; print them in parts"},
		{"no such cell", 1, Options{Start: 22}, nil, "the first label is to go to cell 22, and a sheet has 21"},
		{"a roll has one", 1, Options{Start: 2}, func(p *schedule.Problem) { p.Kitchen.Labels.Sheet = nil }, "the first label is to go to cell 2, and a sheet has 1"},
	} {
		if got := fmt.Sprint(page(c.labels, c.opt, c.change)); got != c.want {
			t.Errorf("%s: got %s, want %s", c.name, got, c.want)
		}
	}
	for name, change := range map[string]func(*schedule.Problem){
		"too small for all lines": func(p *schedule.Problem) { p.Kitchen.Labels.Size = resources.Area{Width: 30_000, Height: 15_000} },
		"a word for a whole label": func(p *schedule.Problem) {
			p.Recipes[0].Label.Keep = strings.Repeat("W", 400)
		},
		"no room beside the code": func(p *schedule.Problem) {
			p.Kitchen.Labels.Lines = []resources.LabelLine{resources.LineName, resources.LineCode}
			p.Kitchen.Labels.Size = resources.Area{Width: 20_000, Height: 40_000}
		},
	} {
		var much *TooMuch
		if err := page(1, Options{}, change); !errors.As(err, &much) || !strings.Contains(err.Error(), "does not fit on ") {
			t.Errorf("%s: got %v", name, err)
		}
	}
}

// Names that have broken pages stand in one as they are.
func TestNastyNames(t *testing.T) {
	for name, nasty := range sample.NastyNames {
		p := dairy()
		p.Recipes[0].Name = nasty
		lot := hoops(p, 1)
		lot.Cheese = nasty
		got, err := Page(p, []Lot{lot}, Options{})
		var much *TooMuch
		if err != nil && !errors.As(err, &much) {
			t.Errorf("%s: %v", name, err)
		}
		if strings.Contains(string(got), "<b>*x*") || sample.Harmless(string(got)) != nil {
			t.Errorf("%s: it is not harmless", name)
		}
	}
}
