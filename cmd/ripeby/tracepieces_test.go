package main

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/testrun"
)

// TestEveryPieceIsKept: the demo's kitchen is planned every so many days into May, everything as
// planned. Every batch that ever began is kept, those too that began and were over between two
// plans, and of every target that is past each piece is found in what was kept, but for those that
// came from stock; no batch gave more than it had.
func TestEveryPieceIsKept(t *testing.T) {
	type want struct {
		target string
		want   int
	}
	every := []int{12}
	if testrun.Long {
		every = append(every, 5)
	}
	for _, days := range every {
		folder := filepath.Join(t.TempDir(), "demo")
		if err := os.CopyFS(folder, os.DirFS("demo/kitchen")); err != nil {
			t.Fatal(err)
		}
		met, past, begun := map[want]int{}, map[want]resources.Moment{}, map[string]bool{}
		last := resources.Moment(0)
		for at := time.Date(2027, 3, 1, 8, 0, 0, 0, time.UTC); at.Before(time.Date(2027, 5, 14, 0, 0, 0, 0, time.UTC)); at = at.AddDate(0, 0, days) {
			got := runWith(t.Context(), nil, "plan", "-C", folder, "--from", at.Format(time.RFC3339), "--work", "200000")
			if got.code != exitMet && got.code != exitShort || got.err != "" {
				t.Fatalf("%s: exit code %d, %s", at, got.code, got.err)
			}
			plan, err := output{filepath.Join(folder, "plan")}.earlier()
			if err != nil {
				t.Fatal(err)
			}
			last = plan.From
			for _, r := range plan.Targets {
				met[want{r.Target, r.Want}], past[want{r.Target, r.Want}] = r.Met, r.By
			}
			for _, s := range plan.Stock {
				for _, share := range s.For {
					met[want{share.Target, share.Want}] -= share.Pieces
				}
			}
			for _, b := range plan.Batches {
				begun[b.ID] = begun[b.ID] || b.Begun
			}
		}
		kept, bad := batchFolder{folder}.all()
		if len(bad) > 0 {
			t.Fatal(bad)
		}
		left := map[want]int{}
		for i := range kept {
			pieces := 0
			for _, s := range kept[i].For {
				if s.Gone {
					left[want{s.Target, s.Want}] += s.Left
					pieces += s.Left
				}
			}
			if b := &kept[i]; pieces > b.Pieces-b.Spare {
				t.Errorf("every %d days: %s gave %d pieces of %d", days, b.ID, pieces, b.Pieces-b.Spare)
			}
			delete(begun, kept[i].ID)
		}
		for id, really := range begun {
			if really {
				t.Errorf("every %d days: nothing was kept of %s", days, id)
			}
		}
		targets := 0
		for w, by := range past {
			if by >= last {
				continue
			}
			if targets++; left[w] != met[w] {
				t.Errorf("every %d days: %d pieces left for %v, and %d are kept", days, met[w], w, left[w])
			}
		}
		if len(kept) < 10 || targets < 20 {
			t.Errorf("every %d days: got %d batches and %d wants: too little is tested", days, len(kept), targets)
		}
		t.Logf("every %d days: %d batches, %s", days, len(kept), schedule.Counted(targets, "want"))
	}
}
