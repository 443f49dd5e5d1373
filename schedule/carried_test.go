package schedule_test

import (
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
)

// Stock that is not carried after all is still that of its entry, also where it was to be carried back to
// where begun.yaml has it.
func TestStockThatIsNotCarriedKeepsWhereItIsWritten(t *testing.T) {
	p := &schedule.Problem{From: 100, Kitchen: resources.Kitchen{UnsaidWaits: true}} // so that no carry has happened
	for _, c := range []struct{ name, at, written, to string }{
		{"as written", "cave", "", "fridge"},
		{"carried before", "fridge", "cave", "shed"},
		{"carried before, and back", "fridge", "cave", "cave"},
	} {
		t.Run(c.name, func(t *testing.T) {
			use := schedule.StockUse{At: c.at, Written: c.written}
			want := use.WrittenAt()
			use.CarryTo(c.to)
			plan := &schedule.Plan{Stock: []schedule.StockUse{use},
				Carries: []schedule.Carry{{Stock: 0, Start: 50, From: c.at, To: c.to}}}
			if got := p.Carried(plan).Stock[0]; got.At != c.at || got.WrittenAt() != want {
				t.Errorf("got it at %q, written at %q; want %q and %q", got.At, got.WrittenAt(), c.at, want)
			}
		})
	}
}
