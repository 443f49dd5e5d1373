package ask

import (
	"errors"
	"time"
)

// Change is what was written into the kitchen's files from here last.
type Change struct {
	Text string // what it is
	By   string // when it leaves, as it was filled in
	Who  string
	At   time.Time
	Nr   int // counts up

	card string // whose order it is; "" for none
}

// doneMost is how many forms are remembered as written.
const doneMost = 64

// Promise has the order of an answer written down, once however often it is said. Where the answer holds no
// more it is asked again instead, and nothing is written: the id is then another. The error is a [Refusal],
// or something else, and it may have been written.
func (d *Desk) Promise(who, id string) (string, error) {
	d.writing.Lock()
	defer d.writing.Unlock()
	c, holds := d.Card(id)
	switch {
	case c == nil || c.Question.Kind != Fits || c.Answer == nil || !c.Answer.Promises:
		return "", Refused("This question is not kept any more, and nothing was written. Ask again.")
	case c.Promised:
		return id, nil
	case !holds:
		return d.ask(who, c.Question, true)
	}
	if err := d.kitchen.Promise(c.Question); err != nil {
		return "", err
	}
	d.mu.Lock()
	if mine := d.card(id); mine != nil {
		mine.Promised = true
	}
	d.last = &Change{Text: c.Question.order(), By: c.Question.By, Who: who, card: id}
	d.wrote()
	d.mu.Unlock()
	d.changed()
	return id, nil
}

// Take has the plan made that saves what an answer says, once however often it is said, and gives the id of
// the card that shows it. Where the answer holds no more it is asked again instead. The error is a [Refusal].
func (d *Desk) Take(who, id string) (string, error) {
	d.writing.Lock()
	defer d.writing.Unlock()
	c, holds := d.Card(id)
	if c == nil || c.Question.Kind != Freer || c.Answer == nil || !c.Answer.Takes {
		return "", Refused("This question is not kept any more, and nothing was made anew. Ask again.")
	}
	if before, _ := d.Card(c.taken); before != nil && before.State != NotAnswered && before.State != Stopped {
		return before.ID, nil
	}
	if !holds {
		return d.ask(who, c.Question, true)
	}
	taken, err := d.ask(who, Question{Kind: Take}, false)
	d.mu.Lock()
	defer d.mu.Unlock()
	if mine := d.card(id); mine != nil && err == nil {
		mine.taken = taken
	}
	return taken, err
}

// Add has a target written down, once however often a form is sent: form tells one from another. The errors
// are those of Promise.
func (d *Desk) Add(who, form string, t Target) error {
	d.writing.Lock()
	defer d.writing.Unlock()
	if d.done[form] {
		return nil
	}
	if err := d.kitchen.Add(t); err != nil {
		return err
	}
	if len(d.done) >= doneMost {
		clear(d.done) // what is sent again after so many is refused, for its name is taken
	}
	d.done[form] = true
	d.mu.Lock()
	d.last = &Change{Text: t.Name, By: t.By, Who: who}
	d.wrote()
	d.mu.Unlock()
	d.changed()
	return nil
}

// wrote counts what was written last; while mu is held.
func (d *Desk) wrote() {
	d.changes++
	d.last.At, d.last.Nr = d.now(), d.changes
}

// Last is what was written last, nil for nothing, and how much was written so far.
func (d *Desk) Last() (*Change, int) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.last == nil {
		return nil, d.changes
	}
	last := *d.last
	return &last, d.changes
}

// TakeBack takes out again what was written last, where that is the change of that number. What was taken
// back already stays so. The errors are those of Promise.
func (d *Desk) TakeBack(nr int) error {
	d.writing.Lock()
	defer d.writing.Unlock()
	last, changes := d.Last()
	if last == nil && nr == changes {
		return nil
	}
	if last == nil || last.Nr != nr {
		return Refused("Something else was written since. Take that back first.")
	}
	err := d.kitchen.TakeBack()
	var why *Refusal
	if err != nil && !errors.As(err, &why) {
		return err
	}
	d.mu.Lock()
	if c := d.card(last.card); c != nil && err == nil {
		c.Promised = false
	}
	d.last = nil
	d.mu.Unlock()
	d.changed()
	return err
}

// Hear does what a form says, and gives the part of the page that shows what came of it, below that where
// things are asked: "" for that itself. The errors are those of Promise.
func (d *Desk) Hear(who string, h Heard) (part string, err error) {
	card := h.ID
	switch h.Verb {
	case SayAdd:
		return "", d.Add(who, h.Once, h.Target)
	case SayBack:
		return "", d.TakeBack(h.Nr)
	case SayStop:
		d.Stop(h.ID)
	case SayPromise:
		card, err = d.Promise(who, h.ID)
	case SayTake:
		card, err = d.Take(who, h.ID)
	default:
		card, err = d.Ask(who, h.Question)
	}
	return "/" + card, err
}
