package main

import (
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
)

// What somebody takes on, and milk that came, is held against the plan in force.
func TestMeansForThePlan(t *testing.T) {
	at := func(day, hour int) resources.Moment {
		return resources.MomentOf(time.Date(2027, time.March, day, hour, 0, 0, 0, time.UTC))
	}
	batch := func(id string, litres resources.Millilitres) schedule.Batch {
		return schedule.Batch{ID: id, Litres: litres, Milk: &schedule.Draw{Supply: "Hill cow", Collect: at(4, 7)},
			Stages: []schedule.Task{{Stage: "make", Start: at(4, 8), Work: 30, Who: "Nell"}, {Stage: "pack", Start: at(4, 20), Work: 10, Who: "Nell"}}}
	}
	k := &recordKitchen{folder: "dairy", zone: time.UTC, plan: &schedule.Plan{Batches: []schedule.Batch{batch("A", 8000), batch("B", 6000)}}}
	k.plan.Batches[0].Stages[0].Begun = true
	takes := func(who, batch, stage string) record.Entry {
		return record.Entry{Subject: record.Subject{Kind: record.OfPerson, Name: who}, Person: record.PersonFacts{Takes: record.Say(record.Task{Batch: batch, Stage: stage})}}
	}
	came := func(day int, litres resources.Millilitres) record.Entry {
		return record.Entry{Subject: record.Subject{Kind: record.OfMilk, Name: "Hill cow", Day: resources.Date{Year: 2027, Month: 3, Day: day}}, Milk: record.MilkFacts{Came: record.Say(litres)}}
	}
	for _, c := range []struct {
		said record.Entry
		want string
	}{
		{takes("Nell", "B", "make"), "It is planned for Nell already, Thu 4 Mar 2027 08:00; hold it to that: ripeby plan -C dairy"},
		{takes("Finn", "B", "pack"), "It is planned for Nell, Thu 4 Mar 2027 20:00; see when Finn can: ripeby plan -C dairy"},
		{takes("Finn", "A", "make"), "By the plan it began Thu 4 Mar 2027 08:00, and then this changes nothing. See: ripeby plan -C dairy"},
		{takes("Finn", "C", "make"), "The next plan takes it into account: ripeby plan -C dairy"},
		{came(4, 14_000), "It is enough for all that is planned of it. The next plan takes it into account: ripeby plan -C dairy"},
		{came(4, 12_500), "14 L of it are planned, 1.5 L more than came: something has to move. See what: ripeby plan -C dairy"},
		{came(5, 0), "Nothing is planned of it so far. See what can be made: ripeby plan -C dairy"},
	} {
		if got := k.means(&c.said); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}
