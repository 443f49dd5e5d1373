package ical

import (
	"bytes"
	"strings"
	"testing"

	"ripeby/calendar/note"
	"ripeby/schedule"
)

// A file for import calls off, in one edition, what the plan before told and this one does not, with a higher SEQUENCE (RFC
// 5545, 3.8.1.11 and 3.8.7.4): whoever imports it has the task struck or taken away. The next edition leaves it out, and a
// calendar that is subscribed to leaves it out at once. What lies before the new plan stays as it was.
func TestImportCallsOffWhatIsGone(t *testing.T) {
	start := momentAt(t, "2027-03-16 07:30")
	p := kitchenIn(t, "Europe/Dublin")
	first := samplePlan("Europe/Dublin", start)
	schedule.CountMoves(first, nil)
	note.Revise(p, first, nil)
	next := func(plan *schedule.Plan) *schedule.Plan {
		again := samplePlan("Europe/Dublin", start)
		again.From = plan.From + 120
		again.Batches, again.Rounds, again.Targets = again.Batches[1:], again.Rounds[:2], again.Targets[:2]
		schedule.CountMoves(again, plan)
		note.Revise(p, again, plan)
		return again
	}
	second := next(first)
	third := next(second)
	before := eventsSeen(t, asItIs(t, p, first, Options{}), bySystem)
	subscribed := asItIs(t, p, second, Options{})
	if strings.Contains(string(subscribed), "STATUS:") {
		t.Error("a calendar that is subscribed to calls something off, want it left out")
	}
	imported := asItIs(t, p, second, Options{Earlier: first})
	obeysLines(t, unfolded(imported))
	there, off := eventsSeen(t, subscribed, bySystem), 0
	statuses := map[string]string{}
	for _, e := range read(t, imported).Events() {
		if status := e.Props.Get("STATUS"); status != nil {
			statuses[e.Props.Get("UID").Value] = status.Value
		}
	}
	for uid, e := range eventsSeen(t, imported, bySystem) {
		was, known := before[uid]
		_, stays := there[uid]
		switch {
		case stays && statuses[uid] != "":
			t.Errorf("%s is in the plan, and is %s", uid, statuses[uid])
		case !stays:
			off++
			if statuses[uid] != "CANCELLED" || !known || e.sequence <= was.sequence || e.modified <= was.modified || e.alarm != "" || e.transparency != "TRANSPARENT" {
				t.Errorf("%s: got %q as %d of %s, alarm %q, %s; want CANCELLED, after %d of %s, and that it calls nobody", uid, statuses[uid], e.sequence, e.modified, e.alarm, e.transparency, was.sequence, was.modified)
			}
			if e.summary != was.summary || !e.start.Equal(was.start) {
				t.Errorf("%s: got %q at %v, want what was told of it, %q at %v", uid, e.summary, e.start, was.summary, was.start)
			}
			if was.start.Unix() < int64(second.From)*60 {
				t.Errorf("%s was at %v, before the new plan, and is called off", uid, was.start)
			}
		}
	}
	gone, over := 0, 0
	for uid, e := range before {
		if _, stays := there[uid]; stays {
			continue
		}
		if gone++; e.start.Unix() < int64(second.From)*60 {
			over++
		}
	}
	if off == 0 || off != gone-over || len(statuses) != off {
		t.Errorf("got %d called off, want %d: of %d that are gone %d lie before the plan", off, gone-over, gone, over)
	}
	if !bytes.Equal(asItIs(t, p, third, Options{Earlier: second}), asItIs(t, p, third, Options{})) {
		t.Error("the edition after that still calls something off")
	}
	if !bytes.Equal(asItIs(t, p, first, Options{Earlier: nil}), asItIs(t, p, first, Options{Earlier: first})) {
		t.Error("the same plan once more calls something off")
	}
}
