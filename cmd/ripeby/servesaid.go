package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/spf13/pflag"

	"ripeby/calendar/said"
	"ripeby/config"
	"ripeby/config/recordfile"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
	"ripeby/schedule/record/follows"
)

// lately is how far back the page knows what was said.
const lately = 14 * resources.Day

// Told is what the kitchen has said; nil of the demo, of which nothing can be said.
func (w *watched) Told() (*said.Told, error) {
	if w.from.demo {
		return nil, nil
	}
	r, err := config.LoadRecord(w.from.folder)
	if r == nil {
		return nil, w.told(err)
	}
	plan, err := w.out.earlier()
	if err != nil {
		return nil, w.told(err)
	}
	now := resources.MomentOf(w.p.now())
	out := &said.Told{Last: r.Book.LastNr(), Lately: wordsOf(r, plan, now), Measured: measuredOf(r.Book, plan)}
	if plan == nil {
		return out, nil
	}
	problem, err := w.from.load(w.start(plan), w.p.now())
	if err != nil {
		return out, nil // what is wrong with the folder the page tells by itself
	}
	for _, x := range follows.Stretches(&problem.Kitchen, r.Book, now) {
		o := said.Out{Person: x.Person, Place: x.Place, Shelf: x.Shelf, Span: x.Span}
		if o.Until == follows.Forever {
			o.Until = said.Open
		}
		out.Out = append(out.Out, o)
	}
	problem.Earlier = plan
	for _, u := range follows.Of(problem, r.Book).Unanswered {
		out.Answer = append(out.Answer, said.Question{Batch: u.Batch, Cheese: u.Cheese, Stage: u.Stage, Start: u.Start, Ends: u.Start.Add(u.Work), Who: u.Who, Waits: u.Waits, Carried: u.Carried})
	}
	return out, nil
}

// wordsOf are the entries of late that stand, with the batches as the plan names them.
func wordsOf(r *config.Record, plan *schedule.Plan, now resources.Moment) (all []said.Word) {
	standing := r.Book.Standing().With(func(e *record.Entry) bool { return e.At >= now.Add(-lately) && len(e.Strikes) == 0 })
	later := map[record.Subject]bool{} // what something was said of since
	for _, e := range slices.Backward(standing) {
		of := subjectBy(plan, e)
		w := said.Word{Nr: e.Nr, At: e.At, Who: e.Who, Text: recordfile.Said(*e, r.Zone), Day: of.Day, Last: !later[of]}
		later[of] = of.Kind != record.Nothing // notes alone are about nothing
		switch of.Kind {
		case record.OfBatch:
			w.Batch, w.Did, w.Began, w.NotYet = of.Name, e.Batch.Did, e.Batch.Began, e.Batch.NotYet
			w.Stands, w.Lost = e.Batch.Stands.Value.Place, e.Batch.Lost
		case record.OfRound:
			w.Round = of.Day
		case record.OfTarget:
			w.Target, w.Cheese = of.Full(), of.Cheese
		case record.OfMilk:
			w.Milk, w.Ordered, w.Came = of.Name, e.Milk.Ordered.Given, e.Milk.Came.Given
		}
		all = append(all, w)
	}
	slices.Reverse(all)
	return all
}

// measuredOf is what was measured of the batches of a plan, and in places.
func measuredOf(book *record.Book, plan *schedule.Plan) (all []said.Reading) {
	for _, e := range book.Standing().ByTime() {
		of := subjectBy(plan, e)
		at := said.Reading{Batch: of.Name}
		switch {
		case of.Kind == record.OfPlace:
			at = said.Reading{Place: of.Name}
		case of.Kind != record.OfBatch || plan.Batch(of.Name) == nil:
			continue
		}
		for _, m := range (record.Entries{e}).Measured() {
			at.Stage, at.What, at.Is, at.At, at.Who, at.Nr = m.Stage, m.What, m.Is, m.At, m.Who, m.Nr
			all = append(all, at)
		}
	}
	return all
}

// subjectBy is what an entry is about, a batch by its id, whatever name it was spoken of by.
func subjectBy(plan *schedule.Plan, e *record.Entry) record.Subject {
	of := e.Subject
	if of.Kind == record.OfBatch {
		if b := plan.Named(of.Name); b != nil {
			of.Name = b.ID
		}
	}
	return of
}

// Say puts down what somebody says on the page, as ripeby record does.
func (w *watched) Say(x said.Saying) (said.Heard, error) {
	if w.from.demo {
		return said.Heard{}, &said.Refusal{Lines: []string{"Of the demo kitchen nothing is written down."}}
	}
	at := slices.IndexFunc(recordVerbs, func(v recordVerb) bool { return v.name == x.Verb })
	if at < 0 {
		return said.Heard{}, &said.Refusal{Lines: []string{fmt.Sprintf("%q is nothing that can be said.", x.Verb)}}
	}
	v := recordVerbs[at]
	flags := pflag.NewFlagSet(v.name, pflag.ContinueOnError)
	v.addFlags(flags)
	for key, value := range x.Options {
		values := []string{value}
		if repeatable(key) {
			values = said.Readings(value)
		}
		for _, one := range values {
			if err := flags.Set(key, one); err != nil {
				return said.Heard{}, &said.Refusal{Lines: []string{fmt.Sprintf("%s: %v", key, err)}}
			}
		}
	}
	for _, one := range x.Measured {
		if err := flags.Set("measured", one); err != nil {
			return said.Heard{}, &said.Refusal{Lines: []string{fmt.Sprintf("measured: %v", err)}}
		}
	}
	k, err := w.p.recordKitchen(&settings{folder: w.from.folder, out: w.out.dir})
	if err != nil { // the folder is wrong, and not what was said
		return said.Heard{}, &said.Refusal{Later: true, Lines: []string{"The kitchen folder cannot be read just now, so nothing can be written down. How the plan stands, under More, tells what is wrong; say it once more when that is put right."}}
	}
	now := resources.MomentOf(w.p.now())
	opt := sayOptions{at: x.At, who: x.Who, note: x.Note, once: x.Once}
	if x.Ago > 0 {
		opt.at = now.Add(-x.Ago).In(k.zone).Format(time.RFC3339)
	}
	e, faults := k.entry(v, x.Words, flags, opt, now)
	if len(faults) > 0 {
		return said.Heard{}, refusedFor(faults)
	}
	return k.putDownOnce(e, now, x)
}

// putDownOnce writes an entry, unless its word was taken or somebody else has said so.
func (k *recordKitchen) putDownOnce(e record.Entry, now resources.Moment, x said.Saying) (said.Heard, error) {
	turn, err := recordfile.Begin(recordfile.OnDisk(k.folder), k.zone)
	if errors.Is(err, recordfile.ErrBusy) {
		return said.Heard{}, said.ErrBusy
	}
	if err != nil {
		return said.Heard{}, err
	}
	defer turn.End()
	if was := turn.Taken(e.Once); was != nil {
		heard := said.Heard{Nr: was.Nr, Before: true}
		if otherwise(e, *was, x.At != "") {
			heard.Other = k.saidBy(was)
		}
		return heard, nil
	}
	book := turn.Book()
	if twice := k.saidBefore(e, book); twice != nil {
		return said.Heard{}, &said.Refusal{Said: true, Lines: []string{"It was said already: " + k.saidBy(twice) + "."}}
	}
	if why := k.notTheirs(e, book); why != "" {
		return said.Heard{}, &said.Refusal{Said: true, Lines: []string{why}}
	}
	added, err := turn.Say(e, &k.known, now, x.Again)
	var faults config.Faults
	var perhaps *recordfile.NotKept
	switch {
	case errors.As(err, &faults):
		return said.Heard{}, refusedFor(faults)
	case err != nil && !errors.As(err, &perhaps):
		return said.Heard{}, &said.Refusal{Later: true, Lines: []string{"Nothing was written: " + err.Error() + "."}}
	case err != nil:
		return said.Heard{}, err
	}
	return said.Heard{Nr: added.Nr, Means: k.measuredOnThePage(&added, meansOnThePage(k.means(&added)))}, nil
}

// meansOnThePage is what an entry means without the command that a terminal would be told: what follows
// is worked out by itself here.
func meansOnThePage(text string) string {
	text, _, command := strings.Cut(text, "ripeby plan")
	if !command {
		return text
	}
	text = strings.TrimRight(text, ": ")
	if at := strings.LastIndex(text, ". "); at >= 0 {
		return text[:at+1]
	}
	return text + "."
}

// saidBefore is an entry that says what another would say again, or otherwise: that a stage is done, that a
// batch is lost, how a round went, what milk was ordered or came. Who was first is to be heard first.
func (k *recordKitchen) saidBefore(e record.Entry, book *record.Book) *record.Entry {
	if twice := record.Twice(e, book, &k.known); twice != nil {
		return twice
	}
	of := subjectBy(k.plan, &e)
	return book.Standing().With(func(o *record.Entry) bool {
		return subjectBy(k.plan, o) == of && (of.Kind == record.OfRound || e.Batch.Lost && o.Batch.Lost ||
			e.Milk.Ordered.Given && o.Milk.Ordered.Given || e.Milk.Came.Given && o.Milk.Came.Given)
	}).Latest()
}

// notTheirs is why what an entry strikes is not to be taken back on the page: another said it, or something
// was said of the same since. "" where it may be.
func (k *recordKitchen) notTheirs(e record.Entry, book *record.Book) string {
	standing := book.Standing()
	for _, nr := range e.Strikes {
		at := slices.IndexFunc(standing, func(o *record.Entry) bool { return o.Nr == nr })
		if at < 0 {
			continue // as it is refused
		}
		if standing[at].Who != e.Who {
			return "Only who said it takes it back here: " + k.saidBy(standing[at]) + "."
		}
		of := subjectBy(k.plan, standing[at])
		later := standing[at+1:].With(func(o *record.Entry) bool { return of.Kind != record.Nothing && subjectBy(k.plan, o) == of })
		if n := len(later); n > 0 {
			return "Since then something else was said of it: " + k.saidBy(later[n-1]) + ". Take that back first."
		}
	}
	return ""
}

// otherwise reports whether two entries with one word do not say the same: of when it was only
// where that was chosen.
func otherwise(e, was record.Entry, at bool) bool {
	e.Nr, e.Written = was.Nr, was.Written
	if !at {
		e.At = was.At
	}
	return !record.Same(e, was)
}

// saidBy is what an entry says, who said so and when.
func (k *recordKitchen) saidBy(e *record.Entry) string {
	text := recordfile.Said(*e, k.zone) + ", " + moment(e.At, k.zone)
	if e.Who != "" {
		text = e.Who + " at " + moment(e.At, k.zone) + ": " + recordfile.Said(*e, k.zone)
	}
	return text
}

// onThePage has what is told of options as a page has it.
var onThePage = strings.NewReplacer(", or say it again (--again) if it is so", ", or that it is so", "its moment with --at", "its time",
	" Allow more work with --work.", "", "planning again with more --work, which may move other batches", "planning again for longer, which may move other batches")

// refusedFor is why nothing was written, in the words of a page: it names no file that nobody sees.
func refusedFor(faults config.Faults) error {
	out := &said.Refusal{Asked: len(faults) > 0}
	for _, f := range faults {
		f.File, f.Line, f.Column = "", 0, 0
		text := strings.TrimPrefix(onThePage.Replace(f.Error()), ": ")
		out.Lines = append(out.Lines, text)
		out.Asked = out.Asked && f.Asked
	}
	return out
}
