package feed

import (
	"ripeby/calendar/said"
	"ripeby/calendar/words"
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

// markets are the targets that leave within a day or left of late, with what the plan has for them and what has
// left already.
func (v *View) markets() (all []MarketView) {
	for _, m := range v.heard().Markets() {
		if n := len(all); n == 0 || all[n-1].Name != words.Printable(m.Target) || all[n-1].When != v.On(m.By) {
			all = append(all, MarketView{Name: words.Printable(m.Target), When: v.On(m.By)})
		}
		c := MarketCheese{Name: words.Printable(m.Cheese), Planned: m.Planned, Said: m.Said}
		c.Form = v.form(said.About{Target: m.Target, Cheese: m.Cheese}, c.Name+", "+words.Printable(m.Target))
		last := &all[len(all)-1]
		last.Cheeses = append(last.Cheeses, c)
	}
	return all
}
