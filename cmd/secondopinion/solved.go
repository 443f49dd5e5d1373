package main

import (
	"fmt"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/judge"
)

// chosen is what the solver chose, by the names of kitchen.mzn.
type chosen struct {
	Size      []int    `json:"size"`
	X         []int    `json:"X"`
	W         []int    `json:"W"`
	H         []int    `json:"H"`
	Does      [][]bool `json:"does"`
	Chosen    []int    `json:"chosen"`
	Place     []int    `json:"place"`
	Stands    []bool   `json:"stands"`
	Shelf     []int    `json:"shelf"`
	SpaceX    []int    `json:"x"`
	SpaceY    []int    `json:"y"`
	Turned    []bool   `json:"turned"`
	Many      []int    `json:"many"` // boxes in each column
	Draws     []int    `json:"draws"`
	Give      [][]int  `json:"give"`
	StockGive [][]int  `json:"stock_give"`

	Kept []int `json:"kept_as"` // which of the earlier plan's batches each slot is, 0 for none

	Part1, Part2, Part3, Part4, Part5, Part6, Part7, Part8, Part9 int64

	Spots [][]spot `json:"spots"` // of each stay, where a solver tells no columns
}

// told are the judge's rules about how a plan is told, and not about what is planned:
// a solver's answer has no words, names, care lists, or word of how far work may slip or of the layers
// in which boxes come to stand, or that no place takes what stands where it is closed (where one does, the
// kitchen is refused).
var told = []string{"header", "box-layer", "id-form", "id-twice", "id-reused", "last-number", "care", "round", "round-missing", "round-care", "because",
	"targets", "target-sums", "outcome", "slip", "critical", "sequence", "change", "warning-missing", "carry-missing", "proof-level", "proof-best"}

// breaches has the judge look at the solver's plan as at any other, its score included.
func breaches(p *schedule.Problem, plan *schedule.Plan) []judge.Violation {
	return slices.DeleteFunc(judge.Check(p, plan), func(v judge.Violation) bool { return slices.Contains(told, v.Rule) })
}

// plan makes a plan of the solver's answer.
func (s *statement) plan(c *chosen) *schedule.Plan {
	k := &s.p.Kitchen
	score := s.scoreOf([]int64{c.Part1, c.Part2, c.Part3, c.Part4, c.Part5, c.Part6, c.Part7, c.Part8, c.Part9})
	plan := &schedule.Plan{Kitchen: k.Name, TimeZone: k.TimeZone, From: s.p.From, Score: score,
		Proof: schedule.Proof{Best: true, Level: schedule.LevelAll, Bound: score}}
	first := 0
	for b, r := range s.slots {
		n := len(s.recipes[r].forms)
		if c.Size[b] > 0 {
			plan.Batches = append(plan.Batches, s.batch(c, b, first))
		}
		first += n
	}
	for i, e := range s.p.Stock {
		use := schedule.StockUse{Cheese: e.Cheese, Pieces: e.Pieces, Packed: e.Packed, At: e.At, Ends: e.Packed.Add(s.p.Recipe(e.Cheese).Keeps)}
		if at := slices.IndexFunc(s.stock, func(x stockRow) bool { return x.entry == i }); at >= 0 {
			use.For = s.shares(c.StockGive[at])
			if len(use.For) > 0 {
				use.Ends = lastLeaves(use.For)
			}
			use.BoxesAt = s.standings(c, len(s.stays)+at, s.stock[at].boxes, s.stock[at].place)
		}
		plan.Stock = append(plan.Stock, use)
	}
	return plan
}

// shares tells which wants are given how much, in their order.
func (s *statement) shares(give []int) []schedule.Share {
	var out []schedule.Share
	for w, n := range give {
		if n == 0 {
			continue
		}
		v := &s.wants[w]
		share := schedule.Share{Target: s.p.Targets[v.target].Name, By: v.by, Want: v.want, Pieces: n}
		if v.promised {
			share.Promised = n
		}
		out = append(out, share)
	}
	return out
}

func lastLeaves(shares []schedule.Share) (last resources.Moment) {
	for i, x := range shares {
		if i == 0 || x.By > last {
			last = x.By
		}
	}
	return last
}

// ownNumbers is the first number of a solver's batches: no earlier plan of a small kitchen comes so far.
const ownNumbers = 101

// batch makes a batch of slot b, whose first task is first.
func (s *statement) batch(c *chosen, b, first int) schedule.Batch {
	row := &s.recipes[s.slots[b]]
	z := c.Size[b] - 1
	day := row.r.LotDay(s.moment(c.X[first]).DateIn(s.p.Kitchen.Zone))
	out := schedule.Batch{ID: fmt.Sprintf("%s-%d", day, b+ownNumbers), Cheese: row.r.Name,
		Litres: row.litres[z], Pieces: row.pieces[z], Spare: row.r.Spare, For: s.shares(c.Give[b])}
	if b < len(c.Kept) && c.Kept[b] > 0 {
		out.ID = s.told.kept[c.Kept[b]-1].id
	}
	if m := c.Draws[b]; m > 0 {
		out.Milk = &schedule.Draw{Supply: s.p.Kitchen.Milk[s.supply[m-1].supply].Name, Collect: s.supply[m-1].ready}
	}
	leaves := lastLeaves(out.For)
	for i := range row.forms {
		t := first + i
		task := schedule.Task{Stage: row.r.Stages[i].Name, Start: s.moment(c.X[t]), Work: resources.Minutes(c.W[t]) * s.step,
			Hold: resources.Minutes(c.H[t]) * s.step, At: "room"}
		if i == len(row.forms)-1 {
			task.Hold = leaves.Sub(task.Start.Add(task.Work))
		}
		task.Ends = task.Start.Add(task.Work).Add(task.Hold)
		for who, does := range c.Does[t] {
			if does {
				task.Who = s.p.Kitchen.People[who].Name
			}
		}
		out.Stages = append(out.Stages, task)
	}
	s.kitOf(c, &out, b, first)
	s.placesOf(c, &out, b, first)
	return out
}

// kitOf tells what the batch of slot b has in hand.
func (s *statement) kitOf(c *chosen, out *schedule.Batch, b, first int) {
	for i, u := range s.uses {
		k := u.from - first
		if k < 0 || k >= len(out.Stages) {
			continue
		}
		held := u.run.Held(out.Stages, out.Stages[len(out.Stages)-1].Ends)
		out.Stages[k].Uses = append(out.Stages[k].Uses, s.things[c.Chosen[i]-1].Occupied(s.counts[u.count][c.Size[b]], held))
	}
}

// placesOf tells where the batch of slot b stands in the cold.
func (s *statement) placesOf(c *chosen, out *schedule.Batch, b, first int) {
	for i, stay := range s.stays {
		k := stay.from - first
		if k < 0 || k >= len(out.Stages) {
			continue
		}
		past := len(out.Stages)
		if stay.to >= 0 {
			past = stay.to - first
		}
		place := c.Place[i] - 1
		for ; k < past; k++ {
			out.Stages[k].At = s.p.Kitchen.Cold[place].Name
			if out.Stages[k].Hold > 0 {
				out.Stages[k].BoxesAt = s.standings(c, i, s.counts[stay.count][c.Size[b]], place)
			}
		}
	}
}

// standings tells where n boxes of a stay, or of stock, stand in a place: on shelves
// column after column, each with as many as it has.
func (s *statement) standings(c *chosen, stay, n, place int) []schedule.Standing {
	if place < 0 {
		return nil
	}
	cold := &s.p.Kitchen.Cold[place]
	var out []schedule.Standing
	if !cold.Measured() {
		for range n {
			out = append(out, schedule.Standing{Place: cold.Name})
		}
		return out
	}
	for i, of := range s.space.columnOf {
		if of != stay || !c.Stands[i] {
			continue
		}
		box := s.p.Kitchen.Boxes[s.space.columnBox[i]].Size
		if c.Turned[i] {
			box.Width, box.Depth = box.Depth, box.Width
		}
		shelf := c.Shelf[i] - 1
		name := cold.Shelves[shelf-slices.Index(s.space.shelfPlace, place)].Name
		for layer := 1; layer <= c.Many[i] && len(out) < n; layer++ {
			out = append(out, schedule.Standing{Place: cold.Name, Shelf: name, X: resources.Micrometres(c.SpaceX[i]) * s.space.side,
				Y: resources.Micrometres(c.SpaceY[i]) * s.space.side, Width: box.Width, Depth: box.Depth, Layer: layer})
		}
	}
	return out
}
