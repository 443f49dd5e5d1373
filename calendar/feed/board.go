package feed

import (
	"errors"
	"fmt"
	"slices"
	"time"

	"ripeby/calendar/address"
	"ripeby/calendar/edition"
	"ripeby/calendar/ical"
	"ripeby/calendar/said"
	"ripeby/calendar/seen"
	"ripeby/resources"
	"ripeby/schedule"
)

// board is all that handlers read. It is never changed: a new one takes its place.
type board struct {
	book     *address.Book
	editions map[address.Digest]*edition.Edition
	made     *Made      // nil before the first plan
	told     *said.Told // nil where nothing can be said
	seen     seen.Book  // who has answered which warning
	status   Status
}

// Status says how the plan stands to the folder.
type Status struct {
	Planning bool      // the plan is being made anew just now
	Since    time.Time // when Planning began
	PlanSeen time.Time // when the plan that is shown came to be shown
	// Faults are what is wrong with the folder, or kept the plan from being made
	// again, a line each; what is shown is then the last good plan.
	Faults      []string
	FaultsSince time.Time
}

// draw makes the calendars of a plan. One that cannot be made stays as it was before, and its error is
// told; a panic is a fault of ripeby and must not end the server, for phones would then lose all of them.
func draw(before *board, book *address.Book, made *Made, m edition.Memory, site string, now time.Time) (map[address.Digest]*edition.Edition, error) {
	editions := map[address.Digest]*edition.Edition{}
	var failed error
	for i, a := range book.Addresses {
		if !a.Kind.IsCalendar() {
			continue
		}
		d := book.Digest(i)
		text, err := safely(func() ([]byte, error) { return calendarOf(made, a, site) })
		if err != nil {
			failed = errors.Join(failed, fmt.Errorf("the calendar for %s cannot be made and stays as it was: %w", a.Label(), err))
			if old := before.editions[d]; old != nil {
				editions[d] = old
			}
			continue
		}
		editions[d] = m.Edit(d, text, now)
	}
	return editions, failed
}

// calendarOf makes one calendar.
func calendarOf(made *Made, a address.Address, site string) ([]byte, error) {
	opt := ical.Options{Sheets: site + a.SheetsPath()}
	problem := made.Problem
	switch a.Kind {
	case address.ColdPlaces:
		opt.Cold = true
	case address.OnePerson:
		opt.Person = a.Person
		if !inKitchen(problem, a.Person) {
			problem, opt.Own = leaver(problem, a.Person), true
		}
	}
	return ical.Encode(problem, made.Plan, opt)
}

func inKitchen(p *schedule.Problem, person string) bool {
	return slices.Contains(peopleOf(p), person)
}

func peopleOf(p *schedule.Problem) []string {
	var names []string
	for _, person := range p.Kitchen.People {
		names = append(names, person.Name)
	}
	return names
}

// leaver gives the kitchen with somebody who is not in it any more and may see only what
// work is still theirs. Their address goes on working, since a name may be misspelt for
// an hour, and an address that fails switches the calendar off on their phone.
func leaver(p *schedule.Problem, name string) *schedule.Problem {
	problem := *p
	problem.Kitchen.People = append(slices.Clone(p.Kitchen.People), resources.Person{Name: name})
	return &problem
}

// remember is the memory of what a board serves.
func (b *board) remember(folder, plan, site string) edition.Memory {
	m := edition.New(folder, plan, site)
	for i, a := range b.book.Addresses {
		d := b.book.Digest(i)
		if e := b.editions[d]; e != nil && a.Kind.IsCalendar() {
			m.Add(d, e)
		}
	}
	return m
}
