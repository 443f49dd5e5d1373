package ask

import (
	"crypto/sha256"
	"crypto/subtle"
	"encoding/hex"
	"fmt"
	"net/url"
	"strconv"
	"strings"

	"ripeby/calendar/address"
)

// What a form of the page does besides asking a question, whose kind it says then.
const (
	SayStop    = "stop"    // a question is to be answered no more
	SayPromise = "promise" // the order of an answer
	SayTake    = "take"    // what moving more saves
	SayAdd     = "add"     // a target is to be written down
	SayBack    = "back"    // and is to be taken out again
)

// wantRows is how many cheeses the form of a target has room for.
const wantRows = 4

// fieldMost is how long a field may be, in bytes.
const fieldMost = 200

// Form is a form as it was sent.
type Form struct{ Values url.Values }

func (f Form) get(name string) string { return strings.TrimSpace(f.Values.Get(name)) }

// Heard is what a form says.
type Heard struct {
	Verb     string   // a kind of question, or one of SayStop and its like
	ID       string   // of the card that is spoken of
	Nr       int      // of the change that is taken back
	Question Question // where Verb is a kind
	Target   Target   // of SayAdd
	Once     string   // of SayAdd: the same of a form that is sent again
}

// seal is the key of a form: only who has the address can make it.
func seal(a address.Address, verb, id string, nr int) string {
	return a.Seal(fmt.Sprintf("ask %q %q %d", verb, id, nr))
}

// Heard reads a form that was drawn for an address.
func (f Form) Heard(a address.Address) (Heard, *Refusal) {
	nr, _ := strconv.Atoi(f.get("nr")) // what is no number has another key
	h := Heard{Verb: f.get("ask"), ID: f.get("id"), Nr: nr}
	if subtle.ConstantTimeCompare([]byte(f.get("key")), []byte(seal(a, h.Verb, h.ID, nr))) != 1 {
		return h, Refused("This form is not one of this page any more. Go back to the page, and ask from there.")
	}
	for name, values := range f.Values {
		for _, v := range values {
			if len(v) > fieldMost {
				return h, Refused(fmt.Sprintf("%q is longer than %d letters.", name, fieldMost))
			}
		}
	}
	switch h.Verb {
	case SayStop, SayPromise, SayTake, SayBack:
		return h, nil
	case SayAdd:
		sum := sha256.Sum256([]byte(f.Values.Encode()))
		h.Once = hex.EncodeToString(sum[:])
		var why *Refusal
		h.Target, why = f.target()
		return h, why
	}
	var why *Refusal
	h.Question, why = f.question(Kind(h.Verb))
	return h, why
}

// question reads a question of a kind.
func (f Form) question(kind Kind) (Question, *Refusal) {
	q := Question{Kind: kind}
	switch kind {
	case Fits:
		q.Cheese, q.Pieces, q.Name, q.Price, q.By = f.get("cheese"), pieces(f.get("pieces")), f.get("name"), f.price("price"), f.moment("by")
		if q.By == "" {
			q.By = f.get("with")
		}
		if longer, err := strconv.Atoi(f.get("longer")); err == nil && longer > 0 {
			q.Longer = min(longer, MostLonger)
		}
		switch {
		case q.Cheese == "":
			return q, Refused("Which cheese is to be chosen.")
		case q.Pieces < 1:
			return q, Refused("How many pieces is to be filled in, as a whole number.")
		case q.By == "":
			return q, Refused("The day on which they leave is to be filled in.")
		}
	case Room:
		q.Box, q.Count, q.In, q.At, q.Until = f.get("size"), pieces(f.get("count")), f.get("in"), f.moment("from"), f.moment("until")
		if q.Box == "" {
			q.Box = f.get("box")
		}
		switch {
		case q.Count < 1:
			return q, Refused("How many boxes is to be filled in, as a whole number.")
		case q.Box == "":
			return q, Refused("Which box is to be chosen, or its size filled in.")
		}
	case Why:
		if q.Target = f.get("target"); q.Target == "" {
			return q, Refused("Which target is to be chosen.")
		}
	case Freer:
	default:
		return q, Refused("This is nothing that can be asked.")
	}
	return q, nil
}

// price is an amount as it was filled in, with a point where people write a comma.
func (f Form) price(name string) string { return strings.Replace(f.get(name), ",", ".", 1) }

// moment is a moment that stands under a name, or a day and a time of it; the day alone where there is no
// time, "" for nothing.
func (f Form) moment(name string) string {
	if whole := f.get(name); whole != "" {
		return whole
	}
	day, clock := f.get(name+"-day"), f.get(name+"-time")
	if day == "" || clock == "" {
		return day
	}
	return day + " " + clock
}

// target reads a target that is to be written down.
func (f Form) target() (Target, *Refusal) {
	t := Target{Name: f.get("name"), By: f.moment("by"), Promised: f.get("promised") != ""}
	for i := range wantRows {
		row := strconv.Itoa(i + 1)
		w := Want{Cheese: f.get("cheese" + row), Pieces: f.get("pieces" + row), Price: f.price("price" + row)}
		if w.Cheese == "" && w.Pieces == "" && w.Price == "" {
			continue
		}
		if w.Cheese == "" || pieces(w.Pieces) < 1 {
			return t, Refused("Of each cheese how many pieces is to be filled in, as a whole number, and of each number which cheese.")
		}
		t.Wants = append(t.Wants, w)
	}
	switch {
	case t.Name == "":
		return t, Refused("The name is to be filled in: of the market, or of who ordered.")
	case f.get("by") == "" && (f.get("by-day") == "" || f.get("by-time") == ""):
		return t, Refused("The day and the time at which it leaves are to be filled in.")
	case len(t.Wants) == 0:
		return t, Refused("A cheese is to be chosen, with how many pieces of it.")
	}
	return t, nil
}
