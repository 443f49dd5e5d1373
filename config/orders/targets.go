package orders

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"ripeby/config"
	"ripeby/config/fault"
	"ripeby/resources"
	"ripeby/schedule"
)

// book makes targets of orders, beside those that are there.
type book struct {
	*table
	zone  *time.Location
	there []schedule.Target
	taken map[string]string // names, with where each was given
}

// group is what one name wants at one moment.
type group struct {
	who    string
	at     resources.Moment
	orders []order
}

// targets gives the targets that orders become, in the order of their first lines, and how many
// orders are in them. An order that is there already is refused.
func (b *book) targets(orders []order) (made []config.NewTarget, taken int) {
	var groups []*group
	for _, o := range orders {
		if f := b.standing(&o); f != nil {
			b.refuse(o.nr, *f)
			continue
		}
		i := slices.IndexFunc(groups, func(g *group) bool { return g.who == o.who && g.at == o.at })
		if i < 0 {
			i = len(groups)
			groups = append(groups, &group{who: o.who, at: o.at})
		}
		if f := groups[i].twice(&o); f != nil {
			b.refuse(o.nr, *f)
			continue
		}
		groups[i].orders = append(groups[i].orders, o)
	}
	given := map[string]bool{}
	for _, g := range groups {
		t := config.NewTarget{Name: b.called(g, given), By: g.orders[0].by}
		if _, err := fault.Name(t.Name); err != nil {
			for _, o := range g.orders {
				b.refuse(o.nr, config.Fault{What: fmt.Sprintf("who: this name is taken, and with a date behind it longer than the limit of %d characters", fault.MaxName), Got: fault.Clip(o.who)})
			}
			continue
		}
		given[t.Name] = true
		for _, o := range g.orders {
			t.Wants = append(t.Wants, o.want)
		}
		made, taken = append(made, t), taken+len(t.Wants)
	}
	return made, taken
}

// standing is the fault of an order that a target wants already.
func (b *book) standing(o *order) *config.Fault {
	for i := range b.there {
		t := &b.there[i]
		if t.By != o.at || !b.of(t.Name, o) {
			continue
		}
		for _, w := range t.Wants {
			switch {
			case w.Cheese != o.want.Cheese:
			case w.Pieces == o.want.Pieces && w.Price == o.want.Price:
				return &config.Fault{What: "this order is there already, see " + b.taken[t.Name]}
			default:
				return &config.Fault{What: fmt.Sprintf("%s has an order of this cheese for %s then, of %s at %s; change it there",
					b.taken[t.Name], o.who, schedule.Counted(w.Pieces, "piece"), resources.FormatMoney(w.Price))}
			}
		}
	}
	return nil
}

// of reports whether a target is called as whoever orders, with the date behind it or without.
func (b *book) of(name string, o *order) bool {
	dated := b.dated(o.who, o.at)
	return name == o.who || name == dated || strings.HasPrefix(name, dated+" ")
}

// dated is a name with the date behind it, as that of a target is which comes again.
func (b *book) dated(who string, at resources.Moment) string {
	return who + " " + at.DateIn(b.zone).String()
}

// twice is the fault of an order that a line above gives already.
func (g *group) twice(o *order) *config.Fault {
	for _, p := range g.orders {
		if p.want.Cheese == o.want.Cheese && p.want.Price == o.want.Price {
			return &config.Fault{What: fmt.Sprintf("line %d orders the same; if both are meant, add their pieces up there", p.nr)}
		}
	}
	return nil
}

// called is the name of a target: the first that nobody has of the name alone, with the date, with
// the time too, and then with a number.
func (b *book) called(g *group, given map[string]bool) string {
	dated := b.dated(g.who, g.at)
	timed := dated + " " + g.at.In(b.zone).Format("15:04")
	name := g.who
	for n := 0; b.taken[name] != "" || given[name]; n++ {
		switch n {
		case 0:
			name = dated
		case 1:
			name = timed
		default:
			name = fmt.Sprintf("%s %d", timed, n)
		}
	}
	return name
}
