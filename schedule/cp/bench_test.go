package cp

import (
	"context"
	"testing"
)

// eight is a chain of eight activities in steps of five minutes.
func eight() *Model {
	m := season(1, 4)
	var acts []Activity
	for i := 0; i < 8; i++ {
		acts = append(acts, m.Families[0].Modes[0].Acts[i%3])
	}
	acts[7] = m.Families[0].Modes[0].Acts[3]
	m.Horizon *= 4
	for w := range m.Workers {
		wk := &m.Workers[w]
		for d := len(wk.Windows); d*288 < m.Horizon; d++ {
			wk.Windows = append(wk.Windows, Span{d*288 + 84, d*288 + 216})
			wk.Avoid = append(wk.Avoid, Span{d*288 + 192, d*288 + 216})
			wk.Days = append(wk.Days, Day{d * 288, (d + 1) * 288, 60})
		}
	}
	m.Families[0].Modes = []Mode{{Amount: 1, Units: 1, Acts: acts, Runs: m.Families[0].Modes[0].Runs}}
	return m
}

func BenchmarkPlaceOnAnIdleKitchen(b *testing.B) {
	m := eight()
	s := newPlan(m)
	w := window{readyMin: m.Horizon - 900, readyMax: m.Horizon - 300, end: m.Horizon - 300}
	if _, ok := s.place(s.query(0, 0, w)); !ok {
		b.Fatal("the chain has no place")
	}
	b.ReportAllocs()
	for b.Loop() {
		s.place(s.query(0, 0, w))
	}
}

func BenchmarkSolveSeasonOf30(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		r := Solve(context.Background(), season(3, 30), Options{Budget: 2_000_000})
		b.ReportMetric(float64(r.Cost.Jobs), "jobs")
		b.ReportMetric(float64(r.Cost.PromisedShort+r.Cost.Short), "short")
		b.ReportMetric(float64(r.Bound.PromisedShort+r.Bound.Short), "bound")
	}
}
