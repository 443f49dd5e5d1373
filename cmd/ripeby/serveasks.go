package main

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"sync"

	"ripeby/calendar/ask"
	"ripeby/calendar/cold"
	"ripeby/calendar/feed"
	"ripeby/calendar/words"
	"ripeby/config"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/coldroom"
	"ripeby/schedule/planner"
	"ripeby/schedule/planner/whatif"
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
	unreadable = "The kitchen folder cannot be read just now. The page's Status tells what is wrong; ask again when that is put right."
	notAsItIs  = "The plan is not what the kitchen folder gives any more. Ask again when it is made anew."
)

// unread is why the kitchen cannot be asked, in the words of a page: it names no folder.
func (a *asked) unread(err error) error {
	a.p.say("what was asked on the page cannot be answered: " + err.Error())
	return ask.Refused(unreadable)
}

// fits is ripeby fits.
func (a *asked) fits(ctx context.Context, problem *schedule.Problem, q ask.Question, say func(string)) (*ask.Answer, error) {
	order, err := orderOf(problem, fitsOptions{cheese: q.Cheese, pieces: q.Pieces, by: q.By, price: q.Price, name: q.Name})
	if err != nil {
		return nil, refusedOnPage(err)
	}
	if q.Pieces > mostPieces {
		return nil, ask.Refused(fmt.Sprintf("%d is more than %d pieces.", q.Pieces, mostPieces))
	}
	text, err := a.targetsText()
	if err != nil {
		return nil, err
	}
	if _, err := config.AddTarget(text, problem, promised(order, writtenBy(q.By, order.By, problem.Kitchen.Zone))); err != nil {
		return nil, refusedOnPage(err) // what could not be written down is not worked out
	}
	work := whatif.FitWorkFor(problem)
	for range q.Longer {
		work *= ask.LongerWork
	}
	f := fitAnswer{problem: problem, order: order, work: work}
	fit := whatif.Fits(ctx, problem, *order, whatif.FitOptions{Work: work, Soon: func(soon *whatif.Fit) { say(f.soonText(soon)) }})
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	if fit.Plan != nil {
		if err := a.p.vouch(order.With(problem), fit.Plan); err != nil {
			return nil, err
		}
	}
	if fit.Outcome == whatif.FitsNoPlan {
		return nil, ask.Refused(notAsItIs)
	}
	f.fit, f.moves = fit, movesOf(problem, fit)
	out := &ask.Answer{Lines: []string{onThePage.Replace(f.first())}, Promises: fit.Plan != nil}
	if fit.Plan != nil {
		if text := settledText(problem, fit.Plan); text != "" {
			out.Lines = append(out.Lines, text)
		}
	} else {
		out.Others = instead(q, fit, problem)
	}
	for _, l := range f.lists() {
		out.Sections = append(out.Sections, ask.Section{Heading: l.heading, Lines: l.lines})
	}
	return out, nil
}

// instead are the questions that an order leads to that does not fit: fewer, later, or the same for longer.
func instead(q ask.Question, fit *whatif.Fit, problem *schedule.Problem) (all []ask.Other) {
	if fit.Most > 0 {
		fewer := q
		fewer.Pieces, fewer.Longer = fit.Most, 0
		all = append(all, ask.Other{Question: fewer, Text: fmt.Sprintf("Ask for %d", fit.Most)})
	}
	if fit.Ready != 0 {
		later := q
		later.By, later.Longer = resources.FormatMoment(fit.Leaves, problem.Kitchen.Zone), 0
		all = append(all, ask.Other{Question: later, Text: "Ask for " + resources.ShowMoment(fit.Leaves, problem.Kitchen.Zone)})
	}
	if fit.Outcome == whatif.FitsUnknown && q.Longer < ask.MostLonger {
		longer := q
		longer.Longer++
		all = append(all, ask.Other{Question: longer, Text: "Look for longer"})
	}
	return all
}

// why is ripeby why.
func (a *asked) why(ctx context.Context, problem *schedule.Problem, q ask.Question, say func(string)) (*ask.Answer, error) {
	wants := wantsOf(problem)
	short, err := shortWants(problem, wants, q.Target)
	if err != nil {
		return nil, ask.Refused(fmt.Sprintf("There is no target %q any more.", q.Target))
	}
	y, out := whyAnswer{problem: problem}, &ask.Answer{}
	if len(short) == 0 {
		out.Lines = []string{"Nothing of it is short."}
	}
	trying := func(d, tried, of int) {
		say(fmt.Sprintf("%s, trying change %d of %d", wants[d].cheese, tried+1, of))
	}
	for d, answer := range whatif.WhyShort(ctx, problem, short, whatif.WhyOptions{Trying: trying}) {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if answer == nil {
			return nil, ask.Refused(notAsItIs)
		}
		for i := range answer.Fixes {
			if err := a.p.vouch(answer.Fixes[i].With, answer.Fixes[i].Plan); err != nil {
				return nil, err
			}
		}
		y.wants, y.whys = append(y.wants, wants[d]), append(y.whys, answer)
		last := len(y.whys) - 1
		lines, fixes := y.shortTexts(last), y.fixLines(last)
		if len(fixes) == 0 {
			lines = append(lines, noFix)
		}
		section := ask.Section{Heading: wants[d].cheese}
		for _, text := range lines {
			section.Lines = append(section.Lines, onThePage.Replace(text))
		}
		out.Sections = append(out.Sections, section)
		if len(fixes) > 0 {
			out.Sections = append(out.Sections, ask.Section{Heading: whatHelps, Lines: replaced(fixes)})
		}
	}
	out.Mind = y.caution()
	return out, nil
}

func replaced(lines []string) (all []string) {
	for _, text := range lines {
		all = append(all, onThePage.Replace(text))
	}
	return all
}

// room is ripeby fits --cold.
func (a *asked) room(q ask.Question) (*ask.Answer, error) {
	problem, plan, err := a.p.asPlanned(&settings{folder: a.from.folder, out: a.out.dir}, false)
	if err != nil {
		return nil, a.unread(err)
	}
	r, err := coldRequestOf(coldOptions{at: q.At, until: q.Until, box: q.Box, count: q.Count, shelf: q.In}, problem, plan, resources.MomentOf(a.p.now()))
	if err != nil {
		return nil, refusedOnPage(err)
	}
	text, stand, err := cold.Said(problem, plan, cold.Asked{Question: *r.ask, Kind: r.kind, Reply: coldroom.Of(problem, plan).Ask(*r.ask, coldroom.DefaultBudget)})
	if err != nil {
		return nil, err
	}
	out := &ask.Answer{Lines: []string{text}}
	if len(stand) > 0 {
		out.Sections = []ask.Section{{Heading: "Where", Lines: stand}}
	}
	return out, nil
}

// freer says what ripeby plan --settled "0 h" would save.
func (a *asked) freer(ctx context.Context, problem *schedule.Problem, say func(string)) (*ask.Answer, error) {
	work := a.work
	if work == 0 {
		work = planner.WorkFor(problem)
	}
	plan, err := planner.Plan(ctx, problem, planner.Options{Budget: work, Progress: sayProgress(say)})
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	if err != nil {
		return nil, err
	}
	saves := savesIfFree(ctx, problem, plan, work)
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	if saves == "" {
		return &ask.Answer{Lines: []string{"Moving more would save nothing that was found."}}, nil
	}
	return &ask.Answer{Lines: []string{saves + "."}, Takes: true}, nil
}

// take makes the plan that moves more, and puts it in force, as ripeby plan --settled "0 h" does. Who serves
// sees it as one that another run has made.
func (a *asked) take(ctx context.Context, say func(string)) (*ask.Answer, error) {
	made, err := a.remade(ctx, remaking{free: true, progress: sayProgress(say)})
	var folder *feed.FolderFault
	switch {
	case errors.Is(err, feed.ErrBusy):
		return nil, ask.Refused("The plan is being made anew just now. Take it when that is done.")
	case errors.As(err, &folder):
		return nil, ask.Refused(unreadable)
	case err != nil:
		return nil, a.told(err)
	}
	n := len(made.Plan.Changes)
	if n == 0 {
		return &ask.Answer{Lines: []string{"The plan is made anew, and nothing in it moved."}}, nil
	}
	return &ask.Answer{Lines: []string{fmt.Sprintf("The plan is made anew and in force: %s otherwise than before. What changed stands on the page.",
		schedule.Counted(n, "task")+" "+plural(n, "is", "are"))}}, nil
}

// sayProgress tells how far a plan is, without what a key on a terminal does.
func sayProgress(say func(string)) func(planner.Progress) {
	return func(at planner.Progress) {
		switch {
		case !at.Found:
			say("looking for a first plan")
		case at.Budget > 0:
			say(fmt.Sprintf("%d %% done", min(100, at.Spent*100/at.Budget)))
		}
	}
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
