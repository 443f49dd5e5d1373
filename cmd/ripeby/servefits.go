package main

import (
	"context"
	"fmt"

	"ripeby/calendar/ask"
	"ripeby/config"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/planner/whatif"
)

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
