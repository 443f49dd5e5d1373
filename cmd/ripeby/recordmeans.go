package main

import (
	"fmt"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
)

const takenIntoAccount = "The next plan takes it into account"

// means says what an entry means for the plan in force: on its way as planned, or what must move.
// "" where there is no plan, or it means nothing for it.
func (k *recordKitchen) means(e *record.Entry) string {
	if k.plan == nil || e.Subject.Kind == record.Nothing || e.Subject.Kind == record.OfPacket || e.PlansNothing() {
		return ""
	}
	again := "ripeby plan" + kitchen{folder: k.folder}.as()
	if e.Subject.Kind == record.OfBatch {
		if b := k.plan.Named(e.Subject.Name); b != nil {
			return k.meansOfBatch(b, e, again)
		}
	}
	text := ""
	switch {
	case e.Person.Takes.Given:
		text = k.meansOfTaking(e)
	case e.Person.Away.Given:
		text = k.meansOfAway(e)
	case e.Milk.Came.Given:
		text = k.meansOfMilk(e)
	}
	if text == "" {
		text = takenIntoAccount
	}
	return text + ": " + again
}

// meansOfTaking says of work that somebody takes on when it is planned, and for whom; "" where no plan has it.
func (k *recordKitchen) meansOfTaking(e *record.Entry) string {
	of, who := e.Person.Takes.Value, e.Subject.Name
	switch t := k.plan.Named(of.Batch).Stage(of.Stage); {
	case t == nil:
		return ""
	case t.Begun:
		return fmt.Sprintf("By the plan it began %s, and then this changes nothing. See", moment(t.Start, k.zone))
	case t.Who == who:
		return fmt.Sprintf("It is planned for %s already, %s; hold it to that", who, moment(t.Start, k.zone))
	default:
		return fmt.Sprintf("It is planned for %s, %s; see when %s can", t.Who, moment(t.Start, k.zone), who)
	}
}

// meansOfAway says how much planned work falls into the time in which somebody is away.
func (k *recordKitchen) meansOfAway(e *record.Entry) string {
	from, until := e.Person.Away.Value.From, e.Person.Away.Value.Until
	n, first := 0, resources.Moment(0)
	for i := range k.plan.Batches {
		for _, t := range k.plan.Batches[i].Stages {
			if t.Work > 0 && t.Who == e.Subject.Name && !t.Begun && t.Start.Add(t.Work) > from && (!until.Given || t.Start < until.Value) {
				if n == 0 || t.Start < first {
					first = t.Start
				}
				n++
			}
		}
	}
	if n == 0 {
		return fmt.Sprintf("No work that is planned for %s falls into it. "+takenIntoAccount, e.Subject.Name)
	}
	return fmt.Sprintf("%s planned for %s %s into it, the first %s: something has to move. See what",
		schedule.Counted(n, "task"), e.Subject.Name, plural(n, "falls", "fall"), moment(first, k.zone))
}

// meansOfMilk says whether so much milk is enough for what is planned of it.
func (k *recordKitchen) meansOfMilk(e *record.Entry) string {
	drawn := resources.Millilitres(0)
	for i := range k.plan.Batches {
		if b := &k.plan.Batches[i]; b.Milk != nil && b.Milk.Supply == e.Subject.Name && b.Milk.Collect.DateIn(k.zone) == e.Subject.Day {
			drawn += b.Litres
		}
	}
	if came := e.Milk.Came.Value; came < drawn {
		return fmt.Sprintf("%s of it are planned, %s more than came: something has to move. See what", litres(drawn), litres(drawn-came))
	}
	if drawn == 0 {
		return "Nothing is planned of it so far. See what can be made"
	}
	return "It is enough for all that is planned of it. " + takenIntoAccount
}

// meansOfBatch is the same of a batch of the plan.
func (k *recordKitchen) meansOfBatch(b *schedule.Batch, e *record.Entry, again string) string {
	facts := &e.Batch
	switch {
	case facts.Lost:
		if n := givenAway(b); n > 0 {
			return fmt.Sprintf("%s were for targets; see what can be made up for: %s", schedule.Counted(n, "piece"), again)
		}
		return "Nothing of it was for a target. Plan without it: " + again
	case facts.NotYet != "":
		return "See who looks again and when, and what moves: " + again
	case facts.Began != "" || facts.Did != "":
		for i := range b.Stages {
			t := &b.Stages[i]
			if t.Stage == facts.Did {
				return k.meansOfTask(b, i, e.At.Add(-t.Work), again)
			}
			if t.Stage == facts.Began {
				return k.meansOfTask(b, i, e.At, again)
			}
		}
	case facts.Pieces.Given:
		if n := givenAway(b) - max(min(facts.Pieces.Value, b.Pieces-b.Spare), 0); n > 0 {
			return fmt.Sprintf("%s fewer than are for targets; see what can be made up for: %s", schedule.Counted(n, "piece"), again)
		}
		return "There are enough of it for all that it is for."
	}
	return takenIntoAccount + ": " + again
}

// givenAway is how many pieces of a batch are for targets.
func givenAway(b *schedule.Batch) int {
	n := 0
	for _, s := range b.For {
		n += s.Pieces
	}
	return n
}

// sameWork is how far work may lie off its planned start and be as planned.
const sameWork resources.Minutes = 10

// meansOfTask is the same of a stage whose work began at a moment.
func (k *recordKitchen) meansOfTask(b *schedule.Batch, i int, began resources.Moment, again string) string {
	t := &b.Stages[i]
	next := ""
	for x := i + 1; x < len(b.Stages); x++ {
		if s := &b.Stages[x]; s.Work > 0 {
			next = fmt.Sprintf(" Next: %s, %s, %s.", s.Stage, moment(s.Start, k.zone), s.Who)
			break
		}
	}
	late := began.Sub(t.Start)
	switch {
	case t.Begun, late <= sameWork && late >= -sameWork:
		return "As planned." + next
	case late < 0:
		return "Sooner than planned; the next plan works out what follows: " + again
	case began <= t.SlipUntil:
		return fmt.Sprintf("Later than planned, but within what it may slip: nothing else has to move. Work out what follows: %s", again)
	}
	return fmt.Sprintf("Later than it may slip (%s): something has to move. See what: %s", moment(t.SlipUntil, k.zone), again)
}
