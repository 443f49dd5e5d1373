package planner_test

import (
	"fmt"
	"time"

	"pgregory.net/rapid"

	"ripeby/resources"
	"ripeby/schedule"
)

// maker draws one random kitchen folder, as config would read it: every rule of a
// folder is kept, everything else is left to chance. Plenty is how well the kitchen
// is fitted out, from 0 to 2; with little, targets come up short.
type maker struct {
	t      *rapid.T
	p      *schedule.Problem
	plenty int
}

// kitchens draws problems that any folder could have given.
func kitchens() *rapid.Generator[*schedule.Problem] {
	return rapid.Custom(func(t *rapid.T) *schedule.Problem {
		m := &maker{t: t, p: &schedule.Problem{}}
		m.plenty = pick(m, "plenty", 0, 1, 2, 2, 2)
		m.kitchen()
		for i := range m.n("recipes", 1, 3) {
			m.p.Recipes = append(m.p.Recipes, m.recipe(i))
		}
		m.targets()
		if m.chance("stock?", 30) {
			m.stock()
		}
		if m.chance("begun?", 40) {
			m.begun()
		}
		m.ordered()
		return m.p
	})
}

// n draws a number from least to most, both included.
func (m *maker) n(label string, least, most int) int {
	return rapid.IntRange(least, most).Draw(m.t, label)
}

// chance is true in about so many of a hundred draws; it shrinks to false. Numbers
// are drawn small more often than large, so it draws bits.
func (m *maker) chance(label string, percent int) bool {
	n := 0
	for _, bit := range rapid.SliceOfN(rapid.Bool(), 6, 6).Draw(m.t, label) {
		n *= 2
		if bit {
			n++
		}
	}
	return n*100 >= 64*(100-percent)
}

func pick[T any](m *maker, label string, from ...T) T { return from[m.n(label, 0, len(from)-1)] }

func litres(n int) resources.Millilitres  { return resources.Millilitres(1000 * n) }
func clock(h, min int) resources.Clock    { return resources.Clock(h*60 + min) }
func cm(n int) resources.Micrometres      { return resources.Micrometres(n) * resources.Centimetre }
func minutes(n int) resources.Minutes     { return resources.Minutes(n) }
func rate(thousandths int) resources.Rate { return resources.Rate(thousandths) }
func sized(w, d, h int) resources.Size {
	return resources.Size{Width: cm(w), Depth: cm(d), Height: cm(h)}
}
func dayOf(y int, mo time.Month, d int) resources.Date {
	return resources.Date{Year: y, Month: mo, Day: d}
}

// zoneNamed loads a time zone of the system's tables.
func zoneNamed(t interface{ Fatalf(string, ...any) }, name string) *time.Location {
	zone, err := time.LoadLocation(name)
	if err != nil {
		t.Fatalf("time zone %s: %v", name, err)
	}
	return zone
}

// The starts lie a few days ahead of a clock change of their zone in 2027 (IANA time
// zone database 2025b: Dublin 28 March, New York 14 March, Lord Howe 4 April).
var settings = []struct {
	zone  string
	first resources.Date
}{
	{"UTC", dayOf(2027, time.March, 1)},
	{"Europe/Dublin", dayOf(2027, time.March, 18)},
	{"America/New_York", dayOf(2027, time.March, 6)},
	{"Australia/Lord_Howe", dayOf(2027, time.March, 27)},
	{"Asia/Kolkata", dayOf(2027, time.May, 3)},
}

func (m *maker) kitchen() {
	k := &m.p.Kitchen
	s := pick(m, "setting", settings...)
	k.Name, k.TimeZone, k.Zone = "Reed Farm", s.zone, zoneNamed(m.t, s.zone)
	k.Step = pick[resources.Minutes](m, "step", 30, 15, 10, 5)
	k.Room = 20_000
	m.p.From = s.first.AddDays(m.n("from day", 0, 8)).At(clock(m.n("from hour", 0, 23), 0), k.Zone)
	if m.chance("from off grid", 20) {
		m.p.From = m.p.From.Add(minutes(m.n("from minute", 1, 59)))
	}
	for i := range m.n("people", 1, 3) {
		k.People = append(k.People, m.person(i))
	}
	if m.chance("round?", 50) {
		k.Round = &resources.Round{At: clock(m.n("round hour", 0, 23), 5*m.n("round minute", 0, 11)), For: minutes(pick(m, "round length", 20, 30, 7, 60))}
	}
	for i := range m.n("pots", 1, 3) {
		k.Pots = append(k.Pots, resources.Pot{Name: fmt.Sprintf("pot %d", i+1), Holds: litres(m.n("holds", 5+2*m.plenty, 14)),
			Count: m.n("pot count", 1, 1+m.plenty), Clean: m.cleaning()})
	}
	k.Stations = []resources.Station{
		{Name: "hook", Count: m.n("hooks", 2, 2+2*m.plenty), TakesVolume: litres(m.n("hook takes", 3, 7)), Clean: m.cleaning()},
		{Name: "press", Count: m.n("presses", 2, 2+2*m.plenty), TakesPieces: m.n("press takes", 4, 12), Clean: m.cleaning()},
		{Name: "tub", Count: 1 + m.plenty, Clean: m.cleaning()},
	}
	k.Moulds = []resources.Mould{{Name: "ring", Count: m.n("rings", 6, 12+12*m.plenty), Clean: m.cleaning()}}
	k.Boxes = []resources.Box{
		{Name: "box", Count: m.n("boxes", 2, 4+6*m.plenty), Size: sized(m.n("box w", 20, 45), m.n("box d", 20, 35), m.n("box h", 8, 14)), Clean: m.cleaning()},
		{Name: "carton", Count: m.n("cartons", 2, 4+6*m.plenty), Size: sized(m.n("carton w", 15, 40), m.n("carton d", 15, 30), 10), Clean: m.cleaning()},
	}
	m.cold()
	for i := range m.n("supplies", 0, 2) {
		k.Milk = append(k.Milk, m.supply(i))
	}
}

func (m *maker) cleaning() resources.Minutes { return minutes(pick(m, "clean", 0, 20, 45, 7, 90)) }

// span is some time within the weeks to come, in whole days or by the minute.
func (m *maker) span() resources.Span {
	first := m.p.From.DateIn(m.p.Kitchen.Zone).AddDays(m.n("taken from", 0, 20))
	if m.chance("by the minute", 30) {
		at := first.At(clock(m.n("hour", 0, 23), m.n("minute", 0, 59)), m.p.Kitchen.Zone)
		return resources.Span{From: at, Until: at.Add(minutes(m.n("length", 1, 2000)))}
	}
	last := first.AddDays(1 + m.n("taken days", 0, 3))
	return resources.Span{From: first.Start(m.p.Kitchen.Zone), Until: last.Start(m.p.Kitchen.Zone)}
}

func (m *maker) spans(label string, percent, most int) []resources.Span {
	if !m.chance(label, percent) {
		return nil
	}
	var out []resources.Span
	for range m.n(label+" spans", 1, most) {
		out = append(out, m.span())
	}
	return out
}

func (m *maker) person(i int) resources.Person {
	p := resources.Person{Name: fmt.Sprintf("Person %d", i+1), MostPerDay: resources.NoLimit}
	if i == 0 || !m.chance("no hours at all", 10) {
		for range m.n("windows", 1, 1+m.plenty) {
			p.Hours = append(p.Hours, m.hours())
		}
	}
	if m.chance("rather not?", 40) {
		p.RatherNot = append(p.RatherNot, m.hours())
	}
	if m.chance("most per day?", 30) {
		p.MostPerDay = minutes(m.n("most per day", 30, 480))
	}
	p.Away = m.spans("away?", 30-10*m.plenty, 2)
	return p
}

// hours draws a window: of a day, past midnight, a whole day, a short evening.
func (m *maker) hours() resources.Hours {
	h := resources.Hours{Days: resources.Daily}
	if m.chance("some days only", 50) {
		h.Days = resources.Weekdays(m.n("days", 1, 127))
	}
	switch pick(m, "kind of window", 0, 1, 2, 3, 4-m.plenty) {
	case 0, 1:
		h.From, h.Until = clock(m.n("from", 5, 9), 0), clock(m.n("until", 14, 22), 0)
	case 2:
		h.From, h.Until = clock(m.n("evening", 17, 23), 30), clock(m.n("night", 0, 4), 0)
	case 3:
		h.From, h.Until = 0, clock(24, 0)
	case 4:
		h.From = clock(m.n("any hour", 0, 22), m.n("any minute", 0, 59))
		h.Until = h.From + resources.Clock(m.n("any length", 20, 59))
	}
	return h
}

func (m *maker) cold() {
	k := &m.p.Kitchen
	counted := resources.ColdPlace{Name: "cave", Temperature: resources.MilliCelsius(1000 * pick(m, "cave temperature", 4, 11, 12)),
		Boxes: m.n("cave boxes", 1, 3+5*m.plenty), Taken: m.spans("cave taken?", 20, 1)}
	measured := resources.ColdPlace{Name: "fridge", Temperature: 4_000, Taken: m.spans("fridge taken?", 20, 1)}
	for i := range m.n("shelves", 1, 3) {
		measured.Shelves = append(measured.Shelves, resources.Shelf{Name: fmt.Sprintf("shelf %d", i+1),
			Size: sized(m.n("shelf w", 35, 60+20*m.plenty), m.n("shelf d", 30, 50), m.n("shelf h", 12, 32)), Taken: m.spans("shelf taken?", 15, 1)})
	}
	switch m.n("places", 0, 2) {
	case 0:
		k.Cold = []resources.ColdPlace{counted}
	case 1:
		k.Cold = []resources.ColdPlace{measured, counted}
	case 2:
		k.Cold = []resources.ColdPlace{counted, measured}
	}
}

func (m *maker) supply(i int) resources.Milk {
	s := resources.Milk{Name: fmt.Sprintf("milk %d", i+1), Days: resources.Daily, Ready: clock(m.n("ready", 0, 20), 30),
		Most: resources.NoLimit, Keeps: minutes(60 * pick(m, "milk keeps", 48, 24, 6+24*m.plenty, 72)), Order: minutes(60 * pick(m, "order", 0, 24, 48))}
	if m.plenty < 2 {
		s.Days = resources.Weekdays(m.n("milk days", 1, 127))
	}
	if m.chance("most milk?", 60) {
		s.Most = litres(m.n("most milk", 6, 30))
	}
	for range m.n("closed days", 0, 2) {
		d := m.p.From.DateIn(m.p.Kitchen.Zone).AddDays(m.n("closed", 0, 20))
		s.Closed = append(s.Closed, d.Span(m.p.Kitchen.Zone))
	}
	return s
}
