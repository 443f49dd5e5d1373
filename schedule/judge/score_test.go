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
