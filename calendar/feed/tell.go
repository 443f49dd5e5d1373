package feed

import (
	"cmp"
	"slices"

	"ripeby/calendar/said"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

// TellView is what may be said of the kitchen, and not of a job: who is away, what is closed, what left for a
// target and what came back from it.
type TellView struct {
	People  []string // whose absence may be said, who writes first
	Away    *FormView
	Places  []PlaceView
	Out     []OutView
	Markets []MarketView
	Note    *FormView
}

// PlaceView is a cold place that may be closed, all of it or a shelf.
type PlaceView struct {
	Name    string
	Shelves []string
	Form    *FormView
}

// OutView is who is away or what is closed, and the form that ends it.
type OutView struct {
	Text string
	Form *FormView
}

// MarketView is a target that leaves today or left of late.
type MarketView struct {
	Name, When string
	Cheeses    []MarketCheese
}

// MarketCheese is a cheese of it: how many were planned to go, what was said of it, and the form.
type MarketCheese struct {
	Name    string
	Planned int
	Said    []string
	Form    *FormView
}

// marketsWithin is for how long after a target has left it may be said what left and came back.
const marketsWithin = 10 * resources.Day

// withTell fills in what may be said of the kitchen.
func (v *View) withTell() {
	t := &TellView{People: v.inTurn(peopleOf(v.Problem))}
	t.Away = v.form(said.About{Anybody: true}, "somebody is away", ButtonView{"away", "Away"})
	for i := range v.Problem.Kitchen.Cold {
		c := &v.Problem.Kitchen.Cold[i]
		p := PlaceView{Name: c.Name, Form: v.form(said.About{Place: c.Name}, words.Printable(c.Name), ButtonView{"closed", "Closed"})}
		for k := range c.Shelves {
			p.Shelves = append(p.Shelves, c.Shelves[k].Name)
		}
		t.Places = append(t.Places, p)
	}
	for _, o := range v.Told.Out {
		t.Out = append(t.Out, v.out(o))
	}
	t.Markets = v.markets()
	t.Note = v.form(said.About{}, "of the kitchen", ButtonView{"note", "Note"})
	v.Tell = t
}

// out is one time in which somebody is away or something is closed.
func (v *View) out(o said.Out) OutView {
	name, about, button := words.Printable(o.Person)+" is away", said.About{Person: o.Person}, ButtonView{"here", "Here again"}
	if o.Person == "" {
		name = words.Printable(o.Place)
		if o.Shelf != "" {
			name += ", " + words.Printable(o.Shelf)
		}
		name, about, button = name+" is closed", said.About{Place: o.Place, Shelf: o.Shelf}, ButtonView{"open", "Open again"}
	}
	text := name + " from " + v.On(o.From)
	if o.Until < said.Open {
		text += " until " + v.On(o.Until)
	} else {
		text += ", until it is said otherwise"
	}
	out := OutView{Text: text}
	if o.From <= v.moment() { // what is to come is taken back by who said it
		out.Form = v.form(about, name, button)
	}
	return out
}

// market is one cheese of one target at its moment.
type market struct {
	target, cheese string
	by             resources.Moment
}

// markets are the targets that leave within a day or left of late, the next first and then the latest, with what the plan has
// for them and what has left already.
func (v *View) markets() (all []MarketView) {
	planned := map[market]int{}
	now := v.moment()
	add := func(target, cheese string, by resources.Moment, pieces int) {
		if by > now.Add(-marketsWithin) && by < now.Add(resources.Day) {
			planned[market{target, cheese, by}] += pieces
		}
	}
	for i := range v.Plan.Targets {
		w := &v.Plan.Targets[i]
		add(w.Target, w.Cheese, w.By, w.Met)
	}
	left := func(cheese string, of []schedule.LeftShare) {
		for _, l := range of {
			add(l.Target, cheese, l.By, l.Pieces)
		}
	}
	for _, batches := range [][]schedule.Batch{v.Plan.Batches, v.Plan.Past} {
		for i := range batches {
			left(batches[i].Cheese, batches[i].Left)
		}
	}
	for _, stock := range [][]schedule.StockUse{v.Plan.Stock, v.Plan.PastStock} {
		for i := range stock {
			left(stock[i].Cheese, stock[i].Left)
		}
	}
	keys := make([]market, 0, len(planned))
	for m := range planned {
		keys = append(keys, m)
	}
	slices.SortFunc(keys, func(a, b market) int {
		return cmp.Or(cmp.Compare(b.by, a.by), cmp.Compare(a.target, b.target), cmp.Compare(a.cheese, b.cheese))
	})
	for _, m := range keys {
		if n := len(all); n == 0 || all[n-1].Name != words.Printable(m.target) || all[n-1].When != v.On(m.by) {
			all = append(all, MarketView{Name: words.Printable(m.target), When: v.On(m.by)})
		}
		c := MarketCheese{Name: words.Printable(m.cheese), Planned: planned[m]}
		for i := range v.Told.Lately {
			if w := &v.Told.Lately[i]; w.Target == m.target && w.Cheese == m.cheese {
				c.Said = append(c.Said, words.Printable(w.Text)+","+v.byAt(w))
			}
		}
		c.Form = v.form(said.About{Target: m.target, Cheese: m.cheese}, c.Name+", "+words.Printable(m.target))
		last := &all[len(all)-1]
		last.Cheeses = append(last.Cheeses, c)
	}
	return all
}
