package learn

import (
	"fmt"
	"reflect"
	"strings"
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
	"ripeby/schedule/record/trace"
	"ripeby/schedule/settime"
)

const hour = resources.Hour

// at is a moment of March 2027, in UTC.
func at(day, clock, min int) resources.Moment {
	return resources.MomentOf(time.Date(2027, time.March, day, clock, min, 0, 0, time.UTC))
}

// dairy is a kitchen whose room is warmer from the 20th on, and its cheese: made, then set, ready after 20 h at
// 20 °C, drained in 30 min and packed.
func dairy() (*resources.Kitchen, *schedule.Recipe) {
	hands := func(min resources.Minutes) *schedule.Hands {
		return &schedule.Hands{Fixed: resources.Rate(1000 * min)}
	}
	k := &resources.Kitchen{Name: "Dairy", TimeZone: "UTC", Zone: time.UTC, Step: 5, Room: 20_000,
		Rooms: []resources.RoomFrom{{From: resources.Date{Year: 2027, Month: 3, Day: 1}, Is: 20_000}, {From: resources.Date{Year: 2027, Month: 3, Day: 20}, Is: 24_000}}}
	r := &schedule.Recipe{Name: "Dew", Yield: schedule.Yield{Pieces: 2, From: 1000}, Stages: []schedule.Stage{
		{Name: "make", Hands: hands(60)},
		{Name: "set", Hold: &schedule.Hold{Least: 10 * hour, Most: 40 * hour, Ready: 20 * hour, GoesBy: schedule.GoesBy{Temperature: 20_000, Times: 1000}}},
		{Name: "drain", Hands: hands(30), Hold: &schedule.Hold{Most: 20 * hour}},
		{Name: "pack", Hands: hands(20)},
	}}
	return k, r
}

// batch is what was kept of a batch made on a day at 8:00: its planned moments are those of a maker who comes
// back after 24 h.
func batch(id string, day int) schedule.KeptBatch {
	return schedule.KeptBatch{ID: id, Cheese: "Dew", Litres: 5000, Pieces: 10, Stages: []schedule.KeptStage{
		{Stage: "make", Begun: true, Start: at(day, 8, 0), Work: 60},
		{Stage: "set", Begun: true, Start: at(day, 9, 0)},
		{Stage: "drain", Begun: true, Start: at(day+1, 9, 0), Work: 30},
		{Stage: "pack", Begun: true, Start: at(day+1, 20, 0), Work: 20},
	}}
}

// say is an entry about a batch, made of facts in words: "did make", "not_yet drain", "pieces 14".
func say(nr int, id string, m resources.Moment, words ...string) record.Entry {
	e := record.Entry{Nr: nr, At: m, Subject: record.Subject{Kind: record.OfBatch, Name: id}}
	for _, w := range words {
		what, is, _ := strings.Cut(w, " ")
		n := 0
		fmt.Sscan(is, &n)
		switch what {
		case "did":
			e.Batch.Did = is
		case "began":
			e.Batch.Began = is
		case "not_yet":
			e.Batch.NotYet = is
		case "pieces":
			e.Batch.Pieces = record.Said[int]{Value: n, Given: true}
		case "gone":
			e.Batch.Gone = record.Said[int]{Value: n, Given: true}
		case "litres":
			e.Batch.Litres = record.Said[resources.Millilitres]{Value: resources.Millilitres(1000 * n), Given: true}
		case "grams":
			e.Batch.Weight = record.Said[resources.Milligrams]{Value: resources.Milligrams(1000 * n), Given: true}
		case "lost":
			e.Batch.Lost = true
		case "strikes":
			e.Strikes, e.Subject = []int{n}, record.Subject{}
		}
	}
	return e
}

// learned is what is learned of one batch, made on a day, by what was said of it; changed may change what was kept.
func learned(day int, changed func(*schedule.KeptBatch), said ...record.Entry) Cheese {
	k, r := dairy()
	b := batch("D-1", day)
	if changed != nil {
		changed(&b)
	}
	known := trace.New([]schedule.KeptBatch{b}, record.NewBook(said), time.UTC)
	return Of(k, r, known.Made())
}

// A look lies between the last "not yet" and when the next work began; planned moments are never taken for it.
//
//	make ── set ────────×──────────────× drain
//	8   9           10          +1 d  2:00   6:00
func TestLooksAreWhatWasSaid(t *testing.T) {
	id := "D-1"
	cases := []struct {
		name   string
		day    int
		change func(*schedule.KeptBatch)
		said   []record.Entry
		want   []Look
		passed string
	}{
		{"nothing said: the plan has a drain after 24 h", 1, nil, nil, nil, ""},
		{"only the make", 1, nil, []record.Entry{say(1, id, at(1, 9, 0), "did make")}, nil, ""},
		{"between two looks", 1, nil, []record.Entry{say(1, id, at(1, 9, 5), "did make"), say(2, id, at(2, 0, 5), "not_yet drain"), say(3, id, at(2, 3, 5), "not_yet drain"), say(4, id, at(2, 7, 5), "began drain")},
			[]Look{{id, 18 * hour, 22 * hour, 20_000}}, ""},
		{"nobody looked before; done, less its work", 1, nil, []record.Entry{say(1, id, at(1, 9, 0), "did make"), say(2, id, at(2, 9, 30), "did drain")}, []Look{{id, 0, 24 * hour, 20_000}}, ""},
		{"not ready yet", 20, nil, []record.Entry{say(1, id, at(20, 9, 0), "did make"), say(2, id, at(21, 1, 0), "not_yet drain")}, []Look{{id, 16 * hour, 0, 24_000}}, ""},
		{"the make was begun, and takes its 60 min", 1, nil, []record.Entry{say(1, id, at(1, 8, 10), "began make"), say(2, id, at(2, 9, 10), "began drain")}, []Look{{id, 0, 24 * hour, 20_000}}, ""},
		{"drained at once after a look, which its work would not leave", 1, nil, []record.Entry{say(1, id, at(1, 9, 0), "did make"), say(2, id, at(2, 5, 0), "not_yet drain"), say(3, id, at(2, 5, 20), "did drain")},
			[]Look{{id, 20 * hour, 20*hour + 20, 20_000}}, ""},
		{"nobody said when it was made, and the plan is no word for it", 1, nil, []record.Entry{say(1, id, at(2, 5, 0), "not_yet drain"), say(2, id, at(2, 9, 0), "began drain")}, nil, "nobody said when its hold began"},
		{"begun.yaml says when it was made", 1, func(b *schedule.KeptBatch) { b.Stages[0].Said = schedule.SaidByBegun }, []record.Entry{say(2, id, at(2, 9, 0), "began drain")}, []Look{{id, 0, 24 * hour, 20_000}}, ""},
		{"a struck look", 1, nil, []record.Entry{say(1, id, at(1, 9, 0), "did make"), say(2, id, at(2, 5, 0), "not_yet drain"), say(3, id, at(2, 9, 0), "began drain"), say(4, id, at(2, 9, 1), "strikes 2")}, []Look{{id, 0, 24 * hour, 20_000}}, ""},
		{"a look before it was made counts for nothing", 1, nil, []record.Entry{say(1, id, at(1, 9, 0), "did make"), say(2, id, at(1, 8, 0), "not_yet drain"), say(3, id, at(2, 9, 0), "began drain")}, []Look{{id, 0, 24 * hour, 20_000}}, ""},
		{"not ready after it was drained", 1, nil, []record.Entry{say(1, id, at(1, 9, 0), "did make"), say(2, id, at(2, 9, 0), "began drain"), say(3, id, at(2, 10, 0), "not_yet drain")}, nil, "it was said not to be ready after drain was begun or done"},
		{"drained before it was made", 1, nil, []record.Entry{say(1, id, at(1, 9, 0), "did make"), say(2, id, at(1, 8, 30), "began drain")}, nil, "drain was begun before the hold did"},
		{"lost", 1, nil, []record.Entry{say(1, id, at(1, 9, 0), "did make"), say(2, id, at(2, 9, 0), "not_yet drain"), say(3, id, at(3, 9, 0), "lost")}, nil, "it was lost"},
		{"of another recipe", 1, func(b *schedule.KeptBatch) { b.Stages[1].Stage = "rest" }, []record.Entry{say(1, id, at(1, 9, 0), "did make"), say(2, id, at(2, 9, 0), "began drain")}, nil, "its stages are not those of the recipe"},
		{"of another cheese", 1, func(b *schedule.KeptBatch) { b.Cheese = "Other" }, []record.Entry{say(1, id, at(1, 9, 0), "did make"), say(2, id, at(2, 9, 0), "began drain")}, nil, ""},
		{"in a clock that was changed 24 h are 24 h", 27, nil, []record.Entry{say(1, id, at(27, 9, 0), "did make"), say(2, id, at(28, 9, 0), "began drain")}, []Look{{id, 0, 24 * hour, 24_000}}, ""},
	}
	for _, c := range cases {
		got := learned(c.day, c.change, c.said...).Holds[0]
		passed := ""
		for _, p := range got.Passed {
			passed += p.Why
		}
		if !reflect.DeepEqual(got.Looks, c.want) || passed != c.passed {
			t.Errorf("%s:\n got %v, passed over %q\nwant %v, passed over %q", c.name, got.Looks, passed, c.want, c.passed)
		}
	}
}

// Where the rule does not hold nothing is told: a cold or hot room, a cold place, a room by date for a recipe that
// does not say for which, under three looks, and what nobody would believe.
func TestNoFactorIsSaidWithItsReason(t *testing.T) {
	k, r := dairy()
	var kept []schedule.KeptBatch
	var said []record.Entry
	for i := range 5 {
		id := fmt.Sprint("D-", i)
		kept = append(kept, batch(id, 2*i+1))
		said = append(said, say(0, id, at(2*i+1, 9, 0), "did make"), say(0, id, at(2*i+2, 3, 0), "not_yet drain"), say(0, id, at(2*i+2, 9, 0), "began drain"))
	}
	hold := func(looks int, change func(*resources.Kitchen, *schedule.Stage)) Hold {
		kitchen, recipe := *k, *r
		recipe.Stages = append([]schedule.Stage(nil), r.Stages...)
		h := *r.Stages[1].Hold
		recipe.Stages[1].Hold = &h
		if change != nil {
			change(&kitchen, &recipe.Stages[1])
		}
		known := trace.New(kept[:looks], record.NewBook(said[:3*looks]), time.UTC)
		return Of(&kitchen, &recipe, known.Made()).Holds[0]
	}
	if h := hold(3, nil); h.Times == 0 || h.Why != "" || len(h.Looks) != 3 {
		t.Errorf("of three looks: got %+v", h)
	}
	for _, c := range []struct {
		name   string
		looks  int
		change func(*resources.Kitchen, *schedule.Stage)
		want   string
	}{
		{"two looks", 2, nil, "it takes at least 3 looks; known so far: 2"},
		{"a cold room", 5, func(k *resources.Kitchen, _ *schedule.Stage) { k.Rooms[0].Is = 14_999 }, "it takes at least 3 looks; known so far: 0"},
		{"a cold place", 5, func(_ *resources.Kitchen, s *schedule.Stage) {
			s.At.Kind, s.Hold.GoesBy = schedule.AtPlace, schedule.GoesBy{}
		}, "it is in a cold place"},
		{"a room by date", 5, func(_ *resources.Kitchen, s *schedule.Stage) { s.Hold.GoesBy = schedule.GoesBy{} }, "write goes_by: {temperature: 21 °C} beside ready"},
		{"a hot room, always", 5, func(k *resources.Kitchen, s *schedule.Stage) {
			k.Room, k.Rooms, s.Hold.GoesBy = 30_001, nil, schedule.GoesBy{}
		}, "the rule holds from 15 to 30 °C"},
		{"a factor of 3", 5, func(_ *resources.Kitchen, s *schedule.Stage) { s.Hold.Ready, s.Hold.Varies = 7*hour, 50 }, "believed from 0.5 to 2.5 only"},
		{"a factor of a third", 5, func(_ *resources.Kitchen, s *schedule.Stage) { s.Hold.Ready, s.Hold.Varies = 66*hour, 50 }, "believed from 0.5 to 2.5 only"},
	} {
		k, r = dairy()
		if h := hold(c.looks, c.change); h.Times != 0 || h.Low != 0 || !strings.Contains(h.Why, c.want) {
			t.Errorf("%s: got %+v, want none because %s", c.name, h, c.want)
		}
	}
	k, r = dairy()
	k.Rooms = nil
	h := hold(5, func(_ *resources.Kitchen, s *schedule.Stage) { s.Hold.GoesBy = schedule.GoesBy{} })
	if h.Times == 0 || h.At != 20_000 || h.GoesBy {
		t.Errorf("of a recipe that names no room: got %+v, want the kitchen's own", h)
	}
	if narrow := hold(5, func(_ *resources.Kitchen, s *schedule.Stage) { s.Hold.Varies = 50 }); narrow.High-narrow.Low >= h.High-h.Low {
		t.Errorf("batches that vary little tell no more: %d to %d, and usually %d to %d", narrow.Low, narrow.High, h.Low, h.High)
	}
}

// The room on the day on which a hold begins is what counts: what takes 20 h at 20 °C takes 12 h 32 min at 24 °C.
func TestARoomByDateIsToldApart(t *testing.T) {
	near(t, "at 24", 20*settime.Scale(20_000, 24_000), 20*(15.2/19.2)*(15.2/19.2), 1e-12)
	h := learned(20, nil, say(1, "D-1", at(20, 9, 0), "did make"), say(2, "D-1", at(20, 21, 0), "not_yet drain"), say(3, "D-1", at(20, 22, 0), "began drain")).Holds[0]
	w := h.waits()
	near(t, "12 h at 24 °C", w[0].Over, 12/12.535, 1e-3)
	near(t, "13 h at 24 °C", w[0].Under, 13/12.535, 1e-3)
}
