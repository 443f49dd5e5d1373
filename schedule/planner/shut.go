package planner

import (
	"cmp"
	"fmt"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/needs"
)

// shut is cheese in the cold that stands there at the planning start: of a batch under way, or stock.
// Where it stands may be closed, or may come to be.
type shut struct {
	name   string // as a warning calls it
	u      *underWay
	begun  int // in the model, -1 for stock
	stock  int // likewise, -1 for a batch
	entry  int // of stock, in Problem.Stock
	family int
	kind   int
	count  int // boxes
	at     problem.StayPlace
	was    []schedule.Standing // its boxes by the plan before
	places []int               // that may take it, in the kitchen's order
	prefer []problem.Standing  // where the plan before would have had it carried
	since  resources.Moment    // it stands there, not before the planning start
	until  resources.Moment    // it is gone if nothing is late; maybe before since
	goes   resources.Moment    // it is gone by the plan before, if that is still to come; else until

	where  string // that is closed
	shelf  bool   // that is a shelf alone
	closed resources.Span
	moved  resources.Moment // from when it is to stand elsewhere
}

// boxes is its boxes for as long as they may stand there: for good, where they should be gone.
func (x *shut) boxes(pl *Stated) cp.Boxes { return x.boxesFrom(pl, x.since) }

// boxesFrom is the same from a moment on.
func (x *shut) boxesFrom(pl *Stated, from resources.Moment) cp.Boxes {
	b := cp.Boxes{Kind: x.kind, Boxes: x.count, Span: problem.Span{From: pl.clock.tick(from), Until: pl.clock.tick(x.until)}}
	if b.Until <= b.From {
		b.Until = problem.Infinite
	}
	return b
}

// open is when the place that it is carried to should be open: as long as it may stand there.
func (x *shut) open(pl *Stated) problem.Span {
	from := pl.clock.tick(x.moved)
	return problem.Span{From: from, Until: max(pl.clock.tick(x.until), from+1)}
}

// isLater reports whether it comes to be closed after cheese stands there.
func (x *shut) isLater() bool { return x.moved > x.since }

// stoodThere is where its boxes stand, told as the plan before did where it had them so.
func (x *shut) stoodThere(pl *Stated, at problem.StayPlace) []schedule.Standing {
	now := pl.standing(at, x.count)
	if n := len(now); n > 0 && n <= len(x.was) {
		old := comes{told: [][]schedule.Standing{now}, earlier: x.was}
		old.asTold()
	}
	return now
}

// standingNow lists what stands in the cold at the planning start, in the order in which it is carried.
func (pl *Stated) standingNow(now *cp.Now) []shut {
	var out []shut
	for i, u := range pl.under {
		b := &pl.model.Begun[i]
		r := b.RunningStay()
		if r < 0 || now.Begun[i].Space < 0 {
			continue
		}
		n, st := len(u.starts)-1, &u.chain.stays[r]
		since, _ := b.StandsFor(r)
		x := shut{name: u.id + " (" + u.recipe.Name + ")", u: u, begun: i, stock: -1, family: u.family, at: now.Begun[i],
			kind: b.Mode.Stays[r].Kind, count: b.Mode.Stays[r].Boxes, places: st.places,
			since: max(pl.p.From, pl.clock.moment(since)), until: pl.leavesBy(u, st)}
		if u.earlier != nil && n < len(u.earlier.Stages) {
			x.was = u.earlier.Stages[n].BoxesAt
		}
		if was := earlierBatch(pl.p.Earlier, u.id).Stage(u.recipe.Stages[n].Name); was != nil {
			x.prefer = pl.standings(was.BoxesAt, x.count)
		}
		x.goes = x.until
		if was := earlierBatch(pl.p.Earlier, u.id).Stage(u.recipe.Stages[u.chain.acts[st.last].last].Name); was != nil && was.Ends >= pl.p.From {
			x.goes = min(x.until, was.Ends)
		}
		out = append(out, x)
	}
	slices.SortStableFunc(out, func(a, b shut) int { return cmp.Compare(a.u.id, b.u.id) })
	for s, i := range pl.stocks {
		if now.Stocks[s].Space < 0 {
			continue
		}
		st, m := &pl.p.Stock[i], &pl.model.Stocks[s]
		r := pl.p.Recipe(st.Cheese)
		x := shut{name: st.Cheese + " in stock", begun: -1, stock: s, entry: i, family: m.Family, at: now.Stocks[s], was: pl.stockWas(i),
			kind: m.Kind, count: m.Boxes, places: needs.Places(&pl.p.Kitchen, r.Stages[len(r.Stages)-1].At),
			since: max(pl.p.From, st.Packed), until: pl.clock.moment(m.Keep), goes: pl.clock.moment(m.Keep)}
		if e := pl.p.Earlier; e != nil {
			for k := range e.Stock {
				if o := &e.Stock[k]; o.Cheese == st.Cheese && o.Packed == st.Packed && o.WrittenAt() == st.WrittenAt() {
					x.prefer = pl.standings(o.BoxesAt, st.Boxes)
					if o.Ends >= pl.p.From {
						x.goes = min(x.until, o.Ends)
					}
				}
			}
		}
		out = append(out, x)
	}
	return out
}

// leavesBy is when a stay that runs is over if its holds last as long as they may.
func (pl *Stated) leavesBy(u *underWay, st *stay) resources.Moment {
	n := len(u.starts) - 1
	at := u.starts[n].Add(pl.workUnderWay(u, n))
	for i := n; i <= u.chain.acts[st.last].last; i++ {
		at = at.Add(needs.HoldOf(u.recipe, i, pl.clock.step).Most)
	}
	return at
}

// hasClosings reports whether a place, or a shelf of it, is ever closed.
func hasClosings(c resources.ColdPlace) bool { return len(c.Taken) > 0 || shelvesClose(c) }

// shelvesClose reports whether a shelf of a place is ever closed by itself.
func shelvesClose(c resources.ColdPlace) bool {
	return slices.ContainsFunc(c.Shelves, func(s resources.Shelf) bool { return len(s.Taken) > 0 })
}

// findClosing finds the first closing of where cheese stands, and reports whether there is one: of
// the place, or of a shelf with boxes of it.
func (pl *Stated) findClosing(x *shut) bool {
	place := &pl.p.Kitchen.Cold[x.at.Space]
	found := false
	heed := func(closed []resources.Span, shelf bool, where string) {
		for _, c := range resources.Merge(closed) {
			from := max(c.From, x.since)
			if from < c.Until && from < max(x.goes, x.since+1) && (!found || from < x.moved) {
				x.where, x.shelf, x.closed, x.moved, found = where, shelf, c, from, true
			}
		}
	}
	heed(place.Taken, false, "in the "+place.Name)
	for i := range place.Shelves {
		if slices.ContainsFunc(x.at.Stacks, func(s problem.Standing) bool { return s.Floor == i }) {
			heed(place.Shelves[i].Taken, true, fmt.Sprintf("on the shelf %s of the %s", place.Shelves[i].Name, place.Name))
		}
	}
	return found
}
