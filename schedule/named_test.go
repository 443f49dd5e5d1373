package schedule_test

import (
	"testing"

	"ripeby/schedule"
)

// One id is the beginning of another, and one the end.
func TestWarnedOfOneBatchIsNotOfAnother(t *testing.T) {
	p := &schedule.Plan{Warnings: []schedule.Warning{
		{Code: "begun-stuck", Text: "WH-270224-10 (Wold hoop) cannot go on."},
		{Code: "boxes-do-not-fit", Text: "The boxes of WH-270224-2 (Wold hoop) do not fit."},
	}}
	for _, c := range []struct {
		code, id string
		want     bool
	}{
		{"begun-stuck", "WH-270224-10", true}, {"begun-stuck", "WH-270224-1", false}, {"begun-stuck", "H-270224-10", false},
		{"boxes-do-not-fit", "WH-270224-2", true}, {"begun-stuck", "WH-270224-2", false},
	} {
		if got := p.Warned(c.code, c.id); got != c.want {
			t.Errorf("%s of %s: got %v, want %v", c.code, c.id, got, c.want)
		}
	}
}
