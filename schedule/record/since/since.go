package since

import (
	"reflect"
	"slices"

	"ripeby/schedule"
	"ripeby/schedule/record"
	"ripeby/schedule/record/follows"
)

// Difference is one thing that is otherwise than when the earlier plan was made.
type Difference struct {
	Text  string        // "the target Easter market (new)"; "" for an entry
	Entry *record.Entry // of the record; nil for anything else
	// Without is the problem had it stayed as it was; nil where that is not known any more.
	Without func() *schedule.Problem
}

// mostEntries is how many entries are looked at, the last ones.
const mostEntries = 40

// Of lists what is otherwise than when the earlier plan of a problem was made: targets, begun.yaml, the
// kitchen, and then entries that mean something for planning. The problem is the folder's, without what
// follows from its record. Of an earlier plan that does not remember what it was made of only targets
// and begun.yaml are compared, and only targets where it does not remember begun.yaml either. Short says that there are entries that were not looked at.
func Of(p *schedule.Problem, all *record.Book) (list []Difference, short bool) {
	if p.Earlier == nil {
		return nil, false
	}
	c := &comparing{p: p, book: all}
	c.targets()
	if p.Earlier.MadeOf != nil || len(p.Earlier.BegunAsOf) > 0 {
		c.begun()
	}
	if p.Earlier.MadeOf != nil {
		c.things()
		short = c.entries()
	}
	return c.list, short
}

// comparing compares a folder with what an earlier plan was made of.
type comparing struct {
	p    *schedule.Problem
	book *record.Book
	list []Difference
}

// with is what follows where the folder says otherwise.
func (c *comparing) with(change func(p *schedule.Problem)) func() *schedule.Problem {
	return func() *schedule.Problem {
		p := *c.p
		change(&p)
		return follows.Of(&p, c.book).Problem
	}
}

// begun compares the entries of begun.yaml. What an entry said before is not known any more.
func (c *comparing) begun() {
	was := map[schedule.BegunAsOf]bool{}
	ids := map[string]bool{}
	for _, x := range c.p.Earlier.BegunAsOf {
		was[schedule.BegunAsOf{ID: x.ID, Entry: x.Entry}], ids[x.ID] = true, true
	}
	for i := range c.p.Begun {
		b := &c.p.Begun[i]
		switch {
		case was[schedule.BegunAsOf{ID: b.ID, Entry: b.InShort()}]:
		case ids[b.ID]:
			c.list = append(c.list, Difference{Text: b.ID + " in begun.yaml (changed)"})
		default:
			c.list = append(c.list, Difference{Text: b.ID + " in begun.yaml (new)", Without: c.with(func(p *schedule.Problem) {
				p.Begun = slices.Delete(slices.Clone(p.Begun), i, i+1)
			})})
		}
	}
	for i := range c.p.Stock {
		s := &c.p.Stock[i]
		if !was[schedule.BegunAsOf{ID: schedule.StockEntry, Entry: s.InShort()}] {
			c.list = append(c.list, Difference{Text: "stock of " + s.Cheese + " in begun.yaml", Without: c.with(func(p *schedule.Problem) {
				p.Stock = slices.Delete(slices.Clone(p.Stock), i, i+1)
			})})
		}
	}
	for _, x := range c.p.Earlier.BegunAsOf {
		if x.ID != schedule.StockEntry && !slices.ContainsFunc(c.p.Begun, func(b schedule.Begun) bool { return b.ID == x.ID }) {
			c.list = append(c.list, Difference{Text: x.ID + " in begun.yaml (no more there)"})
		}
	}
}

// things compares what the folder says of the kitchen. A recipe is new or gone with its cheese.
func (c *comparing) things() {
	was := map[string]string{}
	for _, x := range c.p.Earlier.MadeOf.Things {
		was[x.What] += x.Entry
	}
	is := map[string]string{}
	now := c.p.Things()
	for _, x := range now {
		is[x.What] += x.Entry
	}
	told := map[string]bool{}
	for _, x := range slices.Concat(now, c.p.Earlier.MadeOf.Things) {
		a, before := was[x.What]
		b, after := is[x.What]
		if a == b && before == after || told[x.What] {
			continue
		}
		told[x.What] = true
		c.list = append(c.list, Difference{Text: x.What + " (" + became(before, after) + ")"})
	}
}

// became says what has become of a thing.
func became(before, after bool) string {
	switch {
	case !before:
		return "new"
	case !after:
		return "no more there"
	}
	return "changed"
}

// entries lists those of the record that the earlier plan did not know and that mean something for
// planning, the last first: it reports whether there are more than were looked at.
func (c *comparing) entries() (short bool) {
	known, _ := c.book.Until(c.p.From)
	seen := c.seen()
	var now *schedule.Problem
	looked := 0
	for _, e := range slices.Backward(known.Standing()) {
		if seen(e) || c.takesBackNew(e) {
			continue
		}
		if looked++; looked > mostEntries {
			return true
		}
		if now == nil {
			now = c.with(func(*schedule.Problem) {})()
		}
		without := func() *schedule.Problem { return follows.Of(c.p, known.But(e)).Problem }
		if !sameProblem(now, without()) {
			c.list = append(c.list, Difference{Entry: e, Without: without})
		}
	}
	return false
}

// takesBackNew reports whether an entry says nothing, or only takes back what the earlier plan did not
// know either.
func (c *comparing) takesBackNew(e *record.Entry) bool {
	return e.Subject.Kind == record.Nothing && !slices.ContainsFunc(e.Strikes, func(nr int) bool {
		return nr <= c.p.Earlier.MadeOf.Entry && slices.ContainsFunc(c.book.All(), func(o *record.Entry) bool { return o.Nr == nr && o.At <= c.p.Earlier.From })
	})
}

// seen tells of an entry whether the earlier plan knew it.
func (c *comparing) seen() func(e *record.Entry) bool {
	of, from := c.p.Earlier.MadeOf, c.p.Earlier.From
	lines := slices.Clone(of.Lines)
	return func(e *record.Entry) bool {
		switch {
		case e.At > from:
			return false
		case e.Nr > 0:
			return e.Nr <= of.Entry
		case e.At < from.Add(-follows.Remembered):
			return true
		}
		k := slices.Index(lines, follows.InShort(e))
		if k >= 0 {
			lines = slices.Delete(lines, k, k+1) // a line written twice is two
		}
		return k >= 0
	}
}

// sameProblem reports whether two problems give the same plan. What warnings say is no part of it, nor what goes into
// the cheese.
func sameProblem(a, b *schedule.Problem) bool {
	x, y := *a, *b
	x.Warnings, y.Warnings = nil, nil
	x.Packets, x.LotsUsed, x.Weighed = nil, nil, nil
	y.Packets, y.LotsUsed, y.Weighed = nil, nil, nil
	return reflect.DeepEqual(&x, &y)
}
