package ask

import (
	"context"
	"fmt"
	"strconv"

	"ripeby/schedule"
)

// Kind is what is asked.
type Kind string

// The kinds of question.
const (
	Fits  Kind = "fits"  // can so many more of a cheese leave at a moment
	Room  Kind = "room"  // have so many boxes a place in the cold
	Why   Kind = "why"   // why is a target short, and what would change that
	Freer Kind = "freer" // what would be saved if more were moved
	Take  Kind = "take"  // that plan is to be made, and put in force
)

// Question is one question. Moments and days are as a maker writes them; what is not asked for is "".
type Question struct {
	Kind                Kind
	Cheese, Name, Price string // Fits; Name is what the order is called
	Pieces              int
	By                  string // a moment, or a day for its noon
	Longer              int    // how many times it was asked for longer
	Box, In             string // Room: a kind of box or a size; a place or a shelf, "" for any
	Count               int
	At, Until           string // moments or days
	Target              string // Why
}

// MostLonger is how many times a question may be asked for longer; each time it may take [LongerWork]
// times the work.
const (
	MostLonger = 2
	LongerWork = 8
)

// Text is what is asked, in few words.
func (q *Question) Text() string {
	switch q.Kind {
	case Fits:
		return fmt.Sprintf("%d %s by %s", q.Pieces, q.Cheese, q.By)
	case Room:
		return "Room for " + schedule.Counted(q.Count, "box") + ": " + q.Box
	case Why:
		return "Why " + q.Target + " is short"
	case Take:
		return "The plan made anew, with more moved"
	}
	return "What moving more would save"
}

// order names what is promised, and for whom.
func (q *Question) order() string {
	text := fmt.Sprintf("%d %s, promised", q.Pieces, q.Cheese)
	if q.Name != "" {
		text = q.Name + ": " + text
	}
	return text
}

// Section is lines under a heading.
type Section struct {
	Heading string
	Lines   []string
}

// Other is a question that an answer leads to, and what stands on its button.
type Other struct {
	Question Question
	Text     string
}

// Answer is what is told of a question.
type Answer struct {
	Lines    []string // sentences, one after another
	Sections []Section
	Mind     string  // what is to be minded of all of it; "" for nothing
	Promises bool    // what was asked for can be promised
	Takes    bool    // what moving more saves can be taken
	Others   []Other // what may be asked next
}

// Refusal is why there is no answer, or why nothing was written, a line each, in the words of a page.
type Refusal struct{ Lines []string }

// Error gives the first line.
func (r *Refusal) Error() string { return r.Lines[0] }

// Refused makes a refusal of one line.
func Refused(text string) *Refusal { return &Refusal{[]string{text}} }

// Target is a market day or an order that is to be written down.
type Target struct {
	Name     string
	By       string // a moment
	Wants    []Want
	Promised bool
}

// Want is so much of one cheese. Pieces and Price are as they were filled in.
type Want struct{ Cheese, Pieces, Price string }

// pieces reads a number of pieces; what is none is 0.
func pieces(text string) int {
	n, _ := strconv.Atoi(text)
	return n
}

// Kitchen is who is asked. Its methods may be called at any time.
type Kitchen interface {
	// Mark tells one state of the kitchen, and of the plan in force, from another.
	Mark() string
	// Answer answers a question. How far it is, in a few words, is told to say. When ctx ends it gives up.
	// The error is a [Refusal], or something that a page does not tell.
	Answer(ctx context.Context, q Question, say func(string)) (*Answer, error)
	// Promise writes down the order that a question of the kind Fits asked about, as a promise. The error
	// is a [Refusal], and nothing was written; or something else, and it may have been.
	Promise(q Question) error
	// Add writes down a target. The errors are those of Promise.
	Add(t Target) error
	// TakeBack takes the last that was written out again, where nothing else has changed its file since.
	// The errors are those of Promise.
	TakeBack() error
}
