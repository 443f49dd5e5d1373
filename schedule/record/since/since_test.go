package since_test

import (
	"slices"
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
	"ripeby/schedule/record/since"
)

// day is a moment of a day of March 2027, in UTC.
func day(n, hour int) resources.Moment {
	return resources.MomentOf(time.Date(2027, time.March, n, hour, 0, 0, 0, time.UTC))
}

// stall is a target that wants so many pieces.
func stall(name string, by resources.Moment, pieces int) schedule.Target {
	return schedule.Target{Name: name, By: by, Packed: 600, Wants: []schedule.Want{{Cheese: "Dew", Pieces: pieces, Price: 100}}}
}

// dairy is a kitchen with a batch made on the 8th, planned again on the 9th at 12, and its book.
func dairy(entries ...record.Entry) (*schedule.Problem, *record.Book) {
	p := &schedule.Problem{From: day(8, 6), Recipes: []schedule.Recipe{{Name: "Dew", Code: "D", Keeps: 6 * resources.Day,
		Yield: schedule.Yield{Pieces: 2, From: 1000}, Batch: schedule.BatchSize{Least: 5000, Most: 10000, Step: 1000, Serves: 1},
		Stages: []schedule.Stage{{Name: "make", Hands: &schedule.Hands{Fixed: 60_000}, Hold: &schedule.Hold{Least: 20 * resources.Hour, Most: 40 * resources.Hour}},
			{Name: "pack", Hands: &schedule.Hands{Fixed: 20_000}}}}}}
	p.Kitchen = resources.Kitchen{Name: "Dairy", TimeZone: "UTC", Zone: time.UTC, Step: 5, Settled: 2 * resources.Day,
		People: []resources.Person{{Name: "Nell", MostPerDay: resources.NoLimit, Hours: []resources.Hours{{Days: resources.Daily, Until: 1440}}}}}
	p.Targets = []schedule.Target{stall("Stall", day(13, 7), 6), stall("Market", day(14, 7), 4)}
	book := record.NewBook(entries)
	known, _ := book.Until(p.From)
	made := since.MadeOf(p, known)
	earlier := &schedule.Plan{From: p.From, MadeOf: made, Batches: []schedule.Batch{{ID: "D-270308-1", Cheese: "Dew", Litres: 5000, Pieces: 10,
		Stages: []schedule.Task{{Stage: "make", Start: day(8, 8), Work: 60, Who: "Nell", At: "room"}, {Stage: "pack", Start: day(10, 8), Work: 20, Who: "Nell", At: "room"}}}}}
	for _, t := range p.Targets {
		earlier.Targets = append(earlier.Targets, schedule.WantResult{Target: t.Name, By: t.By, Cheese: "Dew", Price: 100, Wanted: t.Wants[0].Pieces})
	}
	p.From, p.Earlier = day(9, 12), earlier
	return p, book
}

// told are the names of what is otherwise; an entry's is its number or its note.
func told(p *schedule.Problem, b *record.Book) (names []string, list []since.Difference) {
	list, _ = since.Of(p, b)
	for _, d := range list {
		switch {
		case d.Entry != nil && d.Entry.Nr > 0:
			names = append(names, "entry "+string(rune('0'+d.Entry.Nr)))
		case d.Entry != nil:
			names = append(names, "a line by hand")
		default:
			names = append(names, d.Text)
		}
	}
	return names, list
}

// of is an entry about the batch.
func of(nr int, at resources.Moment, facts record.BatchFacts) record.Entry {
	return record.Entry{Nr: nr, At: at, Subject: record.Subject{Kind: record.OfBatch, Name: "D-270308-1"}, Batch: facts}
}

// What is otherwise is told, each thing once, and nothing that is not.
func TestWhatIsOtherwiseIsTold(t *testing.T) {
	lost := record.BatchFacts{Lost: true}
	for name, c := range map[string]struct {
		entries []record.Entry
		change  func(p *schedule.Problem)
		want    []string
	}{
		"nothing":                {},
		"known to the plan":      {entries: []record.Entry{of(1, day(7, 8), lost), of(0, day(7, 9), record.BatchFacts{Weight: record.Say(resources.Milligrams(1))})}},
		"lost":                   {entries: []record.Entry{of(1, day(9, 8), lost)}, want: []string{"entry 1"}},
		"of later":               {entries: []record.Entry{of(1, day(9, 13), lost)}},
		"a note means nothing":   {entries: []record.Entry{{Nr: 1, At: day(9, 8), Note: "fine"}, of(2, day(9, 9), record.BatchFacts{Pieces: record.Say(4)})}, want: []string{"entry 2"}},
		"struck again":           {entries: []record.Entry{of(1, day(9, 8), lost), {Nr: 2, At: day(9, 9), Strikes: []int{1}}}},
		"what was known, struck": {entries: []record.Entry{of(1, day(7, 8), lost), {Nr: 2, At: day(9, 9), Strikes: []int{1}}}, want: []string{"entry 2"}},
		"by hand":                {entries: []record.Entry{of(0, day(9, 8), lost)}, want: []string{"a line by hand"}},
		"pieces wanted":          {change: func(p *schedule.Problem) { p.Targets[0].Wants = stall("", 0, 9).Wants }, want: []string{"the target Stall (changed)"}},
		"packed sooner":          {change: func(p *schedule.Problem) { p.Targets[0].Packed += 60 }, want: []string{"the target Stall (changed)"}},
		"new":                    {change: func(p *schedule.Problem) { p.Targets = append(p.Targets, stall("Tea", day(15, 7), 2)) }, want: []string{"the target Tea (new)"}},
		"dropped":                {change: func(p *schedule.Problem) { p.Targets = p.Targets[:1] }, want: []string{"the target Market (dropped)"}},
		"another time":           {change: func(p *schedule.Problem) { p.Targets[1].By += 60 }, want: []string{"the target Market (at another time)"}},
		"somebody's hours":       {change: func(p *schedule.Problem) { p.Kitchen.People[0].MostPerDay = 60 }, want: []string{"Nell in kitchen.yaml (changed)"}},
		"somebody new": {change: func(p *schedule.Problem) {
			p.Kitchen.People = append(p.Kitchen.People, resources.Person{Name: "Finn"})
		}, want: []string{"Finn in kitchen.yaml (new)"}},
		"the recipe":     {change: func(p *schedule.Problem) { p.Recipes[0].Keeps++ }, want: []string{"the recipe of Dew (changed)"}},
		"begun.yaml":     {change: func(p *schedule.Problem) { p.Begun = []schedule.Begun{{ID: "D-270301-1", Cheese: "Dew"}} }, want: []string{"D-270301-1 in begun.yaml (new)"}},
		"no made_of yet": {entries: []record.Entry{of(1, day(9, 8), lost)}, change: func(p *schedule.Problem) { p.Earlier.MadeOf, p.Recipes[0].Keeps = nil, 1 }},
		"what was taken is wanted no more": {entries: []record.Entry{{Nr: 1, At: day(7, 9), Subject: record.Subject{Kind: record.OfTarget, Name: "Stall", Cheese: "Dew"},
			Target: record.TargetFacts{Took: record.Say(3)}}}, change: func(p *schedule.Problem) { p.Earlier.Targets[0].Wanted = 0 }},
	} {
		t.Run(name, func(t *testing.T) {
			p, book := dairy(c.entries...)
			if c.change != nil {
				c.change(p)
			}
			if got, _ := told(p, book); !slices.Equal(got, c.want) {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
}

// The problem without a difference is as it would be, with all else as it is.
func TestWithoutADifference(t *testing.T) {
	p, book := dairy(of(1, day(9, 8), record.BatchFacts{Lost: true}))
	p.Targets[1].By += 60
	p.Targets = append(p.Targets, stall("Tea", day(15, 7), 2))
	names, list := told(p, book)
	if want := []string{"the target Market (at another time)", "the target Tea (new)", "entry 1"}; !slices.Equal(names, want) {
		t.Fatalf("got %q, want %q", names, want)
	}
	if w := list[0].Without(); w.Targets[1].By != day(14, 7) || w.Targets[1].Packed != 600 || len(w.Targets) != 3 || len(w.Lost) != 1 {
		t.Errorf("without the other time: got %+v and %d lost", w.Targets, len(w.Lost))
	}
	if w := list[1].Without(); len(w.Targets) != 2 || len(w.Lost) != 1 {
		t.Errorf("without what is new: got %+v and %d lost", w.Targets, len(w.Lost))
	}
	if w := list[2].Without(); len(w.Targets) != 3 || len(w.Lost) != 0 {
		t.Errorf("without the entry: got %+v and %d lost", w.Targets, len(w.Lost))
	}
	if p.Targets[1].By != day(14, 7)+60 || len(p.Targets) != 3 || len(p.Lost) > 0 {
		t.Errorf("the problem itself has changed: %+v", p.Targets)
	}
}

// A target is put back only where it is remembered when it was packed.
func TestATargetIsPutBackAsItWas(t *testing.T) {
	p, book := dairy()
	p.Targets = p.Targets[:1]
	if _, list := told(p, book); len(list) != 1 || list[0].Without == nil || list[0].Without().Targets[1].Packed != 600 {
		t.Errorf("got %+v, want the market back, packed 10 h before", list)
	}
	p.Earlier.MadeOf = nil
	if _, list := told(p, book); len(list) != 1 || list[0].Without != nil {
		t.Errorf("got %+v, want no problem without it", list)
	}
}

// Of a plan that does not remember begun.yaml nobody knows what is new there.
func TestAPlanThatDoesNotRememberBegun(t *testing.T) {
	p, book := dairy()
	p.Begun = append(p.Begun, schedule.Begun{ID: "D-270301-9", Cheese: p.Recipes[0].Name})
	if names, _ := told(p, book); !slices.Contains(names, "D-270301-9 in begun.yaml (new)") {
		t.Errorf("got %q, want the entry", names)
	}
	p.Earlier.MadeOf, p.Earlier.BegunAsOf = nil, nil
	if names, _ := told(p, book); len(names) > 0 {
		t.Errorf("got %q, want nothing", names)
	}
}

// A target of a cheese that there is no more is named, and not put back.
func TestATargetOfNoCheeseIsNotPutBack(t *testing.T) {
	p, book := dairy()
	gone := slices.IndexFunc(p.Earlier.Targets, func(w schedule.WantResult) bool { return w.Target == p.Targets[0].Name })
	p.Targets, p.Earlier.Targets[gone].Cheese = p.Targets[1:], "Mist"
	if names, list := told(p, book); len(list) != 1 || list[0].Without != nil {
		t.Errorf("got %q, want it without a problem", names)
	}
}

// Of very many new entries the last ones are looked at, and it is said that there are more.
func TestManyEntriesAreNotAllLookedAt(t *testing.T) {
	var entries []record.Entry
	for i := range 60 {
		entries = append(entries, of(i+1, day(9, 8), record.BatchFacts{Weight: record.Say(resources.Milligrams(i))}))
	}
	p, book := dairy(entries...)
	if list, more := since.Of(p, book); len(list) > 0 || !more {
		t.Errorf("got %v and %t, want none of what was looked at, and more", list, more)
	}
}
