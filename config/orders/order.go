package orders

import (
	"fmt"
	"strings"

	"ripeby/config"
	"ripeby/config/fault"
	"ripeby/resources"
	"ripeby/schedule"
)

// order is one line that can be taken.
type order struct {
	nr   int // of its line
	who  string
	by   string // when it leaves, as targets.yaml has it
	at   resources.Moment
	want schedule.Want
}

// plainPrice is what a piece is worth where no price is given, as in targets.yaml.
const plainPrice resources.Money = 100

// order reads one line; the fault is the first that is wrong with it.
func (t *table) order(line *cells, kitchen *schedule.Problem) (order, *config.Fault) {
	o := order{nr: line.nr, want: schedule.Want{Price: plainPrice, Promised: true}}
	if bad := t.fits(line); bad != nil {
		return o, bad
	}
	for _, part := range []struct {
		head string
		read func(text string) error
	}{
		{"date", func(text string) (err error) { o.by, o.at, err = leaves(text, kitchen); return }},
		{"who", func(text string) (err error) { o.who, err = fault.Name(text); return }},
		{"cheese", func(text string) (err error) { o.want.Cheese, err = cheese(text, kitchen); return }},
		{"pieces", func(text string) (err error) { o.want.Pieces, err = pieces(text); return }},
		{"price", func(text string) (err error) { o.want.Price, err = price(text); return }},
	} {
		text := t.cell(line, part.head)
		if text == "" && part.head != mayLack {
			return o, &config.Fault{What: "nothing stands under " + part.head}
		}
		if err := part.read(text); err != nil {
			f := fault.OfQuantity(err)
			f.What = part.head + ": " + f.What
			return o, &f
		}
	}
	return o, nil
}

// fits sees that a line has a cell for each column, and nothing beside.
func (t *table) fits(line *cells) *config.Fault {
	if len(line.text) < len(t.heads) {
		return &config.Fault{What: fmt.Sprintf("this line has %s, and the header %d", schedule.Counted(len(line.text), "cell"), len(t.heads))}
	}
	for i, text := range line.text {
		if text != "" && (i >= len(t.heads) || t.heads[i] == "") {
			return &config.Fault{What: "no column is named above this cell; one that has a comma or semicolon within stands in quotation marks", Got: fault.Clip(text)}
		}
	}
	return nil
}

// cheese reads the name of a cheese that there is a recipe for.
func cheese(text string, kitchen *schedule.Problem) (string, error) {
	if kitchen.Recipe(text) != nil {
		return text, nil
	}
	const most = 8
	var names []string
	for i := range kitchen.Recipes {
		names = append(names, kitchen.Recipes[i].Name)
	}
	f := config.Fault{What: "there is no recipe of this name", Got: fault.Clip(text), Near: fault.Nearest(text, names)}
	switch {
	case f.Near != "":
	case len(names) == 0:
		f.What = "there is no recipe at all"
	case len(names) == 1:
		f.Want = names[0]
	case len(names) > most:
		f.Want = fmt.Sprintf("one of %s and %d more", strings.Join(names[:most], ", "), len(names)-most)
	default:
		f.Want = "one of " + schedule.Listed(names)
	}
	return "", f
}

// pieces reads how many are wanted.
func pieces(text string) (int, error) {
	n, err := fault.Whole(1, config.MaxPieces)(text)
	if f, ok := err.(config.Fault); ok && strings.Trim(text, "0123456789") != "" {
		f.What = "pieces are a whole number in digits alone, such as 24"
		err = f
	}
	return n, err
}

// price reads what a piece is worth, with a decimal point or comma.
func price(text string) (resources.Money, error) {
	if text == "" {
		return plainPrice, nil
	}
	if before, after, ok := strings.Cut(text, ","); ok && digits(before) && digits(after) && len(after) <= 2 {
		return resources.ParseMoney(before + "." + after)
	}
	return resources.ParseMoney(text)
}

// digits reports whether a text is made of digits, one at least.
func digits(text string) bool { return text != "" && strings.Trim(text, "0123456789") == "" }
