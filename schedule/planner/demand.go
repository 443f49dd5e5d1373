package planner

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/needs"
)

// addTargets states every want as a demand.
func (pl *Stated) addTargets() {
	for t := range pl.p.Targets {
		target := &pl.p.Targets[t]
		for w := range target.Wants {
			want1 := &target.Wants[w]
			pl.wants = append(pl.wants, WantAt{t, w})
			pl.model.Demands = append(pl.model.Demands, problem.Demand{
				Family: pl.Family(want1.Cheese), Due: pl.clock.tick(target.By), Ahead: int(target.Packed),
				Units: want1.Pieces, Value: int64(want1.Price), Promised: want1.Promised,
			})
		}
	}
}

// addStock states what is packed and still keeps, and boxes of what keeps no longer that are being cleaned.
func (pl *Stated) addStock() {
	var washed []problem.Stock
	for i := range pl.p.Stock {
		st := &pl.p.Stock[i]
		r := pl.p.Recipe(st.Cheese)
		if r == nil || st.Packed.Add(r.Keeps) < pl.p.From {
			if r != nil {
				pl.note("stock-past", st.Packed.Add(r.Keeps), "The %s packed %s is past its keeping time: it serves nothing. See that it is not sold as fresh.",
					st.Cheese, pl.when(st.Packed))
				washed = append(washed, pl.washed(st, r)...)
			}
			continue
		}
		s := problem.Stock{Family: pl.Family(st.Cheese), Ready: pl.clock.tick(st.Packed), Units: st.Pieces,
			Space: -1, Boxes: st.Boxes, Pool: -1, Keep: pl.clock.tick(st.Packed.Add(r.Keeps))}
		if box := needs.PackedIn(r); box != nil {
			pl.boxStock(&s, box)
			s.Space = pl.placeNamed(st.At)
		}
		s.Prefer = pl.stockStood(i)
		pl.stocks = append(pl.stocks, i)
		pl.model.Stocks = append(pl.model.Stocks, s)
	}
	pl.model.Stocks = append(pl.model.Stocks, washed...) // the model's first are numbered as pl.stocks
}

// washed is the boxes of stock that keeps no longer, while they are cleaned; none where they are clean.
func (pl *Stated) washed(st *schedule.Stock, r *schedule.Recipe) []problem.Stock {
	box := needs.PackedIn(r)
	if box == nil || st.Boxes == 0 {
		return nil
	}
	s := problem.Stock{Family: pl.Family(st.Cheese), Ready: problem.Infinite, Space: -1, Boxes: st.Boxes, Keep: pl.clock.tick(pl.p.From)}
	pl.boxStock(&s, box)
	if s.Clean = pl.clock.tick(st.Packed.Add(r.Keeps)) + s.Clean - s.Keep; s.Clean <= 0 || s.Pool < 0 {
		return nil
	}
	return []problem.Stock{s}
}

// placeNamed is the number of a cold place, -1 for none.
func (pl *Stated) placeNamed(name string) int {
	for i := range pl.p.Kitchen.Cold {
		if pl.p.Kitchen.Cold[i].Name == name {
			return i
		}
	}
	return -1
}

// stockStood is where the same stock stood in the earlier plan.
func (pl *Stated) stockStood(i int) []problem.Standing {
	return pl.standings(pl.stockWas(i), pl.p.Stock[i].Boxes)
}

// stockWas is the boxes of the same stock in the earlier plan.
func (pl *Stated) stockWas(i int) []schedule.Standing {
	st := &pl.p.Stock[i]
	went := pl.p.Went()
	if went == nil {
		return nil
	}
	for k := range went.Stock {
		e := &went.Stock[k]
		if e.Cheese == st.Cheese && e.Packed == st.Packed && e.At == st.At {
			return e.BoxesAt
		}
	}
	return nil
}

// floorOf is the place and the shelf of a box, by the engine's numbers; a floor of -1 for a shelf that is
// not there.
func (pl *Stated) floorOf(b *schedule.Standing) (space, floor int) {
	if space = pl.placeNamed(b.Place); space < 0 {
		return -1, -1
	}
	return space, slices.IndexFunc(pl.p.Kitchen.Cold[space].Shelves, func(s resources.Shelf) bool { return s.Name == b.Shelf })
}

// standings turns the first n boxes of a plan's list into the engine's stacks;
// nil when they name places that are not there.
func (pl *Stated) standings(boxes []schedule.Standing, n int) []problem.Standing {
	var out []problem.Standing
	for i := 0; i < len(boxes) && n > 0; i++ {
		b := &boxes[i]
		space, floor := pl.floorOf(b)
		if floor < 0 {
			return nil
		}
		place := problem.Placed{X: int64(b.X), Y: int64(b.Y), W: int64(b.Width), D: int64(b.Depth)}
		n--
		if k := slices.IndexFunc(out, func(o problem.Standing) bool { return o.Place == place && o.Floor == floor }); k >= 0 {
			out[k].Boxes++ // which boxes of others are between them is no matter
			continue
		}
		out = append(out, problem.Standing{Space: space, Floor: floor, Place: place, Boxes: 1})
	}
	return out
}
