package planner_test

import (
	"context"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"runtime"
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/planner"
)

// BenchmarkYear plans growing parts of a year. Beside the score it reports levels,
// the number of parts proved; litres-gap, how far the litres may be above the least
// for the same batches, in per cent; and peak-MiB, the most memory that the process
// had of the system so far, so run one size at a time to compare.
func BenchmarkYear(b *testing.B) {
	for _, weeks := range []int{7, 9, 16, 29, 52} {
		b.Run(fmt.Sprintf("weeks=%d", weeks), func(b *testing.B) {
			p := yearKitchen(weeks)
			var plan *schedule.Plan
			b.ReportAllocs()
			for b.Loop() {
				var err error
				if plan, err = planner.Plan(context.Background(), p, planner.Options{}); err != nil {
					b.Fatal(err)
				}
			}
			s, bound := plan.Score, plan.Proof.Bound
			b.ReportMetric(float64(s.PromisedShort+s.Short), "short")
			b.ReportMetric(float64(s.Batches), "batches")
			b.ReportMetric(float64(bound.Batches), "batches-bound")
			b.ReportMetric(float64(s.Litres)/1000, "L")
			b.ReportMetric(100*float64(s.Litres-bound.Litres)/float64(max(s.Litres, 1)), "litres-gap")
			b.ReportMetric(float64(s.Bother), "bother")
			b.ReportMetric(float64(bound.Bother), "bother-bound")
			b.ReportMetric(float64(provedParts(s, bound)), "levels")
			b.ReportMetric(float64(planner.WorkFor(p))/1e6, "Mwork")
			var mem runtime.MemStats
			runtime.ReadMemStats(&mem)
			b.ReportMetric(float64(mem.Sys)/(1<<20), "peak-MiB")
		})
	}
}

// provedParts is how many parts of a score meet the bound, from the first on.
func provedParts(score, bound schedule.Score) int {
	a, b := parts(score), parts(bound)
	for i := range a {
		if a[i] != b[i] {
			return i
		}
	}
	return len(a)
}

var yearAlone = flag.Bool("year-alone", false, "plan the year in this process")

// The year's first weeks hold as the whole year does.
func TestTheYearsFirstWeeksHold(t *testing.T) { theYearHolds(t, 9, 17) }

// theYearHolds wants so many weeks to be planned within 500 MiB, with nothing short, no
// more batches than the cheeses need by themselves, and the litres within one part in two
// hundred of the least for so many.
func theYearHolds(t *testing.T, weeks, batches int) {
	if !*yearAlone { // in a process of its own: its memory is then the year's
		out, err := exec.Command(os.Args[0], "-test.run=^"+t.Name()+"$", "-test.v", "-year-alone").CombinedOutput()
		if err != nil {
			t.Errorf("%v\n%s", err, out)
		}
		t.Logf("%s", out)
		return
	}
	p := yearKitchen(weeks)
	plan := planFor(t, p, planner.WorkFor(p))
	mustHold(t, p, plan)
	s, bound := plan.Score, plan.Proof.Bound
	if s.Batches != batches || provedParts(s, bound) < 3 {
		t.Errorf("got %+v with the bound %+v, want %d batches proved", s, bound, batches)
	}
	if (s.Litres-bound.Litres)*200 > bound.Litres {
		t.Errorf("got %v of milk, want within one part in two hundred of %v", s.Litres, bound.Litres)
	}
	var mem runtime.MemStats
	runtime.ReadMemStats(&mem)
	if mem.Sys > 500<<20 {
		t.Errorf("took %d MiB, want 500 at the most", mem.Sys>>20)
	}
	t.Logf("%+v, bound %+v, proved %s, %d MiB", s, bound, plan.Proof.Level, mem.Sys>>20)
}

// The school's order is lost, and it is proved that it must be.
func TestAWeekAwayInTenIsProved(t *testing.T) { aWeekAwayIsProved(t, 10, 44, 20_000_000) }

// aWeekAwayIsProved has nobody there for a week from a day on, so that some of what is
// wanted cannot be, and wants proved how much, with too little work for the whole plan to
// be proved.
func aWeekAwayIsProved(t *testing.T, weeks, day int, work int64) {
	p := yearKitchen(weeks)
	away := func(from, until int) []resources.Span {
		return []resources.Span{{From: p.From.Add(resources.Minutes(from) * resources.Day), Until: p.From.Add(resources.Minutes(until) * resources.Day)}}
	}
	p.Kitchen.People[0].Away, p.Kitchen.People[1].Away = away(day, day+8), away(day-1, day+6)
	plan := planFor(t, p, work)
	mustHold(t, p, plan)
	s, bound := plan.Score, plan.Proof.Bound
	if s.PromisedShort == 0 || s.Short == 0 || provedParts(s, bound) < 2 {
		t.Errorf("got %+v with the bound %+v, want something short, and that proved", s, bound)
	}
	t.Logf("%+v, bound %+v, proved %s", s, bound, plan.Proof.Level)
}
