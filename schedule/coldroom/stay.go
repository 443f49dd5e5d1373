package coldroom

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
)

// Forever is the end of a stay of which the plan knows no end.
const Forever resources.Moment = 1 << 40

// Stay is boxes of one batch, or of one entry of stock, that stand unmoved for a
// stretch of time.
type Stay struct {
	Batch  string // "" for stock
	Cheese string
	Kind   string // of box; "" where the recipes do not say
	Span   resources.Span
	Boxes  []schedule.Standing
}

// Occupancy is all that stands in the cold places of a kitchen by one plan.
type Occupancy struct {
	Kitchen *resources.Kitchen
	Stays   []Stay // stock's first, then the batches' in the plan's order
}

// Of gathers the stays of a plan. A stage's boxes stand from the end of its work
// until the stage ends; stages without work that follow go on with the stay, as
// nobody is there to move it. Of what an earlier plan had carried only where it stands
// since is known. A batch of which the plan warns that it goes no further
// keeps its place for good.
func Of(p *schedule.Problem, plan *schedule.Plan) *Occupancy {
	o := &Occupancy{Kitchen: &p.Kitchen}
	for i := range plan.Stock {
		s := &plan.Stock[i]
		o.addCarried(Stay{Cheese: s.Cheese, Kind: lastKind(p.Recipe(s.Cheese)),
			Span: resources.Span{From: s.Packed, Until: s.Ends}, Boxes: s.BoxesAt}, plan.CarryOfStock(i))
	}
	for i := range plan.Batches {
		b := &plan.Batches[i]
		recipe := p.Recipe(b.Cheese)
		for k := 0; k < len(b.Stages); {
			t := &b.Stages[k]
			stay := Stay{Batch: b.ID, Cheese: b.Cheese, Kind: kindAt(recipe, t.Stage),
				Span: resources.Span{From: t.Start.Add(t.Work), Until: t.Ends}, Boxes: t.BoxesAt}
			carry := plan.CarryOf(b, k)
			carried := t.Carried
			for k++; k < len(b.Stages) && goesOn(&stay, &b.Stages[k]); k++ {
				stay.Span.Until, carried = b.Stages[k].Ends, max(carried, b.Stages[k].Carried)
			}
			stay.Span.From = max(stay.Span.From, carried)
			if k == len(b.Stages) && plan.Warned("begun-stuck", b.ID) {
				stay.Span.Until = Forever
			}
			o.addCarried(stay, carry)
		}
	}
	return o
}

// goesOn reports whether a stage leaves the boxes of a stay where they are.
func goesOn(s *Stay, t *schedule.Task) bool {
	return t.Work == 0 && t.Start == s.Span.Until && slices.Equal(t.BoxesAt, s.Boxes)
}

// addCarried notes a stay that may be carried: before, its boxes are where they stood.
func (o *Occupancy) addCarried(s Stay, c *schedule.Carry) {
	if c != nil {
		before := s
		before.Boxes, before.Span.Until = c.Stood, min(c.Since, s.Span.Until)
		o.add(before)
		s.Span.From = max(c.Since, s.Span.From)
	}
	o.add(s)
}

// add notes a stay that has boxes and a length.
func (o *Occupancy) add(s Stay) {
	if len(s.Boxes) > 0 && !s.Span.Empty() {
		o.Stays = append(o.Stays, s)
	}
}

// kindAt is the kind of box that a recipe's stage uses.
func kindAt(r *schedule.Recipe, stage string) string {
	if r == nil {
		return ""
	}
	i := r.StageNumber(stage)
	if i < 0 {
		return ""
	}
	return nameOf(needs.BoxOf(r, &r.Stages[i]))
}

// lastKind is the kind that a recipe packs into, which stock stands in.
func lastKind(r *schedule.Recipe) string {
	if r == nil {
		return ""
	}
	return nameOf(needs.PackedIn(r))
}

// nameOf names a kind of box, "" for none.
func nameOf(b *schedule.Boxing) string {
	if b == nil {
		return ""
	}
	return b.Name
}
