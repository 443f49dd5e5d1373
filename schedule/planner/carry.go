package planner

import (
	"slices"
	"sort"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
)

// underWay is a batch that has begun.
type underWay struct {
	id     string
	lot    string // "" for none yet
	family int
	recipe *schedule.Recipe
	litres resources.Millilitres
	left   int                // pieces that are left of it
	starts []resources.Moment // of the stages that have begun
	pot    string             // "" where begun.yaml does not say
	at     string             // place of the running stage, likewise
	moves  bool               // it is carried, as its place is or comes to be closed
	to     string             // where the engine has it then, "" for where it is
	gone   int                // pieces already handed over by the earlier plan
	first  int                // pieces that there were at first, 0 where no other number is known
	gave   []schedule.LeftShare

	chain   *chain          // the recipe's, bent to what is known of the running stage
	earlier *schedule.Batch // the same batch in the earlier plan, nil for none
	entry   int             // in Problem.Begun, -1 when carried from the earlier plan
}

// made is how many pieces the whole batch gave.
func (u *underWay) made() int { return needs.Pieces(u.recipe, u.litres) }

// size is what is left of it.
func (u *underWay) size() needs.Size { return needs.Size{Litres: u.litres, Pieces: u.left} }

// sellable is how many of its pieces can still go to targets.
func (u *underWay) sellable() int { return max(0, min(u.left, u.made()-u.recipe.Spare)-u.gone) }

// carried lists all that is under way: what begun.yaml says, then what the
// earlier plan began, as it went.
func (pl *Stated) carried() []*underWay {
	var out []*underWay
	told := map[string]bool{}
	for i := range pl.p.Begun {
		b := &pl.p.Begun[i]
		told[b.ID] = true
		r := pl.p.RecipeOf(b.ID, b.Cheese)
		if r == nil {
			continue
		}
		u := &underWay{id: b.ID, family: pl.Family(b.Cheese), recipe: r, litres: b.Litres, left: b.Pieces,
			pot: b.Pot, at: b.At, earlier: earlierBatch(pl.p.Carried(pl.p.Earlier), b.ID), entry: i}
		if u.left < 0 {
			u.left = u.made()
		}
		if u.earlier != nil {
			u.lot = u.earlier.Lot
		}
		u.starts = begunStarts(r, b)
		out = append(out, u)
	}
	for _, id := range pl.p.Lost {
		told[id] = true
	}
	if went := pl.p.Went(); went != nil {
		for i := range went.Batches {
			b := &went.Batches[i]
			if told[b.ID] || len(b.Stages) == 0 || b.Stages[0].Start >= pl.p.From {
				continue
			}
			if u := pl.carry(b); u != nil {
				out = append(out, u)
			}
		}
		pl.stillKept(went.Past)
	}
	for _, u := range out {
		pl.inferBegun(u)
		u.chain = pl.chainUnderWay(u)
	}
	sort.SliceStable(out, func(i, k int) bool { return firstStart(out[i]) < firstStart(out[k]) })
	return out
}

func firstStart(u *underWay) resources.Moment {
	if len(u.starts) == 0 {
		return 0
	}
	return u.starts[0]
}

func earlierBatch(plan *schedule.Plan, id string) *schedule.Batch {
	if plan == nil {
		return nil
	}
	for i := range plan.Batches {
		if plan.Batches[i].ID == id {
			return &plan.Batches[i]
		}
	}
	return nil
}

// begunStarts lines up the begun stages with the recipe's. A stage that is not
// written, because nobody was needed for it, began when the one before was over.
func begunStarts(r *schedule.Recipe, b *schedule.Begun) []resources.Moment {
	var out []resources.Moment
	next := 0
	for i := range r.Stages {
		if next == len(b.Stages) {
			break
		}
		if b.Stages[next].Stage == r.Stages[i].Name {
			out = append(out, b.Stages[next].Start)
			next++
			continue
		}
		if i == 0 {
			break
		}
		out = append(out, -1) // filled in by inferBegun
	}
	return out
}

// carry takes over a batch of the earlier plan, as it was planned up to now; nil
// when it is over.
func (pl *Stated) carry(b *schedule.Batch) *underWay {
	r := pl.p.RecipeOf(b.ID, b.Cheese)
	if r == nil || len(b.Stages) > len(r.Stages) {
		pl.note("cheese-gone", 0, "The batch %s of %s is under way, but the folder no longer has its recipe: it is left out of this plan.", b.ID, b.Cheese)
		return nil
	}
	u := &underWay{id: b.ID, lot: b.Lot, family: pl.Family(b.Cheese), recipe: r, litres: b.Litres, left: b.Pieces, first: b.Made, gave: b.Left, earlier: b, entry: -1}
	for i := range b.Stages {
		if b.Stages[i].Start >= pl.p.From {
			break
		}
		u.starts = append(u.starts, b.Stages[i].Start)
	}
	pl.inferBegun(u)
	// Of what is not packed pieces have left too, where somebody said so.
	u.gave, _ = schedule.LeftAsPlanned(b.Left, b.For, pl.p.From)
	u.gone = b.Gone + schedule.LeftPieces(u.gave) - schedule.LeftPieces(b.Left)
	if len(u.starts) < len(r.Stages) {
		return u
	}
	last := len(r.Stages) - 1
	ready := u.starts[last].Add(pl.workUnderWay(u, last))
	most := pl.chains[u.family].holds[last].Most
	switch {
	case ready.Add(most) < pl.p.From:
		return nil // what is left, if anything, is not in the plan's hands
	case u.sellable() == 0:
		if !pl.stockStandsFor(u, ready) {
			pl.past = append(pl.past, pastOf(b, u))
		}
		return nil
	case pl.stockStandsFor(u, ready):
		pl.note("counted-once", 0, "Batch %s was packed on %s, as was the %s in stock: the stock is taken to be that batch and is counted once.",
			u.id, ready.DateIn(pl.p.Kitchen.Zone), b.Cheese)
		return nil
	}
	return u
}

// pastOf is what is remembered of a batch of which nothing is left to sell.
func pastOf(b *schedule.Batch, u *underWay) schedule.Batch {
	out := *b
	out.Begun, out.Gone, out.Left, out.For, out.Care = true, u.gone, u.gave, nil, nil
	out.Stages = slices.Clone(b.Stages)
	for i := range out.Stages {
		out.Stages[i].Uses, out.Stages[i].BoxesAt = nil, nil
	}
	return out
}

// stillKept are the batches that the earlier plan remembered and that keep yet: nobody has said anything.
func (pl *Stated) stillKept(past []schedule.Batch) {
	for i := range past {
		b := &past[i]
		r := pl.p.Recipe(b.Cheese)
		last := &b.Stages[len(b.Stages)-1]
		if r != nil && last.Start.Add(last.Work+r.Keeps) >= pl.p.From {
			pl.past = append(pl.past, *b)
		}
	}
}

// stockStandsFor reports whether an entry of stock is this packed batch.
func (pl *Stated) stockStandsFor(u *underWay, ready resources.Moment) bool {
	zone := pl.p.Kitchen.Zone
	for i := range pl.p.Stock {
		st := &pl.p.Stock[i]
		if st.Cheese == u.recipe.Name && ready <= pl.p.From && st.Packed.DateIn(zone) == ready.DateIn(zone) {
			return true
		}
	}
	return false
}

// inferBegun adds the stages that began by themselves: those without work that
// follow at once on a stage whose work was over at the planning start.
func (pl *Stated) inferBegun(u *underWay) {
	c := pl.chains[u.family]
	for i := 0; i < len(u.recipe.Stages); i++ {
		if i < len(u.starts) && u.starts[i] >= 0 {
			continue
		}
		if i == 0 || i > len(u.starts) {
			return
		}
		done := u.starts[i-1].Add(pl.workUnderWay(u, i-1))
		missing := i < len(u.starts)
		if !missing && (c.holds[i-1].Most != 0 || needs.HasWork(&u.recipe.Stages[i]) || done > pl.p.From) {
			return
		}
		if missing {
			for _, later := range u.starts[i+1:] {
				if later >= 0 {
					done = min(done, later)
				}
			}
			u.starts[i] = done
		} else {
			u.starts = append(u.starts, done)
		}
	}
}

// workUnderWay is a begun stage's work: as the earlier plan had it when the batch
// is carried from there, else by what is left of it. Whoever began the next stage
// sooner than that was done sooner.
func (pl *Stated) workUnderWay(u *underWay, stage int) resources.Minutes {
	work := needs.Work(&u.recipe.Stages[stage], u.size(), pl.clock.step)
	if u.entry < 0 && u.earlier != nil && stage < len(u.earlier.Stages) {
		work = u.earlier.Stages[stage].Work
	}
	if next := stage + 1; next < len(u.starts) && u.starts[next] >= 0 {
		work = max(0, min(work, u.starts[next].Sub(u.starts[stage])))
	}
	return work
}
