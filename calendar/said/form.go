package said

import (
	"cmp"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/hex"
	"fmt"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"time"

	"ripeby/calendar/address"
	"ripeby/resources"
)

// Fields that a page's script sends besides: how many seconds what was said waited on the phone, and that the
// answer need not lead anywhere.
const (
	Waited = "waited"
	Quiet  = "quiet"
)

// mostWaited is how long something may have waited on a phone and still be taken: as far back as the page
// knows what was said.
const mostWaited = 14 * resources.Day

// LocalTime is how a browser has a moment that is filled in.
const LocalTime = "2006-01-02T15:04"

// Form is a form as it was sent.
type Form struct{ Values url.Values }

// get is a field without the space around it.
func (f *Form) get(name string) string { return strings.TrimSpace(f.Values.Get(name)) }

// Field is one value of a form, to be sent again; Label is what it is where it may be put right, and Type how a
// browser asks for it.
type Field struct{ Name, Value, Label, Type string }

// typed are the fields that somebody fills in.
var typed = map[string]string{"at": "At", "pieces": "Pieces there are", "measured": "Measured", "note": "Note", "litres": "How much", "why": "The batch is lost, since",
	"person": "Who", "from": "From", "from_at": "from the time", "until": "Until", "until_at": "until the time", "shelf": "Shelf", "count": "Pieces", "sold": "Sold out at"}

// types are how a browser asks for what is no plain text.
var types = map[string]string{"at": "datetime-local", "from": "date", "until": "date", "from_at": "time", "until_at": "time", "sold": "time"}

// Fields are all values of a form, those that were filled in to be put right.
func (f *Form) Fields() (all []Field) {
	for name := range f.Values {
		value := f.Values.Get(name)
		if name == "again" || name == Waited || name == Quiet || typed[name] != "" && value == "" && name != f.wanted() {
			continue
		}
		if name == "at" {
			if _, err := time.Parse(LocalTime, value); err != nil { // it is sealed beside the form, and not typed
				all = append(all, Field{Name: name, Value: value})
				continue
			}
		}
		label := typed[name]
		if unit, what, ok := ofMeasure(name); ok {
			if value == "" {
				continue
			}
			label = strings.TrimSpace(what + " " + unit)
		}
		all = append(all, Field{name, value, label, types[name]})
	}
	slices.SortFunc(all, func(a, b Field) int { return cmp.Compare(a.Name, b.Name) })
	return all
}

// wanted is the field that what is said cannot do without; "" for none.
func (f *Form) wanted() string {
	switch say := f.get("say"); say {
	case "pieces", "measured", "note":
		return say
	case "ordered", "came":
		return "litres"
	case "away":
		return "person"
	case "took", "back":
		return "count"
	case "sold_out":
		return "sold"
	}
	return ""
}

// ago is how long what is said has waited on a phone, by the phone's own clock at both ends, so that one that
// is wrong does no harm. What is no length is none.
func (f *Form) ago() resources.Minutes {
	seconds, err := strconv.ParseInt(f.get(Waited), 10, 64)
	if err != nil || seconds < 0 {
		return 0
	}
	return resources.Minutes(min(seconds/60, int64(mostWaited)+1))
}

// toFillIn asks for what was not filled in.
var toFillIn = map[string]string{"pieces": "How many pieces there are now is to be filled in.", "measured": `What was measured is to be filled in, such as "pH 4.5".`,
	"note": "The note is to be filled in.", "litres": `How much milk it is is to be filled in, such as "24 L".`,
	"person": "Who is away is to be chosen.", "count": "How many pieces it were is to be filled in.", "sold": "When it was sold out is to be filled in."}

// unsaid is why a form says nothing.
func unsaid(text string) (Saying, *Refusal) {
	return Saying{}, &Refusal{Lines: []string{text}}
}

// stale is for forms that this server has not drawn for this address.
const stale = "This form is not one of this page any more. Go back to the page, and say it from there."

// Saying is what a form says to an address. What was chosen when it was drawn is sealed by its key; what is typed
// is not.
func (f *Form) Saying(a address.Address) (Saying, *Refusal) {
	about := f.about()
	key := about.Key(a)
	if subtle.ConstantTimeCompare([]byte(f.get("key")), []byte(key)) != 1 {
		return Saying{}, old()
	}
	verb, at, wanted := f.get("say"), f.get("at"), f.wanted()
	ago := f.ago()
	if ago > mostWaited {
		return unsaid(fmt.Sprintf("This waited on the phone for more than %d days. Say it with its time.", mostWaited/resources.Day))
	}
	if wanted != "" && f.get(wanted) == "" && (wanted != "measured" || len(f.measures()) == 0) {
		return unsaid(toFillIn[wanted])
	}
	if at == f.get("planned") && verb != "did" && verb != "began" {
		at = "" // it was filled in for what is done
	}
	if _, err := time.Parse(LocalTime, at); err == nil {
		at = strings.Replace(at, "T", " ", 1)
	}
	out := Saying{Verb: verb, Who: a.Person, Note: f.get("note"), At: at, Again: f.get("again") != "", Options: map[string]string{}, Once: key + "-" + verb}
	if at == "" {
		out.Ago = ago
	}
	if why := f.verb(&about, &out); why != nil {
		return Saying{}, why
	}
	if of := f.hashed(verb); of != "" {
		// Another number or text is another word, though the form is the same.
		sum := sha256.Sum256([]byte(of))
		out.Once += "-" + hex.EncodeToString(sum[:4])
	}
	return out, nil
}

// Seen is the warning that a form says is seen. It goes into no record: ok is false for every other form, and
// for one that this server has not drawn for this address.
func (f *Form) Seen(a address.Address) (warning string, ok bool) {
	about := f.about()
	only := About{Warning: about.Warning, After: about.After}
	sealed := subtle.ConstantTimeCompare([]byte(f.get("key")), []byte(about.Key(a))) == 1
	return about.Warning, sealed && f.get("say") == "seen" && about.Warning != "" && about == only
}

// hashed is what tells two words apart that are said with one form; "" where there is one at most.
func (f *Form) hashed(verb string) string {
	switch wanted := f.wanted(); verb {
	case "measured":
		return fmt.Sprintf("%q", append(f.measures(), f.get(wanted)))
	case wanted, "took", "back", "sold_out":
		return f.get(wanted)
	case "away", "closed":
		return fmt.Sprintf("%q", []string{f.get("person"), f.get("shelf"), f.get("from"), f.get("from_at"), f.get("until"), f.get("until_at")})
	}
	return ""
}

// inLitres has a number without a unit be of litres, as people write it.
func inLitres(text string) string {
	if strings.Trim(text, "0123456789.,") != "" {
		return text
	}
	return strings.Replace(text, ",", ".", 1) + " L"
}

// About is what a form was drawn for. Its key is sealed with the address's own token, so that nobody
// else can make one, and is another once more has been said: what is tapped twice, sent again or
// sent from the page that one went back to has the word that it had.
type About struct {
	Batch, Stage   string
	Place, Shelf   string // "" for all of the place
	Round          string // a date
	Milk, Day      string // the supply, and the date of the collection
	Target, Cheese string
	Person         string
	Anybody        bool   // the person is chosen in the form
	Warning        string // of the plan, as calendar/seen knows it
	Nr             int    // the number that is taken back
	After          int    // the highest number when it was drawn
}

// number is the one that is taken back, as it is written.
func (a *About) number() string { return strconv.Itoa(a.Nr) }

// about reads back what a form was drawn for.
func (f *Form) about() About {
	number := func(name string) int {
		n, _ := strconv.Atoi(f.get(name)) // what is no number has another key
		return n
	}
	a := About{Batch: f.get("batch"), Stage: f.get("stage"), Place: f.get("place"), Round: f.get("round"), Milk: f.get("milk"), Day: f.get("day"),
		Target: f.get("target"), Cheese: f.get("cheese"), Person: f.get("of"), Anybody: f.get("anybody") != "", Warning: f.get("warning"), Nr: number("nr"), After: number("after")}
	if f.get("say") != "closed" { // of which the shelf is chosen
		a.Shelf = f.get("shelf")
	}
	return a
}

// Key seals what a form is about.
func (a About) Key(of address.Address) string {
	if a.Warning != "" {
		return of.Seal(fmt.Sprintf("warning %q %d", a.Warning, a.After))
	}
	return of.Seal(fmt.Sprintf("%q %d %d %v", []string{a.Batch, a.Stage, a.Place, a.Shelf, a.Round, a.Milk, a.Day, a.Target, a.Cheese, a.Person}, a.Nr, a.After, a.Anybody))
}
