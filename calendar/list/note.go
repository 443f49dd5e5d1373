package list

import (
	"fmt"
	"slices"
	"strings"

	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

// Note is a delivery note: what a consignment of food of animal origin to another business is asked to
// tell, by Commission Implementing Regulation (EU) 931/2011, article 3: an accurate description; the
// quantity; name and address of who sends it, and of its owner where that is another; the same of who
// receives it; a reference that tells the lot; the date of dispatch. Beside these 21 CFR 1.1340 asks for
// the place where the lot was given, and for type and number of the document. Each of them is there, or a
// blank to write on.
type Note struct {
	From, To   Party
	Dispatched string // a day
	Day        resources.Date
	For        string // the target
	Lines      []NoteLine
	Lacking    []string // what has to be written in by hand, a sentence each
	Notes      []string
	Back       string // address of the page that it was reached from; "" for none
}

// Party is one of the two businesses. Address is "" where the kitchen folder does not say.
type Party struct{ Name, Address string }

// NoteLine is what goes of one lot.
type NoteLine struct {
	What, Quantity string
	Pieces         int
	Lot            string // "" where none is given
	Until          string
	UseBy          resources.Date // the same as a date; zero where no recipe says
}

// Handed is what somebody said that went to a business, of one lot.
type Handed struct {
	Cheese string
	Lot    string         // "" where it has none
	UseBy  resources.Date // zero where it is not known
	Pieces int
	At     resources.Moment // when it left
}

// Sender is who sends what the kitchen makes: the maker as the kitchen's labels have it, the name up to the
// first comma and the address after it; where they say no maker the kitchen by its own name, without an
// address.
func Sender(k *resources.Kitchen) Party {
	maker := ""
	if k.Labels != nil {
		maker = k.Labels.Maker
	}
	name, address, _ := strings.Cut(maker, ",")
	if name, address = strings.TrimSpace(name), strings.TrimSpace(address); name == "" {
		name = k.Name
	}
	return Party{Name: name, Address: address}
}

// NoteOf gives the delivery note of what goes to a business for a target: of what somebody said that went,
// else of what the plan has for it.
func NoteOf(p *schedule.Problem, plan *schedule.Plan, t Target, to resources.Business, handed []Handed) (*Note, error) {
	zone, err := words.Zone(p)
	if err != nil {
		return nil, err
	}
	n := &words.Pen{Zone: zone}
	from := Sender(&p.Kitchen)
	d := &Note{From: Party{n.Text(from.Name), n.Text(from.Address)}, To: Party{n.Text(to.Name), n.Text(to.Address)}, For: n.Name(t.Name)}
	left := t.By
	for _, h := range handed {
		d.Lines = append(d.Lines, lineOf(p, n, h.Cheese, h.Lot, h.Pieces, h.UseBy))
		left = h.At
	}
	if len(handed) == 0 {
		all := sharesOf(p, plan, t)
		for i := range all {
			a := &all[i]
			d.Lines = append(d.Lines, lineOf(p, n, a.cheese, a.lot, a.pieces, a.keepsUntil(p, zone)))
		}
	}
	d.Day = left.DateIn(zone)
	d.Dispatched = dayText(d.Day)
	d.lacking()
	d.Notes = []string{"Owner: where that is another than who sends or who receives.", Own, Law}
	return d, nil
}

func lineOf(p *schedule.Problem, n *words.Pen, cheese, lot string, pieces int, until resources.Date) NoteLine {
	return NoteLine{What: n.Name(cheese), Quantity: quantity(p, cheese, pieces), Pieces: pieces, Lot: n.Name(lot), Until: dayText(until), UseBy: until}
}

// dayText is a day as it is printed; "" for none.
func dayText(d resources.Date) string {
	if d == (resources.Date{}) {
		return ""
	}
	return words.Midnight(d).Format("Mon 2 Jan 2006")
}

// lacking says what the kitchen folder and the record do not, and a note has to.
func (d *Note) lacking() {
	if d.From.Address == "" {
		d.Lacking = append(d.Lacking, "Your own address is not in the kitchen folder: write it in, or give it in kitchen.yaml as label: {maker: \"name, address\"}.")
	}
	if d.To.Address == "" {
		d.Lacking = append(d.Lacking, fmt.Sprintf("The address of %s is not in the kitchen folder: write it in, or give it under businesses in kitchen.yaml.", d.To.Name))
	}
	var without []string
	for _, l := range d.Lines {
		if l.Lot == "" && !slices.Contains(without, l.What) {
			without = append(without, l.What)
		}
	}
	if len(without) > 0 {
		d.Lacking = append(d.Lacking, "No lot is given of "+strings.Join(without, ", ")+": say that the make began, or write the lot in.")
	}
}

// quantity is how many pieces, and what they weigh by the recipe.
func quantity(p *schedule.Problem, cheese string, pieces int) string {
	text := words.Count(pieces, "piece", "pieces")
	if r := p.Recipe(cheese); r != nil && r.Piece > 0 {
		text += ", about " + strings.ReplaceAll(resources.FormatMass(resources.Milligrams(pieces)*r.Piece), " ", words.Glue) + " by the recipe"
	}
	return text
}
