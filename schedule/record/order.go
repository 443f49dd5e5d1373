package record

import "fmt"

// Stages of a batch are said in any order, but happened in the recipe's: what is said of a
// later one lies at or after what is said of an earlier one, and its work is not over
// before it began.
//
//	           make      drain      mould
//	said       08:20 ─── 13:05 ─── (17:00)
//	refused    drain before 08:20; make after 13:05; drain not yet at 13:05 or later

// batch checks what is said of a batch.
func (c *checking) batch() {
	f := &c.e.Batch
	b := c.batchOf(c.e.Subject.Name)
	c.things()
	if b == nil {
		return
	}
	if b.Stock {
		c.stock()
	}
	of := c.standing.Of(OfBatch, b.Names...)
	for _, said := range []struct {
		stage string
		rank  int // began comes before did
	}{{f.Began, 0}, {f.Did, 1}} {
		if place := c.stage(b, said.stage, true); place >= 0 {
			c.inOrder(b, of, place, said.rank)
		}
	}
	if place := c.stage(b, f.NotYet, false); place >= 0 {
		c.notYet(b, of, place)
	}
	c.counts(of)
}

// stock wants of stock only what can be said of cheese that is packed: it is made, and begun.yaml has where it
// stands.
func (c *checking) stock() {
	f, lot := &c.e.Batch, c.e.Subject.Name
	switch {
	case f.Stands.Given:
		c.refuse(Refusal{What: lot + " is stock, and begun.yaml has where it stands", Got: f.Stands.Value.Place, Want: fmt.Sprintf("at: %s into its entry there", f.Stands.Value.Place)})
	case f.Began+f.Did+f.NotYet+f.Pot != "" || f.Litres.Given || f.Drew.Given:
		c.refuse(Refusal{What: lot + " is stock of begun.yaml: it is made and packed", Want: "pieces, gone, weight, measured, lost or a note of it"})
	}
}

// saidOf are the entries that hold of a stage: began, did.
func saidOf(of Entries, stage string) (said [2]*Entry) {
	said[0], _ = of.Began(stage).First()
	said[1], _ = of.Did(stage).First()
	return said
}

// inOrder holds what is said of a stage against what is said of all others of the batch.
func (c *checking) inOrder(b *KnownBatch, of Entries, place, rank int) {
	for i, s := range b.Stages {
		for k, other := range saidOf(of, s.Name) {
			mine, its := place*2+rank, i*2+k
			switch {
			case other == nil || mine == its:
			case its < mine && other.At > c.e.At:
				c.outOfOrder(b.Stages[place].Name, "before", s.Name, other)
			case its > mine && other.At < c.e.At:
				c.outOfOrder(b.Stages[place].Name, "after", s.Name, other)
			}
		}
	}
	if wait := of.NotYet(b.Stages[place].Name).Latest(); wait != nil && wait.At > c.e.At {
		c.refuse(Refusal{What: fmt.Sprintf("later, %s is said not to have begun yet", b.Stages[place].Name), Other: wait, Want: "a later moment with --at, or strike that first"})
	}
}

// outOfOrder refuses what is said of one stage beside what was said of another.
func (c *checking) outOfOrder(stage, when, other string, said *Entry) {
	what := fmt.Sprintf("%s comes %s %s in the recipe", stage, map[string]string{"before": "after", "after": "before"}[when], other)
	if stage == other {
		what = "the work of " + stage + " is not done before it begins"
	}
	c.refuse(Refusal{What: what + ", and this says it the other way round", Other: said, Want: "its moment with --at, or strike that first"})
}

// notYet holds a look against what is said of the stage that waits, and of others.
func (c *checking) notYet(b *KnownBatch, of Entries, place int) {
	if place == 0 || !b.Stages[place-1].Hold {
		c.refuse(Refusal{What: fmt.Sprintf("there is no hold before %s that might not be over", b.Stages[place].Name), Got: c.e.Batch.NotYet})
		return
	}
	for i, s := range b.Stages {
		for _, other := range saidOf(of, s.Name) {
			switch {
			case other == nil:
			case i >= place && other.At <= c.e.At:
				c.refuse(Refusal{What: fmt.Sprintf("%s is said to have begun by then", s.Name), Other: other, Want: "strike that first"})
			case i < place && other.At > c.e.At:
				c.outOfOrder(b.Stages[place].Name, "before", s.Name, other)
			}
		}
	}
}

// counts asks about more pieces than there can be by what was said last.
func (c *checking) counts(of Entries) {
	f := &c.e.Batch
	counted, gone := of.With(func(e *Entry) bool { return e.At <= c.e.At }).Pieces()
	if counted == nil {
		return
	}
	left := counted.Batch.Pieces.Value - gone
	switch {
	case f.Pieces.Given && f.Pieces.Value > left:
		c.refuse(Refusal{What: fmt.Sprintf("%d pieces are more than the %d that were left of it", f.Pieces.Value, left), Other: counted, Asked: true})
	case !f.Pieces.Given && f.Gone.Value > left:
		c.refuse(Refusal{What: fmt.Sprintf("%d pieces are gone of the %d that were left of it", f.Gone.Value, left), Other: counted, Asked: true})
	}
}

// Twice gives the entry that a new one says a second time: began or did of a stage. That is
// kept, and the first one holds.
func Twice(e Entry, book *Book, known *Known) *Entry {
	b := find(known.Batches, e.Subject.Name)
	if e.Subject.Kind != OfBatch || b == nil {
		return nil
	}
	of := book.without(e.Strikes).Of(OfBatch, b.Names...)
	for _, again := range []*Entry{first(of.Began, e.Batch.Began), first(of.Did, e.Batch.Did)} {
		if again != nil {
			return again
		}
	}
	return nil
}

func first(said func(string) Entries, stage string) *Entry {
	if stage == "" {
		return nil
	}
	e, _ := said(stage).First()
	return e
}
