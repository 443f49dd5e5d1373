package main

import (
	"context"
	"errors"
	"strings"
	"sync"

	"ripeby/calendar/ask"
	"ripeby/calendar/words"
	"ripeby/config"
)

// asked is the kitchen of which something is asked on the page. It answers with what ripeby fits, why, cold
// and plan do, in their words.
type asked struct {
	*watched // its own: what is served is looked at by another

	marking sync.Mutex
	writing sync.Mutex
	before  []byte // targets.yaml before the last that was written, and after; nil for nothing
	after   []byte
}

// asksOf is who answers what is asked of a kitchen; nil of the demo, which has no writing address.
func asksOf(p *program, s *settings, k kitchen) ask.Kitchen {
	if k.demo {
		return nil
	}
	return &asked{watched: newWatched(p, s, k)}
}

// Mark tells one state of the folder, and of the plan that is kept, from another.
func (a *asked) Mark() string {
	a.marking.Lock()
	defer a.marking.Unlock()
	return a.Print() + " " + a.out.planPrint()
}

// Answer answers a question about the plan in force.
func (a *asked) Answer(ctx context.Context, q ask.Question, say func(string)) (*ask.Answer, error) {
	switch q.Kind {
	case ask.Room:
		return a.room(q)
	case ask.Take:
		return a.take(ctx, say)
	}
	problem, err := a.p.inForce(&settings{folder: a.from.folder, out: a.out.dir}, false, "")
	if err != nil {
		return nil, a.unread(err)
	}
	switch q.Kind {
	case ask.Fits:
		return a.fits(ctx, problem, q, say)
	case ask.Why:
		return a.why(ctx, problem, q, say)
	}
	return a.freer(ctx, problem, say)
}

// What is told where nothing can be asked.
const (
	unreadable = "The kitchen folder cannot be read just now. How the plan stands, under More, tells what is wrong; ask again when that is put right."
	notAsItIs  = "The plan is not what the kitchen folder gives any more. Ask again when it is made anew."
)

// unread is why the kitchen cannot be asked, in the words of a page: it names no folder.
func (a *asked) unread(err error) error {
	a.p.say("what was asked on the page cannot be answered: " + err.Error())
	return ask.Refused(unreadable)
}

// refusedOnPage is why something cannot be asked or written, in the words of a page.
func refusedOnPage(err error) error {
	lines := []string{err.Error()}
	var faults config.Faults
	if errors.As(err, &faults) && len(faults) > 0 {
		lines = nil
		for _, f := range faults {
			f.File = "" // nobody has written it there
			lines = append(lines, strings.TrimPrefix(f.Error(), ": "))
		}
	}
	for i, text := range lines {
		lines[i] = words.Capital(inTheForm.Replace(text))
	}
	return &ask.Refusal{Lines: lines}
}

// inTheForm has what is told of options as a form has it.
var inTheForm = strings.NewReplacer("--by is ", "the moment is ", "--by: ", "", "--price: ", "the price: ", "another --name", "another name",
	"--at is ", "the day is ", "--at: ", "", "--until is ", "the end is ", "--until: ", "", "--box: ", "", "--count is ", "the number of boxes is ", "--shelf is ", "the place is ",
	"targets.yaml: ", "")
