package planner_test

import (
	"context"
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule/planner"
	"ripeby/schedule/planner/whatif"
)

// BenchmarkFitsSeason asks orders of the season's plan: of both cheeses, in three weeks, a few
// pieces and many. It reports how many have each answer, and the slowest beside the time
// that the plan took to make.
func BenchmarkFitsSeason(b *testing.B) {
	p := seasonKitchen(time.UTC)
	begin := time.Now()
	plan, err := planner.Plan(context.Background(), p, planner.Options{})
	if err != nil {
		b.Fatal(err)
	}
	made := time.Since(begin)
	p.Earlier = plan
	names := map[whatif.FitOutcome]string{whatif.FitsAsItIs: "fit", whatif.FitsIfMoved: "fit-if-moved", whatif.FitsNot: "not", whatif.FitsUnknown: "not-known"}
	var slowest, total time.Duration
	count, asked := map[string]int{}, 0
	for b.Loop() {
		for _, cheese := range []string{"Bloomy", "Fresh"} {
			for _, week := range []int{3, 8, 12} {
				for _, pieces := range []int{6, 24, 60} {
					day := p.From.DateIn(time.UTC).AddDays(7*week + 4)
					o := whatif.Order{Target: "order", Cheese: cheese, Pieces: pieces, By: day.At(resources.Clock(9*60), time.UTC), Price: 100}
					start := time.Now()
					f := whatif.Fits(context.Background(), p, o, whatif.FitOptions{})
					took := time.Since(start)
					slowest, total = max(slowest, took), total+took
					count[names[f.Outcome]]++
					asked++
					if testing.Verbose() {
						b.Logf("%-6s %2d in week %2d: %s, %v; most %d (sure %v), ready %d days later (sure %v)", cheese, pieces, week, names[f.Outcome], took.Round(time.Millisecond),
							f.Most, f.MostSure, (f.Ready-o.By)/resources.Moment(resources.Day), f.ReadySure)
					}
				}
			}
		}
	}
	for _, name := range names {
		b.ReportMetric(float64(count[name])/float64(b.N), name)
	}
	b.ReportMetric(slowest.Seconds(), "slowest-s")
	b.ReportMetric(total.Seconds()/float64(asked), "mean-s")
	b.ReportMetric(float64(slowest)/float64(made), "slowest/plan")
}
