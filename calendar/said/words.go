package said

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"ripeby/calendar/address"
	"ripeby/resources"
)

// Saying is what somebody says on the page: a verb with its words and options, as on the
// command line of ripeby record, so that both mean the same.
type Saying struct {
	Verb    string
	Words   []string
	Options map[string]string
	At      string            // when it happened, a time of today or a moment; "" for now, or
	Ago     resources.Minutes // so long before: it was said then, and waited on a phone for the network
	Who     string
	Note    string
	// Measured is what was filled in for what a recipe asks for, one a text, "pH 4.5", beside what stands in Options.
	Measured []string
	Once     string // the word of the form: what is sent again with it is not said again
	Again    bool   // it is so, though it was asked about
}

// Heard is what came of it.
type Heard struct {
	Nr    int    // under which it is written down
	Means string // for the plan; "" where that is nothing
	// Before says that the word of the form was taken before, with the same or, where
	// Other is not empty, with something else; nothing was written then.
	Before bool
	Other  string // what was said with that word, by whom and when
}

// Refusal is why nothing was written, a line each.
type Refusal struct {
	Lines []string
	Asked bool // it would be taken when it is said again
	Said  bool // somebody has said so, or otherwise: what they said is in the lines
	Stale bool // the form is no more to be used
	Later bool // it is not what was said that is wrong: the same may be taken in a while
}

// Error gives the first line.
func (r *Refusal) Error() string { return strings.Join(r.Lines, "; ") }

// Told is what the kitchen has said so far, as far as the page needs it.
type Told struct {
	Last   int        // the highest number; what a form was drawn after
	Lately []Word     // of the last days, the newest last
	Answer []Question // what is to be answered, the oldest first
	Out    []Out      // who is away and what is closed, now or to come
	// Measured is what was measured of the plan's batches, and in places, whenever that was, by time.
	Measured []Reading
}

// Reading is one thing that was measured, as it was written, of a batch by its id or in a cold place.
type Reading struct {
	Batch, Place string
	Stage        string // with which it was said; "" where it was said alone
	What, Is     string
	At           resources.Moment
	Who          string // "" where nobody is named
	Nr           int
}

// Out is a time in which somebody is away or a place, or one shelf of it, is closed.
type Out struct {
	Person, Place, Shelf string
	resources.Span       // until Open where nobody has said until when
}

// Open is the end of what goes on until somebody says otherwise.
const Open = resources.Moment(1) << 40

// Word is an entry of the record that stands.
type Word struct {
	Nr                  int
	At                  resources.Moment
	Who                 string // "" where nobody is named
	Text                string // what it says
	Batch               string // as the plan names it; "" for what is not about one
	Did, Began, NotYet  string // the stage
	Stands              string // the place where it was said to stand
	Lost                bool
	Round               resources.Date
	Milk                string // the supply, and the day of the collection
	Day                 resources.Date
	Target, Cheese      string
	Ordered, Came, Last bool // Last: nothing has been said of the same since, so that it may be taken back
}

// Question is work of which nobody spoke, or where cheese was taken to have been carried.
type Question struct {
	Batch, Cheese, Stage string
	Start, Ends          resources.Moment // as planned
	Who                  string
	Waits                bool   // it is taken not to have begun; else as done as planned
	Carried              string // to where; no stage, end nor person then
}

// ErrBusy says that something else is being said just now; it may be said once more.
var ErrBusy = errors.New("something else is being said just now")

// TooOften says that more was said from one address than is taken, and how long to wait.
type TooOften struct{ Wait time.Duration }

// Error says how much is taken.
func (t *TooOften) Error() string {
	return fmt.Sprintf("More than %d things in a minute, or %d in a day, are not taken from one person. Nothing was written; say it again in a while.", address.TapsAMinute, address.TapsADay)
}

// Seconds is how long to wait, as HTTP has it.
func (t *TooOften) Seconds() int { return int(t.Wait.Seconds()) + 1 }
