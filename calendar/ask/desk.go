package ask

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"sync"
	"time"
)

// How much the desk takes on. Work and memory are bounded whoever asks.
const (
	MostWaiting  = 4                // questions in turn behind the one that is worked on
	MostKept     = 16               // questions with their answers
	KeptFor      = time.Hour        // after the answer
	MostAMinute  = 6                // questions of one person
	GoodFor      = 15 * time.Minute // an answer, from when it was asked on: then work may lie behind that it counts on
	progressMost = 200              // bytes of what is told of how far a question is
)

// Desk takes questions, and answers one at a time.
type Desk struct {
	kitchen Kitchen
	now     func() time.Time
	changed func()        // is told whenever a card has another state
	fault   func(error)   // what a page does not tell
	begun   string        // part of all ids, so that those of an earlier run mean nothing
	more    chan struct{} // a question has come

	mu      sync.Mutex
	cards   []*Card                // in the order in which they were asked
	asked   map[string][]time.Time // of the last minute, by person
	count   int
	writing sync.Mutex      // one writes at a time
	done    map[string]bool // forms whose content was written
	last    *Change
	changes int
}

// NewDesk opens a desk. Changed is called when a page that shows it should look again, fault with what went
// wrong and is no answer; neither may wait for the desk.
func NewDesk(k Kitchen, now func() time.Time, changed func(), fault func(error)) *Desk {
	return &Desk{kitchen: k, now: now, changed: changed, fault: fault, begun: fmt.Sprintf("%x", now().UnixMilli()),
		more: make(chan struct{}, 1), asked: map[string][]time.Time{}, done: map[string]bool{}}
}

// Run answers questions until ctx ends.
func (d *Desk) Run(ctx context.Context) {
	for ctx.Err() == nil {
		c, with := d.next(ctx)
		if c == nil {
			select {
			case <-ctx.Done():
			case <-d.more:
			}
			continue
		}
		d.changed()
		answer, err := d.answerSafely(with, c)
		d.end(with, c, answer, err)
		d.changed()
	}
}

// next begins the question that has waited longest; nil where none waits.
func (d *Desk) next(ctx context.Context) (*Card, context.Context) {
	d.mu.Lock()
	defer d.mu.Unlock()
	for _, c := range d.cards {
		if c.State == Waiting {
			var with context.Context
			with, c.stop = context.WithCancel(ctx)
			c.State, c.Began, c.mark = Working, d.now(), d.kitchen.Mark()
			c.Asked = c.Began
			return c, with
		}
	}
	return nil, nil
}

// answerSafely has a question answered; a panic in it is an error like others.
func (d *Desk) answerSafely(ctx context.Context, c *Card) (a *Answer, err error) {
	defer func() {
		if cause := recover(); cause != nil {
			err = fmt.Errorf("answering %q: %v", c.Question.Kind, cause)
		}
	}()
	return d.kitchen.Answer(ctx, c.Question, func(text string) {
		d.mu.Lock()
		defer d.mu.Unlock()
		c.Progress = text[:min(len(text), progressMost)]
	})
}

// notAnswered is told where it went wrong.
const notAnswered = "This could not be answered. The terminal where ripeby serves tells why."

func (d *Desk) end(ctx context.Context, c *Card, a *Answer, err error) {
	stopped := ctx.Err() != nil
	c.stop()
	var why *Refusal
	refused := errors.As(err, &why)
	if err != nil && !refused && !stopped {
		d.fault(err)
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	c.Ended = d.now()
	switch {
	case stopped:
		c.State = Stopped
	case refused:
		c.State, c.Because = NotAnswered, why.Lines
	case err != nil:
		c.State, c.Because = NotAnswered, []string{notAnswered}
	default:
		c.State, c.Answer = Answered, a
	}
}

// Ask takes a question, and gives the id of its card. What somebody has asked already, and is not answered
// yet or still well, is not asked again. The error is a [Refusal].
func (d *Desk) Ask(who string, q Question) (string, error) { return d.ask(who, q, false) }

func (d *Desk) ask(who string, q Question, again bool) (string, error) {
	mark := d.kitchen.Mark()
	d.mu.Lock()
	defer d.mu.Unlock()
	now := d.now()
	d.forget(now)
	waiting := 0
	for _, c := range d.cards {
		switch {
		case c.Who == who && c.Question == q && (!c.Over() || c.State == Answered && d.good(c, mark, now)) && !c.Promised:
			return c.ID, nil
		case c.State == Waiting:
			waiting++
		}
	}
	if waiting >= MostWaiting {
		return "", Refused(fmt.Sprintf("%d questions wait already. Ask when some are answered.", waiting))
	}
	lately := slices.DeleteFunc(d.asked[who], func(at time.Time) bool { return now.Sub(at) >= time.Minute })
	if d.asked[who] = lately; len(lately) >= MostAMinute {
		return "", Refused(fmt.Sprintf("More than %d questions in a minute are not taken from one person. Ask in a while.", MostAMinute))
	}
	d.asked[who] = append(lately, now)
	d.count++
	c := &Card{ID: fmt.Sprintf("%s-%d", d.begun, d.count), Question: q, Who: who, Asked: now, Again: again}
	d.cards = append(d.cards, c)
	select {
	case d.more <- struct{}{}:
	default:
	}
	return c.ID, nil
}

// Stop ends a question that is not answered yet.
func (d *Desk) Stop(id string) {
	d.mu.Lock()
	c := d.card(id)
	switch {
	case c == nil:
	case c.State == Waiting:
		c.State, c.Ended = Stopped, d.now()
	case c.State == Working:
		c.stop()
	}
	d.mu.Unlock()
	d.changed()
}
