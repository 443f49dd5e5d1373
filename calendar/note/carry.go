package note

import (
	"reflect"

	"ripeby/resources"
	"ripeby/schedule"
)

// Carry is all that a calendar says about cheese that is carried out of a closed place.
type Carry struct {
	TimeZone      string
	Batch, Cheese string // Batch is "" for stock
	Stage         string
	Packed        resources.Moment // of stock; 0 for a batch
	Like          int              // how many entries of stock of one cheese and packing are carried before it
	Pieces        int
	Start         resources.Moment
	Minutes       resources.Minutes
	Who           string
	From, To      string
	Boxes         []ShelfCount // in the new place
}

// OfCarry gives the note of the plan's carry i.
func OfCarry(plan *schedule.Plan, i int) Carry {
	c := &plan.Carries[i]
	n := Carry{TimeZone: plan.TimeZone, Batch: c.Batch, Stage: c.Stage, Start: c.Start, Minutes: c.Minutes, Who: c.Who, From: c.From, To: c.To}
	if c.OfStock() {
		s := &plan.Stock[c.Stock]
		n.Cheese, n.Packed, n.Pieces, n.Boxes = s.Cheese, s.Packed, s.Pieces, shelves(s.BoxesAt)
		for k := range i {
			if o := &plan.Carries[k]; o.OfStock() && plan.Stock[o.Stock].Cheese == s.Cheese && plan.Stock[o.Stock].Packed == s.Packed {
				n.Like++
			}
		}
		return n
	}
	if b := plan.Batch(c.Batch); b != nil {
		n.Cheese, n.Pieces = b.Cheese, b.Pieces
		if t := b.Stage(c.Stage); t != nil {
			n.Boxes = shelves(t.BoxesAt)
		}
	}
	return n
}

// same reports whether two notes are of one carry, in two plans.
func (n *Carry) same(o *Carry) bool {
	return n.Batch == o.Batch && n.Stage == o.Stage && n.Packed == o.Packed && n.From == o.From && n.Like == o.Like && (n.Batch != "" || n.Cheese == o.Cheese)
}

// reviseCarries numbers carries: those of batches by id, stage and the place that is closed, those of
// stock by cheese, packing and that place.
func reviseCarries(plan, earlier *schedule.Plan) {
	for i := range plan.Carries {
		c, n := &plan.Carries[i], OfCarry(plan, i)
		e := edition{0, plan.From}
		for k := range earlier.Carries {
			o := OfCarry(earlier, k)
			if !n.same(&o) {
				continue
			}
			if e = (edition{earlier.Carries[k].Sequence, earlier.Carries[k].Revised}); !reflect.DeepEqual(n, o) {
				e = e.next(plan.From)
			}
		}
		c.Sequence, c.Revised = e.number, e.moment
	}
}
