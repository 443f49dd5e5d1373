package follows_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
	"ripeby/schedule/record/follows"
	"ripeby/schedule/testrun"
)

// naming is a kitchen that lives for years: batches are planned, moved, made late or early, made
// off the plan, lost, told of in begun.yaml, said wrongly and struck. It remembers of every name
// for which make it was given.
type naming struct {
	t       *testing.T
	dice    *rand.Rand
	now     resources.Moment
	plan    *schedule.Plan
	entries []record.Entry
	begun   []schedule.Begun
	lost    []string
	owner   map[string]string // by id or lot: which make
	named   map[string]string // by make and kind of name: its id, its lot
	planned map[string]string // by id: which planned batch
	makes   int               // planned so far, and off the plan
	off     map[string]bool
	late    int // made on another day than planned
}

func (n *naming) problem() *schedule.Problem {
	p := dairy(n.now)
	p.Recipes = append(p.Recipes, p.Recipes[0])
	p.Recipes[1].Name, p.Recipes[1].Code = "Mist", "M"
	p.Earlier = n.plan
	p.Begun, p.Lost = slices.Clone(n.begun), slices.Clone(n.lost)
	return p
}

// owns has a name stand for a make; it is a fault where it stood for another, or the make had
// another.
func (n *naming) owns(kind, name, of string) {
	n.t.Helper()
	if name == "" {
		return
	}
	if was, given := n.owner[name]; given && was != of {
		n.t.Fatalf("after %d makes: %s stands for %s and for %s", n.makes, name, was, of)
	}
	if was, given := n.named[kind+of]; given && was != name {
		n.t.Fatalf("after %d makes: %s had the %s %s, and has %s now", n.makes, of, kind, was, name)
	}
	n.owner[name], n.named[kind+of] = of, name
}

// replan makes the next plan as the planner does: what has begun goes on as it went, what has not
// keeps its id, and new batches get the next free number of their day.
func (n *naming) replan() {
	where := follows.Of(n.problem(), record.NewBook(n.entries))
	p := where.Problem
	numbers := p.NumbersGiven()
	plan := &schedule.Plan{From: n.now, OffPlan: p.OffPlan}
	for _, l := range where.Lives {
		of := n.planned[l.Batch.ID]
		if l.OffPlan != nil {
			of = fmt.Sprint("off the plan, entry ", origin(n.entries, l.OffPlan.Nr))
			n.off[of] = true
		}
		if of == "" { // begun off the plan, and that was struck
			of = n.owner[l.Batch.ID]
		}
		if of == "" {
			n.t.Fatalf("after %d makes: nobody made %s", n.makes, l.Batch.ID)
		}
		n.owns("id", l.Batch.ID, of)
		n.owns("lot", l.Batch.Lot, of)
	}
	for _, b := range p.Went().Batches {
		first, last := &b.Stages[0], &b.Stages[len(b.Stages)-1]
		if slices.Contains(p.Lost, b.ID) || first.Start < n.now && last.Start < n.now.Add(-3*d) {
			continue
		}
		b.Stages = slices.Clone(b.Stages)
		for i := range b.Stages {
			b.Stages[i].Begun = b.Stages[i].Start < n.now
		}
		b.Begun = b.Stages[0].Begun
		plan.Batches = append(plan.Batches, b)
	}
	for _, w := range p.Begun {
		b := schedule.Batch{ID: w.ID, Cheese: w.Cheese, Litres: w.Litres, Begun: true, Stages: n.stages(w.Stages[0].Start)}
		b.Stages[0].Begun = true
		if b.Stages[3].Start < n.now.Add(-3*d) {
			continue
		}
		if was := n.plan.Batch(w.ID); was != nil {
			b.Lot = was.Lot
		}
		plan.Batches = append(plan.Batches, b)
	}
	if n.plan != nil {
		for _, b := range n.plan.Batches { // not begun: stays, or is moved
			if b.Begun || slices.Contains(p.Lost, b.ID) || plan.Batch(b.ID) != nil {
				continue
			}
			if n.dice.IntN(4) == 0 || b.Stages[0].Start < n.now {
				b.Stages = n.stages(n.now.Add(resources.Minutes(n.dice.IntN(4*1440)) + 1))
			}
			plan.Batches = append(plan.Batches, b)
		}
	}
	for range n.dice.IntN(3) {
		cheese := n.dice.IntN(2)
		start := n.now.Add(resources.Minutes(n.dice.IntN(3*1440)) + 1)
		b := schedule.Batch{ID: numbers.Next(p.Recipes[cheese].LotDay(start.DateIn(p.Kitchen.Zone))), Cheese: p.Recipes[cheese].Name, Litres: 5000, Pieces: 10, Stages: n.stages(start)}
		n.makes++
		n.planned[b.ID] = fmt.Sprint("planned make ", n.makes)
		n.owns("id", b.ID, n.planned[b.ID])
		plan.Batches = append(plan.Batches, b)
	}
	plan.LastNumber = numbers.List()
	n.plan = plan
	// What is over or lost is taken out of begun.yaml.
	n.begun = slices.DeleteFunc(n.begun, func(b schedule.Begun) bool { return plan.Batch(b.ID) == nil })
}

// origin is the entry that a correction corrects, or that one itself.
func origin(entries []record.Entry, nr int) int {
	for _, e := range entries {
		if e.Nr == nr && len(e.Strikes) > 0 && e.Subject.Kind == record.OfCheese {
			return origin(entries, e.Strikes[0])
		}
	}
	return nr
}

func (n *naming) stages(start resources.Moment) []schedule.Task {
	var out []schedule.Task
	for _, s := range []struct {
		name  string
		after resources.Minutes
		work  resources.Minutes
	}{{"make", 0, 60}, {"drain", 24 * h, 30}, {"press", 24*h + 30, 15}, {"pack", 35 * h, 20}} {
		out = append(out, schedule.Task{Stage: s.name, Start: start.Add(s.after), Work: s.work, Who: "Nell", At: "room"})
	}
	return out
}

// struck reports whether an entry is: to strike it again is refused.
func (n *naming) struck(nr int) bool {
	return slices.ContainsFunc(n.entries, func(e record.Entry) bool { return slices.Contains(e.Strikes, nr) })
}

func (n *naming) say(e record.Entry) {
	e.Nr = len(n.entries) + 1
	n.entries = append(n.entries, e)
}

// happen has something happen between two plans.
func (n *naming) happen() {
	at := n.now.Add(-resources.Minutes(n.dice.IntN(1440)))
	cheese := []string{"Dew", "Mist"}[n.dice.IntN(2)]
	switch n.dice.IntN(8) {
	case 0, 1, 2: // a make of the plan, early or late
		for _, b := range n.plan.Batches {
			if first := b.Stages[0].Start; !b.Begun && first < n.now.Add(2*d) && n.dice.IntN(2) == 0 {
				n.say(record.Entry{At: at, Subject: record.Subject{Kind: record.OfBatch, Name: b.ID}, Batch: record.BatchFacts{Did: "make"}})
				if first.DateIn(dairy(0).Kitchen.Zone) != at.DateIn(dairy(0).Kitchen.Zone) {
					n.late++
				}
				return
			}
		}
	case 3, 4: // a make off the plan, or two at once
		for range 1 + n.dice.IntN(6)/5 {
			n.makes++
			n.say(record.Entry{At: at, Subject: record.Subject{Kind: record.OfCheese, Name: cheese}, Batch: record.BatchFacts{Did: "make", Litres: record.Say(resources.Millilitres(5000))}})
		}
	case 5: // something said of late is struck, or corrected
		if k := len(n.entries) - 1 - n.dice.IntN(5); k >= 0 && len(n.entries[k].Strikes) == 0 && !n.struck(n.entries[k].Nr) {
			e := record.Entry{At: n.now, Strikes: []int{n.entries[k].Nr}}
			if n.dice.IntN(2) == 0 {
				e.Subject, e.Batch, e.At = n.entries[k].Subject, n.entries[k].Batch, n.entries[k].At.Add(-resources.Minutes(n.dice.IntN(600)))
			}
			n.say(e)
		}
	case 6: // lost, in the record or in begun.yaml
		if len(n.plan.Batches) > 0 {
			id := n.plan.Batches[n.dice.IntN(len(n.plan.Batches))].ID
			if n.dice.IntN(2) == 0 {
				n.lost = append(n.lost, id)
				n.begun = slices.DeleteFunc(n.begun, func(b schedule.Begun) bool { return b.ID == id })
			} else {
				n.say(record.Entry{At: at, Subject: record.Subject{Kind: record.OfBatch, Name: id}, Batch: record.BatchFacts{Lost: true}})
			}
		}
	case 7: // begun.yaml tells of a batch of the plan, or no longer
		n.begun = nil
		for _, b := range n.plan.Batches {
			if b.Begun && n.dice.IntN(3) == 0 {
				n.begun = append(n.begun, schedule.Begun{ID: b.ID, Cheese: b.Cheese, Litres: b.Litres, Pieces: -1, Stages: []schedule.BegunStage{{Stage: "make", Start: b.Stages[0].Start}}})
			}
		}
	}
}

// TestNoNameStandsForTwoBatches: over many makes, moved and off the plan, no id or lot ever stands
// for two batches, and no batch has two ids, or two lots.
func TestNoNameStandsForTwoBatches(t *testing.T) {
	const each = 100 // makes of one kitchen
	late, off, names, makes := 0, 0, 0, 0
	for seed := range uint64(testrun.Rounds(4, 20)) {
		n := &naming{t: t, dice: rand.New(rand.NewPCG(20270312, seed)), now: day(1, 6, 0), owner: map[string]string{}, named: map[string]string{}, planned: map[string]string{}, off: map[string]bool{}}
		n.plan = &schedule.Plan{From: n.now}
		for n.makes < each {
			n.replan()
			n.now = n.now.Add(resources.Minutes(60 + n.dice.IntN(30*60)))
			for range n.dice.IntN(4) {
				n.happen()
			}
		}
		makes, late, off, names = makes+n.makes, late+n.late, off+len(n.off), names+len(n.owner)
	}
	t.Logf("%d makes, %d of them on another day than planned, %d off the plan: %d names, each of one batch", makes, late, off, names)
	if late < makes/20 || off < makes/10 {
		t.Errorf("of %d makes got %d moved and %d off the plan: too little is tested", makes, late, off)
	}
}

// TestMadeOffThePlanOnce: a line is taken once. What it began is not made again when it is over and
// no plan holds it any more; a line that corrects another is of the same batch; one that was struck
// began nothing; and without any plan before what is long over is not under way.
func TestMadeOffThePlanOnce(t *testing.T) {
	made := record.Entry{Nr: 7, At: day(8, 12, 0), Subject: record.Subject{Kind: record.OfCheese, Name: "Dew"}, Batch: record.BatchFacts{Did: "make", Litres: record.Say(resources.Millilitres(8000))}}
	byHand := made
	byHand.Nr = 0
	right := made
	right.Nr, right.Strikes, right.At = 9, []int{7}, day(8, 11, 0)
	right2 := right
	right2.Nr, right2.Strikes, right2.At = 10, []int{7, 9}, day(8, 11, 30)
	notRight := record.Entry{Nr: 11, At: day(8, 13, 0), Strikes: []int{9}}
	struck := record.Entry{Nr: 8, At: day(8, 13, 0), Strikes: []int{7}}
	drained := of(day(9, 9, 0), record.BatchFacts{Did: "drain"})
	drained.Subject.Name = "D-270308-2"
	anew := byHand
	anew.At = day(8, 10, 0)
	for _, c := range []struct {
		name    string
		from    resources.Moment
		over    bool // the plan before no longer has it
		first   record.Entry
		entries []record.Entry
		want    string
	}{
		{"carried on", day(9, 6, 0), false, made, []record.Entry{made}, "D-270308-2 8 11:00"},
		{"over", day(14, 6, 0), true, made, []record.Entry{made}, ""},
		{"over, and corrected since", day(14, 6, 0), true, made, []record.Entry{made, right}, ""},
		{"corrected", day(9, 6, 0), false, made, []record.Entry{made, right}, "D-270308-2 8 10:00"},
		{"corrected twice", day(9, 6, 0), false, made, []record.Entry{made, right, right2}, "D-270308-2 8 10:30"},
		{"corrected, and that was struck", day(9, 6, 0), false, right, []record.Entry{made, right, notRight}, "D-270308-2 8 11:00"},
		{"struck", day(9, 6, 0), false, made, []record.Entry{made, struck}, ""},
		{"struck, and spoken of since", day(9, 12, 0), false, made, []record.Entry{made, struck, drained}, "D-270308-2 8 11:00"},
		{"by hand", day(9, 6, 0), false, byHand, []record.Entry{byHand}, "D-270308-2 8 11:00"},
		{"by hand, and changed where it stands", day(9, 6, 0), false, byHand, []record.Entry{anew}, "D-270308-2 8 09:00"},
		{"two", day(9, 6, 0), false, made, []record.Entry{made, byHand}, "D-270308-2 8 11:00, D-270308-3 8 11:00"},
	} {
		t.Run(c.name, func(t *testing.T) {
			before := follows.Of(dairy(day(8, 13, 0)), record.NewBook([]record.Entry{c.first})).Problem
			p := dairy(c.from)
			for _, b := range before.Lived.Batches {
				if b.ID == "D-270308-2" && !c.over {
					b.Begun = true
					p.Earlier.Batches = append(p.Earlier.Batches, b)
				}
			}
			p.Earlier.OffPlan, p.Earlier.LastNumber[0].Last = before.OffPlan, 2
			var got []string
			where := follows.Of(p, record.NewBook(c.entries))
			for _, b := range where.Problem.Lived.Batches {
				if b.Litres == 8000 {
					got = append(got, b.ID+" "+b.Stages[0].Start.In(time.UTC).Format("2 15:04"))
				}
			}
			if text := strings.Join(got, ", "); text != c.want {
				t.Errorf("got %q, want %q", text, c.want)
			}
		})
	}
	for from, want := range map[resources.Moment]int{day(9, 6, 0): 1, day(8+120, 6, 0): 0} {
		p := dairy(from)
		p.Earlier = nil
		if got := len(follows.Of(p, record.NewBook([]record.Entry{made})).Problem.Lived.Batches); got != want {
			t.Errorf("without a plan before, planned from %d: got %d batches, want %d", from, got, want)
		}
	}
}
