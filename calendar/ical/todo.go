package ical

import (
	"cmp"
	"fmt"
	"strconv"
	"time"

	"ripeby/calendar/note"
	"ripeby/resources"
	"ripeby/schedule"
)

// Todo is a piece of hands-on work as a task to be ticked, in a calendar of its own (RFC 4791, 4.1): the
// texts are those of its event, and its UID is another, for one program may show both.
type Todo struct {
	UID          string
	Batch, Stage string
	Start, Due   resources.Moment
	Revised      resources.Moment // when it last changed
	Text         []byte           // the whole calendar
}

// TodoState is how a piece of work stands.
type TodoState struct {
	Shown bool
	Done  bool
	At    resources.Moment // when it was done
}

// TodoOptions says whose tasks [Todos] makes, and how each stands.
type TodoOptions struct {
	Person string
	Sheets string // as in Options
	State  func(b *schedule.Batch, stage int) TodoState
}

// Todos gives the hands-on work of one person as tasks, by batch and stage as the plan has them; what was said to be done of
// batches that are over too, as far as State shows it. The same plan and states give the same bytes. The
// errors are those of [Encode].
func Todos(p *schedule.Problem, plan *schedule.Plan, opt TodoOptions) ([]Todo, error) {
	if p.Kitchen.Zone == nil {
		return nil, fmt.Errorf("calendar: the kitchen's time zone %q is not loaded", p.Kitchen.TimeZone)
	}
	w, cautions := wording{p.Kitchen.Zone}, note.CautionsOf(plan, p.Kitchen.Zone)
	var all []Todo
	var events []event
	var states []TodoState
	for _, batches := range [][]schedule.Batch{plan.Batches, plan.Past} {
		for k := range batches {
			b := &batches[k]
			for i := range b.Stages {
				t := &b.Stages[i]
				if t.Work <= 0 || t.Who != opt.Person {
					continue
				}
				state := opt.State(b, i)
				if !state.Shown {
					continue
				}
				e := workEvent(plan, b, i, w, Options{Person: opt.Person, Sheets: opt.Sheets}, &cautions)
				e.uid = uidOf("task", b.ID, t.Stage)
				if state.Done {
					e.sequence, e.revised, e.alarm = e.sequence+1, max(e.revised, state.At), false
				}
				events, states = append(events, e), append(states, state)
				all = append(all, Todo{UID: e.uid, Batch: b.ID, Stage: t.Stage, Start: e.start, Due: e.end, Revised: e.revised})
			}
		}
	}
	if err := fit(plan, events); err != nil {
		return nil, err
	}
	for i, e := range events {
		var err error
		if all[i].Text, err = write(todoFile(p, e, states[i])); err != nil {
			return nil, err
		}
	}
	return all, nil
}

// todoFile is the calendar of one task.
func todoFile(p *schedule.Problem, e event, state TodoState) block {
	zone, tzid := p.Kitchen.Zone, p.Kitchen.TimeZone
	if tzid == "" {
		tzid = zone.String()
	}
	b := block{name: "VCALENDAR"}
	b.put("VERSION", "2.0")
	b.put("PRODID", product)
	b.put("CALSCALE", "GREGORIAN")
	b.blocks = []block{zoneOf(tzid, zone, e.start, e.end), e.todo(zone, tzid, cmp.Or(p.Kitchen.Alarm, DefaultLead), state)}
	return b
}

// todo builds the VTODO (RFC 5545, 3.6.2). One that is done says so in each of the three ways that programs
// look at.
func (e event) todo(zone *time.Location, tzid string, lead resources.Minutes, state TodoState) block {
	b := e.block(zone, tzid, lead)
	b.name = "VTODO"
	var lines []line
	for _, l := range b.lines {
		switch l.name {
		case "TRANSP": // of events alone
			continue
		case "DTEND":
			l.name = "DUE"
		}
		lines = append(lines, l)
	}
	b.lines = lines
	if !state.Done {
		b.put("STATUS", "NEEDS-ACTION")
		b.put("PERCENT-COMPLETE", strconv.Itoa(0))
		return b
	}
	b.put("STATUS", "COMPLETED")
	b.put("PERCENT-COMPLETE", strconv.Itoa(100))
	b.put("COMPLETED", state.At.In(time.UTC).Format(utcTime))
	return b
}
