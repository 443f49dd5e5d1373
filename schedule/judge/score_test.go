package judge

import (
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
)

func TestPercent(t *testing.T) {
	for _, x := range []struct {
		name                    string
		hold, least, best, most resources.Minutes
		want                    int64
	}{
		{"at best", 1440, 1200, 1440, 1800, 0},
		{"at most", 1800, 1200, 1440, 1800, 100},
		{"at least", 1200, 1200, 1440, 1800, 100},
		{"half way up", 1620, 1200, 1440, 1800, 50},
		{"half way down", 1320, 1200, 1440, 1800, 50},
		{"a third", 1560, 1200, 1440, 1800, 33},
		{"half a per cent goes up", 101, 0, 100, 300, 1},
		{"under half a per cent goes down", 101, 0, 100, 301, 0},
		{"12.5 goes up", 110, 0, 100, 180, 13},
		{"off the grid, best is not rounded", 725, 600, 722, 960, 1},
		{"past most it grows", 2160, 1200, 1440, 1800, 200},
		{"no room above", 1450, 1200, 1440, 1440, 100},
		{"most rounded to under best", 1450, 1200, 1443, 1440, 100},
		{"best is least and most", 60, 60, 60, 60, 0},
		{"no room below", 50, 60, 60, 90, 100},
	} {
		t.Run(x.name, func(t *testing.T) {
			if got := percent(x.hold, x.least, x.best, x.most); got != x.want {
				t.Errorf("got %d, want %d", got, x.want)
			}
		})
	}
}

func TestScoreOfAPlanWorkedOutByHand(t *testing.T) {
	_, p, plan := sound(t)
	want := schedule.Score{Batches: 3, Litres: 26_000, Bother: 371, MakeStarts: 19_440}
	if got := newHearing(p, plan).score(); got != want {
		t.Errorf("got %+v, want %+v", got, want)
	}
}

func TestScoreCountsShortInMoney(t *testing.T) {
	_, p, plan := sound(t)
	plan.Batches[1].For[1].Pieces, plan.Batches[1].For[2].Pieces = 5, 2 // promised: 1 at 6.50, 2 at 7.00
	plan.Batches[2].For[0].Pieces = 7                                   // 3 at 9.00
	got := newHearing(p, plan).score()
	if got.PromisedShort != 650+1400 || got.Short != 2700 {
		t.Errorf("got %d and %d, want 2050 and 2700", got.PromisedShort, got.Short)
	}
}

func TestScoreCountsWholeFiveMinutesOfRatherNot(t *testing.T) {
	d, p, plan := sound(t)
	for _, x := range []struct {
		name        string
		from, until resources.Clock
		want        int64
	}{
		{"all of the make", hm(9, 0), hm(10, 0), 12},
		{"nine minutes", hm(9, 51), hm(10, 30), 1},
		{"four minutes", hm(8, 0), hm(9, 4), 0},
		{"two windows that touch are one", hm(9, 0), hm(9, 14), 5},
	} {
		t.Run(x.name, func(t *testing.T) {
			tuesday := []resources.Hours{{Days: resources.Weekdays(0).With(2), From: x.from, Until: x.until}}
			if x.until == hm(9, 14) {
				tuesday = append(tuesday, resources.Hours{Days: resources.Weekdays(0).With(2), From: hm(9, 14), Until: hm(9, 29)})
			}
			p.Kitchen.People[0].RatherNot = tuesday
			p.Kitchen.People[0].Away = nil
			plan.Batches = []schedule.Batch{firstBatch(d)}
			if got := newHearing(p, plan).score().Bother - 171; got != x.want {
				t.Errorf("got %d points, want %d", got, x.want)
			}
		})
	}
}

func TestWorkLengthIsExact(t *testing.T) {
	for _, x := range []struct {
		name   string
		hands  schedule.Hands
		litres resources.Millilitres
		pieces int
		step   resources.Minutes
		want   resources.Minutes
	}{
		{"a whole number of steps", schedule.Hands{Fixed: 40_000, PerLitre: 2_000}, 10_000, 0, 5, 60},
		{"a millilitre more", schedule.Hands{Fixed: 40_000, PerLitre: 2_000}, 10_001, 0, 5, 65},
		{"0.4 min a piece", schedule.Hands{PerPiece: 400}, 0, 25, 5, 10},
		{"0.4 min a piece, one more", schedule.Hands{PerPiece: 400}, 0, 26, 5, 15},
		{"a thousandth of a minute", schedule.Hands{Fixed: 1}, 0, 0, 1, 1},
		{"nothing", schedule.Hands{}, 4_000, 8, 5, 0},
	} {
		t.Run(x.name, func(t *testing.T) {
			r := &schedule.Recipe{Stages: []schedule.Stage{{Hands: &x.hands}}}
			if got := workLength(r, 0, x.litres, x.pieces, x.step); got != x.want {
				t.Errorf("got %d min, want %d", got, x.want)
			}
		})
	}
}

// A hold is late by whole tenths of its most, a short one by tenths of two hours.
func TestTenths(t *testing.T) {
	for _, x := range []struct {
		over, most resources.Minutes
		want       int64
	}{
		{-5, 1680, 0}, {0, 1680, 0}, {167, 1680, 0}, {168, 1680, 1}, {1680, 1680, 10}, {11, 0, 0}, {12, 0, 1}, {12, 60, 1},
		{12, 125, 0}, {13, 130, 1}, {999 * 12, 120, 999}, {1000 * 12, 120, 999},
	} {
		if got := tenths(x.over, x.most); got != x.want {
			t.Errorf("%d past a most of %d: got %d, want %d", x.over, x.most, got, x.want)
		}
	}
}

// The first batch has begun: its holds that end from now on are late, those that are over
// are not, and neither are those of a new batch.
func TestScoreCountsLateHoldsOfWhatHasBegun(t *testing.T) {
	for _, x := range []struct {
		name  string
		spoil func(m *mutant)
		want  int64
	}{
		{"none", func(*mutant) {}, 0},
		{"a hold that is over", func(m *mutant) { m.holds("drain", 0, 60) }, 0},
		{"the running one, by 4 h of 20", func(m *mutant) { m.holds("chill", 0, 20*hours) }, 2},
		{"one to come, by 1 d of 9", func(m *mutant) { m.holds("ripen", 0, 9*resources.Day) }, 1},
		{"a stage without a hold, by 95 min of 2 h", func(m *mutant) { m.recipeStage(0, "rest").Hold = nil }, 7},
		{"all of them", func(m *mutant) {
			m.holds("chill", 0, 20*hours)
			m.holds("rest", 0, 0)
			m.holds("ripen", 0, resources.Day)
		}, 2 + 7 + 90},
		{"the store is never late", func(m *mutant) { m.holds("pack", 0, 60) }, 0},
		{"a stuck batch counts as one", func(m *mutant) {
			m.holds("chill", 0, 60)
			m.batch(0).Stages = m.batch(0).Stages[:5]
			m.plan.Warnings = append(m.plan.Warnings, schedule.Warning{Code: "begun-stuck", Text: "RH-270302-1 cannot go on."})
		}, 1000},
	} {
		t.Run(x.name, func(t *testing.T) {
			m := followed(t)
			x.spoil(m)
			if got := newHearing(m.p, m.plan).score().Late; got != x.want {
				t.Errorf("got %d, want %d", got, x.want)
			}
		})
	}
}

// Nell would rather not work on Friday from 9:50 to 10:20: of the first batch, begun, only
// the 20 min of ripening are to come; its drain, on Wednesday, is not.
func TestScoreCountsRatherNotOfBegunWorkToCome(t *testing.T) {
	m := followed(t)
	before := newHearing(m.p, m.plan).score().Bother
	m.p.Kitchen.People[0].RatherNot = []resources.Hours{{Days: resources.Weekdays(0).With(5), From: hm(9, 50), Until: hm(10, 20)},
		{Days: resources.Weekdays(0).With(3), From: hm(16, 0), Until: hm(17, 0)}}
	if got := newHearing(m.p, m.plan).score().Bother - before; got != 4 {
		t.Errorf("got %d points more, want 4", got)
	}
}
