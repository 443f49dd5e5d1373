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
// receives it; a reference that tells the lot; the date of dispatch.
type Note struct {
	From, To   Party
	Dispatched string // a day
	For        string // the target
	Lines      []NoteLine
	Lacking    []string // what has to be written in by hand, a sentence each
	Notes      []string
}

// Party is one of the two businesses. Address is "" where the kitchen folder does not say.
type Party struct{ Name, Address string }

// NoteLine is what goes of one lot.
type NoteLine struct {
	What, Quantity string
	Lot            string // "" where none is given
	Until          string
}

// Handed is what somebody said that went to a business, of one lot.
type Handed struct {
	Cheese string
	Lot    string         // "" where it has none
	UseBy  resources.Date // zero where it is not known
	Pieces int
	At     resources.Moment // when it left
}

// Sender is who sends what the kitchen makes: by its own name, for its folder knows no address of it.
func Sender(k *resources.Kitchen) Party { return Party{Name: k.Name} }

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
		line := NoteLine{What: n.Name(h.Cheese), Quantity: quantity(p, h.Cheese, h.Pieces), Lot: n.Name(h.Lot)}
		if h.UseBy != (resources.Date{}) {
			line.Until = words.Midnight(h.UseBy).Format("Mon 2 Jan 2006")
		}
		d.Lines = append(d.Lines, line)
		left = h.At
	}
	if len(handed) == 0 {
		all := sharesOf(p, plan, t)
		for i := range all {
			a := &all[i]
			d.Lines = append(d.Lines, NoteLine{What: n.Name(a.cheese), Quantity: quantity(p, a.cheese, a.pieces), Lot: n.Name(a.lot), Until: a.keepsUntil(p, zone)})
		}
	}
	d.Dispatched = words.Midnight(left.DateIn(zone)).Format("Mon 2 Jan 2006")
	d.lacking()
	d.Notes = []string{"Owner, where that is another than who sends or receives: write it beside the name.", Own, Law}
	return d, nil
}

// lacking says what the kitchen folder and the record do not, and a note has to.
func (d *Note) lacking() {
	if d.From.Address == "" {
		d.Lacking = append(d.Lacking, "Your own address is not in the kitchen folder: write it in.")
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
