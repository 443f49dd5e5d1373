package demo

import (
	"context"
	"testing"
	"time"

	"ripeby/config"
	"ripeby/schedule/planner"
)

// BenchmarkDemo plans the demo kitchen, reading included. The figures are kept in
// schedule/cp/MEASURED.md.
func BenchmarkDemo(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		p, err := config.LoadFS(Files(), config.Options{From: From, Now: time.Unix(0, 0)})
		if err != nil {
			b.Fatal(err)
		}
		plan, err := planner.Plan(context.Background(), p, planner.Options{})
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(plan.Score.Batches), "batches")
		b.ReportMetric(float64(plan.Score.Litres)/1000, "L")
		b.ReportMetric(float64(plan.Score.Bother), "bother")
	}
}
