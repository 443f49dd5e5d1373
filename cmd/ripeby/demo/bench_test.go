package demo

import (
	"context"
	"io/fs"
	"os"
	"testing"
	"time"

	"ripeby/config"
	"ripeby/schedule/planner"
)

// BenchmarkDemo plans the demo kitchen, reading included. The figures are kept in
// schedule/cp/MEASURED.md.
func BenchmarkDemo(b *testing.B) { planAgain(b, Files(), From) }

// BenchmarkFirstDemo plans the kitchen that was the demo first.
func BenchmarkFirstDemo(b *testing.B) {
	planAgain(b, os.DirFS("../../../testdata/kitchens/first-demo"), "2027-02-22 06:00")
}

func planAgain(b *testing.B, folder fs.FS, from string) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		p, err := config.LoadFS(folder, config.Options{From: from, Now: time.Unix(0, 0)})
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
