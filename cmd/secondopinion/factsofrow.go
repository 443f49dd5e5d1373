package main

import "ripeby/schedule"

// rowFact is a recipe, or a batch under way that has a row of its own: its stages are then
// those still to come.
type rowFact struct {
	Cheese int             `json:"cheese"` // the row whose wants it serves
	Supply string          `json:"supply"` // of milk that it must draw on; "" for none
	Serves int             `json:"serves"`
	Keeps  int             `json:"keeps"`
	Store  *holdFact       `json:"store"` // limits written for the last hold
	Sizes  list[sizeFact]  `json:"sizes"` // smallest first
	Stages list[stageFact] `json:"stages"`
	Uses   list[useFact]   `json:"uses"`
	Stays  list[stayFact]  `json:"stays"`
	Begun  *begunFact      `json:"begun"`
}

type sizeFact struct {
	Litres   int64 `json:"litres"` // millilitres
	Pieces   int   `json:"pieces"`
	Sellable int   `json:"sellable"`
}

// stageFact is hands-on work in thousandths of a minute, as a sum and by the litre and by
// the piece, of one of who, and the hold after it; null for none.
type stageFact struct {
	Fixed    int64     `json:"fixed"`
	PerLitre int64     `json:"per_litre"`
	PerPiece int64     `json:"per_piece"`
	Who      list[int] `json:"who"`
	Hold     *holdFact `json:"hold"`
}

// holdFact is a hold's limits as written; best is null for none.
type holdFact struct {
	Least int  `json:"least"`
	Best  *int `json:"best"`
	Most  int  `json:"most"`
}

// useFact is a run of kit from the start of stage from, -1 for before the planning start,
// until the work of stage to is done, -1 for until the batch has left; takes is by size.
type useFact struct {
	From  int       `json:"from"`
	To    int       `json:"to"`
	Kit   list[int] `json:"kit"` // one of these
	Takes list[int] `json:"takes"`
}

// stayFact is a stay in the cold from the end of the work of stage from, -1 for since put,
// until stage to starts, -1 for until the batch has left.
type stayFact struct {
	From   int       `json:"from"`
	Put    int       `json:"put"`
	To     int       `json:"to"`
	Box    int       `json:"box"`
	Takes  list[int] `json:"takes"`  // boxes, by size
	Places list[int] `json:"places"` // one of these
}

// begunFact is what runs of a batch under way: the hold after work that is done at worked.
type begunFact struct {
	Worked int       `json:"worked"`
	Hold   *holdFact `json:"hold"`
}

func (s *statement) rowFact(r int) rowFact {
	row := &s.recipes[r]
	f := rowFact{Cheese: row.cheese, Supply: row.r.Milk, Serves: row.r.Batch.Serves, Keeps: int(row.r.Keeps),
		Store: holdOf(row.r.Stages[len(row.r.Stages)-1].Hold)}
	for z := range row.litres {
		f.Sizes = append(f.Sizes, sizeFact{int64(row.litres[z]), row.pieces[z], row.sellable(z)})
	}
	for _, x := range row.forms {
		g := &row.r.Stages[s.forms[x].stage]
		stage := stageFact{Who: s.forms[x].may}
		if g.Hands != nil {
			stage.Fixed, stage.PerLitre, stage.PerPiece = int64(g.Hands.Fixed), int64(g.Hands.PerLitre), int64(g.Hands.PerPiece)
		}
		if s.forms[x].stage < len(row.r.Stages)-1 {
			stage.Hold = holdOf(g.Hold)
		}
		f.Stages = append(f.Stages, stage)
	}
	if g := row.begun; g != nil {
		f.Supply, f.Serves = "", 0
		f.Begun = &begunFact{s.minute(g.worked), holdOf(row.r.Stages[g.done-1].Hold)}
	}
	s.claimsOf(&f, r)
	return f
}

// holdOf writes a hold down; nil for none.
func holdOf(h *schedule.Hold) *holdFact {
	if h == nil {
		return nil
	}
	out := &holdFact{Least: int(h.Least), Most: int(h.Most)}
	if best := int(h.Best); h.HasBest {
		out.Best = &best
	}
	return out
}

// claimsOf lists what a row uses and where it stays, by the first of its slots.
func (s *statement) claimsOf(f *rowFact, r int) {
	slot, first := 0, 0
	for slot < len(s.slots) && s.slots[slot] != r {
		first += len(s.recipes[s.slots[slot]].forms)
		slot++
	}
	stage := func(task int) int { return max(-1, task-first) }
	for _, u := range s.uses {
		if u.slot == slot {
			f.Uses = append(f.Uses, useFact{stage(u.from), stage(u.to), u.things, s.counts[u.count][1:]})
		}
	}
	for _, t := range s.stays {
		if t.slot == slot {
			put := s.minute(max(t.put, s.zero))
			if t.from >= 0 {
				put = -1
			}
			f.Stays = append(f.Stays, stayFact{stage(t.from), put, stage(t.to), t.box, s.counts[t.count][1:], t.places})
		}
	}
}
