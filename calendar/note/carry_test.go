package note_test

import (
	"testing"

	"ripeby/calendar/note"
	"ripeby/resources"
	"ripeby/schedule"
)

// carryPlan carries a batch, and two entries of stock that nothing tells apart.
func carryPlan(from resources.Moment) *schedule.Plan {
	p := revisePlan(from)
	at := p.Batches[0].Stages[2].Start
	p.Stock[1].At = "fridge"
	p.Carries = []schedule.Carry{
		{Batch: "BH-270115-1", Stage: "pack", Stock: -1, Start: at, Minutes: 5, Who: "Nell", From: "cellar", To: "fridge"},
		{Stock: 0, Start: at + 5, Minutes: 5, Who: "Nell", From: "cellar", To: "fridge"},
		{Stock: 1, Start: at + 10, Minutes: 5, Who: "Ivo", From: "cellar", To: "fridge"},
	}
	return p
}

// A carry keeps its number for as long as it tells the same, and has the next one when something of
// it is otherwise: each its own, stock that is alike in its order.
func TestCarriesAreNumbered(t *testing.T) {
	type edition struct {
		number int
		moment resources.Moment
	}
	for _, c := range []struct {
		name   string
		change func(*schedule.Plan)
		want   []edition
	}{
		{"nothing", func(*schedule.Plan) {}, []edition{{0, 100}, {0, 100}, {0, 100}}},
		{"when", func(p *schedule.Plan) { p.Carries[0].Start += 5 }, []edition{{1, 200}, {0, 100}, {0, 100}}},
		{"who", func(p *schedule.Plan) { p.Carries[1].Who = "Ivo" }, []edition{{0, 100}, {1, 200}, {0, 100}}},
		{"where to", func(p *schedule.Plan) { p.Carries[2].To = "cave" }, []edition{{0, 100}, {0, 100}, {1, 200}}},
		{"out of another place", func(p *schedule.Plan) { p.Carries[0].From = "cave" }, []edition{{0, 200}, {0, 100}, {0, 100}}},
		{"on another shelf", func(p *schedule.Plan) { p.Batches[0].Stages[2].BoxesAt[0].Shelf = "low" }, []edition{{1, 200}, {0, 100}, {0, 100}}},
		{"how many pieces", func(p *schedule.Plan) { p.Stock[1].Pieces = 1 }, []edition{{0, 100}, {0, 100}, {1, 200}}},
		{"one is over", func(p *schedule.Plan) { p.Carries = p.Carries[1:] }, []edition{{0, 100}, {0, 100}}},
	} {
		before := carryPlan(100)
		revise(before, nil)
		plan := carryPlan(200)
		c.change(plan)
		revise(plan, before)
		for i, want := range c.want {
			if got := (edition{plan.Carries[i].Sequence, plan.Carries[i].Revised}); got != want {
				t.Errorf("%s: carry %d: got %v, want %v", c.name, i, got, want)
			}
		}
	}
}

// A stay tells out of which place it is carried, and when.
func TestStaysTellOfCarries(t *testing.T) {
	p := carryPlan(100)
	n, ok := note.OfStay(p, &p.Batches[0], 2)
	if c := &p.Carries[0]; !ok || n.At != "fridge" || n.Before != "cellar" || n.Carried != c.Start {
		t.Errorf("got %+v, want it carried out of the cellar", n)
	}
	notes, of := note.OfStock(p)
	if n := notes[of[0]]; n.Before != "cellar" || n.Carried == 0 {
		t.Errorf("got stock %+v, want it carried out of the cellar", n)
	}
	p.Carries = nil
	if n, _ := note.OfStay(p, &p.Batches[0], 2); n.Before != "" || n.Carried != 0 {
		t.Errorf("got %+v, want it carried out of nowhere", n)
	}
}
