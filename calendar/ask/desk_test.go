package ask

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"sync"
	"testing"
	"time"
)

// kitchenOf is a Kitchen that answers when the test lets it, and counts what is written.
type kitchenOf struct {
	mu       sync.Mutex
	mark     string
	answered []Question
	promised []Question
	added    []Target
	backs    int
	fails    error         // of what is written
	go1      chan struct{} // nil: it answers at once
	begun    chan Question
}

func (k *kitchenOf) Mark() string {
	k.mu.Lock()
	defer k.mu.Unlock()
	return k.mark
}

func (k *kitchenOf) Answer(ctx context.Context, q Question, say func(string)) (*Answer, error) {
	say("trying change 1 of 2")
	k.begun <- q
	if k.go1 != nil {
		select {
		case <-k.go1:
		case <-ctx.Done():
			return nil, ctx.Err()
		}
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	k.answered = append(k.answered, q)
	switch q.Name {
	case "refused":
		return nil, Refused("There is no such cheese.")
	case "broken":
		return nil, errors.New("secret /path")
	case "panics":
		panic("out of step")
	}
	return &Answer{Lines: []string{"They fit."}, Promises: true, Takes: q.Kind == Freer}, nil
}

func (k *kitchenOf) Promise(q Question) error {
	k.promised = append(k.promised, q)
	return k.fails
}

func (k *kitchenOf) Add(t Target) error {
	k.added = append(k.added, t)
	return k.fails
}

func (k *kitchenOf) TakeBack() error { k.backs++; return k.fails }

func (k *kitchenOf) change(mark string) {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.mark = mark
}

// opened is a desk that works, with a clock that the test moves.
type opened struct {
	*Desk
	t      *testing.T
	k      *kitchenOf
	mu     sync.Mutex
	at     time.Time
	faults []string
	told   chan struct{}
}

func open(t *testing.T, k *kitchenOf) *opened {
	t.Helper()
	k.begun = make(chan Question, 64)
	o := &opened{t: t, k: k, at: time.Date(2027, 3, 16, 8, 0, 0, 0, time.UTC), told: make(chan struct{}, 1000)}
	now := func() time.Time {
		o.mu.Lock()
		defer o.mu.Unlock()
		return o.at
	}
	o.Desk = NewDesk(k, now, func() { o.told <- struct{}{} }, func(err error) {
		o.mu.Lock()
		defer o.mu.Unlock()
		o.faults = append(o.faults, err.Error())
	})
	ctx, stop := context.WithCancel(t.Context())
	done := make(chan struct{})
	go func() { o.Run(ctx); close(done) }()
	t.Cleanup(func() {
		stop()
		select {
		case <-done:
		case <-time.After(5 * time.Second):
			t.Error("the desk goes on after its end")
		}
	})
	return o
}

func (o *opened) later(d time.Duration) {
	o.mu.Lock()
	defer o.mu.Unlock()
	o.at = o.at.Add(d)
}

// over waits until a card is over.
func (o *opened) over(id string) *Card {
	o.t.Helper()
	for range 500 {
		if c, _ := o.Card(id); c != nil && c.Over() {
			return c
		}
		time.Sleep(10 * time.Millisecond)
	}
	o.t.Fatalf("%s is never over", id)
	return nil
}

func (o *opened) asks(who string, q Question) string {
	o.t.Helper()
	id, err := o.Ask(who, q)
	if err != nil {
		o.t.Fatal(err)
	}
	return id
}

func order(pieces int) Question {
	return Question{Kind: Fits, Cheese: "Bramble hoop", Pieces: pieces, By: "2027-03-27 07:00"}
}

// One question is worked on at a time, in turn; no more than so many wait, and of one person no more are
// taken in a minute.
func TestQuestionsInTurn(t *testing.T) {
	k := &kitchenOf{go1: make(chan struct{})}
	o := open(t, k)
	first := o.asks("Nell", order(1))
	if q := <-k.begun; q != order(1) {
		t.Fatalf("got %v begun, want the first", q)
	}
	var waiting []string
	for i := range MostWaiting {
		waiting = append(waiting, o.asks("Nell", order(2+i)))
	}
	if _, err := o.Ask("Nell", order(90)); err == nil || !strings.Contains(err.Error(), "4 questions wait already") {
		t.Errorf("got %v, want it refused while so many wait", err)
	}
	if c, _ := o.Card(waiting[2]); c.State != Waiting || c.Ahead != 3 {
		t.Errorf("got %+v, want it to wait behind 3", c)
	}
	if c, _ := o.Card(first); c.State != Working || c.Progress != "trying change 1 of 2" {
		t.Errorf("got %+v, want it worked on, with how far it is", c)
	}
	if len(k.begun) != 0 {
		t.Error("two are worked on at a time")
	}
	close(k.go1)
	for i, id := range waiting {
		if o.over(id); (<-k.begun).Pieces != 2+i {
			t.Errorf("question %d is not answered in its turn", i+2)
		}
	}
	o.asks("Nell", order(50)) // her sixth
	if _, err := o.Ask("Nell", order(51)); err == nil || !strings.Contains(err.Error(), "6 questions in a minute") {
		t.Errorf("got %v, want her seventh refused", err)
	}
	o.asks("Ivo", order(51))
	o.later(time.Minute)
	o.asks("Nell", order(51))
}

// What is asked twice is answered once, while its answer is good.
func TestTheSameQuestion(t *testing.T) {
	o := open(t, &kitchenOf{})
	first := o.asks("Nell", order(5))
	o.over(first)
	for _, c := range []struct {
		name   string
		before func()
		ask    string
		same   bool
	}{
		{"again", func() {}, "Nell", true},
		{"another person", func() {}, "Ivo", false},
		{"after the plan has changed", func() { o.k.change("new") }, "Nell", false},
	} {
		c.before()
		if id := o.asks(c.ask, order(5)); (id == first) != c.same {
			t.Errorf("%s: got %s after %s, want the same %v", c.name, id, first, c.same)
		}
	}
}

// A question can be stopped while it waits and while it is worked on; then the next has its turn.
func TestStopping(t *testing.T) {
	k := &kitchenOf{go1: make(chan struct{})}
	o := open(t, k)
	first, second, third := o.asks("Nell", order(1)), o.asks("Nell", order(2)), o.asks("Nell", order(3))
	<-k.begun
	o.Stop(second)
	o.Stop("nothing")
	o.Stop(first)
	for _, id := range []string{first, second} {
		if c := o.over(id); c.State != Stopped || c.Answer != nil {
			t.Errorf("got %+v, want it stopped", c)
		}
	}
	if q := <-k.begun; q != order(3) {
		t.Errorf("got %v begun next, want the third", q)
	}
	close(k.go1)
	if c := o.over(third); c.State != Answered {
		t.Errorf("got %+v, want it answered", c)
	}
	o.Stop(third)
	if c, _ := o.Card(third); c.State != Answered {
		t.Errorf("got %+v, want the answer to stay", c)
	}
}

// What has no answer says why; of what went wrong here a page tells nothing but that.
func TestNoAnswer(t *testing.T) {
	o := open(t, &kitchenOf{})
	for _, c := range []struct{ name, want, fault string }{
		{"refused", "There is no such cheese.", ""},
		{"broken", notAnswered, "secret /path"},
		{"panics", notAnswered, "out of step"},
	} {
		q := order(1)
		q.Name = c.name
		card := o.over(o.asks("Nell", q))
		if card.State != NotAnswered || len(card.Because) != 1 || card.Because[0] != c.want {
			t.Errorf("%s: got %+v, want %q", c.name, card, c.want)
		}
		o.mu.Lock()
		if got := strings.Join(o.faults, "|"); !strings.Contains(got, c.fault) || c.fault == "" && got != "" {
			t.Errorf("%s: got the faults %q, want %q", c.name, got, c.fault)
		}
		o.mu.Unlock()
	}
}

// Answers go after an hour, and the oldest where there are too many.
func TestWhatIsKept(t *testing.T) {
	o := open(t, &kitchenOf{})
	old := o.asks("Nell", order(1))
	o.over(old)
	for i := range MostKept {
		o.over(o.asks(fmt.Sprint("person ", i), order(2)))
	}
	if all := o.Cards(); len(all) != MostKept || all[0].Who != fmt.Sprint("person ", MostKept-1) {
		t.Errorf("got %d cards, the latest of %s; want %d", len(all), all[0].Who, MostKept)
	}
	if c, _ := o.Card(old); c != nil {
		t.Error("the oldest is kept")
	}
	o.later(KeptFor)
	if all := o.Cards(); len(all) != 0 {
		t.Errorf("got %d cards after an hour, want none", len(all))
	}
}

// An answer is promised once. One that holds no more is asked again, and writes nothing.
func TestPromising(t *testing.T) {
	o := open(t, &kitchenOf{})
	id := o.asks("Nell", order(5))
	o.over(id)
	for range 3 {
		if to, err := o.Promise("Nell", id); to != id || err != nil {
			t.Fatalf("got %s, %v", to, err)
		}
	}
	if c, _ := o.Card(id); len(o.k.promised) != 1 || !c.Promised {
		t.Errorf("got %v and %+v, want one promise", o.k.promised, c)
	}
	last, _ := o.Last()
	if last == nil || last.Text != "5 Bramble hoop, promised" || last.By != "2027-03-27 07:00" || last.Nr != 1 || last.Who != "Nell" {
		t.Errorf("got %+v", last)
	}
	for _, c := range []struct {
		name  string
		since func()
	}{
		{"the plan has changed", func() { o.k.change("another") }},
		{"long ago", func() { o.later(GoodFor) }},
	} {
		o.later(time.Minute)
		id := o.asks("Nell", order(6))
		o.over(id)
		c.since()
		to, err := o.Promise("Nell", id)
		if err != nil || to == id || len(o.k.promised) != 1 {
			t.Errorf("%s: got %s, %v and %d promises, want it asked again", c.name, to, err, len(o.k.promised))
		}
		if again := o.over(to); !again.Again || again.Question != order(6) {
			t.Errorf("%s: got %+v", c.name, again)
		}
	}
	for _, id := range []string{"", "nothing", "1-1"} {
		if _, err := o.Promise("Nell", id); err == nil || len(o.k.promised) != 1 {
			t.Errorf("%q: got %v and %d promises, want none", id, err, len(o.k.promised))
		}
	}
	o.later(time.Minute)
	refused := o.asks("Nell", order(7))
	o.over(refused)
	o.k.fails = Refused("no")
	if _, err := o.Promise("Nell", refused); err == nil {
		t.Error("what the kitchen refuses is promised")
	}
	if c, _ := o.Card(refused); c.Promised {
		t.Error("what was refused counts as promised")
	}
}

// What moving more saves is taken once, and not of an answer that holds no more.
func TestTaking(t *testing.T) {
	k := &kitchenOf{}
	o := open(t, k)
	id := o.asks("Nell", Question{Kind: Freer})
	o.over(id)
	var cards []string
	for range 3 {
		to, err := o.Take("Nell", id)
		if err != nil || o.over(to).Question.Kind != Take {
			t.Fatalf("got %s, %v", to, err)
		}
		cards = append(cards, to)
		k.change("the plan that was taken")
	}
	if cards[0] != cards[1] || cards[0] != cards[2] || len(k.answered) != 2 {
		t.Errorf("got %v and %v, want it taken once", cards, k.answered)
	}
	o.later(time.Minute)
	stale := o.asks("Nell", Question{Kind: Freer})
	o.over(stale)
	k.change("another")
	if to, err := o.Take("Nell", stale); err != nil || !o.over(to).Again || len(k.answered) != 4 {
		t.Errorf("got %s, %v; want it asked again", to, err)
	}
	fits := o.asks("Nell", order(1))
	o.over(fits)
	for _, id := range []string{fits, "nothing", ""} {
		if to, err := o.Take("Nell", id); err == nil {
			t.Errorf("%q: got %s, want it refused", id, to)
		}
	}
}

// A target is written once a form; the last that was written is taken out again, once.
func TestWriting(t *testing.T) {
	o := open(t, &kitchenOf{})
	for _, form := range []string{"a", "a", "b"} {
		if err := o.Add("Nell", form, Target{Name: "Fair " + form, By: "2027-04-03 09:00"}); err != nil {
			t.Fatal(err)
		}
	}
	if len(o.k.added) != 2 {
		t.Errorf("got %v, want two targets", o.k.added)
	}
	if err := o.TakeBack(1); err == nil || o.k.backs != 0 {
		t.Errorf("got %v, want only the last taken back", err)
	}
	for range 2 {
		if err := o.TakeBack(2); err != nil || o.k.backs != 1 {
			t.Errorf("got %v and %d, want it taken back once", err, o.k.backs)
		}
	}
	if last, n := o.Last(); last != nil || n != 2 {
		t.Errorf("got %+v and %d", last, n)
	}
	o.k.fails = errors.New("the disk is full")
	if err := o.Add("Nell", "c", Target{}); err == nil {
		t.Error("what could not be written is no error")
	}
	o.k.fails = nil
	if err := o.Add("Nell", "c", Target{}); err != nil || len(o.k.added) != 4 {
		t.Errorf("got %v and %d, want it written once more after it failed", err, len(o.k.added))
	}
}
