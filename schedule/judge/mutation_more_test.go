package judge

import (
	"slices"
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

func TestMutationsOfMilk(t *testing.T) {
	tell(t, []mutation{
		{name: "no milk", spoil: func(m *mutant) { m.batch(0).Milk = nil }, want: "milk"},
		{name: "milk where none is named", spoil: func(m *mutant) { m.p.Kitchen.Milk[0].Most = resources.NoLimit; m.batch(2).Milk = m.batch(0).Milk }, want: "milk"},
		{name: "another supply", spoil: func(m *mutant) { m.batch(0).Milk.Supply = "Hill goat" }, want: "milk"},
		{name: "no collection on that day", spoil: func(m *mutant) {
			m.p.Kitchen.Milk[0].Days = resources.Weekdays(0).With(time.Tuesday)
		}, want: "no-collection"},
		{name: "ready later than that", spoil: func(m *mutant) { m.batch(0).Milk.Collect += 30 }, want: "no-collection"},
		{name: "closed", spoil: func(m *mutant) {
			m.p.Kitchen.Milk[0].Closed = []resources.Span{{From: m.d("03-05 00:00"), Until: m.d("03-06 00:00")}}
		}, want: "no-collection"},
		{name: "closed the day after", spoil: func(m *mutant) {
			m.p.Kitchen.Milk[0].Closed = []resources.Span{{From: m.d("03-06 00:00"), Until: m.d("03-07 00:00")}}
		}, want: ""},
		{name: "made before it is ready", spoil: func(m *mutant) {
			m.p.Kitchen.Milk[0].Ready = hm(9, 5)
			m.batch(0).Milk.Collect, m.batch(1).Milk.Collect = m.d("03-02 09:05"), m.d("03-05 09:05")
		}, want: "milk-age"},
		{name: "made when it no longer keeps", spoil: func(m *mutant) { m.p.Kitchen.Milk[0].Keeps = 269 }, want: "milk-age"},
		{name: "made while it just keeps", spoil: func(m *mutant) { m.p.Kitchen.Milk[0].Keeps = 270 }, want: ""},
		{name: "too late to order", spoil: func(m *mutant) { m.p.Kitchen.Milk[0].Order = resources.Day + 91 }, want: "milk-too-late"},
		{name: "just in time to order", spoil: func(m *mutant) { m.p.Kitchen.Milk[0].Order = resources.Day + 90 }, want: ""},
		{name: "ordered", spoil: func(m *mutant) { m.order(8_000) }, want: ""},
		{name: "none ordered", spoil: func(m *mutant) { m.order(0) }, want: "milk-too-late"},
		{name: "ordered too little, but it stands", spoil: func(m *mutant) { m.order(0); m.stands(8_000) }, want: ""},
		{name: "less stands than is drawn", spoil: func(m *mutant) { m.order(7_999); m.stands(7_000) }, want: "milk-over"},
		{name: "more stands than is drawn", spoil: func(m *mutant) { m.stands(8_001) }, want: "warning-missing"},
		{name: "more stands than is drawn, and it is said", spoil: func(m *mutant) {
			m.stands(8_001)
			m.plan.Warnings = append(m.plan.Warnings, schedule.Warning{Code: "milk-unused", Text: "Farm cow"})
		}, want: ""},
		{name: "less came", spoil: func(m *mutant) { m.came(2, 7_999) }, want: "milk-over"},
		{name: "none came, though it was ordered", spoil: func(m *mutant) { m.order(8_000); m.came(2, 0) }, want: "milk-over"},
		{name: "it came though it was not ordered", spoil: func(m *mutant) { m.order(0); m.came(2, 8_000) }, want: ""},
		{name: "it came of another day", spoil: func(m *mutant) { m.order(0); m.came(5, 8_000) }, want: "milk-too-late"},
		{name: "more came than a collection has", spoil: func(m *mutant) {
			m.p.Kitchen.Milk[0].Most = 8_000
			m.p.Kitchen.Milk[0].Keeps = 4 * resources.Day
			m.batch(1).Milk.Collect = m.d("03-02 07:30")
			m.came(2, 16_000)
		}, want: ""},
		{name: "less came than stands, all used", spoil: func(m *mutant) { m.stands(9_000); m.came(2, 8_000); m.came(5, 8_000) }, want: ""},
		{name: "ordered too little", spoil: func(m *mutant) { m.order(7_999) }, want: "milk-over"},
		{name: "more than one collection gives", spoil: func(m *mutant) { m.p.Kitchen.Milk[0].Most = 7_999 }, want: "milk-over"},
		{name: "two batches of one collection", spoil: func(m *mutant) {
			m.p.Kitchen.Milk[0].Keeps, m.p.Kitchen.Milk[0].Most = 4*resources.Day, 15_999
			m.batch(1).Milk.Collect = m.d("03-02 07:30")
		}, want: "milk-over"},
		{name: "no limit", spoil: func(m *mutant) { m.p.Kitchen.Milk[0].Most = resources.NoLimit }, want: ""},
	})
}

// order makes the first collection one that is too late to order but was.
func (m *mutant) order(litres resources.Millilitres) {
	m.p.Kitchen.Milk[0].Order = 2 * resources.Day
	m.p.Ordered = []schedule.Ordered{{Milk: "Farm cow", Day: resources.Date{Year: 2027, Month: time.March, Day: 2}, Litres: litres}}
}

// stands has so much of each collection come without an order; those that the plan does
// not use are closed.
func (m *mutant) stands(litres resources.Millilitres) {
	m.p.Kitchen.Milk[0].Standing = litres
	m.p.Kitchen.Milk[0].Closed = []resources.Span{{From: m.d("02-20 00:00"), Until: m.d("03-02 00:00")}, {From: m.d("03-06 00:00"), Until: m.d("04-30 00:00")}}
}

// came has it said how much came on a day of March.
func (m *mutant) came(day int, litres resources.Millilitres) {
	m.p.Came = append(m.p.Came, schedule.Came{Milk: "Farm cow", Day: resources.Date{Year: 2027, Month: time.March, Day: day}, Litres: litres})
}

func TestMutationsOfCare(t *testing.T) {
	tell(t, []mutation{
		{name: "a day forgotten", spoil: func(m *mutant) { m.batch(0).Care = m.batch(0).Care[1:] }, want: "care"},
		{name: "a day too many", spoil: func(m *mutant) { m.batch(0).Care = m.turns("03-07", "03-09", "03-11", "03-13", "03-15") }, want: "care"},
		{name: "other care", spoil: func(m *mutant) { m.batch(0).Care[0].Do = "pat" }, want: "care"},
		{name: "round forgotten", spoil: func(m *mutant) { m.plan.Rounds = m.plan.Rounds[1:] }, want: "round-missing"},
		{name: "last round forgotten", spoil: func(m *mutant) { m.plan.Rounds = m.plan.Rounds[:8] }, want: "round-missing"},
		{name: "round with nothing to tend", spoil: func(m *mutant) { m.plan.Rounds = append(m.plan.Rounds, m.round("03-16")) }, want: "round"},
		{name: "round by somebody else", spoil: func(m *mutant) { m.plan.Rounds[0].Who = "Tom" }, want: "round"},
		{name: "round of another length", spoil: func(m *mutant) { m.plan.Rounds[0].Minutes = 25 }, want: "round"},
		{name: "round out of order", spoil: func(m *mutant) { m.plan.Rounds = append(m.plan.Rounds, m.plan.Rounds[8]) }, want: "round"},
		{name: "care not in its round", spoil: func(m *mutant) { m.plan.Rounds[1].Care = nil }, want: "round-care"},
		{name: "care without a round and no warning", spoil: func(m *mutant) { m.plan.Warnings = nil }, want: "warning-missing"},
		{name: "care longer than the round and no warning", spoil: func(m *mutant) { m.p.Kitchen.Round.For = 4; m.rounds(4) }, want: "warning-missing"},
	})
}

func TestMutationsOfShares(t *testing.T) {
	tell(t, []mutation{
		{name: "unknown target", spoil: func(m *mutant) { m.batch(2).For[0].Want = 3; m.short(2, 10) }, want: "share"},
		{name: "another cheese", spoil: func(m *mutant) {
			m.p.Targets[0].Wants[2].Cheese, m.plan.Targets[2].Cheese = "Reed hoop", "Reed hoop"
		}, want: "share"},
		{name: "one want twice", spoil: func(m *mutant) {
			s := m.batch(2).For[0]
			s.Pieces = 4
			m.batch(2).For[0].Pieces = 6
			m.batch(2).For = append(m.batch(2).For, s)
		}, want: "share"},
		{name: "no pieces", spoil: func(m *mutant) {
			m.batch(1).For = append(m.batch(1).For[:1:1], schedule.Share{Target: "Stall", By: m.d("03-20 07:00"), Want: 1}, m.batch(1).For[2])
			m.short(1, 6)
		}, want: "share"},
		{name: "promised pieces of a want that is not", spoil: func(m *mutant) { m.batch(0).For[0].Promised = 1 }, want: "share"},
		{name: "promised pieces not told", spoil: func(m *mutant) { m.batch(1).For[1].Promised = 0 }, want: "share"},
		{name: "packed too late", spoil: func(m *mutant) { m.p.Targets[0].Packed = 4*resources.Day + 18*hours + 51 }, want: "serve"},
		{name: "packed just in time", spoil: func(m *mutant) { m.p.Targets[0].Packed = 4*resources.Day + 18*hours + 50 }, want: ""},
		{name: "no longer keeps, told by the store too", spoil: func(m *mutant) { m.p.Recipes[1].Keeps = 4*resources.Day + 18*hours + 49 }, want: "last-hold serve"},
		{name: "just keeps", spoil: func(m *mutant) { m.p.Recipes[1].Keeps = 4*resources.Day + 18*hours + 50 }, want: ""},
		{name: "the spare sold", spoil: func(m *mutant) {
			m.p.Targets[0].Wants[0].Pieces, m.plan.Targets[0].Wanted, m.plan.Targets[0].Met = 21, 21, 21
			m.batch(0).For[0].Pieces = 16
		}, want: "sellable"},
		{name: "more than was asked for", spoil: func(m *mutant) {
			m.p.Targets[0].Wants[2].Pieces, m.plan.Targets[2].Wanted, m.plan.Targets[2].Short = 9, 9, -1
		}, want: "over-served"},
		{name: "too few to make a batch", spoil: func(m *mutant) { m.p.Recipes[1].Batch.Serves = 11 }, want: "batch-serves"},
		{name: "promised pieces make a batch", spoil: func(m *mutant) { m.p.Recipes[0].Batch.Serves = 16; m.promise() }, want: ""},
		{name: "a batch for nobody", spoil: func(m *mutant) { m.batch(2).For = nil; m.short(2, 10) }, want: "batch-serves"},
	})
}

// short writes a want of the first target off as short by so much.
func (m *mutant) short(want, by int) {
	r := &m.plan.Targets[want]
	r.Met, r.Short, r.Because = r.Met-by, r.Short+by, "There is no batch for it."
	m.plan.Outcome = schedule.Short
}

// promise makes the first want a promised one.
func (m *mutant) promise() {
	m.p.Targets[0].Wants[0].Promised, m.plan.Targets[0].Promised = true, true
	m.batch(0).For[0].Promised, m.batch(1).For[0].Promised = 15, 5
}

func TestMutationsOfResults(t *testing.T) {
	tell(t, []mutation{
		{name: "a want forgotten", spoil: func(m *mutant) { m.plan.Targets = m.plan.Targets[1:] }, want: "targets"},
		{name: "wants out of order", spoil: func(m *mutant) { slices.Reverse(m.plan.Targets) }, want: "targets"},
		{name: "another price", spoil: func(m *mutant) { m.plan.Targets[0].Price++ }, want: "targets"},
		{name: "met too much", spoil: func(m *mutant) { m.plan.Targets[0].Met++ }, want: "target-sums"},
		{name: "short of something", spoil: func(m *mutant) { m.plan.Targets[0].Short = 1 }, want: "target-sums"},
		{name: "reason for nothing", spoil: func(m *mutant) { m.plan.Targets[0].Because = "It rained." }, want: "because"},
		{name: "short without a reason", spoil: func(m *mutant) {
			m.batch(2).For[0].Pieces = 9
			m.short(2, 1)
			m.plan.Targets[2].Because = ""
		}, want: "because"},
		{name: "short with a reason", spoil: func(m *mutant) { m.batch(2).For[0].Pieces = 9; m.short(2, 1) }, want: ""},
		{name: "outcome short", spoil: func(m *mutant) { m.plan.Outcome = schedule.Short }, want: "outcome"},
		{name: "outcome met", spoil: func(m *mutant) {
			m.batch(2).For[0].Pieces = 9
			m.short(2, 1)
			m.plan.Outcome = schedule.Met
		}, want: "outcome"},
	})
}

func TestMutationsOfSlip(t *testing.T) {
	tell(t, []mutation{
		{name: "before the start", spoil: func(m *mutant) { m.task(0, "drain").SlipUntil -= 5 }, want: "slip"},
		{name: "past the hold before it", spoil: func(m *mutant) { m.task(0, "drain").SlipUntil += 5 }, want: "slip"},
		{name: "to the end of the hold before it", spoil: func(m *mutant) { m.task(0, "mould").SlipUntil = m.d("03-04 08:40") }, want: ""},
		{name: "off the grid", spoil: func(m *mutant) { m.task(0, "mould").SlipUntil = m.d("03-04 08:39") }, want: "slip"},
		{name: "when nobody is there", spoil: func(m *mutant) { m.task(1, "pack").SlipUntil = m.d("03-17 21:35") }, want: "slip"},
		{name: "while somebody is there", spoil: func(m *mutant) { m.task(1, "pack").SlipUntil = m.d("03-17 21:30") }, want: ""},
		{name: "past the milk's keeping", spoil: func(m *mutant) { m.task(0, "make").SlipUntil = m.d("03-04 07:35") }, want: "slip"},
		{name: "past the targets", spoil: func(m *mutant) { m.task(1, "pack").SlipUntil = m.d("03-19 18:35") }, want: "slip"},
	})
}

func TestMutationsOfSlipFrom(t *testing.T) {
	from := func(batch int, stage, at string) func(m *mutant) {
		return func(m *mutant) { m.task(batch, stage).SlipFrom = m.d(at) }
	}
	tell(t, []mutation{
		{name: "after the start", spoil: func(m *mutant) { m.task(0, "drain").SlipFrom += 5 }, want: "slip"},
		{name: "before the hold before it may end", spoil: from(0, "drain", "03-03 06:55"), want: "slip"},
		{name: "when the hold before it may end", spoil: from(0, "drain", "03-03 07:00"), want: ""},
		{name: "off the grid", spoil: from(0, "drain", "03-03 07:02"), want: "slip"},
		{name: "when nobody is there", spoil: from(0, "mould", "03-04 05:55"), want: "slip"},
		{name: "when somebody comes", spoil: from(0, "mould", "03-04 06:00"), want: ""},
		{name: "before the planning start", spoil: from(2, "make", "03-01 05:55"), want: "slip"},
		{name: "at the planning start", spoil: from(2, "make", "03-01 06:00"), want: ""},
		{name: "before the milk is there", spoil: from(0, "make", "03-02 07:25"), want: "slip"},
		{name: "when the milk is there", spoil: from(0, "make", "03-02 07:30"), want: ""},
		{name: "sooner than the cheese keeps", spoil: from(0, "pack", "03-14 06:25"), want: "slip"},
		{name: "as soon as the cheese keeps", spoil: from(0, "pack", "03-14 06:30"), want: ""},
		{name: "sooner than the last hold lasts", spoil: func(m *mutant) {
			m.recipeStage(0, "pack").Hold = &schedule.Hold{Most: 5 * resources.Day}
			m.task(0, "pack").SlipFrom = m.d("03-15 06:25")
		}, want: "slip"},
		{name: "as soon as the last hold lasts", spoil: func(m *mutant) {
			m.recipeStage(0, "pack").Hold = &schedule.Hold{Most: 5 * resources.Day}
			m.task(0, "pack").SlipFrom = m.d("03-15 06:30")
		}, want: ""},
	})
}

func TestMutationsOfCritical(t *testing.T) {
	tell(t, []mutation{
		{name: "not marked", spoil: func(m *mutant) { m.task(0, "drain").Critical = false }, want: "critical", raw: true},
		{name: "with room", spoil: func(m *mutant) { m.task(0, "mould").SlipUntil = m.d("03-04 08:40") }, want: "critical", raw: true},
		{name: "with room and not marked", spoil: func(m *mutant) {
			m.task(0, "mould").SlipUntil, m.task(0, "mould").Critical = m.d("03-04 08:40"), false
		}, want: "", raw: true},
		{name: "a wait", spoil: func(m *mutant) { m.task(0, "set").Critical = true }, want: "critical", raw: true},
		{name: "for no target", spoil: func(m *mutant) {
			m.batch(2).For = nil
			m.short(2, 10)
			m.plan.Score = newHearing(m.p, m.plan).score()
			m.plan.Proof.Bound = m.plan.Score
		}, want: "batch-serves critical", raw: true},
	})
	t.Run("what has begun", func(t *testing.T) {
		m := followed(t)
		m.task(0, "make").Critical = true
		expect(t, m.p, m.plan, "critical")
	})
}

func TestMutationsOfScore(t *testing.T) {
	bound := func(change func(s *schedule.Score), level schedule.Level, best bool) func(*mutant) {
		return func(m *mutant) {
			change(&m.plan.Proof.Bound)
			m.plan.Proof.Level, m.plan.Proof.Best = level, best
		}
	}
	tell(t, []mutation{
		{name: "bother", spoil: func(m *mutant) { m.plan.Score.Bother--; m.plan.Proof.Bound = m.plan.Score }, want: "score", raw: true},
		{name: "make starts", spoil: func(m *mutant) { m.plan.Score.MakeStarts++; m.plan.Proof.Bound = m.plan.Score }, want: "score", raw: true},
		{name: "best without proof", spoil: bound(func(s *schedule.Score) { s.Bother = 300 }, schedule.LevelLitres, true), want: "proof-best", raw: true},
		{name: "proved and not called best", spoil: func(m *mutant) { m.plan.Proof.Best = false }, want: "proof-best", raw: true},
		{name: "level too high", spoil: bound(func(s *schedule.Score) { s.Bother = 300 }, schedule.LevelBother, false), want: "proof-level", raw: true},
		{name: "level as proved", spoil: bound(func(s *schedule.Score) { s.Bother = 300 }, schedule.LevelLitres, false), want: "", raw: true},
		{name: "nothing proved", spoil: bound(func(s *schedule.Score) { *s = schedule.Score{PromisedShort: -1, MakeStarts: 99_999} }, schedule.LevelNone, false), want: "", raw: true},
		{name: "bound worse than the plan", spoil: bound(func(s *schedule.Score) { s.Bother = 372 }, schedule.LevelLitres, false), want: "proof-bound", raw: true},
		{name: "a make later than the bound", spoil: bound(func(s *schedule.Score) { s.MakeStarts-- }, schedule.LevelBother, false), want: "proof-bound", raw: true},
		{name: "a later bound worse than the plan", spoil: bound(func(s *schedule.Score) { s.Batches, s.MakeStarts = 2, 0 }, schedule.LevelShort, false), want: "proof-bound-later", raw: true},
		{name: "sequence of a new stage", spoil: func(m *mutant) { m.task(0, "make").Sequence = 1 }, want: "sequence"},
		{name: "revised before this plan", spoil: func(m *mutant) { m.task(0, "make").Revised-- }, want: "sequence"},
		{name: "a moment out of reach", spoil: func(m *mutant) { m.task(0, "make").Start = 1 << 50 }, want: "out-of-reach", raw: true},
		{name: "work below 0", spoil: func(m *mutant) { m.task(0, "make").Work = -5 }, want: "out-of-reach", raw: true},
	})
}
