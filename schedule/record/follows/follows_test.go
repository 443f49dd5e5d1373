package follows_test

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
	"ripeby/schedule/record/follows"
)

const (
	h = resources.Hour
	d = resources.Day
)

// day is a moment of a day of March 2027, in UTC.
func day(n, hour, min int) resources.Moment {
	return resources.MomentOf(time.Date(2027, time.March, n, hour, min, 0, 0, time.UTC))
}

// dairy is a kitchen with one cheese, and its plan before: a make on the 8th, drained on the
// 9th, pressed on the 9th, packed on the 10th; 10 pieces, 6 for the stall of the 13th. Another
// is to be made on the 15th.
func dairy(from resources.Moment) *schedule.Problem {
	hold := func(least, most resources.Minutes) *schedule.Hold { return &schedule.Hold{Least: least, Most: most} }
	hands := func(min resources.Minutes) *schedule.Hands {
		return &schedule.Hands{Fixed: resources.Rate(1000 * min)}
	}
	p := &schedule.Problem{From: from, Recipes: []schedule.Recipe{{Name: "Dew", Code: "D", Milk: "cow", Spare: 1,
		Yield: schedule.Yield{Pieces: 2, From: 1000}, Batch: schedule.BatchSize{Least: 5000, Most: 10000, Step: 1000, Serves: 1}, Keeps: 6 * d,
		Stages: []schedule.Stage{
			{Name: "make", Hands: hands(60), Hold: hold(20*h, 30*h)},
			{Name: "drain", Hands: hands(30)},
			{Name: "press", Hands: hands(15), Hold: hold(9*h, 15*h)},
			{Name: "pack", Hands: hands(20)},
		}}}}
	p.Kitchen = resources.Kitchen{Name: "Dairy", TimeZone: "UTC", Zone: time.UTC, Step: 5,
		People: []resources.Person{{Name: "Nell", MostPerDay: resources.NoLimit, Hours: []resources.Hours{{Days: resources.Daily, Until: 1440}}}, {Name: "Finn"}},
		Milk:   []resources.Milk{{Name: "cow", Days: resources.Daily, Ready: 7 * 60, Most: resources.NoLimit, Keeps: 2 * d}},
		Cold:   []resources.ColdPlace{{Name: "fridge", Shelves: []resources.Shelf{{Name: "top"}, {Name: "low"}}}}}
	batch := func(id string, first int, shares ...schedule.Share) schedule.Batch {
		task := func(stage string, start resources.Moment, work resources.Minutes) schedule.Task {
			return schedule.Task{Stage: stage, Start: start, Work: work, Who: "Nell", At: "room"}
		}
		return schedule.Batch{ID: id, Cheese: "Dew", Litres: 5000, Pieces: 10, Spare: 1, For: shares, Milk: &schedule.Draw{Supply: "cow", Collect: day(first, 7, 0)},
			Stages: []schedule.Task{task("make", day(first, 8, 0), 60), task("drain", day(first+1, 8, 0), 30), task("press", day(first+1, 8, 30), 15), task("pack", day(first+1, 19, 0), 20)}}
	}
	p.Earlier = &schedule.Plan{From: day(8, 6, 0), Batches: []schedule.Batch{
		batch("D-270308-1", 8, schedule.Share{Target: "Stall 2027-03-13", By: day(13, 7, 0), Pieces: 6}),
		batch("D-270315-1", 15, schedule.Share{Target: "Stall 2027-03-20", By: day(20, 7, 0), Pieces: 6}),
	}, LastNumber: []schedule.NumberUsed{{Day: "D-270308", Last: 1}, {Day: "D-270315", Last: 1}}}
	return p
}

// of is an entry about the first batch.
func of(at resources.Moment, facts record.BatchFacts) record.Entry {
	return record.Entry{At: at, File: "record/2027-03.yaml", Line: 1, Subject: record.Subject{Kind: record.OfBatch, Name: "D-270308-1"}, Batch: facts}
}

// told is how far a batch has come, in words.
func told(p *schedule.Problem, id string) string {
	b := p.Went().Batch(id)
	if b == nil {
		return "not begun"
	}
	var out []string
	for _, t := range b.Stages {
		if t.Start < p.From {
			out = append(out, fmt.Sprintf("%s %s %d %s", t.Stage, t.Start.In(time.UTC).Format("2 15:04"), t.Work, t.Who))
		}
	}
	if len(out) == 0 {
		return "not begun"
	}
	return strings.Join(out, ", ")
}

func TestStartsFromWhatWasSaid(t *testing.T) {
	all := "make 8 08:00 60 Nell, drain 9 08:00 30 Nell, press 9 08:30 15 Nell, pack 9 19:00 20 Nell"
	cases := []struct {
		name    string
		from    resources.Moment
		entries []record.Entry
		want    string
		warned  string
	}{
		{"nothing of it", day(10, 6, 0), []record.Entry{{At: day(8, 9, 0), Note: "cold"}}, all, ""},
		{"began and did give the real minutes", day(10, 6, 0), []record.Entry{of(day(9, 9, 10), record.BatchFacts{Began: "drain"}), of(day(9, 9, 58), record.BatchFacts{Did: "drain"})},
			"make 8 08:00 60 Nell, drain 9 09:10 48 Nell, press 9 09:58 15 Nell", ""},
		{"did alone: less its work", day(9, 12, 0), []record.Entry{of(day(9, 9, 10), record.BatchFacts{Did: "drain"})},
			"make 8 08:00 60 Nell, drain 9 08:40 30 Nell, press 9 09:10 15 Nell", ""},
		{"began in the very minute of the planning start", day(8, 7, 0), []record.Entry{of(day(8, 7, 0), record.BatchFacts{Began: "make"})}, "make 8 06:59 60 Nell", ""},
		{"did alone: not before the end of what was said", day(8, 12, 0), []record.Entry{of(day(8, 10, 0), record.BatchFacts{Began: "make"}), of(day(8, 10, 40), record.BatchFacts{Did: "make"})},
			"make 8 10:00 40 Nell", ""},
		{"two dids close together", day(9, 12, 0), []record.Entry{of(day(9, 8, 40), record.BatchFacts{Did: "drain"}), of(day(9, 8, 50), record.BatchFacts{Did: "press"})},
			"make 8 08:00 60 Nell, drain 9 08:10 30 Nell, press 9 08:40 10 Nell", ""},
		{"by somebody else", day(9, 12, 0), []record.Entry{func() record.Entry {
			e := of(day(9, 8, 30), record.BatchFacts{Did: "drain"})
			e.Who = "Finn"
			return e
		}()}, "make 8 08:00 60 Nell, drain 9 08:00 30 Finn, press 9 08:30 15 Nell", ""},
		{"earlier than the plan has what is before", day(9, 7, 0), []record.Entry{of(day(9, 5, 0), record.BatchFacts{Did: "press"})},
			"make 8 08:00 60 Nell, drain 9 04:15 30 Nell, press 9 04:45 15 Nell", "unsaid-before"},
		{"a hold that would be too short has not ended", day(10, 6, 0), []record.Entry{of(day(9, 12, 0), record.BatchFacts{Did: "press"})},
			"make 8 08:00 60 Nell, drain 9 08:00 30 Nell, press 9 11:45 15 Nell", ""},
		{"not yet", day(9, 9, 0), []record.Entry{of(day(9, 7, 50), record.BatchFacts{NotYet: "drain", Look: record.Say(3 * h)})}, "make 8 08:00 60 Nell", "look"},
		{"not yet, and then the look is over", day(9, 12, 0), []record.Entry{of(day(9, 5, 0), record.BatchFacts{NotYet: "drain", Look: record.Say(2 * h)})},
			"make 8 08:00 60 Nell, drain 9 08:00 30 Nell, press 9 08:30 15 Nell", ""},
		{"in the wrong order", day(9, 12, 0), []record.Entry{of(day(9, 9, 0), record.BatchFacts{Did: "press"}), of(day(9, 10, 0), record.BatchFacts{Began: "drain"})},
			"make 8 08:00 60 Nell, drain 9 10:00 0 , press 9 10:00 0 ", "said-order"},
		{"said twice: the first written", day(8, 12, 0), []record.Entry{of(day(8, 9, 30), record.BatchFacts{Did: "make"}), of(day(8, 9, 0), record.BatchFacts{Did: "make"})}, "make 8 08:30 60 Nell", "said-twice"},
		{"struck", day(8, 12, 0), []record.Entry{func() record.Entry { e := of(day(8, 9, 30), record.BatchFacts{Did: "make"}); e.Nr = 1; return e }(), {Nr: 2, At: day(8, 10, 0), Strikes: []int{1}}}, "make 8 08:00 60 Nell", ""},
		{"of later than now", day(8, 7, 0), []record.Entry{of(day(8, 9, 30), record.BatchFacts{Did: "make"})}, "not begun", "record-later"},
		{"lost", day(9, 12, 0), []record.Entry{of(day(9, 9, 0), record.BatchFacts{Lost: true})}, "not begun", ""},
		{"its person was away", day(9, 12, 0), []record.Entry{{At: day(9, 6, 0), Subject: record.Subject{Kind: record.OfPerson, Name: "Nell"}, Person: record.PersonFacts{Away: record.Say(record.Stretch{From: day(9, 6, 0)})}}},
			"make 8 08:00 60 Nell", "work-while-away"},
		{"its person came back in time", day(9, 12, 0), []record.Entry{
			{At: day(9, 6, 0), Subject: record.Subject{Kind: record.OfPerson, Name: "Nell"}, Person: record.PersonFacts{Away: record.Say(record.Stretch{From: day(9, 6, 0)})}},
			{At: day(9, 8, 0), Subject: record.Subject{Kind: record.OfPerson, Name: "Nell"}, Person: record.PersonFacts{Here: true}}},
			"make 8 08:00 60 Nell, drain 9 08:00 30 Nell, press 9 08:30 15 Nell", ""},
		{"its milk did not come", day(9, 12, 0), []record.Entry{{At: day(8, 7, 30), Subject: record.Subject{Kind: record.OfMilk, Name: "cow", Day: resources.Date{Year: 2027, Month: 3, Day: 8}}, Milk: record.MilkFacts{Came: record.Say(resources.Millilitres(4000))}}},
			"not begun", "make-without-milk"},
		{"its milk came", day(8, 12, 0), []record.Entry{{At: day(8, 7, 30), Subject: record.Subject{Kind: record.OfMilk, Name: "cow", Day: resources.Date{Year: 2027, Month: 3, Day: 8}}, Milk: record.MilkFacts{Came: record.Say(resources.Millilitres(5000))}}},
			"make 8 08:00 60 Nell", ""},
		{"a make that was said had its milk", day(8, 12, 0), []record.Entry{of(day(8, 9, 0), record.BatchFacts{Did: "make"}),
			{At: day(8, 7, 30), Subject: record.Subject{Kind: record.OfMilk, Name: "cow", Day: resources.Date{Year: 2027, Month: 3, Day: 8}}, Milk: record.MilkFacts{Came: record.Say(resources.Millilitres(0))}}},
			"make 8 08:00 60 Nell", ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			before := dairy(c.from)
			got := follows.Of(before, record.NewBook(c.entries))
			if words := told(got.Problem, "D-270308-1"); words != c.want {
				t.Errorf("got  %s\nwant %s", words, c.want)
			}
			for _, w := range got.Problem.Warnings {
				if w.Code != "to-answer" && !strings.Contains(c.warned, w.Code) {
					t.Errorf("got a warning %s: %s", w.Code, w.Text)
				}
			}
			if c.warned != "" && len(got.Problem.Warnings) == 0 {
				t.Errorf("got no warning, want %s", c.warned)
			}
			if !reflect.DeepEqual(before, dairy(c.from)) {
				t.Error("the problem given was changed")
			}
		})
	}
}

func TestSilenceThatWaits(t *testing.T) {
	p := dairy(day(9, 12, 0))
	p.Kitchen.UnsaidWaits = true
	got := follows.Of(p, record.NewBook([]record.Entry{of(day(8, 9, 0), record.BatchFacts{Did: "make"})}))
	if words, want := told(got.Problem, "D-270308-1"), "make 8 08:00 60 Nell"; words != want {
		t.Errorf("got %s, want %s", words, want)
	}
	overdue := func(want string) {
		t.Helper()
		var found []string
		for _, u := range got.Unanswered {
			found = append(found, fmt.Sprintf("%s of %s, %s, waits %v", u.Stage, u.Batch, u.Start.In(time.UTC).Format("2 15:04"), u.Waits))
		}
		warned := slices.ContainsFunc(got.Problem.Warnings, func(w schedule.Warning) bool { return w.Code == "overdue" })
		if text := strings.Join(found, "; "); text != want || warned != (want != "") {
			t.Errorf("got %q overdue, warned of %v, want %q", text, warned, want)
		}
	}
	overdue("drain of D-270308-1, 9 08:00, waits true")
	got = follows.Of(p, record.NewBook(nil))
	if words, want := told(got.Problem, "D-270308-1"), "not begun"; words != want {
		t.Errorf("with nothing said: got %s, want %s", words, want)
	}
	overdue("make of D-270308-1, 8 08:00, waits true")
	got = follows.Of(p, record.NewBook([]record.Entry{of(day(8, 9, 0), record.BatchFacts{Did: "make"}), of(day(9, 11, 0), record.BatchFacts{NotYet: "drain"})}))
	overdue("")
	p.Earlier.Batches[0].Stages[1].Start, p.Earlier.Batches[0].Stages[1].Overdue = day(9, 13, 0), day(9, 7, 0)
	got = follows.Of(p, record.NewBook([]record.Entry{of(day(8, 9, 0), record.BatchFacts{Did: "make"})}))
	overdue("drain of D-270308-1, 9 07:00, waits true") // still
}

// TestLooks: after "not yet" the hold lasts until somebody can look again.
func TestLooks(t *testing.T) {
	weekday := func(from, until resources.Clock) []resources.Hours {
		return []resources.Hours{{Days: resources.Daily, From: from, Until: until}}
	}
	notYet := of(day(9, 7, 52), record.BatchFacts{NotYet: "drain", Look: record.Say(3 * h)})
	for _, c := range []struct {
		name        string
		nell, finn  []resources.Hours
		round       *resources.Round
		entries     []record.Entry
		look        string // "" for none
		least, most resources.Minutes
	}{
		{"in somebody's hours", weekday(0, 1440), nil, nil, []record.Entry{notYet}, "Nell 9 10:55", 25*h + 55, 35*h + 55},
		{"when somebody comes", weekday(17*60, 21*60), nil, nil, []record.Entry{notYet}, "Nell 9 17:00", 32 * h, 42 * h},
		{"the first who is there", weekday(17*60, 21*60), weekday(12*60, 13*60), nil, []record.Entry{notYet}, "Finn 9 12:00", 27 * h, 37 * h},
		{"not in the round", weekday(9*60, 21*60), nil, &resources.Round{At: 10*60 + 50, For: 30}, []record.Entry{notYet}, "Nell 9 11:20", 26*h + 20, 36*h + 20},
		{"the last one said", weekday(0, 1440), nil, nil, []record.Entry{notYet, of(day(9, 8, 30), record.BatchFacts{NotYet: "drain"})}, "Nell 9 10:30", 25*h + 30, 35*h + 30},
		{"over by now, and never said", weekday(0, 1440), nil, nil, []record.Entry{of(day(9, 5, 0), record.BatchFacts{NotYet: "drain", Look: record.Say(h)})}, "", 21 * h, 31 * h},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := dairy(day(9, 9, 0))
			p.Earlier.Batches[0].Stages[1].Start = day(9, 9, 30) // drained later by the plan
			p.Kitchen.People[0].Hours, p.Kitchen.People[1].Hours, p.Kitchen.Round = c.nell, c.finn, c.round
			got := follows.Of(p, record.NewBook(c.entries)).Problem
			if len(got.Held) != 1 || got.Held[0].Stage != 0 || got.Held[0].Hold.Least != c.least || got.Held[0].Hold.Most != c.most {
				t.Errorf("got %+v, want a hold from %d to %d", got.Held, c.least, c.most)
			}
			look := ""
			for _, l := range got.Looks {
				look += fmt.Sprintf("%s %s", l.Who, l.Start.In(time.UTC).Format("2 15:04"))
			}
			if look != c.look {
				t.Errorf("got a look %q, want %q", look, c.look)
			}
			if r := got.RecipeOf("D-270308-1", "Dew"); r.Stages[0].Hold.Least != c.least || got.Recipe("Dew").Stages[0].Hold.Least != 20*h {
				t.Errorf("got %+v of the batch, %+v of the cheese", r.Stages[0].Hold, got.Recipe("Dew").Stages[0].Hold)
			}
		})
	}
}

// Where the recipe says when a hold is ready, what is left of it comes from that: half of those that are not set after
// 20 h, of a median of 22 h 40 min and scattering by 16.4 %, are ready after 23.7 h. What somebody said goes before.
func TestLooksGoByTheSetTime(t *testing.T) {
	for _, c := range []struct {
		name string
		room resources.MilliCelsius
		said record.BatchFacts
		look string
	}{
		{"by the rule", 21_000, record.BatchFacts{NotYet: "drain"}, "9 08:45"},
		{"after so long as was said", 21_000, record.BatchFacts{NotYet: "drain", Look: record.Say(h)}, "9 06:00"},
		{"in a room without a rule", 14_000, record.BatchFacts{NotYet: "drain"}, "9 07:00"},
	} {
		p := dairy(day(9, 5, 30))
		p.Kitchen.Room = c.room
		p.Recipes[0].Stages[0].Hold = &schedule.Hold{Least: 10 * h, Most: 30 * h, Ready: 20 * h, Varies: 164, GoesBy: schedule.GoesBy{Temperature: 21_000, Times: 1133}}
		p.Kitchen.People[0].Hours = []resources.Hours{{Days: resources.Daily, Until: 1440}}
		got := follows.Of(p, record.NewBook([]record.Entry{of(day(8, 9, 0), record.BatchFacts{Did: "make"}), of(day(9, 5, 0), c.said)})).Problem
		if len(got.Looks) != 1 || got.Looks[0].Start.In(time.UTC).Format("2 15:04") != c.look {
			t.Errorf("%s: got looks %+v, want one at %s", c.name, got.Looks, c.look)
		}
	}
}

// On a coarse grid too a look goes by the limits that the recipe writes, not by those on the grid, of
// which the most may lie before the best.
func TestLooksGoByWhatIsWritten(t *testing.T) {
	p := dairy(day(9, 9, 0))
	p.Kitchen.Step = 60
	p.Recipes[0].Stages[0].Hold = &schedule.Hold{Least: 20 * h, Best: 23*h + 43, Most: 23*h + 56, HasBest: true}
	p.Kitchen.People[0].Hours = []resources.Hours{{Days: resources.Daily, Until: 1440}}
	p.Earlier.Batches[0].Stages[1].Start = day(9, 9, 30)
	got := follows.Of(p, record.NewBook([]record.Entry{of(day(9, 7, 52), record.BatchFacts{NotYet: "drain", Look: record.Say(h)})})).Problem
	if len(got.Held) != 1 || got.Held[0].Hold.Most != got.Held[0].Hold.Best+13 || got.Held[0].Hold.Best != got.Held[0].Hold.Least {
		t.Errorf("got %+v, want as much give after the look as after the best: 13 min", got.Held)
	}
}

func TestWhatIsToBeAnswered(t *testing.T) {
	got := follows.Of(dairy(day(9, 12, 0)), record.NewBook([]record.Entry{of(day(8, 9, 0), record.BatchFacts{Did: "make"})}))
	var words []string
	for _, u := range got.Unanswered {
		words = append(words, u.Batch+" "+u.Stage)
	}
	if got, want := strings.Join(words, ", "), "D-270308-1 drain, D-270308-1 press"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

func TestCountsOfPieces(t *testing.T) {
	stall := record.Subject{Kind: record.OfTarget, Name: "Stall", Day: resources.Date{Year: 2027, Month: 3, Day: 13}, Cheese: "Dew"}
	took := func(n int, lots ...record.FromLot) record.Entry {
		return record.Entry{At: day(13, 7, 0), Subject: stall, Target: record.TargetFacts{Took: record.Say(n), Of: lots}}
	}
	cases := []struct {
		name    string
		entries []record.Entry
		want    string
	}{
		{"as planned", []record.Entry{{At: day(9, 0, 0), Note: "x"}}, "10 less 6"},
		{"fewer were taken", []record.Entry{took(4)}, "10 less 4"},
		{"more were taken", []record.Entry{took(8)}, "10 less 8"},
		{"by their lot", []record.Entry{took(5, record.FromLot{Lot: "D-270308-1", Pieces: 5})}, "10 less 5"},
		{"counted before it was packed", []record.Entry{of(day(9, 19, 30), record.BatchFacts{Pieces: record.Say(8)})}, "8 less 6"},
		{"counted after some had left", []record.Entry{of(day(13, 9, 0), record.BatchFacts{Pieces: record.Say(3)})}, "3 less 0"},
		{"not packed when the stall left", []record.Entry{of(day(9, 18, 0), record.BatchFacts{NotYet: "pack", Look: record.Say(5 * d)})}, "10 less 0"},
		{"some broke", []record.Entry{of(day(10, 9, 0), record.BatchFacts{Gone: record.Say(2)})}, "8 less 6"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			b := follows.Of(dairy(day(14, 6, 0)), record.NewBook(c.entries)).Problem.Lived.Batch("D-270308-1")
			if got := fmt.Sprintf("%d less %d", b.Pieces, b.Gone); got != c.want {
				t.Errorf("got %s, want %s", got, c.want)
			}
			if len(b.For) != 0 {
				t.Errorf("got shares still to come: %v", b.For)
			}
		})
	}
}

// TestOffThePlan: a batch that no plan had gets the next free number of its day, once, and is the
// same batch when the plan before has since carried it on.
func TestOffThePlan(t *testing.T) {
	made := record.Entry{At: day(8, 12, 0), Subject: record.Subject{Kind: record.OfCheese, Name: "Dew"}, Batch: record.BatchFacts{Did: "make", Litres: record.Say(resources.Millilitres(8000))}}
	p := dairy(day(8, 13, 0))
	got := follows.Of(p, record.NewBook([]record.Entry{made}))
	b := got.Problem.Lived.Batch("D-270308-2")
	if b == nil || b.Litres != 8000 || b.Pieces != 16 || b.Stages[0].Start != day(8, 11, 0) {
		t.Fatalf("got %+v, want 8 L begun at 11:00", b)
	}
	next := dairy(day(9, 12, 0))
	carried := *b
	carried.Begun = true
	next.Earlier.Batches = append(next.Earlier.Batches, carried)
	next.Earlier.LastNumber[0].Last, next.Earlier.OffPlan = 2, got.Problem.OffPlan
	n := 0
	for _, b := range follows.Of(next, record.NewBook([]record.Entry{made})).Problem.Lived.Batches {
		if b.Stages[0].Start == day(8, 11, 0) {
			n++
		}
	}
	if n != 1 {
		t.Errorf("got %d batches of that make, want 1", n)
	}
}

// TestBegunYamlAndTheRecord: begun.yaml is the last word on a batch as of its moment, but for what
// the record says of a stage; after that silence is as planned.
func TestBegunYamlAndTheRecord(t *testing.T) {
	drained := of(day(9, 8, 40), record.BatchFacts{Did: "drain"})
	asWritten := "make 8 07:30 60 Nell"
	for _, c := range []struct {
		name    string
		asOf    resources.Moment // 0: not written
		known   resources.Moment // as of when the plan before knew the entry; 0 for not
		entries []record.Entry
		want    string // "" for as begun.yaml says
		pieces  int
	}{
		{"new", 0, 0, nil, "", 9},
		{"new, and the record speaks of a stage", 0, 0, []record.Entry{drained}, "make 8 07:30 60 Nell, drain 9 08:10 30 Nell", 9},
		{"as of the evening", day(8, 20, 0), 0, nil, "make 8 07:30 60 Nell, drain 9 08:00 30 Nell, press 9 08:30 15 Nell", 9},
		{"as of the evening, and the record speaks", day(8, 20, 0), 0, []record.Entry{drained}, "make 8 07:30 60 Nell, drain 9 08:10 30 Nell, press 9 08:40 15 Nell", 9},
		{"as of between", day(9, 8, 10), 0, nil, asWritten, 9},
		{"known to the plan before", 0, day(8, 8, 0), nil, "make 8 07:30 60 Nell, drain 9 08:00 30 Nell, press 9 08:30 15 Nell", 9},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := dairy(day(9, 12, 0))
			p.Begun = []schedule.Begun{{ID: "D-270308-1", Cheese: "Dew", Litres: 5000, Pieces: 9, Stages: []schedule.BegunStage{{Stage: "make", Start: day(8, 7, 30)}}}}
			if c.asOf != 0 {
				p.AsOf = &c.asOf
			}
			if c.known != 0 {
				p.Earlier.BegunAsOf = []schedule.BegunAsOf{{ID: "D-270308-1", AsOf: c.known, Entry: p.Begun[0].InShort()}}
			}
			got := follows.Of(p, record.NewBook(c.entries)).Problem
			if c.want == "" {
				if len(got.Begun) != 1 {
					t.Errorf("got %d entries of begun.yaml, want 1", len(got.Begun))
				}
				return
			}
			if words := told(got, "D-270308-1"); words != c.want {
				t.Errorf("got  %s\nwant %s", words, c.want)
			}
			if b := got.Lived.Batch("D-270308-1"); b.Pieces != c.pieces || len(got.Begun) != 0 {
				t.Errorf("got %d pieces and %d entries of begun.yaml, want %d and none", b.Pieces, len(got.Begun), c.pieces)
			}
		})
	}
}

// TestStockLeft: what the plan before gave away of an entry of stock since it was written is no
// longer there, plan after plan.
func TestStockLeft(t *testing.T) {
	entry := schedule.Stock{Cheese: "Dew", Pieces: 10, Packed: day(7, 12, 0), At: "fridge"}
	plan := func(from resources.Moment, pieces int, shares ...schedule.Share) *schedule.Plan {
		e := dairy(from).Earlier
		e.From = from
		e.BegunAsOf = []schedule.BegunAsOf{{ID: schedule.StockEntry, AsOf: day(8, 6, 0), Entry: entry.InShort()}}
		if pieces > 0 {
			e.Stock = []schedule.StockUse{{Cheese: "Dew", Pieces: pieces, Packed: entry.Packed, At: "fridge", For: shares}}
		}
		return e
	}
	for _, c := range []struct {
		name    string
		earlier *schedule.Plan
		want    int
	}{
		{"some left", plan(day(8, 6, 0), 10, schedule.Share{By: day(9, 7, 0), Pieces: 4}, schedule.Share{By: day(13, 7, 0), Pieces: 6}), 6},
		{"less the plan after", plan(day(9, 8, 0), 6, schedule.Share{By: day(9, 11, 0), Pieces: 1}), 5},
		{"all gone", plan(day(8, 6, 0), 10, schedule.Share{By: day(9, 7, 0), Pieces: 10}), 0},
		{"all gone long ago", plan(day(9, 8, 0), 0), 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := dairy(day(9, 12, 0))
			p.Earlier, p.Stock = c.earlier, []schedule.Stock{entry}
			got, left := follows.Of(p, record.NewBook(nil)).Problem, 0
			for _, s := range got.Stock {
				left += s.Pieces
			}
			if left != c.want {
				t.Errorf("got %d pieces, want %d", left, c.want)
			}
			if len(got.BegunAsOf) != 1 || got.BegunAsOf[0].AsOf != day(8, 6, 0) {
				t.Errorf("got %v, want it as of the 8th", got.BegunAsOf)
			}
			p.Stock[0].Pieces = 9 // written anew
			if got := follows.Of(p, record.NewBook(nil)).Problem; len(got.Stock) != 1 || got.Stock[0].Pieces != 9 {
				t.Errorf("written anew: got %v, want 9 pieces", got.Stock)
			}
		})
	}
}

// TestLots: the lot is the id where the make was on the day that the id names, else the next free
// number of its day; it is given when the make is said, or at packing, and stays.
func TestLots(t *testing.T) {
	did := func(at resources.Moment) record.Entry { return of(at, record.BatchFacts{Did: "make"}) }
	for _, c := range []struct {
		name    string
		from    resources.Moment
		entries []record.Entry
		before  func(*schedule.Plan)
		want    string
	}{
		{"nobody spoke of it", day(8, 12, 0), []record.Entry{{At: day(8, 9, 0), Note: "x"}}, nil, ""},
		{"packed without a word", day(10, 6, 0), []record.Entry{{At: day(8, 9, 0), Note: "x"}}, nil, "D-270308-1"},
		{"packed, and nothing was ever said", day(10, 6, 0), nil, nil, "D-270308-1"},
		{"made on its day", day(8, 12, 0), []record.Entry{did(day(8, 9, 0))}, nil, "D-270308-1"},
		{"made a day late", day(9, 12, 0), []record.Entry{did(day(9, 9, 0))}, nil, "D-270309-1"},
		{"made a day late, on which there were others", day(9, 12, 0), []record.Entry{did(day(9, 9, 0))},
			func(e *schedule.Plan) {
				e.LastNumber = append(e.LastNumber, schedule.NumberUsed{Day: "D-270309", Last: 2})
			}, "D-270309-3"},
		{"it is spoken of by its lot", day(9, 12, 0), []record.Entry{{At: day(9, 9, 0), Subject: record.Subject{Kind: record.OfBatch, Name: "D-270307-1"}, Batch: record.BatchFacts{Lost: true}}},
			func(e *schedule.Plan) { e.Batches[0].Lot = "D-270307-1" }, "lost"},
		{"it stays", day(9, 12, 0), []record.Entry{did(day(8, 9, 0))}, func(e *schedule.Plan) { e.Batches[0].Lot = "D-270307-1" }, "D-270307-1"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := dairy(c.from)
			if c.before != nil {
				c.before(p.Earlier)
			}
			got := follows.Of(p, record.NewBook(c.entries)).Problem.Lived
			if b := got.Batch("D-270308-1"); b == nil && c.want == "lost" {
				return
			} else if b == nil || b.Lot != c.want {
				t.Errorf("got %+v, want lot %q", b, c.want)
			}
		})
	}
}

func TestClosedAndAway(t *testing.T) {
	place := func(at resources.Moment, shelf string, facts record.PlaceFacts) record.Entry {
		return record.Entry{At: at, Subject: record.Subject{Kind: record.OfPlace, Name: "fridge", Shelf: shelf}, Place: facts}
	}
	got := follows.Of(dairy(day(9, 12, 0)), record.NewBook([]record.Entry{
		place(day(8, 9, 0), "", record.PlaceFacts{Closed: record.Say(record.Stretch{From: day(8, 9, 0), Until: record.Say(day(9, 9, 0))})}),
		place(day(9, 8, 0), "top", record.PlaceFacts{Closed: record.Say(record.Stretch{From: day(9, 8, 0)})}),
		place(day(9, 10, 0), "top", record.PlaceFacts{Open: true}),
		place(day(9, 11, 0), "low", record.PlaceFacts{Closed: record.Say(record.Stretch{From: day(9, 11, 0)})}),
		place(day(8, 20, 0), "low", record.PlaceFacts{Closed: record.Say(record.Stretch{From: day(8, 20, 0), Until: record.Say(day(11, 0, 0))})}),
		place(day(9, 7, 0), "low", record.PlaceFacts{Open: true}), // sooner than was said
	})).Problem.Kitchen.Cold[0]
	if want := []resources.Span{{From: day(8, 9, 0), Until: day(9, 9, 0)}}; !reflect.DeepEqual(got.Taken, want) {
		t.Errorf("place: got %v, want %v", got.Taken, want)
	}
	if want := []resources.Span{{From: day(9, 8, 0), Until: day(9, 10, 0)}}; !reflect.DeepEqual(got.Shelves[0].Taken, want) {
		t.Errorf("top: got %v, want %v", got.Shelves[0].Taken, want)
	}
	if low := got.Shelves[1].Taken; len(low) != 2 || low[0] != (resources.Span{From: day(8, 20, 0), Until: day(9, 7, 0)}) || low[1].From != day(9, 11, 0) || low[1].Until < day(31, 0, 0) {
		t.Errorf("low: got %v, want from the 8th, 20:00, until it was open, and from 11:00 on", low)
	}
}
