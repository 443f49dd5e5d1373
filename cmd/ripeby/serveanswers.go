package main

import (
	"context"
	"errors"
	"fmt"

	"ripeby/calendar/ask"
	"ripeby/calendar/cold"
	"ripeby/calendar/feed"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/coldroom"
	"ripeby/schedule/planner"
	"ripeby/schedule/planner/whatif"
)

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
