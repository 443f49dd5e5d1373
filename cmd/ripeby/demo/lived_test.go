package demo_test

import (
	"context"
	"flag"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"ripeby/cmd/ripeby/demo"
	"ripeby/config"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/judge"
	"ripeby/schedule/planfile"
	"ripeby/schedule/planner"
	"ripeby/schedule/record"
	"ripeby/schedule/record/follows"
)

// A season is lived with the record only: each day somebody says what was done, late or not, and
// leaves some of it unsaid; sets are slow, batches are lost, pieces break, milk does not come,
// people are away and places closed. Every plan on the way keeps every rule.

// livedWork is the counted work of each day's plan.
const livedWork = 3_000_000

// So many seasons of so many days are lived; 30 of 56 take some minutes.
var (
	livedSeasons = flag.Int("lived.seasons", 2, "how many seasons are lived by the record")
	livedDays    = flag.Int("lived.days", 6, "of so many days")
	livedClosed  = flag.Int("lived.closed", 4, "on so many of a hundred a place or a shelf is closed for two days")
)

// life is a season as it goes.
type life struct {
	t       *testing.T
	r       *rand.Rand
	entries []record.Entry
	from    resources.Moment
	plan    *schedule.Plan
	problem *schedule.Problem
	counts  map[string]int
	orders  []schedule.Target // that came since
	dropped []string          // targets that are off
}

func TestSeasonsLivedByTheRecord(t *testing.T) {
	for seed := range uint64(*livedSeasons) {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			l := &life{t: t, r: rand.New(rand.NewPCG(seed, 8)), counts: map[string]int{}}
			l.read()
			l.made(l.problem)
			for range *livedDays {
				l.day()
			}
			t.Logf("%d entries: %v", len(l.entries), l.counts)
		})
	}
}

// read reads the demo's folder as of now.
func (l *life) read() {
	from := demo.From
	if l.plan != nil {
		from = l.from.In(time.UTC).Format(time.RFC3339)
	}
	p, err := config.LoadFS(demo.Files(), config.Options{From: from, Now: time.Unix(0, 0)})
	if err != nil {
		l.t.Fatal(err)
	}
	p.Targets = slices.DeleteFunc(append(p.Targets, l.orders...), func(t schedule.Target) bool {
		return t.By < p.From || slices.Contains(l.dropped, t.Name)
	})
	l.problem, l.from = p, p.From
}

// order has an order come in, or one be called off.
func (l *life) order() {
	if targets := l.problem.Targets; len(targets) > 0 && l.chance(3) {
		l.dropped = append(l.dropped, targets[l.r.IntN(len(targets))].Name)
		l.counts["order dropped"]++
	}
	if l.chance(5) {
		cheese := l.problem.Recipes[l.r.IntN(len(l.problem.Recipes))].Name
		want := schedule.Want{Cheese: cheese, Pieces: 1 + l.r.IntN(4), Price: 500, Promised: l.chance(50)}
		l.orders = append(l.orders, schedule.Target{Name: fmt.Sprintf("Order %d", len(l.orders)+1),
			By: l.from.Add(resources.Minutes(4+l.r.IntN(20)) * resources.Day), Wants: []schedule.Want{want}})
		l.counts["order added"]++
	}
}

// made plans and has the judge look.
func (l *life) made(p *schedule.Problem) {
	p.Earlier = l.plan
	where := follows.Of(p, record.NewBook(l.entries))
	plan, err := planner.Plan(context.Background(), where.Problem, planner.Options{Budget: livedWork})
	if err != nil {
		l.t.Fatal(err)
	}
	for _, v := range judge.Check(where.Problem, plan) {
		l.t.Fatalf("from %s: judge: %v", l.from.In(time.UTC), v)
	}
	for _, w := range plan.Warnings {
		if w.Code == "no-place" {
			l.counts[w.Code]++
		}
	}
	l.counts["carried"] += len(plan.Carries)
	l.calm(where.Problem, plan)
	text, err := planfile.Encode(plan, p.Kitchen.Zone)
	if err != nil {
		l.t.Fatal(err)
	}
	if l.plan, err = planfile.Decode(text); err != nil {
		l.t.Fatal(err)
	}
}

// chance is true so many times in a hundred.
func (l *life) chance(percent int) bool { return l.r.IntN(100) < percent }

// say writes an entry; what is of a later moment is said when it has come.
func (l *life) say(what string, e record.Entry) {
	e.Nr = len(l.entries) + 1
	l.entries = append(l.entries, e)
	l.counts[what]++
}

// day lives a day of the plan in force, and plans anew at its end.
func (l *life) day() {
	start := l.from
	l.from = start.Add(resources.Day + resources.Minutes(l.r.IntN(300)-150))
	for i := range l.plan.Batches {
		l.batch(&l.plan.Batches[i], start)
	}
	at := func() resources.Moment { return start.Add(resources.Minutes(l.r.IntN(1200))) }
	if l.chance(4) {
		p := l.problem.Kitchen.People[l.r.IntN(len(l.problem.Kitchen.People))].Name
		m := at()
		l.say("away", record.Entry{At: m, Subject: record.Subject{Kind: record.OfPerson, Name: p}, Person: record.PersonFacts{Away: record.Say(record.Stretch{From: m, Until: record.Say(m.Add(resources.Day))})}})
	}
	if l.chance(*livedClosed) {
		c := l.problem.Kitchen.Cold[l.r.IntN(len(l.problem.Kitchen.Cold))]
		m, of := at(), record.Subject{Kind: record.OfPlace, Name: c.Name}
		if len(c.Shelves) > 0 && l.chance(50) {
			of.Shelf = c.Shelves[l.r.IntN(len(c.Shelves))].Name
		}
		l.say("closed", record.Entry{At: m, Subject: of, Place: record.PlaceFacts{Closed: record.Say(record.Stretch{From: m, Until: record.Say(m.Add(2 * resources.Day))})}})
	}
	l.takes()
	l.order()
	l.read()
	l.made(l.problem)
}

// takes has somebody take on work that is to come, of a batch under way or of one that is planned.
func (l *life) takes() {
	r := rand.New(rand.NewPCG(uint64(l.from), 9)) // dice of its own
	if len(l.plan.Batches) == 0 || r.IntN(100) >= 25 {
		return
	}
	b := &l.plan.Batches[r.IntN(len(l.plan.Batches))]
	t := &b.Stages[r.IntN(len(b.Stages))]
	who := l.problem.Kitchen.People[r.IntN(len(l.problem.Kitchen.People))].Name
	if t.Work == 0 || t.Start < l.from || t.Who == who {
		return
	}
	l.say("taken on", record.Entry{At: l.from.Add(-1), Subject: record.Subject{Kind: record.OfPerson, Name: who}, Person: record.PersonFacts{Takes: record.Say(record.Task{Batch: b.ID, Stage: t.Stage})}})
}

// batch lives a day of one batch.
func (l *life) batch(b *schedule.Batch, start resources.Moment) {
	of := record.Subject{Kind: record.OfBatch, Name: b.ID}
	for i := range b.Stages {
		s := &b.Stages[i]
		if s.Work == 0 || s.Begun || s.Start < start || s.Start.Add(s.Work) > l.from {
			continue
		}
		late := min(resources.Minutes(l.r.IntN(90)), l.from.Sub(s.Start.Add(s.Work)))
		switch {
		case i > 0 && b.Stages[i-1].Hold > 0 && l.chance(8):
			l.say("not yet", record.Entry{At: s.Start, Subject: of, Batch: record.BatchFacts{NotYet: s.Stage}})
			return
		case l.chance(2):
			l.say("lost", record.Entry{At: s.Start, Subject: of, Batch: record.BatchFacts{Lost: true}})
			return
		case l.chance(40):
			l.say("did", record.Entry{At: s.Start.Add(s.Work + late), Who: s.Who, Subject: of, Batch: record.BatchFacts{Did: s.Stage}})
		case l.chance(20):
			l.say("began", record.Entry{At: s.Start.Add(late), Who: s.Who, Subject: of, Batch: record.BatchFacts{Began: s.Stage}})
		}
		if l.chance(5) && b.Pieces > 2 {
			l.say("pieces", record.Entry{At: s.Start.Add(s.Work), Subject: of, Batch: record.BatchFacts{Pieces: record.Say(b.Pieces - 1 - l.r.IntN(2))}})
		}
	}
	if len(b.Stages) > 0 && b.Milk != nil && b.Stages[0].Start >= start && b.Stages[0].Start < l.from && l.chance(5) {
		d := b.Milk.Collect.DateIn(l.problem.Kitchen.Zone)
		l.say("milk", record.Entry{At: b.Milk.Collect, Subject: record.Subject{Kind: record.OfMilk, Name: b.Milk.Supply, Day: d}, Milk: record.MilkFacts{Came: record.Say(resources.Millilitres(0))}})
	}
}
