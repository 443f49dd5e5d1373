package feed

import (
	"cmp"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/hex"
	"errors"
	"fmt"
	"mime"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"time"

	"ripeby/calendar/address"
)

// How much a form may bring: many times what the page's own forms do.
const (
	mostForm   = 16 << 10 // bytes
	mostFields = 32
)

// sayingAt is where forms are sent, below a writing address.
const sayingAt = "say"

// isSaying reports whether a path is one that forms are sent to.
func isSaying(parts []string) bool {
	return len(parts) == 3 && parts[0] == "w" && parts[2] == sayingAt
}

// say answers for a form. What is written is shown by the page itself, to which the answer leads:
// to ask for that again, as when going back, says nothing a second time.
func (s *Server) say(w http.ResponseWriter, r *http.Request, token string) {
	b := s.board.Load()
	a, ok := s.known(w, b, token)
	if !ok {
		return
	}
	if a.Kind != address.Writing {
		refuse(w, http.StatusNotFound, notFound)
		return
	}
	w.Header().Set("Content-Security-Policy", writingPolicy)
	if r.Method != http.MethodPost { // as when an answer is loaded again
		s.backTo(w, r, a)
		return
	}
	if err := http.NewCrossOriginProtection().Check(r); err != nil {
		refuse(w, http.StatusForbidden, "this was sent from another site, and nothing was written")
		return
	}
	form, err := formOf(w, r)
	if err != nil {
		w.Header().Set("Connection", "close")
		refuse(w, http.StatusBadRequest, "nothing was written: "+err.Error())
		return
	}
	if wait := s.taps.Wait(a.Token, s.opt.Now()); wait > 0 {
		w.Header().Set("Retry-After", strconv.Itoa(int(wait.Seconds())+1))
		s.notSaid(w, r, b, a, form, &Refusal{Lines: []string{fmt.Sprintf("More than %d things in a minute, or %d in a day, are not taken from one person. Nothing was written; say it again in a while.", address.TapsAMinute, address.TapsADay)}},
			http.StatusTooManyRequests)
		return
	}
	said, why := form.saying(a)
	if why != nil {
		s.notSaid(w, r, b, a, form, why, http.StatusUnprocessableEntity)
		return
	}
	heard, err := s.kitchen.Say(said)
	s.hear()
	var refusal *Refusal
	switch {
	case errors.As(err, &refusal) && refusal.Said:
		s.notSaid(w, r, b, a, form, refusal, http.StatusConflict)
	case errors.As(err, &refusal):
		s.notSaid(w, r, b, a, form, refusal, http.StatusUnprocessableEntity)
	case errors.Is(err, ErrBusy):
		s.taps.Back(a.Token)
		w.Header().Set("Retry-After", "2")
		s.notSaid(w, r, b, a, form, &Refusal{Lines: []string{"Somebody else is saying something just now. Say it once more."}}, http.StatusServiceUnavailable)
	case err != nil:
		s.opt.Say("what was said may not have been written: " + detailsOf(err))
		s.notSaid(w, r, b, a, form, &Refusal{Lines: []string{"It may not have been written, and the terminal where ripeby serves tells why. See on the page whether it is there before you say it again."}},
			http.StatusInternalServerError)
	case heard.Other != "":
		s.notSaid(w, r, b, a, form, &Refusal{Said: true, Lines: []string{
			"With this form something else was said already: " + heard.Other + ". To say it otherwise, take that back first."}}, http.StatusConflict)
	default:
		if !heard.Before {
			s.meant.Store(a.Token, heard)
		}
		s.backTo(w, r, a)
	}
}

// backTo leads to the page.
func (s *Server) backTo(w http.ResponseWriter, r *http.Request, a address.Address) {
	w.Header().Set("Cache-Control", "no-store")
	w.Header().Set("Location", a.Path())
	w.WriteHeader(http.StatusSeeOther)
}

// notSaid answers with why nothing was written, and how to go on.
func (s *Server) notSaid(w http.ResponseWriter, r *http.Request, b *board, a address.Address, form *sayForm, why *Refusal, status int) {
	v := s.viewOf(b, a)
	v.Title = "Not written down"
	v.NotSaid = &NotSaidView{Refusal: why}
	if !why.Said && !why.Stale {
		v.NotSaid.Form = form.fields()
	}
	answer := s.draw("notsaid.html", v)
	w.Header().Set("Cache-Control", "no-store")
	answer.policy = writingPolicy
	answer.sendAs(w, r, status)
}

// sayForm is a form as it was sent.
type sayForm struct{ values url.Values }

// formOf reads a form, no more of it than there may be.
func formOf(w http.ResponseWriter, r *http.Request) (*sayForm, error) {
	kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type"))
	if err != nil || kind != "application/x-www-form-urlencoded" {
		return nil, errors.New("this is no form of the page")
	}
	r.Body = http.MaxBytesReader(w, r.Body, mostForm)
	if err := r.ParseForm(); err != nil {
		return nil, errors.New("the form cannot be read, or is too large")
	}
	n := 0
	for name, values := range r.PostForm {
		if n += len(values); n > mostFields || len(values) > 1 {
			return nil, fmt.Errorf("the form gives %q more than once, or too much", name)
		}
	}
	return &sayForm{r.PostForm}, nil
}

// get is a field without the space around it.
func (f *sayForm) get(name string) string { return strings.TrimSpace(f.values.Get(name)) }

// field is one value of a form, to be sent again; Label is what it is where it may be put right.
type field struct{ Name, Value, Label string }

// typed are the fields that somebody fills in.
var typed = map[string]string{"at": "At", "pieces": "Pieces there are", "measured": "Measured", "note": "Note", "litres": "How much", "why": "The batch is lost, since"}

// fields are all values of a form, those that were filled in to be put right.
func (f *sayForm) fields() (all []field) {
	for name := range f.values {
		value := f.values.Get(name)
		if name == "again" || typed[name] != "" && value == "" && name != f.wanted() {
			continue
		}
		if name == "at" {
			if _, err := time.Parse(localForm, value); err != nil { // it is sealed beside the form, and not typed
				all = append(all, field{Name: name, Value: value})
				continue
			}
		}
		all = append(all, field{name, value, typed[name]})
	}
	slices.SortFunc(all, func(a, b field) int { return cmp.Compare(a.Name, b.Name) })
	return all
}

// wanted is the field that what is said cannot do without; "" for none.
func (f *sayForm) wanted() string {
	switch say := f.get("say"); say {
	case "pieces", "measured", "note":
		return say
	case "ordered", "came":
		return "litres"
	}
	return ""
}

// toFillIn asks for what was not filled in.
var toFillIn = map[string]string{"pieces": "How many pieces there are now is to be filled in.", "measured": `What was measured is to be filled in, such as "pH 4.5".`,
	"note": "The note is to be filled in.", "litres": `How much milk it is is to be filled in, such as "24 L".`}

// unsaid is why a form says nothing.
func unsaid(text string) (Saying, *Refusal) {
	return Saying{}, &Refusal{Lines: []string{text}, Stale: text == stale}
}

// stale is for forms that this server has not drawn for this address.
const stale = "This form is not one of this page any more. Go back to the page, and say it from there."

// saying is what a form says. What was chosen when it was drawn is sealed by its key; what is typed
// is not.
func (f *sayForm) saying(a address.Address) (Saying, *Refusal) {
	about := f.about()
	key := about.Key(a)
	if subtle.ConstantTimeCompare([]byte(f.get("key")), []byte(key)) != 1 {
		return unsaid(stale)
	}
	verb, at, wanted := f.get("say"), f.get("at"), f.wanted()
	if wanted != "" && f.get(wanted) == "" {
		return unsaid(toFillIn[wanted])
	}
	if at == f.get("planned") && verb != "did" && verb != "began" {
		at = "" // it was filled in for what is done
	}
	if _, err := time.Parse(localForm, at); err == nil {
		at = strings.Replace(at, "T", " ", 1)
	}
	out := Saying{Verb: verb, Who: a.Person, Note: f.get("note"), At: at, Again: f.get("again") != "", Options: map[string]string{}, Once: key + "-" + verb}
	option := func(names ...string) {
		for _, name := range names {
			if v := f.get(name); v != "" {
				out.Options[name] = v
			}
		}
	}
	batch, stage := about.Batch, about.Stage
	switch {
	case verb == "strike" && about.Nr > 0:
		out.Words = []string{strconv.Itoa(about.Nr)}
	case about.Nr > 0:
		return unsaid(stale)
	case batch != "" && stage != "" && (verb == "did" || verb == "began" || verb == "not_yet"):
		out.Words = []string{batch, stage}
		option("pieces", "measured")
	case batch != "" && (verb == "pieces" || verb == "measured"):
		out.Words = []string{batch, f.get(verb)}
	case batch != "" && verb == "lost":
		if !out.Again {
			return Saying{}, &Refusal{Asked: true, Lines: []string{"Then all of " + batch + " counts as lost: no more is planned of it, and nothing of it for anybody. Is it so?"}}
		}
		out.Words = []string{batch}
		option("why")
	case batch != "" && about.Place != "" && verb == "stands":
		out.Words = []string{batch, about.Place}
	case verb == "note":
		out.Words, out.Note = []string{out.Note}, ""
		if batch != "" {
			out.Options["batch"] = batch
		}
	case about.Round != "" && verb == "round":
		out.Words = []string{about.Round}
	case about.Round != "" && verb == "skipped":
		out.Verb, out.Words = "round", []string{about.Round}
		out.Options["skipped"] = "true"
	case about.Milk != "" && (verb == "ordered" || verb == "came"):
		out.Words = []string{about.Milk, about.Day, inLitres(f.get("litres"))}
	default:
		return unsaid(stale)
	}
	if wanted == verb {
		// Another number or text is another word, though the form is the same.
		sum := sha256.Sum256([]byte(f.get(wanted)))
		out.Once += "-" + hex.EncodeToString(sum[:4])
	}
	return out, nil
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
	Batch, Stage, Place string
	Round               string // a date
	Milk, Day           string // the supply, and the date of the collection
	Nr                  int    // the number that is taken back
	After               int    // the highest number when it was drawn
}

// about reads back what a form was drawn for.
func (f *sayForm) about() About {
	number := func(name string) int {
		n, _ := strconv.Atoi(f.get(name)) // what is no number has another key
		return n
	}
	return About{Batch: f.get("batch"), Stage: f.get("stage"), Place: f.get("place"), Round: f.get("round"), Milk: f.get("milk"), Day: f.get("day"),
		Nr: number("nr"), After: number("after")}
}

// Key seals what a form is about.
func (a About) Key(of address.Address) string {
	return of.Seal(fmt.Sprintf("%q %q %q %q %q %q %d %d", a.Batch, a.Stage, a.Place, a.Round, a.Milk, a.Day, a.Nr, a.After))
}
