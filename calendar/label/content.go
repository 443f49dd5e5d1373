package label

import (
	"regexp"
	"strings"

	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

// Lot is what is known of a batch whose labels are printed.
type Lot struct {
	Lot      string // as given: a label is made of none that has no lot yet
	Cheese   string
	Packed   resources.Moment // when its packing was over, or is to be
	IsPacked bool
	Keeps    resources.Minutes // by the recipe as it was; 0 where that is not known: the recipe's
	Labels   int               // how many are printed
	Weighed  resources.Milligrams
	Of       int // pieces that Weighed is of; 0 where nobody weighed
}

// Label is what stands on the labels of one lot.
type Label struct {
	Lot   Lot
	Lines []Line
	Code  string // what its QR code says; "" for none
	UseBy resources.Date
	// Weight is as it is declared, 0 for none; Mean says that it is the mean of what was weighed.
	Weight resources.Milligrams
	Mean   bool
	recipe *schedule.Recipe // nil where the kitchen has none of the name any more
}

// Line is one line of a label.
type Line struct {
	Kind  resources.LabelLine
	Parts []Part
}

// Part is a part of a line in one type.
type Part struct {
	Text string
	Bold bool
}

// Text is the whole of a line.
func (l Line) Text() string {
	var b strings.Builder
	for _, p := range l.Parts {
		b.WriteString(p.Text)
	}
	return b.String()
}

// Of makes what stands on the labels of a lot.
func Of(p *schedule.Problem, lot Lot) *Label {
	l := &Label{Lot: lot, recipe: p.Recipe(lot.Cheese)}
	r := l.recipe
	if r == nil {
		r = &schedule.Recipe{Name: lot.Cheese}
	}
	keeps := lot.Keeps
	if keeps == 0 {
		keeps = r.Keeps
	}
	l.UseBy = lot.Packed.Add(keeps).DateIn(p.Kitchen.Zone)
	l.weigh(r)
	kitchen := settings(p)
	lines := kitchen.Lines
	if lines == nil {
		lines = resources.UsualLines()
		if r.Label.GTIN != "" {
			lines = append(lines, resources.LineCode)
		}
	}
	raw := false
	for _, kind := range lines {
		raw = raw || kind == resources.LineMilk
	}
	for _, kind := range lines {
		l.add(kind, r, kitchen, p)
		if kind == resources.LineName && !raw && r.Label.Milk == schedule.Raw { // it is never left out
			raw = true
			l.add(resources.LineMilk, r, kitchen, p)
		}
	}
	if !raw && r.Label.Milk == schedule.Raw {
		l.add(resources.LineMilk, r, kitchen, p)
	}
	return l
}

// settings is how the kitchen prints labels.
func settings(p *schedule.Problem) *resources.Labels {
	if p.Kitchen.Labels == nil {
		return resources.UsualLabels()
	}
	return p.Kitchen.Labels
}

// weigh finds the weight that is declared: the label's own, the mean of what was weighed, or what
// the recipe has a piece weigh. A mean is rounded down to whole grams: no label promises more.
func (l *Label) weigh(r *schedule.Recipe) {
	switch {
	case r.Label.Weight > 0:
		l.Weight = r.Label.Weight
	case l.mean() >= gram:
		l.Weight, l.Mean = l.mean()/gram*gram, true
	default:
		l.Weight = r.Piece
	}
}

const gram resources.Milligrams = 1000

// mean is what one piece weighed on average; 0 where nobody weighed.
func (l *Label) mean() resources.Milligrams {
	if l.Lot.Of == 0 {
		return 0
	}
	return l.Lot.Weighed / resources.Milligrams(l.Lot.Of)
}

// add adds a line, where there is something to say.
func (l *Label) add(kind resources.LabelLine, r *schedule.Recipe, k *resources.Labels, p *schedule.Problem) {
	text := ""
	switch kind {
	case resources.LineName:
		text = r.Name
	case resources.LineMilk:
		if r.Label.Milk != "" {
			text = "Made with " + string(r.Label.Milk) + " milk"
		}
	case resources.LineIngredients:
		if r.Label.Ingredients != "" {
			text = "Ingredients: " + r.Label.Ingredients
		}
	case resources.LineWeight:
		if l.Weight > 0 {
			text = resources.FormatMass(l.Weight)
		}
	case resources.LineUseBy:
		text = "Use by " + date(l.UseBy)
		if r.Label.BestBefore {
			text = "Best before " + date(l.UseBy)
		}
	case resources.LineEstimate:
		text = "The date is the maker's own estimate"
	case resources.LinePacked:
		text = "Packed " + date(l.Lot.Packed.DateIn(p.Kitchen.Zone))
	case resources.LineKeep:
		if r.Label.Keep != "" {
			text = "Keep " + r.Label.Keep
		}
	case resources.LineLot:
		text = "Lot " + l.Lot.Lot
	case resources.LineMaker:
		text = k.Maker
	case resources.LineCode: // of no GTIN the lot alone: an address of the kitchen's own pages is a key
		if l.Code = l.Lot.Lot; r.Label.GTIN != "" {
			l.Code = DigitalLink(r.Label.GTIN, l.Lot.Lot, l.UseBy, r.Label.BestBefore)
		}
		return
	case resources.LineGS1:
		if r.Label.GTIN != "" {
			text = Elements(r.Label.GTIN, l.Lot.Lot, l.UseBy, r.Label.BestBefore, l.Weight)
		}
	}
	if text != "" {
		l.Lines = append(l.Lines, Line{kind, parts(kind, words.Printable(text))})
	}
}

// date writes a date so that no country reads it another way round.
func date(d resources.Date) string { return words.Midnight(d).Format("2 Jan 2006") }

var (
	starred = regexp.MustCompile(`\*[^*]+\*`)
	milk    = regexp.MustCompile(`(?i)\bmilk\b`)
)

// parts has what must be seen in bold: the name, of ingredients what stands between asterisks, and
// where none does the word milk.
func parts(kind resources.LabelLine, text string) (out []Part) {
	bold := milk
	switch kind {
	case resources.LineName:
		return []Part{{text, true}}
	case resources.LineMilk:
	case resources.LineIngredients:
		if starred.MatchString(text) {
			bold = starred
		}
	default:
		return []Part{{text, false}}
	}
	at := 0
	for _, m := range bold.FindAllStringIndex(text, -1) {
		if m[0] > at {
			out = append(out, Part{text[at:m[0]], false})
		}
		out = append(out, Part{strings.Trim(text[m[0]:m[1]], "*"), true})
		at = m[1]
	}
	if at < len(text) {
		out = append(out, Part{text[at:], false})
	}
	return out
}
