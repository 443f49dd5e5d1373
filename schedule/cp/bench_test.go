package cp

import (
	"context"
	"testing"

	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/search"
	"ripeby/schedule/cp/tiny"
)

// eight is a chain of eight activities in steps of five minutes.
func eight() *problem.Model {
	m := tiny.Season(1, 4)
	var acts []problem.Activity
	for i := 0; i < 8; i++ {
		acts = append(acts, m.Families[0].Modes[0].Acts[i%3])
	}
	acts[7] = m.Families[0].Modes[0].Acts[3]
	m.Horizon *= 4
	for w := range m.Workers {
		wk := &m.Workers[w]
		for d := len(wk.Windows); d*288 < m.Horizon; d++ {
			wk.Windows = append(wk.Windows, problem.Span{From: d*288 + 84, Until: d*288 + 216})
			wk.Avoid = append(wk.Avoid, problem.Span{From: d*288 + 192, Until: d*288 + 216})
			wk.Days = append(wk.Days, problem.Day{From: d * 288, Until: (d + 1) * 288, Limit: 60})
		}
	}
	m.Families[0].Modes = []problem.Mode{{Amount: 1, Units: 1, Acts: acts, Runs: m.Families[0].Modes[0].Runs}}
	return m
}

func BenchmarkPlaceOnAnIdleKitchen(b *testing.B) {
	m := eight()
	s := search.NewPlan(m)
	w := problem.Window{ReadyMin: m.Horizon - 900, ReadyMax: m.Horizon - 300, End: m.Horizon - 300}
	if _, ok := s.Place(s.Query(0, 0, w)); !ok {
		b.Fatal("the chain has no place")
	}
	b.ReportAllocs()
	for b.Loop() {
		s.Place(s.Query(0, 0, w))
	}
}

func BenchmarkSolveSeasonOf30(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		r := Solve(context.Background(), tiny.Season(3, 30), search.Options{Budget: 2_000_000})
		b.ReportMetric(float64(r.Cost.Jobs), "jobs")
		b.ReportMetric(float64(r.Cost.PromisedShort+r.Cost.Short), "short")
		b.ReportMetric(float64(r.Bound.PromisedShort+r.Bound.Short), "bound")
	}
}
