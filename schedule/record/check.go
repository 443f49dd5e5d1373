package record

import (
	"fmt"
	"slices"
	"strings"

	"ripeby/resources"
)

// MostAhead is how far ahead of now something may have happened: clocks differ, and a
// thing that is nearly done is sometimes said first.
const MostAhead resources.Minutes = 10

// Refusal is why something that is said is not written down.
type Refusal struct {
	What  string
	Got   string
	Want  string   // what to say instead; "" where What says it or Among has it
	Among []string // the names that would have been known
	Other *Entry   // the entry of the record with which it is at odds; nil for none
	Asked bool     // it is taken when it is said again
}

// Check holds an entry that is about to be written against the record and against what is
// known. It gives everything that is wrong, nil for nothing. What was asked about is taken
// when it is said again.
//
// The entry's own strikes count: what it strikes is not held against it.
func Check(e Entry, book *Book, known *Known, now resources.Moment, again bool) []Refusal {
	c := &checking{e: &e, known: known, standing: book.without(e.Strikes)}
	if ahead := e.At.Sub(now); ahead > MostAhead {
		c.refuse(Refusal{What: fmt.Sprintf("this is %s ahead of now, and only what has happened is said", resources.FormatMinutes(ahead)), Want: "its moment with --at, or say it when it has happened"})
	}
	c.name("person", e.Who, known.People)
	c.strikes(book)
	switch s := e.Subject; s.Kind {
	case OfBatch:
		c.batch()
	case OfCheese:
		c.cheese()
	case OfMilk:
		c.name("milk supply", s.Name, known.Milk)
	case OfTarget:
		c.target()
	case OfPlace:
		c.place(s.Name, s.Shelf)
	case OfPerson:
		c.name("person", s.Name, known.People)
		if e.Person.Takes.Given {
			c.takes(e.Person.Takes.Value)
		}
	}
	return slices.DeleteFunc(c.refusals, func(r Refusal) bool { return r.Asked && again })
}

// takes wants work of a batch of the plan, and, before that has begun, of one who may do it by the recipe.
func (c *checking) takes(t Task) {
	b, who := c.batchOf(t.Batch), c.e.Subject.Name
	place := c.stage(b, t.Stage, true)
	switch {
	case b == nil:
	case b.Stock:
		c.refuse(Refusal{What: t.Batch + " is stock of begun.yaml: there is no work of it to take", Got: t.Stage, Want: "a batch of the plan, and a stage of it"})
	case b.Waits && place >= 0 && len(b.Stages[place].Who) > 0 && !slices.Contains(b.Stages[place].Who, who):
		c.refuse(Refusal{What: fmt.Sprintf("%s has not begun, and by its recipe %s is done by others", t.Batch, t.Stage), Got: who,
			Want: fmt.Sprintf("one of %s; or it again when the batch has begun; or %s in who at that stage of the recipe", strings.Join(b.Stages[place].Who, ", "), who)})
	}
}

// without gives what stands of a book when some numbers are struck too.
func (b *Book) without(numbers []int) Entries {
	var all []Entry
	for _, e := range b.entries {
		all = append(all, *e)
	}
	if len(numbers) > 0 {
		all = append(all, Entry{Strikes: numbers})
	}
	standing := NewBook(all).Standing()
	if len(numbers) > 0 {
		standing = standing[:len(standing)-1]
	}
	return standing
}

// checking is one entry while it is checked.
type checking struct {
	e        *Entry
	known    *Known
	standing Entries
	refusals []Refusal
}

func (c *checking) refuse(r Refusal) { c.refusals = append(c.refusals, r) }

// name wants a name to be one of a list, where there is a name.
func (c *checking) name(what, name string, among []string) bool {
	if name == "" || slices.Contains(among, name) {
		return true
	}
	c.refuse(Refusal{What: "there is no " + what + " of this name", Got: name, Among: among})
	return false
}

// strikes wants numbers that stand.
func (c *checking) strikes(book *Book) {
	for _, nr := range c.e.Strikes {
		of := book.All().With(func(e *Entry) bool { return e.Nr == nr })
		if len(of) == 0 {
			c.refuse(Refusal{What: fmt.Sprintf("there is no entry %d to strike", nr), Want: "a number that ripeby record lists"})
			continue
		}
		if by := book.StruckBy(of[len(of)-1]); by != nil {
			c.refuse(Refusal{What: fmt.Sprintf("entry %d is struck already", nr), Other: by, Want: fmt.Sprintf("strike %d to have it stand again", by.Nr)})
		}
	}
}

// batchOf finds a batch; nil after a refusal.
func (c *checking) batchOf(name string) *KnownBatch {
	b := find(c.known.Batches, name)
	if b == nil {
		c.name("batch", name, namesOf(c.known.Batches))
	}
	return b
}

// stage wants a stage of a batch, and one with work where work is said of it.
func (c *checking) stage(b *KnownBatch, name string, work bool) (place int) {
	if b == nil || name == "" || len(b.Stages) == 0 {
		return -1
	}
	place = b.stage(name)
	if place < 0 {
		c.refuse(Refusal{What: fmt.Sprintf("%s has no such stage", b.Names[0]), Got: name, Among: b.stages()})
		return -1
	}
	if s := b.Stages[place]; work && !s.Work {
		c.refuse(Refusal{What: fmt.Sprintf("nobody works in %s, so it is not said to have begun or to be done", name), Got: name, Want: b.instead(place)})
		return -1
	}
	return place
}

// instead names the stages that are said in place of one without work: it begins when the
// work before it is done, and is over when the work after it begins.
func (b *KnownBatch) instead(place int) string {
	text := ""
	for i := place - 1; i >= 0 && text == ""; i-- {
		if b.Stages[i].Work {
			text = fmt.Sprintf("did %s, when it began", b.Stages[i].Name)
		}
	}
	for _, s := range b.Stages[place+1:] {
		if s.Work {
			if text != "" {
				text += "; "
			}
			return text + fmt.Sprintf("began %s, when it is over", s.Name)
		}
	}
	return text
}

// place wants a cold place, and a shelf of it where one is said; or the make room, of what is measured there.
func (c *checking) place(name, shelf string) {
	if of := c.e.Subject; of.Kind == OfPlace && name == Room && shelf == "" && len(c.e.Place.Measured) > 0 && !c.e.Place.Closed.Given && !c.e.Place.Open {
		return // the make room, which may be measured though nothing is kept there
	}
	var names []string
	for _, p := range c.known.Places {
		if names = append(names, p.Name); p.Name == name {
			c.name("shelf in "+name, shelf, p.Shelves)
			return
		}
	}
	c.name("cold place", name, names)
}

// cheese wants a batch off the plan to begin with its first stage.
func (c *checking) cheese() {
	var names []string
	for _, k := range c.known.Cheeses {
		names = append(names, k.Names...)
	}
	if !c.name("cheese", c.e.Subject.Name, names) {
		return
	}
	f := &c.e.Batch
	k := find(c.known.Cheeses, c.e.Subject.Name)
	said := f.Did
	if said == "" {
		said = f.Began
	}
	first := slices.IndexFunc(k.Stages, func(s KnownStage) bool { return s.Work })
	if place := k.stage(said); first >= 0 && place != first {
		c.refuse(Refusal{What: "a batch off the plan begins with its first stage", Got: said, Want: "did " + k.Stages[first].Name})
	}
	if !f.Litres.Given {
		c.refuse(Refusal{What: "how much milk a batch off the plan is of is said with it", Want: `--litres "8 L"`})
	}
	c.things()
}

// things wants what a batch is said to have or to stand in.
func (c *checking) things() {
	f := &c.e.Batch
	c.name("pot", f.Pot, c.known.Pots)
	c.name("milk supply", f.Drew.Value.Supply, c.known.Milk)
	if f.Stands.Given {
		c.place(f.Stands.Value.Place, f.Stands.Value.Shelf)
	}
}

// target wants a target and its cheese, and lots that there are.
func (c *checking) target() {
	s, t := &c.e.Subject, &c.e.Target
	if of := c.known.dates(s.Name); len(of) > 0 {
		c.refuse(Refusal{What: s.Name + " repeats, so its date is said too", Want: fmt.Sprintf("its name as in %q", of[0])})
	} else if !c.known.target(s.Name) {
		c.name("target", s.Name, c.known.Targets)
	}
	c.name("cheese", s.Cheese, namesOf(c.known.Cheeses))
	more := func(what string, pieces, made int) {
		if made > 0 && pieces > made {
			c.refuse(Refusal{What: fmt.Sprintf("%d pieces are said to have left, and there were no more than %d of %s", pieces, made, what), Asked: true})
		}
	}
	if cheese := find(c.known.Cheeses, s.Cheese); cheese != nil && t.Took.Given {
		more(s.Cheese, t.Took.Value, cheese.Made)
	}
	for _, l := range t.Of {
		b := c.batchOf(l.Lot)
		if b == nil {
			continue
		}
		if more(l.Lot, l.Pieces+c.tookElsewhere(b), b.Made); b.Waits {
			c.refuse(Refusal{What: l.Lot + " has not begun, so nothing of it can have left", Got: fmt.Sprintf("of: {%s: %d}", l.Lot, l.Pieces), Want: "a batch that has; ripeby trace shows which were made last"})
		}
	}
	switch {
	case c.known.Businesses == nil || t.To == "":
	case len(c.known.Businesses) == 0:
		c.refuse(Refusal{What: "kitchen.yaml lists no business", Got: t.To, Want: fmt.Sprintf("businesses: [{name: %q}] in kitchen.yaml, with its address", t.To)})
	default:
		c.name("business", t.To, c.known.Businesses)
	}
	if took := c.standing.With(func(e *Entry) bool { return e.Subject == *s && e.Target.Took.Given }).Latest(); took != nil && t.Back.Value > took.Target.Took.Value {
		c.refuse(Refusal{What: fmt.Sprintf("%d came back of the %d that left", t.Back.Value, took.Target.Took.Value), Other: took, Asked: true})
	}
}

// tookElsewhere is how many pieces of a batch are said to have left for other targets.
func (c *checking) tookElsewhere(b *KnownBatch) (n int) {
	last := map[Subject]*Entry{}
	for _, e := range c.standing.With(func(e *Entry) bool {
		return e.Subject.Kind == OfTarget && e.Target.Took.Given && e.Subject != c.e.Subject
	}).ByTime() {
		last[e.Subject] = e
	}
	for _, e := range last {
		for _, l := range e.Target.Of {
			if slices.Contains(b.Names, l.Lot) {
				n += l.Pieces
			}
		}
	}
	return n
}
