package ask

import (
	"context"
	"slices"
	"time"
)

// State is how far a question is.
type State int

// The states of a question, in their order.
const (
	Waiting State = iota
	Working
	Answered
	NotAnswered // the card says why
	Stopped
)

// Card is a question at the desk. It is a copy: the desk's own changes while it is worked on.
type Card struct {
	ID       string
	Question Question
	Who      string // asked it
	State    State
	Ahead    int       // of a question that waits: how many are before it
	Asked    time.Time // it counts from then on
	Began    time.Time
	Ended    time.Time
	Progress string
	Answer   *Answer
	Because  []string // why there is no answer
	Again    bool     // it was asked once more, for the plan had changed before it was promised
	Promised bool     // what it asked for was written down

	mark  string
	taken string // the id of the card on which what it saves is taken; "" for none
	stop  context.CancelFunc
}

// Over reports whether a card changes no more by itself.
func (c *Card) Over() bool { return c.State > Working }

// card is the desk's own card of an id; nil for none.
func (d *Desk) card(id string) *Card {
	if at := slices.IndexFunc(d.cards, func(c *Card) bool { return c.ID == id }); at >= 0 {
		return d.cards[at]
	}
	return nil
}

// Cards are the questions, the latest first.
func (d *Desk) Cards() []Card {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.forgetOld(d.now())
	var all []Card
	ahead := 0
	for _, c := range d.cards {
		shown := *c
		if shown.Ahead = ahead; !c.Over() {
			ahead++
		}
		all = append(all, shown)
	}
	slices.Reverse(all)
	return all
}

// forgetOld lets go of what was answered long ago.
func (d *Desk) forgetOld(now time.Time) {
	d.cards = slices.DeleteFunc(d.cards, func(c *Card) bool { return c.Over() && now.Sub(c.Ended) >= KeptFor })
}

// Card is the question with an id, and whether its answer still holds; nil for none.
func (d *Desk) Card(id string) (c *Card, holds bool) {
	for _, c := range d.Cards() {
		if c.ID == id {
			return &c, c.State == Answered && d.good(&c, d.kitchen.Mark(), d.now())
		}
	}
	return nil, false
}

// good reports whether an answer still holds: for the plan in force, and not for long.
func (d *Desk) good(c *Card, mark string, now time.Time) bool {
	return c.mark == mark && now.Sub(c.Asked) < GoodFor
}

// forget lets go of what was answered long ago, and of the oldest where there is too much.
func (d *Desk) forget(now time.Time) {
	d.forgetOld(now)
	for i := 0; len(d.cards) >= MostKept && i < len(d.cards); {
		if d.cards[i].Over() {
			d.cards = slices.Delete(d.cards, i, i+1)
		} else {
			i++
		}
	}
}
