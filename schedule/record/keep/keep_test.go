package keep_test

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
	"ripeby/schedule/record/keep"
)

const (
	h = resources.Hour
	d = resources.Day
)

// day is a moment of a day of March 2027, in UTC.
func day(n, hour, min int) resources.Moment {
	return resources.MomentOf(time.Date(2027, time.March, n, hour, min, 0, 0, time.UTC))
}

// dairy is a kitchen with one cheese and its plan before, made on the 8th at 6:00: a batch made on
// the 8th, drained and packed on the 9th, 10 pieces, 6 for the stall of the 13th; and one to be
// made on the 15th.
func dairy(from resources.Moment) *schedule.Problem {
	hands := func(min resources.Minutes) *schedule.Hands {
		return &schedule.Hands{Fixed: resources.Rate(1000 * min)}
	}
	p := &schedule.Problem{From: from, Recipes: []schedule.Recipe{{Name: "Dew", Code: "D", Milk: "cow", Spare: 1,
		Yield: schedule.Yield{Pieces: 2, From: 1000}, Batch: schedule.BatchSize{Least: 5000, Most: 10000, Step: 1000, Serves: 1}, Keeps: 6 * d,
		Stages: []schedule.Stage{
			{Name: "make", Hands: hands(60), Hold: &schedule.Hold{Least: 20 * h, Most: 30 * h}},
			{Name: "drain", Hands: hands(30), Hold: &schedule.Hold{Least: 5 * h, Most: 15 * h}},
			{Name: "pack", Hands: hands(20)},
		}}}}
	p.Kitchen = resources.Kitchen{Name: "Dairy", TimeZone: "UTC", Zone: time.UTC, Step: 5,
		People: []resources.Person{{Name: "Nell", MostPerDay: resources.NoLimit, Hours: []resources.Hours{{Days: resources.Daily, Until: 1440}}}},
		Milk:   []resources.Milk{{Name: "cow", Days: resources.Daily, Ready: 7 * 60, Most: resources.NoLimit, Keeps: 2 * d}}}
	batch := func(id string, first int, shares ...schedule.Share) schedule.Batch {
		task := func(stage string, start resources.Moment, work resources.Minutes) schedule.Task {
			return schedule.Task{Stage: stage, Start: start, Work: work, Who: "Nell", At: "room", Ends: start.Add(work)}
		}
		return schedule.Batch{ID: id, Cheese: "Dew", Litres: 5000, Pieces: 10, Spare: 1, For: shares, Milk: &schedule.Draw{Supply: "cow", Collect: day(first, 7, 0)},
			Stages: []schedule.Task{task("make", day(first, 8, 0), 60), task("drain", day(first+1, 8, 0), 30), task("pack", day(first+1, 19, 0), 20)}}
	}
	p.Earlier = &schedule.Plan{From: day(8, 6, 0), Batches: []schedule.Batch{
		batch("D-270308-1", 8, schedule.Share{Target: "Stall 2027-03-13", By: day(13, 7, 0), Pieces: 6}),
		batch("D-270315-1", 15, schedule.Share{Target: "Stall 2027-03-20", By: day(20, 7, 0), Pieces: 6}),
	}, LastNumber: []schedule.NumberUsed{{Day: "D-270308", Last: 1}, {Day: "D-270315", Last: 1}}}
	return p
}

// next is the plan after: what lives of the plan before goes on as it stands there.
func next(where *follows.Position) *schedule.Plan {
	p := where.Problem
	out := &schedule.Plan{From: p.From}
	for _, b := range p.Went().Batches {
		b.Stages = slices.Clone(b.Stages)
		over := true
		for i := range b.Stages {
			b.Stages[i].Begun = b.Stages[i].Start < p.From
			over = over && b.Stages[i].Begun
		}
		b.Begun = b.Stages[0].Begun
		b.For = slices.DeleteFunc(slices.Clone(b.For), func(s schedule.Share) bool { return s.By < p.From })
		if !over || len(b.For) > 0 {
			out.Batches = append(out.Batches, b)
		}
	}
	for _, w := range p.Begun { // of begun.yaml alone
		b := *p.Earlier.Batch(w.ID)
		b.Begun, b.Stages = true, slices.Clone(b.Stages)
		for i, s := range w.Stages {
			b.Stages[i].Start, b.Stages[i].Begun = s.Start, true
		}
		out.Batches = append(out.Batches, b)
	}
	return out
}

// kept is a kitchen folder's record/batches while it is planned.
type kept map[string]*schedule.KeptBatch

// plan keeps what is to be kept of the next plan, and gives that plan.
func (k kept) plan(p *schedule.Problem, entries ...record.Entry) *schedule.Plan {
	where := follows.Of(p, record.NewBook(entries))
	plan := next(where)
	now := keep.Batches(where, plan, func(id string) *schedule.KeptBatch { return k[id] })
	for i := range now.Batches {
		k[now.Batches[i].ID] = &now.Batches[i]
	}
	for _, id := range now.Never {
		delete(k, id)
	}
	return plan
}

// words is what is kept of a batch, in short.
func (k kept) words(id string) string {
	b := k[id]
	if b == nil {
		return "nothing"
	}
	var out []string
	for _, s := range b.Stages {
		text := s.Stage + " "
		switch {
		case !s.Begun:
			text += "to come"
		case s.Assumed():
			text += "assumed"
		default:
			text += s.Said
		}
		text += " " + s.Start.In(time.UTC).Format("2 15:04")
		if s.Planned != 0 && s.Planned != s.Start {
			text += " not " + s.Planned.In(time.UTC).Format("2 15:04")
		}
		out = append(out, text)
	}
	for _, s := range b.For {
		text := fmt.Sprintf("%d for %s", s.Pieces, s.Target)
		if s.Gone {
			text += fmt.Sprintf(": %d left", s.Left)
		}
		if s.Assumed {
			text += " assumed"
		}
		out = append(out, text)
	}
	if b.Lost {
		out = append(out, "lost")
	}
	return strings.Join(out, ", ")
}

func of(at resources.Moment, facts record.BatchFacts) record.Entry {
	return record.Entry{At: at, Subject: record.Subject{Kind: record.OfBatch, Name: "D-270308-1"}, Batch: facts}
}

func TestWhatIsKept(t *testing.T) {
	took := record.Entry{At: day(13, 9, 0), Subject: record.Subject{Kind: record.OfTarget, Name: "Stall", Day: resources.Date{Year: 2027, Month: 3, Day: 13}, Cheese: "Dew"},
		Target: record.TargetFacts{Took: record.Say(4)}}
	for _, c := range []struct {
		name    string
		from    resources.Moment
		entries []record.Entry
		change  func(*schedule.Problem)
		want    string
	}{
		{"not begun", day(8, 7, 0), nil, nil, "nothing"},
		{"begun without a word", day(8, 12, 0), nil, nil, "make assumed 8 08:00, drain to come 9 08:00, pack to come 9 19:00, 6 for Stall 2027-03-13"},
		{"the make was said", day(8, 12, 0), []record.Entry{of(day(8, 10, 0), record.BatchFacts{Did: "make"})}, nil,
			"make record 8 09:00 not 8 08:00, drain to come 9 08:00, pack to come 9 19:00, 6 for Stall 2027-03-13"},
		{"over between two plans", day(14, 6, 0), nil, nil, "make assumed 8 08:00, drain assumed 9 08:00, pack assumed 9 19:00, 6 for Stall 2027-03-13: 6 left assumed"},
		{"over, and what left was said", day(14, 6, 0), []record.Entry{took}, nil, "make assumed 8 08:00, drain assumed 9 08:00, pack assumed 9 19:00, 6 for Stall 2027-03-13: 4 left"},
		{"silence that waits", day(14, 6, 0), []record.Entry{of(day(8, 9, 0), record.BatchFacts{Did: "make"})}, func(p *schedule.Problem) { p.Kitchen.UnsaidWaits = true },
			"make record 8 08:00, drain to come 14 06:00 not 14 06:00, pack to come 14 06:00, 6 for Stall 2027-03-13: 0 left assumed"},
		{"lost", day(9, 12, 0), []record.Entry{of(day(8, 9, 0), record.BatchFacts{Did: "make"}), of(day(8, 20, 0), record.BatchFacts{Lost: true})}, nil, "make record 8 08:00, lost"},
		{"lost, by begun.yaml", day(9, 12, 0), nil, func(p *schedule.Problem) { p.Lost = []string{"D-270308-1"} }, "make assumed 8 08:00, drain assumed 9 08:00, lost"},
		{"begun.yaml says so", day(8, 12, 0), nil, func(p *schedule.Problem) {
			p.Begun = []schedule.Begun{{ID: "D-270308-1", Cheese: "Dew", Litres: 5000, Pieces: -1, Stages: []schedule.BegunStage{{Stage: "make", Start: day(8, 7, 30)}}}}
		}, "make begun.yaml 8 07:30 not 8 08:00, drain to come 9 08:00, pack to come 9 19:00, 6 for Stall 2027-03-13"},
		{"the recipe is gone", day(9, 12, 0), nil, func(p *schedule.Problem) { p.Recipes = nil }, "make assumed 8 08:00, drain assumed 9 08:00, pack to come 9 19:00, 6 for Stall 2027-03-13"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := dairy(c.from)
			if c.change != nil {
				c.change(p)
			}
			k := kept{}
			k.plan(p, c.entries...)
			got := k.words("D-270308-1")
			if want := strings.ReplaceAll(c.want, " not 14 06:00", ""); got != want {
				t.Errorf("got  %s\nwant %s", got, want)
			}
			if k["D-270315-1"] != nil {
				t.Errorf("kept of a batch that has not begun: %s", k.words("D-270315-1"))
			}
		})
	}
}

// TestKeptFromPlanToPlan: what a plan no longer knows stays as it was kept, and to keep the same
// plan twice changes nothing.
func TestKeptFromPlanToPlan(t *testing.T) {
	k := kept{}
	entries := []record.Entry{of(day(8, 10, 0), record.BatchFacts{Did: "make"})}
	was := k.plan(dairy(day(8, 12, 0)), entries...)
	first := k["D-270308-1"]

	p := dairy(day(14, 6, 0))
	p.Earlier = was
	p.Recipes[0].Yield.Pieces, p.Recipes[0].Stages[0].Hold.Most = 3, 40*h // for batches to come
	k.plan(p, entries...)
	if got, want := k.words("D-270308-1"), "make record 8 09:00 not 8 08:00, drain assumed 9 08:00, pack assumed 9 19:00, 6 for Stall 2027-03-13: 6 left assumed"; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	b := k["D-270308-1"]
	if !reflect.DeepEqual(b.Recipe, first.Recipe) || b.Pieces != 10 {
		t.Errorf("got %+v and %d pieces, want the recipe as it was, and 10", b.Recipe, b.Pieces)
	}
	again := dairy(day(14, 6, 0))
	again.Earlier = was
	k.plan(again, entries...)
	if !reflect.DeepEqual(k["D-270308-1"], b) {
		t.Errorf("kept twice, got\n%+v\nwant\n%+v", k["D-270308-1"], b)
	}
	// Over: in no plan any more, and left as it is.
	b = k["D-270308-1"]
	last := dairy(day(20, 12, 0))
	last.Earlier.Batches = last.Earlier.Batches[1:]
	k.plan(last, entries...)
	if k["D-270308-1"] != b {
		t.Errorf("it was kept anew: %s", k.words("D-270308-1"))
	}
	if got := k.words("D-270315-1"); !strings.HasPrefix(got, "make assumed") {
		t.Errorf("the other: got %s", got)
	}
}

// TestWhatWentInIsKept: with the stage, of a batch that was over between two plans too.
func TestWhatWentInIsKept(t *testing.T) {
	want := []schedule.Dose{{What: "rennet", Amount: 180_000, Rounded: 180_000, Unit: "mL", Lot: "R-55"}}
	for _, from := range []resources.Moment{day(8, 12, 0), day(14, 6, 0)} {
		p := dairy(from)
		p.Earlier.Batches[0].Stages[0].Needs = want
		k := kept{}
		k.plan(p)
		if got := k["D-270308-1"].Stages[0].Needs; !reflect.DeepEqual(got, want) {
			t.Errorf("from %d: got %v, want %v", from, got, want)
		}
	}
}

// TestAssumedThenNeverBegun: what was assumed to have begun, and has not, is not kept.
// TestWhatWentInIsKeptThoughNoPlanHasIt: a plan that has no recipe of the batch any more says nothing of what
// goes in; what was kept of work that has begun stays, and of work to come there is nothing.
func TestWhatWentInIsKeptThoughNoPlanHasIt(t *testing.T) {
	k := kept{}
	p := dairy(day(9, 9, 0))
	for i := range p.Earlier.Batches[0].Stages {
		p.Earlier.Batches[0].Stages[i].Needs = []schedule.Dose{{What: "rennet", Amount: 1, Unit: "mL", Lot: "R-55"}}
	}
	was := k.plan(p)
	again := dairy(day(9, 10, 0))
	again.Earlier = was
	for i := range was.Batches[0].Stages {
		was.Batches[0].Stages[i].Needs = nil
	}
	k.plan(again)
	for i, n := range []int{1, 1, 0} { // the packing is to come
		if got := k["D-270308-1"].Stages[i].Needs; len(got) != n || n > 0 && got[0].Lot != "R-55" {
			t.Errorf("stage %d: got %v", i, got)
		}
	}
}

func TestAssumedThenNeverBegun(t *testing.T) {
	k := kept{}
	was := k.plan(dairy(day(8, 12, 0)))
	p := dairy(day(8, 12, 0))
	p.Earlier, p.From = was, day(8, 14, 0)
	none := record.Entry{At: day(8, 13, 0), Subject: record.Subject{Kind: record.OfMilk, Name: "cow", Day: resources.Date{Year: 2027, Month: 3, Day: 8}}, Milk: record.MilkFacts{Came: record.Say(resources.Millilitres(0))}}
	where := follows.Of(p, record.NewBook([]record.Entry{none}))
	plan := next(where)
	anew := dairy(0).Earlier.Batches[0]
	anew.Stages[0].Start = day(10, 8, 0)
	plan.Batches = append(plan.Batches, anew)
	never := keep.Batches(where, plan, func(id string) *schedule.KeptBatch { return k[id] }).Never
	if !slices.Equal(never, []string{"D-270308-1"}) {
		t.Errorf("got %v, want the batch whose milk did not come", never)
	}
}

// TestMadeOffThePlan: the line that says so is kept with it.
func TestMadeOffThePlan(t *testing.T) {
	k := kept{}
	k.plan(dairy(day(8, 13, 0)), record.Entry{Nr: 7, At: day(8, 12, 0), Subject: record.Subject{Kind: record.OfCheese, Name: "Dew"},
		Batch: record.BatchFacts{Did: "make", Litres: record.Say(resources.Millilitres(8000))}})
	b := k["D-270308-2"]
	if b == nil || b.OffPlan == nil || b.OffPlan.Nr != 7 || b.Lot != "D-270308-2" || b.Pieces != 16 || slices.Contains(b.Assumed, "litres") {
		t.Errorf("got %+v", b)
	}
}

// TestStruckOffThePlan: where the line that said that a batch was made is struck, nothing is kept of
// it; where it is corrected, it is the same batch.
func TestStruckOffThePlan(t *testing.T) {
	made := record.Entry{Nr: 7, At: day(8, 12, 0), Subject: record.Subject{Kind: record.OfCheese, Name: "Dew"},
		Batch: record.BatchFacts{Did: "make", Litres: record.Say(resources.Millilitres(8000))}}
	k := kept{}
	was := k.plan(dairy(day(8, 13, 0)), made)
	was.OffPlan = []schedule.MadeOffPlan{{ID: "D-270308-2", Cheese: "Dew", Nr: 7, At: made.At}}
	again := func(e record.Entry) *schedule.KeptBatch {
		p := dairy(day(8, 15, 0))
		p.Earlier = was
		k.plan(p, made, e)
		return k["D-270308-2"]
	}
	right := made
	right.Nr, right.Strikes, right.At = 8, []int{7}, day(8, 11, 0)
	if b := again(right); b == nil || b.OffPlan.Nr != 8 || b.Stages[0].Start != day(8, 10, 0) {
		t.Errorf("corrected: got %+v", b)
	}
	if b := again(record.Entry{Nr: 8, At: day(8, 14, 0), Strikes: []int{7}}); b != nil {
		t.Errorf("struck: got %+v", b)
	}
}

// TestNumbersThatBeginAnew: what was made stays, though a plan that left the earlier one out of
// account has given its number to another batch.
func TestNumbersThatBeginAnew(t *testing.T) {
	k := kept{}
	k.plan(dairy(day(14, 6, 0)))
	first := k["D-270308-1"]
	p := dairy(day(20, 6, 0))
	p.Earlier = nil
	p.Begun = []schedule.Begun{{ID: "D-270308-1", Cheese: "Dew", Litres: 5000, Pieces: -1, Stages: []schedule.BegunStage{{Stage: "make", Start: day(19, 7, 30)}}}}
	where := follows.Of(p, record.NewBook(nil))
	plan := &schedule.Plan{From: p.From, Batches: []schedule.Batch{{ID: "D-270308-1", Cheese: "Dew", Begun: true, Stages: []schedule.Task{{Stage: "make", Begun: true, Start: day(19, 7, 30)}}}}}
	now := keep.Batches(where, plan, func(id string) *schedule.KeptBatch { return first })
	if len(now.Batches) != 0 || !slices.Equal(now.Taken, []string{"D-270308-1"}) {
		t.Errorf("got %d kept, taken %v", len(now.Batches), now.Taken)
	}
}

// A carry is kept as it is planned, and stays when it has happened; one that has not, and is planned
// anew, is kept once.
func TestCarriesAreKept(t *testing.T) {
	carry := func(at resources.Moment) []schedule.Carry {
		return []schedule.Carry{{Batch: "D-270308-1", Stage: "make", Stock: -1, Start: at, Minutes: 5, Who: "Nell", From: "fridge", To: "cave"},
			{Stock: 0, Start: at, Who: "Nell", From: "fridge", To: "cave"}}
	}
	for _, c := range []struct {
		name    string
		carried resources.Moment // by what the next plan says
		again   []schedule.Carry
		want    []resources.Moment
	}{
		{"it has happened", day(8, 12, 0), nil, []resources.Moment{day(8, 12, 0)}},
		{"once more, elsewhere", day(8, 12, 0), carry(day(8, 20, 0)), []resources.Moment{day(8, 12, 0), day(8, 20, 0)}},
		{"it has not", 0, carry(day(8, 20, 0)), []resources.Moment{day(8, 20, 0)}},
		{"it is not to be any more", 0, nil, nil},
	} {
		where := follows.Of(dairy(day(8, 11, 0)), record.NewBook(nil))
		plan := next(where)
		plan.Carries = carry(day(8, 12, 0))
		first := keep.Batches(where, plan, func(string) *schedule.KeptBatch { return nil }).Batches[0]
		where = follows.Of(dairy(day(8, 18, 0)), record.NewBook(nil))
		plan = next(where)
		plan.Batches[0].Stages[0].Carried, plan.Carries = c.carried, c.again
		var got []resources.Moment
		for _, k := range keep.Batches(where, plan, func(string) *schedule.KeptBatch { return &first }).Batches[0].Carries {
			got = append(got, k.Start)
		}
		if len(first.Carries) != 1 || first.Carries[0].Start != day(8, 12, 0) || !slices.Equal(got, c.want) {
			t.Errorf("%s: got %v, then %v, want %v", c.name, first.Carries, got, c.want)
		}
	}
}
