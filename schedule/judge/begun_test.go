package judge

import (
	"slices"
	"strings"
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// followed gives the plan made again on Thursday 4 March at noon, with nothing
// changed: the first batch is in its chill, the milk of Friday has been ordered.
//
//	make | set | drain | mould | chill ──┬── rest | ripen | pack
//	                                   now
func followed(t *testing.T) *mutant {
	t.Helper()
	d, p, earlier := sound(t)
	_, _, plan := sound(t)
	p.From, plan.From, p.Earlier = d.at("03-04 12:00"), d.at("03-04 12:00"), earlier
	p.Ordered = []schedule.Ordered{{Milk: "Farm cow", Day: resources.Date{Year: 2027, Month: time.March, Day: 5}, Litres: 8_000}}
	plan.Batches[0].Begun = true
	for i := range 5 {
		plan.Batches[0].Stages[i].Begun = true
	}
	plan.Batches[0].MarkCritical()
	// Of the first batch only the holds still to come count, and those are at best.
	// Make starts: 1 d, 4 d 21 h after the planning start.
	plan.Score = schedule.Score{Batches: 2, Litres: 18_000, Bother: 200, MakeStarts: 1440 + 7020}
	plan.Proof = schedule.Proof{Best: true, Level: schedule.LevelAll, Bound: plan.Score}
	return &mutant{d, p, plan}
}

// told gives the same from begun.yaml, without an earlier plan.
func told(t *testing.T) *mutant {
	m := followed(t)
	m.p.Earlier = nil
	m.p.Begun = []schedule.Begun{{ID: "RH-270302-1", Cheese: "Reed hoop", Litres: 8_000, Pieces: -1, Stages: []schedule.BegunStage{
		{Stage: "make", Start: m.d("03-02 09:00")}, {Stage: "drain", Start: m.d("03-03 16:00")}, {Stage: "mould", Start: m.d("03-04 07:30")}}}}
	m.revise()
	return m
}

func TestPlanMadeAgainHolds(t *testing.T) {
	m := followed(t)
	expect(t, m.p, m.plan, "")
}

func TestBegunAsWrittenHolds(t *testing.T) {
	m := told(t)
	expect(t, m.p, m.plan, "")
}

// begunCase spoils a plan with a begun batch. With "first:" before the rules only
// what is told of the first batch counts: its recipe is the second batch's too.
type begunCase struct {
	name  string
	spoil func(m *mutant)
	want  string
}

func tellBegun(t *testing.T, from func(*testing.T) *mutant, table []begunCase) {
	t.Helper()
	for _, x := range table {
		t.Run(x.name, func(t *testing.T) {
			m := from(t)
			x.spoil(m)
			reseal(m.p, m.plan)
			told := Check(m.p, m.plan)
			rules, firstOnly := strings.CutPrefix(x.want, "first:")
			if firstOnly {
				told = slices.DeleteFunc(told, func(v Violation) bool { return v.Batch != "RH-270302-1" })
			}
			if got, want := rulesOf(told), strings.Fields(rules); !slices.Equal(got, want) {
				t.Errorf("got rules %q, want %q", got, want)
				for _, v := range told {
					t.Log(v)
				}
			}
		})
	}
}

func TestCarriedBatches(t *testing.T) {
	tellBegun(t, followed, []begunCase{
		{"another start", func(m *mutant) {
			s, u := m.task(0, "make"), &m.task(0, "make").Uses[0]
			s.Start, s.Ends, u.From = s.Start-5, s.Ends-5, u.From-5
			m.task(0, "set").Start -= 5
			m.task(0, "set").Hold += 5
			s.Sequence, s.Revised = 1, m.p.From
			m.task(0, "set").Sequence, m.task(0, "set").Revised = 1, m.p.From
		}, "begun-changed"},
		{"another person", func(m *mutant) { m.task(0, "mould").Who = "Tom" }, "begun-changed"},
		{"other litres", func(m *mutant) { m.batch(0).Litres = 9_000 }, "begun-changed"},
		{"other milk", func(m *mutant) { m.batch(0).Milk.Collect -= 4 * 1440 }, "begun-changed"},
		{"not called begun", func(m *mutant) { m.batch(0).Begun = false }, "begun-flag"},
		{"stage not called begun", func(m *mutant) { m.task(0, "chill").Begun = false }, "begun-flag"},
		{"stage called begun too soon", func(m *mutant) { m.task(0, "rest").Begun = true }, "begun-flag"},
		{"boxes moved", func(m *mutant) {
			m.task(0, "chill").BoxesAt = stack("middle", 0, 0, 40, 30, 2)
			m.task(0, "rest").BoxesAt = stack("middle", 0, 0, 40, 30, 2)
		}, "begun-boxes"},
		{"boxes moved off a shelf that became too small", func(m *mutant) {
			m.p.Kitchen.Cold[0].Shelves[0].Size.Width = cm(30)
			m.task(0, "chill").BoxesAt = stack("middle", 0, 0, 40, 30, 2)
			m.task(0, "rest").BoxesAt = stack("middle", 0, 0, 40, 30, 2)
			m.task(1, "chill").BoxesAt = stack("middle", 0, 0, 40, 30, 2)
		}, "box-layer box-place spot-over"}, // the second batch is still planned there
		{"nobody said that milk was ordered", func(m *mutant) { m.p.Ordered = nil }, ""}, // as planned
		{"milk that is said not to be ordered", func(m *mutant) { m.p.Ordered[0].Litres = 0 }, "milk-too-late"},
		{"less milk ordered than was planned", func(m *mutant) { m.p.Ordered[0].Litres = 7_999 }, "milk-over"},
		{"more milk than the plan before had ordered", func(m *mutant) {
			m.p.Ordered = nil
			m.p.Earlier.Batches[1].Litres = 7_000
		}, "milk-over"},
		{"milk that a lost batch drew", func(m *mutant) {
			m.p.Kitchen.Milk[0].Keeps = 4 * resources.Day
			m.p.Lost = []string{"RH-270302-1"}
			m.drop(0)
			m.batch(0).Milk.Collect = m.d("03-02 07:30")
		}, "milk-over"},
		{"milk that another came for", func(m *mutant) {
			m.p.Kitchen.Milk[0].Keeps, m.p.Came = 4*resources.Day, []schedule.Came{{Milk: "Farm cow", Day: resources.Date{Year: 2027, Month: time.March, Day: 2}, Litres: 16_000}}
			m.batch(1).Milk.Collect = m.d("03-02 07:30")
		}, ""},
		{"running hold too short", func(m *mutant) { m.recipeStage(0, "chill").Hold.Least = 24*hours + 1 }, "hold-short"},
		{"lost, so nothing is forgotten", func(m *mutant) { m.p.Lost = []string{"RH-270302-1"}; m.drop(0) }, ""},
		{"an id that has begun, used again", func(m *mutant) {
			m.p.Lost = []string{"RH-270302-1"}
			m.drop(0)
			m.batch(0).ID = "RH-270302-1"
			m.rename("RH-270305-1", "RH-270302-1")
			m.revise()
			for i := range m.batch(1).Stages { // the cave's batch is as it was
				m.batch(1).Stages[i].Revised = m.p.Earlier.From
			}
			for i := range m.batch(0).Stages {
				m.batch(0).Stages[i].Sequence = 1
			}
		}, "id-reused lost"},
	})
}

// drop takes a batch out of the plan, with its shares written off; the first one's
// rounds go too.
func (m *mutant) drop(batch int) {
	m.plan.Batches = slices.Delete(m.plan.Batches, batch, batch+1)
	m.short(0, 15)
	var kept []schedule.RoundBlock
	for _, r := range m.plan.Rounds {
		if r.Start >= m.d("03-09 00:00") {
			r.Care = slices.DeleteFunc(r.Care, func(c schedule.RoundCare) bool { return c.Batch == "RH-270302-1" })
			kept = append(kept, r)
		}
	}
	m.plan.Rounds = kept
}

// rename puts another id into the rounds.
func (m *mutant) rename(from, to string) {
	for i := range m.plan.Rounds {
		for k := range m.plan.Rounds[i].Care {
			if m.plan.Rounds[i].Care[k].Batch == from {
				m.plan.Rounds[i].Care[k].Batch = to
			}
		}
	}
}

func TestIDOfAnotherCheese(t *testing.T) {
	for _, x := range []struct {
		name   string
		change func(earlier *schedule.Plan)
		want   string
	}{
		{"an id of the earlier plan", func(e *schedule.Plan) {}, ""},
		{"an id that was another cheese", func(e *schedule.Plan) { e.Batches[2].Cheese = "Reed hoop" }, "id-reused"},
		{"a number given before", func(e *schedule.Plan) { e.Batches = e.Batches[:2] }, "id-reused"},
		{"a batch first planned for another day", func(e *schedule.Plan) {
			for i := range e.Batches[2].Stages {
				e.Batches[2].Stages[i].Start += 1440
			}
		}, "sequence"},
	} {
		t.Run(x.name, func(t *testing.T) {
			_, p, plan := sound(t)
			_, _, p.Earlier = sound(t)
			x.change(p.Earlier)
			reseal(p, plan)
			expect(t, p, plan, x.want)
		})
	}
}

func TestSequenceFollowsChanges(t *testing.T) {
	for _, x := range []struct {
		name     string
		change   func(old *schedule.Task)
		sequence int
		moved    bool
	}{
		{"nothing changed", func(*schedule.Task) {}, 3, false},
		{"start", func(o *schedule.Task) { o.Start -= 5 }, 4, true},
		{"end", func(o *schedule.Task) { o.Ends += 5 }, 4, true},
		{"place", func(o *schedule.Task) { o.At = "cellar" }, 4, true},
		{"person only", func(o *schedule.Task) { o.Who = "Nell" }, 3, false},
	} {
		t.Run(x.name, func(t *testing.T) {
			d, p, plan := sound(t)
			_, _, p.Earlier = sound(t)
			old, now := &p.Earlier.Batches[2].Stages[1], &plan.Batches[2].Stages[1]
			old.Sequence, old.Revised = 3, d.at("02-20 06:00")
			x.change(old)
			now.Sequence, now.Revised = x.sequence, old.Revised
			if x.moved {
				now.Revised = p.From
			}
			reseal(p, plan)
			expect(t, p, plan, "")
			now.Sequence++
			expect(t, p, plan, "sequence")
		})
	}
}

func TestForgottenBatch(t *testing.T) {
	m := followed(t)
	m.drop(0)
	reseal(m.p, m.plan)
	expect(t, m.p, m.plan, "begun-forgotten")
}

func TestFactsAreNotViolations(t *testing.T) {
	tellBegun(t, followed, []begunCase{
		{"work done outside hours", func(m *mutant) {
			m.p.Kitchen.People[0].Away = append(m.p.Kitchen.People[0].Away, resources.Span{From: m.d("03-03 00:00"), Until: m.d("03-04 12:00")})
		}, ""},
		{"fridge taken while the begun batch stands in it", func(m *mutant) {
			m.p.Kitchen.Cold[0].Taken = []resources.Span{{From: m.d("03-04 13:00"), Until: m.d("03-05 09:00")}}
		}, "carry-missing"},
		{"fridge taken when the next stay has begun", func(m *mutant) {
			m.p.Kitchen.Cold[0].Taken = []resources.Span{{From: m.d("03-04 13:00"), Until: m.d("03-05 10:31")}}
		}, "carry-missing place-taken"},
		{"too much work on the day before", func(m *mutant) { m.p.Kitchen.People[0].MostPerDay = 75; m.task(0, "ripen").Who = "Nell" }, "most-per-day"},
		{"milk drawn and no longer sold", func(m *mutant) { m.p.Kitchen.Milk[0].Days = resources.Weekdays(0).With(time.Friday) }, ""},
		{"its pot is no longer large enough", func(m *mutant) { m.p.Kitchen.Pots[0].Holds = 7_000 }, "first:"},
		{"fewer moulds than it stands in", func(m *mutant) { m.p.Kitchen.Moulds[0].Count = 15 }, "first:"},
		{"a hold that was too long", func(m *mutant) { m.recipeStage(0, "set").Hold.Most = 25 * hours }, "first:"},
		{"work that would be longer now", func(m *mutant) { m.recipeStage(0, "make").Hands = hands(90, 0, 0) }, "first:"},
		{"recipe that only Tom may do now", func(m *mutant) { m.recipeStage(0, "mould").Who = []string{"Tom"} }, "first:"},
	})
}

func TestWrittenBatches(t *testing.T) {
	tellBegun(t, told, []begunCase{
		{"stage without work written too", func(m *mutant) {
			m.p.Begun[0].Stages = slices.Insert(m.p.Begun[0].Stages, 1, schedule.BegunStage{Stage: "set", Start: m.d("03-02 10:00")})
		}, ""},
		{"another pot was written", func(m *mutant) { m.p.Begun[0].Pot = "wide pot" }, "kit-missing kit-unknown"},
		{"another place was written", func(m *mutant) { m.p.Begun[0].At = "cave" }, "place"},
		{"fewer pieces are left", func(m *mutant) { m.p.Begun[0].Pieces = 14 }, "begun-changed"},
		{"fewer pieces are left than are sold", func(m *mutant) {
			m.p.Begun[0].Pieces = 14
			m.left(14)
		}, "sellable"},
		{"as many pieces are left as are sold", func(m *mutant) {
			m.p.Begun[0].Pieces = 15
			m.left(15)
		}, ""},
		{"the last person listed did it", func(m *mutant) { m.task(0, "make").Who = "Tom" }, "begun-changed"},
		{"an older collection", func(m *mutant) {
			m.p.Kitchen.Milk[0].Keeps = 5 * resources.Day
			m.batch(0).Milk.Collect = m.d("02-26 07:30")
		}, "begun-changed"},
		{"boxes that fit nowhere, said", func(m *mutant) {
			m.task(0, "chill").BoxesAt, m.task(0, "rest").BoxesAt = nil, nil
			m.plan.Warnings = append(m.plan.Warnings, schedule.Warning{Code: "boxes-do-not-fit", Text: "RH-270302-1 has no room."})
		}, ""},
		{"boxes that fit nowhere, not said", func(m *mutant) { m.task(0, "chill").BoxesAt, m.task(0, "rest").BoxesAt = nil, nil }, "boxes-count"},
	})
}

// left makes the first batch one of so many pieces: shorter work by the piece,
// fewer moulds.
func (m *mutant) left(pieces int) {
	m.batch(0).Pieces = pieces
	m.task(0, "mould").Uses[0].Count = pieces
	// 20 + 2 x 15 = 50, 20 + 2 x 14 = 48: 50 min instead of 55. 10 + 15 = 25, 24: 25 instead of 30.
	m.task(0, "mould").Work, m.task(0, "mould").Ends = 50, m.d("03-04 08:20")
	m.task(0, "chill").Start, m.task(0, "chill").Hold = m.d("03-04 08:20"), 24*hours+5
	m.task(0, "drain").Uses[0].Until, m.task(0, "drain").Uses[0].CleanUntil = m.d("03-04 08:20"), m.d("03-04 08:20")
	m.task(0, "ripen").Work, m.task(0, "ripen").Hold = 25, m.task(0, "ripen").Hold+5
	for k := range m.task(0, "mould").Uses {
		m.task(0, "mould").Uses[k].Until -= 5
		m.task(0, "mould").Uses[k].CleanUntil -= 5
	}
	m.task(0, "pack").Work, m.task(0, "pack").Hold = 25, m.task(0, "pack").Hold+5
	m.task(0, "ripen").Uses[0].Until -= 5
	m.task(0, "ripen").Uses[0].CleanUntil -= 5
}

func TestOverBatches(t *testing.T) {
	_, p, earlier := sound(t)
	d := dublin{t, zoneOf(t, "Europe/Dublin")}
	p.Earlier = earlier
	for _, x := range []struct {
		name  string
		from  string
		stock string // packed
		sold  int    // pieces of the first batch gone before the planning start
		want  []string
	}{
		{"before the first make", "03-02 09:00", "", 0, nil},
		{"after the first make began", "03-02 09:05", "", 0, []string{"RH-270302-1"}},
		{"while all keep", "03-16 09:00", "", 0, []string{"RH-270302-1", "RH-270305-1", "CT-270309-1"}},
		{"at the end of keeping", "03-21 09:35", "", 0, []string{"RH-270302-1", "RH-270305-1", "CT-270309-1"}},
		{"past the keeping of one", "03-21 09:36", "", 0, []string{"RH-270302-1", "CT-270309-1"}},
		{"one is sold out", "03-20 07:05", "", 16, []string{"RH-270305-1", "CT-270309-1"}},
		{"stock of that day stands for two", "03-16 09:00", "03-15 19:00", 0, []string{"CT-270309-1"}},
		{"stock of another day", "03-16 09:00", "03-14 19:00", 0, []string{"RH-270302-1", "RH-270305-1", "CT-270309-1"}},
		{"packing is not over", "03-15 10:45", "03-15 09:35", 0, []string{"RH-270302-1", "CT-270309-1"}},
	} {
		t.Run(x.name, func(t *testing.T) {
			p.From, p.Stock = d.at(x.from), nil
			for i := range earlier.Batches {
				earlier.Batches[i].For = nil
			}
			if x.sold > 0 {
				earlier.Batches[0].For = []schedule.Share{{Target: "Stall", By: d.at("03-20 07:00"), Pieces: x.sold}}
			}
			if x.stock != "" {
				p.Stock = []schedule.Stock{{Cheese: "Reed hoop", Pieces: 1, Packed: d.at(x.stock)}}
			}
			var got []string
			for _, past := range newHearing(p, &schedule.Plan{}).pasts {
				got = append(got, past.id)
			}
			if !slices.Equal(got, x.want) {
				t.Errorf("got %q, want %q", got, x.want)
			}
		})
	}
}
