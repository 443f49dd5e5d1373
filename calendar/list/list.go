package list

import (
	"fmt"
	"slices"
	"time"

	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/chance"
	"ripeby/schedule/demand"
)

// Shown is what to take along to a target.
type Shown struct {
	Kitchen string
	Target  string // of one that repeats with its date
	When    string
	By      resources.Moment // the same as a moment
	Cheeses []CheeseShown
	Notes   []string
	zone    *time.Location
}

// CheeseShown is one cheese of it, on which two numbers are written down afterwards.
type CheeseShown struct {
	Name   string
	Pieces int
	Short  int // pieces that were wanted and are not there
	Rows   []RowShown
	Sold   string // what the kitchen's own sales there say of it; "" for nothing
	Chance string // how often all of it is there in time, and why not; "" where nothing is known
}

// RowShown is what comes of one batch, or of one entry of stock.
type RowShown struct {
	From   string // place, shelf and boxes
	Batch  string // its id as the plan has it; "" for stock
	Lot    string // "" while it has none
	Pieces int
	Until  string // the last day on which it keeps; "" where no recipe says
	UseBy  resources.Date
}

// Law is said once on every page: what a law asks for is not known here.
const Law = "What a law asks for is yours to find out: ask your own food authority."

// Own says what the day is up to which a cheese keeps.
const Own = "Keeps until is the day of packing and what the recipe says that it keeps: the maker's own estimate, not a tested shelf life."

// Show gives the list of a target of the plan.
func Show(p *schedule.Problem, plan *schedule.Plan, t Target) (*Shown, error) {
	zone, err := words.Zone(p)
	if err != nil {
		return nil, err
	}
	n := &words.Pen{Zone: zone}
	s := &Shown{Kitchen: n.Name(p.Kitchen.Name), Target: n.Name(t.Name), When: words.Stamp(t.By, zone), By: t.By, zone: zone}
	all := sharesOf(p, plan, t)
	for i := range all {
		a := &all[i]
		if k := len(s.Cheeses); k == 0 || s.Cheeses[k-1].Name != n.Name(a.cheese) {
			s.Cheeses = append(s.Cheeses, CheeseShown{Name: n.Name(a.cheese)})
		}
		c := &s.Cheeses[len(s.Cheeses)-1]
		c.Pieces += a.pieces
		until := a.keepsUntil(p, zone)
		c.Rows = append(c.Rows, RowShown{From: a.from(n), Batch: a.batch, Lot: n.Name(a.lot), Pieces: a.pieces, Until: dayText(until), UseBy: until})
	}
	s.short(plan, t, n)
	if slices.ContainsFunc(all, func(a share) bool { return a.lot == "" && a.batch != "" }) {
		s.Notes = append(s.Notes, "A lot is given when somebody says that its make began, or at packing; until then there is a blank.")
	}
	s.Notes = append(s.Notes, Own, Law)
	return s, nil
}

// Bring tells beside each cheese what the kitchen's own sales say.
func (s *Shown) Bring(p *schedule.Problem, t Target, all []demand.Want) {
	for i := range all {
		w := &all[i]
		if w.Target != t.Name || w.By != t.By {
			continue
		}
		n := &words.Pen{Zone: p.Kitchen.Zone}
		for k := range s.Cheeses {
			if s.Cheeses[k].Name == n.Name(w.Cheese) {
				s.Cheeses[k].Sold = w.Says() + "."
			}
		}
	}
}

// Chances tells beside each cheese how often all of it is there in time.
func (s *Shown) Chances(p *schedule.Problem, t Target, all []chance.Want) {
	n := &words.Pen{Zone: p.Kitchen.Zone}
	for i := range all {
		w := &all[i]
		if w.Target != t.Name || w.By != t.By || w.Short > 0 {
			continue
		}
		for k := range s.Cheeses {
			if c := &s.Cheeses[k]; c.Name == n.Name(w.Cheese) {
				if c.Chance != "" { // promised ones and others apart
					c.Chance += " "
				}
				c.Chance += w.Sentence(func(m resources.Moment) string { return words.Stamp(m, n.Zone) })
			}
		}
	}
	if len(all) > 0 {
		s.Notes = append(s.Notes, chance.WordsMean+" "+chance.NoSafety)
	}
}

// short notes of which cheese less is there than was wanted.
func (s *Shown) short(plan *schedule.Plan, t Target, n *words.Pen) {
	for _, r := range plan.Targets {
		if r.Target != t.Name || r.By != t.By || r.Short == 0 {
			continue
		}
		i := slices.IndexFunc(s.Cheeses, func(c CheeseShown) bool { return c.Name == n.Name(r.Cheese) })
		if i < 0 {
			i = len(s.Cheeses)
			s.Cheeses = append(s.Cheeses, CheeseShown{Name: n.Name(r.Cheese)})
		}
		s.Cheeses[i].Short += r.Short
	}
}

// Says is how many pieces of a cheese there are to take.
func (c *CheeseShown) Says() string {
	text := words.Count(c.Pieces, "piece", "pieces")
	if c.Short > 0 {
		text += fmt.Sprintf(", %d%sshort", c.Short, words.Glue)
	}
	return text
}
