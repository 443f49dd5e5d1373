package schedule

import (
	"slices"

	"ripeby/resources"
)

// Carry is cheese that is carried out of a place, or off a shelf, that is closed or will be: all boxes
// of a batch that stand there at the planning start, or of an entry of stock. It keeps Minutes of Who
// free from Start on. The plan has the boxes in To from Since on: from the planning start, or from a
// later closing.
type Carry struct {
	Batch, Stage string // the stage whose boxes stand there; "" for stock
	Stock        int    // its place in [Plan.Stock]; -1 for a batch
	Start        resources.Moment
	Minutes      resources.Minutes
	Who          string
	From, To     string
	Since        resources.Moment
	Stood        []Standing // in From, as far as that was known
	// Sequence counts how often what a calendar says about it changed from plan to plan, and
	// Revised is when it last did.
	Sequence int
	Revised  resources.Moment
}

// OfStock reports whether it is stock that is carried.
func (c *Carry) OfStock() bool { return c.Batch == "" }

// Ends is when it is done.
func (c *Carry) Ends() resources.Moment { return c.Start.Add(c.Minutes) }

// carriedBy reports whether a carry of the earlier plan has happened by From: silence says so, but
// not where it takes nothing as done, nor of who was away.
func (p *Problem) carriedBy(c *Carry) bool {
	if c.Start >= p.From || p.Kitchen.UnsaidWaits {
		return false
	}
	who := p.Kitchen.PersonNumber(c.Who)
	return who < 0 || !slices.ContainsFunc(p.Kitchen.People[who].Away, resources.Span{From: c.Start, Until: c.Ends()}.Overlaps)
}

// Carried is a plan that goes before this problem's, with its cheese where it stands at From: what
// was to be carried before is in its new place, and what was not is where it was. It lists no more
// carries; a plan without any is given back as it is.
func (p *Problem) Carried(plan *Plan) *Plan {
	if plan == nil || len(plan.Carries) == 0 {
		return plan
	}
	out := *plan
	out.Carries = nil
	out.Batches, out.Stock = slices.Clone(plan.Batches), slices.Clone(plan.Stock)
	for i := range plan.Carries {
		c := &plan.Carries[i]
		done := p.carriedBy(c)
		switch b := out.Batch(c.Batch); {
		case c.OfStock() && !done && c.Stock < len(out.Stock):
			out.Stock[c.Stock].putBack(c)
		case !c.OfStock() && b != nil:
			b.carry(c, done)
		}
	}
	return &out
}

// carry notes of the stages of one stay that they have been carried, or puts them back.
func (b *Batch) carry(c *Carry, done bool) {
	b.Stages = slices.Clone(b.Stages)
	first := slices.IndexFunc(b.Stages, func(t Task) bool { return t.Stage == c.Stage })
	for i := max(first, 0); i < len(b.Stages) && first >= 0; i++ {
		t := &b.Stages[i]
		if i > first && t.Work > 0 || t.At != c.To {
			return
		}
		if done {
			t.Carried = c.Start
		} else {
			t.At, t.BoxesAt = c.From, c.Stood
		}
	}
}

// putBack has stock stand where it did before it was to be carried.
func (s *StockUse) putBack(c *Carry) {
	s.CarryTo(c.From)
	s.BoxesAt = c.Stood
}

// CarryTo has stock stand elsewhere than begun.yaml has it.
func (s *StockUse) CarryTo(place string) {
	s.Written, s.At = s.WrittenAt(), place
	if s.Written == s.At {
		s.Written = ""
	}
}

// WrittenAt is where the entry of begun.yaml has stock that may have been carried since.
func (s *StockUse) WrittenAt() string {
	if s.Written != "" {
		return s.Written
	}
	return s.At
}

// CarryOf is the carry of a batch's boxes that stage i has in its new place; nil for none.
func (p *Plan) CarryOf(b *Batch, i int) *Carry {
	for k := range p.Carries {
		c := &p.Carries[k]
		if c.OfStock() || c.Batch != b.ID || b.Stages[i].At != c.To {
			continue
		}
		for first := i; first >= 0; first-- {
			if b.Stages[first].Stage == c.Stage {
				return c
			}
			if b.Stages[first].Work > 0 {
				break
			}
		}
	}
	return nil
}

// CarryOfStock is the carry of an entry of the plan's stock; nil for none.
func (p *Plan) CarryOfStock(i int) *Carry {
	for k := range p.Carries {
		if c := &p.Carries[k]; c.OfStock() && c.Stock == i {
			return c
		}
	}
	return nil
}

// StandsAt is where stage i of a batch is at a moment, and its boxes: what is carried is where it was
// before.
func (p *Plan) StandsAt(b *Batch, i int, m resources.Moment) (place string, boxes []Standing) {
	if c := p.CarryOf(b, i); c != nil && m < c.Since {
		return c.From, c.Stood
	}
	return b.Stages[i].At, b.Stages[i].BoxesAt
}
