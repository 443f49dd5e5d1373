package demo_test

import (
	"bytes"
	"fmt"

	goical "github.com/emersion/go-ical"

	"ripeby/calendar/ical"
	"ripeby/schedule"
)

// checkUIDs: in the calendar, an event keeps its UID from plan to plan as long as
// its batch and stage, its round's day, its target or its collection is there, and no other event
// gets it. Counting tells: the UIDs that two calendars share are as many as what
// the two plans share.
func (s *season) checkUIDs(before *schedule.Plan) {
	s.t.Helper()
	shared := 0
	then := s.eventKeys(before)
	for k := range s.eventKeys(s.plan) {
		if then[k] {
			shared++
		}
	}
	got, now := 0, s.uids(s.plan)
	for uid := range s.uids(before) {
		if now[uid] {
			got++
		}
	}
	if got != shared {
		s.t.Errorf("got %d UIDs kept from plan to plan, want %d, as many as events", got, shared)
	}
}

// eventKeys names what the calendar of a plan has events for.
func (s *season) eventKeys(plan *schedule.Plan) map[[2]string]bool {
	keys := map[[2]string]bool{}
	for _, b := range plan.Batches {
		for _, t := range b.Stages {
			if t.Work > 0 {
				keys[[2]string{b.ID, t.Stage}] = true
			}
		}
	}
	for _, r := range plan.Rounds {
		keys[[2]string{"round", r.Start.DateIn(s.p.Kitchen.Zone).String()}] = true
	}
	for _, w := range plan.Targets {
		keys[[2]string{"target", w.Target}] = true
	}
	for _, j := range schedule.MilkOf(s.p, plan) {
		keys[[2]string{fmt.Sprintf("milk, order %v", j.Order), j.Supply + j.Collect.DateIn(s.p.Kitchen.Zone).String()}] = true
	}
	return keys
}

// uids reads a plan's calendar with a reader of others.
func (s *season) uids(plan *schedule.Plan) map[string]bool {
	s.t.Helper()
	text, err := ical.Encode(s.p, plan, ical.Options{})
	if err != nil {
		s.t.Fatal(err)
	}
	cal, err := goical.NewDecoder(bytes.NewReader(text)).Decode()
	if err != nil {
		s.t.Fatal(err)
	}
	out := map[string]bool{}
	for _, e := range cal.Events() {
		uid, err := e.Props.Text(goical.PropUID)
		if err != nil || uid == "" || out[uid] {
			s.t.Errorf("UID %q: got none or one twice (%v)", uid, err)
		}
		out[uid] = true
	}
	return out
}
