package planfile

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// MaxBytes is the size of the largest plan.json that is read. A plan of a year
// with a thousand batches is about a tenth of it.
const MaxBytes = 64 << 20

// maxCount is the largest number of pieces, minutes or boxes that is believed; a
// larger one is damage, and sums of a few of them still fit.
const maxCount = 1_000_000_000

// Decode reads a plan.json. Keys that it does not know are passed over. What is
// damaged, of another schema, larger than [MaxBytes], or lacks what a plan
// cannot do without is a [*Fault]; the first one found is given.
func Decode(text []byte) (*schedule.Plan, error) {
	if len(text) > MaxBytes {
		return nil, &Fault{Got: fmt.Sprintf("the file is %d bytes long", len(text)),
			Want: fmt.Sprintf("at most %d", MaxBytes)}
	}
	if len(bytes.TrimSpace(text)) == 0 {
		return nil, &Fault{Got: "the file is empty", Want: "a plan"}
	}
	var doc document
	if err := json.Unmarshal(text, &doc); err != nil {
		return nil, faultOf(text, err)
	}
	r := reader{text: text}
	plan := r.plan(&doc)
	if r.fault != nil {
		return nil, r.fault
	}
	if f := missingKey(text); f != nil {
		return nil, f
	}
	return plan, nil
}

// missingKey is the first list that every plan has and this one lacks:
// a misspelt one would be passed over, and what is under way forgotten.
func missingKey(text []byte) *Fault {
	var keys map[string]json.RawMessage
	if err := json.Unmarshal(text, &keys); err != nil {
		return faultOf(text, err)
	}
	for _, k := range []string{"batches", "stock", "targets", "rounds"} {
		if _, ok := keys[k]; !ok {
			return &Fault{Key: k, Got: "is missing", Want: "a list, as every plan has"}
		}
	}
	return nil
}

// faultOf puts what the JSON reader found into words.
func faultOf(text []byte, err error) *Fault {
	var syntax *json.SyntaxError
	var kind *json.UnmarshalTypeError
	switch {
	case errors.As(err, &kind):
		f := &Fault{Key: kind.Field, Got: "is a " + strings.Replace(kind.Value, "array", "list", 1), Want: "a " + wordFor(kind.Type.Kind().String())}
		if kind.Field == "" {
			f.Key = "the file"
		}
		return f.at(text, kind.Offset)
	case errors.As(err, &syntax), errors.Is(err, io.ErrUnexpectedEOF):
		offset := int64(len(text))
		if syntax != nil {
			offset = max(syntax.Offset-1, 0)
		}
		f := &Fault{Got: "the file is damaged (" + err.Error() + ")", Want: "JSON, whole to its end"}
		return f.at(text, offset)
	}
	return &Fault{Got: "the file cannot be read: " + err.Error()}
}

// wordFor names a kind of value as JSON does.
func wordFor(goKind string) string {
	switch {
	case strings.HasPrefix(goKind, "int"):
		return "whole number"
	case goKind == "slice":
		return "list"
	case goKind == "struct":
		return "group of keys"
	case goKind == "bool":
		return "true or false"
	}
	return goKind
}

// reader turns keys into the trade's types; it keeps the first fault.
type reader struct {
	text  []byte
	fault *Fault
}

// fail notes what is wrong at a place, unless something was wrong before.
func (r *reader) fail(at trail, got, want string) {
	if r.fault == nil {
		f := &Fault{Key: at.String(), Got: got, Want: want}
		r.fault = f.at(r.text, at.locate(r.text))
	}
}

// name reads a text that must be there.
func (r *reader) name(at trail, s string) string {
	if s == "" {
		r.fail(at, "is missing", "a name")
	}
	return s
}

// oneOf reads a text that has only a few values.
func (r *reader) oneOf(at trail, s string, allowed ...string) string {
	for _, a := range allowed {
		if s == a {
			return s
		}
	}
	r.fail(at, fmt.Sprintf("is %q", clip(s)), "one of "+strings.Join(allowed, ", "))
	return s
}

// count reads a number that is not negative.
func (r *reader) count(at trail, n int64) int64 {
	if n < 0 || n > maxCount {
		r.fail(at, fmt.Sprintf("is %d", n), fmt.Sprintf("a number from 0 to %d", maxCount))
	}
	return n
}

func (r *reader) minutes(at trail, n int64) resources.Minutes {
	return resources.Minutes(r.count(at, n))
}

// hold reads the length of a hold. It is below 0 where a begun stage was followed
// by the next before its work should have been done: what happened is written as
// it happened.
func (r *reader) hold(at trail, n int64) resources.Minutes {
	if n < -maxCount || n > maxCount {
		r.fail(at, fmt.Sprintf("is %d", n), fmt.Sprintf("a number of minutes up to %d", maxCount))
	}
	return resources.Minutes(n)
}

func (r *reader) number(at trail, n int) int { return int(r.count(at, int64(n))) }

func (r *reader) decimal(at trail, text json.Number, places int) int64 {
	n, ok := parseDecimal(text, places)
	switch {
	case text == "":
		r.fail(at, "is missing", "a number")
	case !ok:
		r.fail(at, "is "+clip(string(text)), fmt.Sprintf("a decimal number with at most %d places", places))
	case n < 0:
		r.fail(at, "is "+clip(string(text)), "a number from 0 up")
	}
	return n
}

func (r *reader) litres(at trail, text json.Number) resources.Millilitres {
	return resources.Millilitres(r.decimal(at, text, litrePlaces))
}

func (r *reader) moment(at trail, s string) resources.Moment {
	t, err := time.Parse(time.RFC3339, s)
	switch {
	case s == "":
		r.fail(at, "is missing", "a moment such as 2027-03-01T06:00:00Z")
	case err != nil:
		r.fail(at, fmt.Sprintf("is %q", clip(s)), "a moment such as 2027-03-01T06:00:00Z")
	case t.Second() != 0 || t.Nanosecond() != 0:
		r.fail(at, fmt.Sprintf("is %q", clip(s)), "a whole minute")
	}
	if err != nil {
		return 0
	}
	return resources.MomentOf(t)
}

// added reads a moment of a key that the first edition of the format did not
// have: 0 when it is missing.
func (r *reader) added(at trail, s string) resources.Moment {
	if s == "" {
		return 0
	}
	return r.moment(at, s)
}

func (r *reader) day(at trail, s string) resources.Date {
	t, err := time.Parse(time.DateOnly, s)
	if err != nil {
		r.fail(at, fmt.Sprintf("is %q", clip(s)), "a day such as 2027-03-01")
	}
	y, m, d := t.Date()
	return resources.Date{Year: y, Month: m, Day: d}
}

// clip keeps a message short whatever a damaged file holds.
func clip(s string) string {
	const most = 60
	if runes := []rune(s); len(runes) > most {
		return string(runes[:most]) + "…"
	}
	return s
}
