package main

import (
	"bytes"
	"errors"
	"path/filepath"
	"strconv"

	"ripeby/calendar/ask"
	"ripeby/config"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/planner/whatif"
)

// Promise writes down the order that a question asked about.
func (a *asked) Promise(q ask.Question) error {
	problem, err := a.kitchenNow()
	if err != nil {
		return err
	}
	order, err := orderOf(problem, fitsOptions{cheese: q.Cheese, pieces: q.Pieces, by: q.By, price: q.Price, name: q.Name})
	if err != nil {
		return refusedOnPage(err)
	}
	return a.write(problem, promised(order, writtenBy(q.By, order.By, problem.Kitchen.Zone)))
}

// Add writes down a target.
func (a *asked) Add(t ask.Target) error {
	problem, err := a.kitchenNow()
	if err != nil {
		return err
	}
	target := config.NewTarget{Name: t.Name, By: t.By}
	for _, w := range t.Wants {
		want := schedule.Want{Cheese: w.Cheese, Price: 100, Promised: t.Promised}
		want.Pieces, _ = strconv.Atoi(w.Pieces) // what is no number is refused with the rest
		if w.Price != "" {
			if want.Price, err = resources.ParseMoney(w.Price); err != nil {
				return refusedOnPage(err)
			}
		}
		target.Wants = append(target.Wants, want)
	}
	return a.write(problem, target)
}

// kitchenNow reads the kitchen as of now, or of the plan's start where that lies ahead.
func (a *asked) kitchenNow() (*schedule.Problem, error) {
	plan, err := a.out.earlier()
	if err != nil {
		return nil, a.unread(err)
	}
	problem, err := a.from.load(a.start(plan), a.p.now())
	if err != nil {
		return nil, a.unread(err)
	}
	return problem, nil
}

// targetsText is the text of targets.yaml.
func (a *asked) targetsText() ([]byte, error) {
	text, err := config.ReadRegular(filepath.Join(a.from.folder, "targets.yaml"), config.MaxFileBytes)
	if err != nil {
		return nil, a.unread(err)
	}
	return text, nil
}

// write adds a target to targets.yaml, by one insertion.
func (a *asked) write(problem *schedule.Problem, t config.NewTarget) error {
	a.writing.Lock()
	defer a.writing.Unlock()
	text, err := a.targetsText()
	if err != nil {
		return err
	}
	added, err := config.AddTarget(text, problem, t)
	if err != nil {
		return refusedOnPage(err)
	}
	if err := a.put(text, added); err != nil {
		return err
	}
	a.before, a.after = text, added
	return nil
}

// TakeBack puts targets.yaml back as it was before the last that was written, where it is still as it was
// then.
func (a *asked) TakeBack() error {
	a.writing.Lock()
	defer a.writing.Unlock()
	if a.after == nil {
		return ask.Refused("Nothing was written from here since the server began.")
	}
	text, err := a.targetsText()
	if err != nil {
		return err
	}
	if !bytes.Equal(text, a.after) {
		return ask.Refused("Targets.yaml was changed since. Take it out there.")
	}
	if err := a.put(a.after, a.before); err != nil {
		return err
	}
	a.before, a.after = nil, nil
	return nil
}

// put puts a text of targets.yaml in place of another.
func (a *asked) put(old, now []byte) error {
	err := config.WriteTargets(a.from.folder, old, now)
	if errors.Is(err, config.ErrChanged) {
		return ask.Refused("Somebody changed targets.yaml just now, so nothing was written. Say it once more.")
	}
	return err
}

// promised is an order as it stands among the targets.
func promised(o *whatif.Order, by string) config.NewTarget {
	return config.NewTarget{Name: o.Target, By: by, Packed: o.Packed,
		Wants: []schedule.Want{{Cheese: o.Cheese, Pieces: o.Pieces, Price: o.Price, Promised: true}}}
}
