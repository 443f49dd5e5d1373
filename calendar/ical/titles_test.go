package ical

import (
	"bytes"
	"strings"
	"testing"

	"ripeby/calendar/note"
	"ripeby/resources"
	"ripeby/schedule"
)

// In the calendar for everything a title says whose work it is, where there is more than one who could do it; in
// nobody's own calendar, and not of what is nobody's.
func TestTitlesNameThePerson(t *testing.T) {
	for name, people := range map[string][]resources.Person{"two people": {{Name: "Nell"}, {Name: "Ivo"}}, "one person": {{Name: "Nell"}}} {
		p := kitchenIn(t, "Europe/Dublin")
		p.Kitchen.People = people
		plan := samplePlan("Europe/Dublin", momentAt(t, "2027-03-16 07:30"))
		note.Revise(p, plan, nil)
		named := 0
		for _, e := range eventsSeen(t, asItIs(t, p, plan, Options{}), bySystem) {
			who := ""
			if _, after, found := strings.Cut(e.description, "Who: "); found {
				who, _, _ = strings.Cut(after, "\n")
			}
			ends := strings.HasSuffix(e.summary, " ("+who+")")
			if ends != (who != "" && len(people) > 1) {
				t.Errorf("%s: %q is %q's", name, e.summary, who)
			}
			if ends {
				named++
			}
		}
		if (named > 5) != (len(people) > 1) {
			t.Errorf("%s: got %d titles with a name", name, named)
		}
		for _, e := range eventsSeen(t, asItIs(t, p, plan, Options{Person: "Nell"}), bySystem) {
			if strings.HasSuffix(e.summary, ")") {
				t.Errorf("%s: Nell's own has %q", name, e.summary)
			}
		}
	}
}

// A plan from before titles had names keeps its calendars to the byte until the next is made. Then each event of
// the calendar for everything that is somebody's moves once, by SEQUENCE and LAST-MODIFIED (RFC 5545, 3.8.7.3
// and 3.8.7.4), and never for it again; what is nobody's, and the calendars of one person and of the cold, do not
// move at all, so that no phone is flooded. The same when a second person comes into a kitchen.
func TestTitlesMoveOnce(t *testing.T) {
	start := momentAt(t, "2027-03-16 07:30")
	for _, c := range []struct {
		name   string
		before func(*schedule.Problem, *schedule.Plan)
	}{
		{"a plan from before", func(p *schedule.Problem, plan *schedule.Plan) {
			note.Revise(p, plan, nil)
			plan.Titles = schedule.Titles{}
		}},
		{"one person before", func(p *schedule.Problem, plan *schedule.Plan) {
			alone := *p
			alone.Kitchen.People = p.Kitchen.People[:1]
			note.Revise(&alone, plan, nil)
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := kitchenIn(t, "Europe/Dublin")
			first := samplePlan("Europe/Dublin", start)
			schedule.CountMoves(first, nil)
			c.before(p, first)
			next := func(plan *schedule.Plan) *schedule.Plan {
				again := samplePlan("Europe/Dublin", start)
				again.From = plan.From + 120
				schedule.CountMoves(again, plan)
				note.Revise(p, again, plan)
				return again
			}
			second := next(first)
			third := next(second)
			old, now := eventsSeen(t, asItIs(t, p, first, Options{}), bySystem), eventsSeen(t, asItIs(t, p, second, Options{}), bySystem)
			moved := 0
			for uid, e := range now {
				was := old[uid]
				switch {
				case e.summary == was.summary && (e.sequence != was.sequence || e.modified != was.modified):
					t.Errorf("%s says the same and moved", uid)
				case e.summary != was.summary && (e.sequence != was.sequence+1 || e.modified <= was.modified):
					t.Errorf("%s: got %q as %d of %s after %d of %s, want the next and a later moment", uid, e.summary, e.sequence, e.modified, was.sequence, was.modified)
				case e.summary != was.summary:
					moved++
				}
			}
			if moved < 5 {
				t.Errorf("got %d moved, want all work and rounds", moved)
			}
			if !bytes.Equal(asItIs(t, p, second, Options{}), asItIs(t, p, third, Options{})) {
				t.Error("with the plan after that the calendar moved again")
			}
			for name, opt := range map[string]Options{"Nell's": {Person: "Nell"}, "the cold places'": {Cold: true}} {
				if !bytes.Equal(asItIs(t, p, first, opt), asItIs(t, p, second, opt)) {
					t.Errorf("%s calendar moved", name)
				}
			}
		})
	}
}

// asItIs makes a calendar of a plan with the numbers that it has.
func asItIs(t *testing.T, p *schedule.Problem, plan *schedule.Plan, opt Options) []byte {
	t.Helper()
	out, err := Encode(p, plan, opt)
	if err != nil {
		t.Fatal(err)
	}
	return out
}
