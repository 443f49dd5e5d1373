package ical

import (
	"fmt"
	"net/url"
	"sort"
	"strings"

	"ripeby/resources"
	"ripeby/schedule"
)

// DefaultLead is how long before work, rounds and orders the alarm goes off when Options
// do not say.
const DefaultLead resources.Minutes = 15

// The colours of the kinds of event, by their CSS names (RFC 7986, 5.9),
// and the calendar's own, by name and number since one client reads only the
// number.
const (
	workColour           = "chocolate"
	roundColour          = "olive"
	targetColour         = "crimson"
	milkColour           = "goldenrod"
	coldColour           = "steelblue"
	calendarColour       = "chocolate"
	calendarColourNumber = "#D2691E"
)

// Options says which calendar [Encode] makes. The zero value is everybody's.
type Options struct {
	// Person leaves only this person's work and rounds, and all targets and milk; "" is
	// everybody. A name that neither kitchen nor plan knows is a [PersonError].
	Person string
	// Cold leaves only the stays in cold places, as whole days; Person is not asked
	// then.
	Cold bool
	// Own leaves out targets and milk: of somebody who is not in the kitchen any more.
	Own bool
	// Lead is how long before work, rounds and orders the alarm goes off; 0 for what the kitchen
	// says, and DefaultLead where it says nothing; negative for the moment itself.
	Lead resources.Minutes
	// Earlier has a file for import call off what the plan before told and this one does not: an import takes
	// nothing away. It is for one edition, the next is told its own plan before. nil for a calendar that is
	// subscribed to, where what is not in it is gone.
	Earlier *schedule.Plan
	// Sheets is the address under which batch sheets are served, ending in "/" as
	// a rule; a batch's id is appended to it. "" when nothing is served.
	Sheets string
}

// sheetOf is the address of a batch's sheet, "" when none is served.
func (o Options) sheetOf(batch string) string {
	if o.Sheets == "" {
		return ""
	}
	return o.Sheets + url.PathEscape(batch)
}

// PersonError says that a calendar was asked for somebody who is not there.
type PersonError struct {
	Got  string
	Want []string // the people of the kitchen
}

// Error names who was asked for and who there is.
func (e *PersonError) Error() string {
	if len(e.Want) == 0 {
		return fmt.Sprintf("calendar for %q: the kitchen has no people", e.Got)
	}
	return fmt.Sprintf("calendar for %q: nobody of that name; the kitchen has %s", e.Got, strings.Join(e.Want, ", "))
}

// MomentError says that something lies outside the years that a calendar can hold,
// 1970 to 9999.
type MomentError struct {
	What string
	Got  resources.Moment
}

// Error names what lies outside, and where.
func (e *MomentError) Error() string {
	return fmt.Sprintf("calendar: %s: minute %d since 1970 is outside the years 1970 to 9999", e.What, e.Got)
}

// UIDError says that two events would have the same UID: the plan holds the same
// batch and stage, two rounds or two collections of one supply on one day, or the same
// target twice.
type UIDError struct {
	UID           string
	First, Second string // summaries
}

// Error names the two events.
func (e *UIDError) Error() string {
	return fmt.Sprintf("calendar: %q and %q are the same event (%s); give each a name of its own", e.First, e.Second, e.UID)
}

// event is one event, in plain values.
type event struct {
	uid         string
	start, end  resources.Moment // end is start where there is no length
	days        *wholeDays       // whole days in their place; nil for none
	sequence    int
	revised     resources.Moment
	summary     string
	description []string // one line each
	location    string
	categories  []string
	colour      string
	sheet       string // "" for none
	busy        bool
	alarm       bool
	who         string // whose work it is; "" for nobody's
	off         bool   // it is called off
}

// Encode gives tasks.ics: one event per piece of hands-on work, per round, per look that was
// asked for, per carry out of a closed place and per order of milk, each with an alarm, and one per collection and per target, in the kitchen's
// time zone with its VTIMEZONE; or, with Options.Cold, one event per stay in a cold place. The same plan
// and options give the same bytes, whatever the machine's zone or language. SEQUENCE and LAST-MODIFIED are those that note.Revise gave;
// what it has not seen counts as new, revised at the plan's From.
//
// The problem's Kitchen tells the zone, the calendar's name and who there is. The
// errors are *[PersonError], *[MomentError], *[UIDError], and that of an address
// in Options that is none.
func Encode(p *schedule.Problem, plan *schedule.Plan, opt Options) ([]byte, error) {
	if p.Kitchen.Zone == nil {
		return nil, fmt.Errorf("calendar: the kitchen's time zone %q is not loaded", p.Kitchen.TimeZone)
	}
	if opt.Cold {
		opt.Person = ""
	}
	if err := knownPerson(p, plan, opt.Person); err != nil {
		return nil, err
	}
	if opt.Sheets != "" {
		if u, err := url.Parse(opt.Sheets); err != nil || !u.IsAbs() {
			return nil, fmt.Errorf("calendar: the address of the batch sheets, %q, is not one like https://kitchen.example/batch/", opt.Sheets)
		}
	}
	events := eventsOf(p, plan, opt)
	if opt.Earlier != nil {
		events = append(events, calledOff(plan, events, eventsOf(p, opt.Earlier, opt))...)
	}
	sort.SliceStable(events, func(i, j int) bool {
		if events[i].start != events[j].start {
			return events[i].start < events[j].start
		}
		return events[i].uid < events[j].uid
	})
	if err := fit(plan, events); err != nil {
		return nil, err
	}
	return write(fileOf(p, plan, opt, events))
}

// eventsOf gives what a calendar tells of a plan.
func eventsOf(p *schedule.Problem, plan *schedule.Plan, opt Options) []event {
	w := wording{p.Kitchen.Zone}
	if opt.Cold {
		return stayEvents(plan, w, opt)
	}
	var events []event
	events = append(events, workEvents(plan, w, opt)...)
	events = append(events, roundEvents(plan, w, opt)...)
	events = append(events, lookEvents(plan, w, opt)...)
	events = append(events, carryEvents(plan, w, opt)...)
	if !opt.Own {
		events = append(events, targetEvents(plan, w)...)
		events = append(events, milkEvents(p, plan, w)...)
	}
	if opt.Person == "" {
		nameTitles(plan, events)
	}
	return events
}

// calledOff are the events of the plan before that are in the plan no more and were to begin after its start, each with the
// next number (RFC 5545, 3.8.1.11 and 3.8.7.4). What lies before has been, and is left as it stands.
func calledOff(plan *schedule.Plan, events, before []event) (off []event) {
	there := map[string]bool{}
	for _, e := range events {
		there[e.uid] = true
	}
	for _, e := range before {
		if there[e.uid] || e.start < plan.From {
			continue
		}
		there[e.uid] = true // a damaged plan before may have it twice
		e.sequence, e.revised = e.sequence+1, max(plan.From, e.revised+1)
		e.off, e.busy, e.alarm = true, false, false
		off = append(off, e)
	}
	return off
}

// nameTitles has the titles of work say who does it, where the plan has them do so. That this has become otherwise
// counts as a change of each of them, and of nothing in the calendars of one person.
func nameTitles(plan *schedule.Plan, events []event) {
	for i := range events {
		e := &events[i]
		if e.who == "" {
			continue
		}
		if name := clean(e.who); plan.Titles.Named && name != "" {
			e.summary += " (" + name + ")"
		}
		e.sequence += plan.Titles.Sequence
		e.revised = max(e.revised, plan.Titles.Revised)
	}
}

// knownPerson checks that somebody of that name is in the kitchen or, having left
// it, still has work in the plan.
func knownPerson(p *schedule.Problem, plan *schedule.Plan, name string) error {
	if name == "" {
		return nil
	}
	var known []string
	for _, person := range p.Kitchen.People {
		if person.Name == name {
			return nil
		}
		known = append(known, person.Name)
	}
	for _, b := range plan.Batches {
		for _, t := range b.Stages {
			if t.Who == name {
				return nil
			}
		}
	}
	return &PersonError{Got: name, Want: known}
}

// The first and the last minute that a calendar can hold in every zone: local
// years have four digits, and a day is left at each end for the zone's offset.
const (
	firstMoment resources.Moment = 24 * 60
	lastMoment  resources.Moment = 253402300800/60 - 2*24*60
)

// fit checks what a calendar can hold: moments and distinct UIDs.
func fit(plan *schedule.Plan, events []event) error {
	if plan.From < firstMoment || plan.From > lastMoment {
		return &MomentError{What: "the planning start", Got: plan.From}
	}
	seen := map[string]string{}
	for _, e := range events {
		for _, m := range []resources.Moment{e.start, e.end, e.revised} {
			if m < firstMoment || m > lastMoment {
				return &MomentError{What: e.summary, Got: m}
			}
		}
		if first, double := seen[e.uid]; double {
			return &UIDError{UID: e.uid, First: first, Second: e.summary}
		}
		seen[e.uid] = e.summary
	}
	return nil
}

// stampOf is when an event last changed: the latest moment known, or the plan's
// start for what was never given one.
func stampOf(plan *schedule.Plan, known ...resources.Moment) resources.Moment {
	latest := resources.Moment(0)
	for _, m := range known {
		latest = max(latest, m)
	}
	if latest <= 0 {
		return plan.From
	}
	return latest
}
