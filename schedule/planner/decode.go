package planner

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/needs"
)

// Decode turns the engine's answer into a plan.
func (pl *Stated) Decode(r *problem.Result) *schedule.Plan {
	p := pl.p
	plan := &schedule.Plan{
		Kitchen: p.Kitchen.Name, TimeZone: p.Kitchen.TimeZone, From: p.From,
		Score: pl.scoreOf(r.Cost), Outcome: schedule.Met, BegunAsOf: p.BegunAsOf, OffPlan: p.OffPlan, MadeOf: p.MadeOf, Past: pl.past, PastStock: p.PastStock,
	}
	for i := range r.Jobs {
		plan.Batches = append(plan.Batches, pl.batchOf(&r.Jobs[i]))
	}
	pl.giveIDs(plan)
	plan.Stock = pl.stockUses(r)
	pl.tellCarries(plan, r)
	pl.addLayers(plan, r)
	plan.Targets = pl.WantResults(r.Short)
	for i := range plan.Targets {
		if plan.Targets[i].Short > 0 {
			plan.Outcome = schedule.Short
		}
	}
	bound := r.Bound
	if r.Stopped {
		bound = unproved(r)
	}
	plan.Proof.Bound = pl.scoreOf(pl.asFarAsProved(r.Cost, bound))
	plan.Proof.Level = schedule.LevelOf(plan.Score, plan.Proof.Bound)
	plan.Proof.Best = plan.Proof.Level == schedule.LevelAll
	pl.addChanges(plan, r)
	p.MarkOverdue(plan)
	pl.addCare(plan)
	pl.explain(plan, r)
	known := len(pl.warn)
	pl.warnUnderWay(plan, r)
	pl.warnRoom(plan)
	pl.warnUnused(plan)
	plan.Warnings = append(append(plan.Warnings, p.Warnings...), pl.warn...)
	pl.warn = pl.warn[:known] // of this answer alone: there may be others
	plan.Cautions = schedule.Cautions(p)
	plan.Looks = p.LooksOf(plan)
	return plan
}

// asFarAsProved is a bound that says nothing of what comes after lateness where it is open how many
// holds must run past their most: that is told in tenths alone.
func (pl *Stated) asFarAsProved(cost, bound problem.Cost) problem.Cost {
	if bound.Stuck != cost.Stuck || bound.Late == cost.Late || pl.lateOf(bound) != pl.lateOf(cost) {
		return bound
	}
	return problem.Cost{Stuck: bound.Stuck, PromisedShort: bound.PromisedShort, Late: bound.Late,
		Early: -cost.Jobs * int64(pl.model.Horizon-pl.model.From)}
}

// unproved keeps a bound that claims nothing: what was found while there was no
// time to prove.
func unproved(r *problem.Result) problem.Cost {
	b := r.Bound
	if b == r.Cost {
		b.Early--
	}
	return b
}

// scoreOf writes the engine's cost as a score, with the bother that is past.
func (pl *Stated) scoreOf(c problem.Cost) schedule.Score {
	return schedule.Score{ // with what is otherwise in any case
		PromisedShort: resources.Money(c.PromisedShort), Short: resources.Money(c.Short),
		Late:    pl.lateOf(c) + needs.StuckLate*c.Stuck + pl.lateNow,
		Batches: int(c.Jobs), Moved: int(c.Moved + pl.before.always.Moved), Litres: resources.Millilitres(c.Amount),
		Bother: c.Penalty + pl.endedNow + pl.before.always.Points, MakeStarts: -c.Early,
	}
}

// batchOf is one job as a batch; it has its id if it is under way, or one of the earlier plan's.
func (pl *Stated) batchOf(j *problem.Job) schedule.Batch {
	c := pl.chainOf(j)
	b := schedule.Batch{Cheese: c.recipe.Name, Spare: c.recipe.Spare}
	mode := pl.engineMode(j)
	if j.Begun >= 0 {
		u := pl.under[j.Begun]
		b.ID, b.Lot, b.Litres, b.Pieces, b.Gone, b.Begun = u.id, u.lot, u.litres, u.left, u.gone, true
		b.Made, b.Left = u.first, u.gave
		if d := pl.drawOf(u); d != nil {
			b.Milk = &schedule.Draw{Supply: u.recipe.Milk, Collect: d.Ready}
		}
	} else {
		sz := pl.modes[j.Family][j.Mode]
		b.Litres, b.Pieces = sz.Litres, sz.Pieces
		if j.Kept != nil {
			b.ID = pl.before.ids[j.Kept.Number]
		}
		if j.Intake >= 0 {
			in := pl.intakes[j.Intake]
			b.Milk = &schedule.Draw{Supply: pl.p.Kitchen.Milk[in.milk].Name, Collect: in.Ready}
		}
	}
	pl.addStages(&b, j, c, mode)
	pl.addUses(&b, j, c, mode)
	pl.addBoxes(&b, j, c, mode)
	b.For = pl.shares(j.Shares)
	return b
}

func (pl *Stated) engineMode(j *problem.Job) *problem.Mode {
	if j.Begun >= 0 {
		return &pl.model.Begun[j.Begun].Mode
	}
	return &pl.model.Families[j.Family].Modes[j.Mode]
}

// addStages writes the stages, activities split into theirs again.
func (pl *Stated) addStages(b *schedule.Batch, j *problem.Job, c *chain, mode *problem.Mode) {
	begun := 0
	var u *underWay
	if j.Begun >= 0 {
		u = pl.under[j.Begun]
		begun = len(u.starts)
	}
	for a := range j.Starts {
		ac := c.acts[a]
		end := j.End
		if a+1 < len(j.Starts) {
			end = j.Starts[a+1]
		}
		at := j.Starts[a]
		for i, total := range pl.stageHolds(u, c, a, j, end) {
			stage := ac.first + i
			if stage >= begun && j.Stuck {
				break
			}
			t := schedule.Task{Stage: c.recipe.Stages[stage].Name, Start: pl.clock.moment(at), At: "room", Begun: stage < begun}
			if i == 0 {
				t.Work = resources.Minutes(mode.Acts[a].Work)
				if w := j.Workers[a]; w >= 0 {
					t.Who = pl.p.Kitchen.People[w].Name
				}
				if t.Begun {
					t.Who = u.didIt(stage, t.Who)
				}
			}
			t.Hold = resources.Minutes(total)
			at += int(t.Work) + total
			t.Ends = pl.clock.moment(at)
			t.At = pl.placeOf(j, c, stage, u)
			if u != nil && t.Begun && u.earlier != nil && stage < len(u.earlier.Stages) {
				t.Carried = u.earlier.Stages[stage].Carried
			}
			b.Stages = append(b.Stages, t)
		}
	}
}

// stageHolds are the holds of an activity's stages, which end together at end.
func (pl *Stated) stageHolds(u *underWay, c *chain, a int, j *problem.Job, end int) []int {
	ac := c.acts[a]
	work := pl.engineMode(j).Acts[a].Work
	at := j.Starts[a] + work
	if j.Stuck && a == len(j.Starts)-1 {
		end = max(at, pl.clock.tick(pl.within.Until))
	}
	var out []int
	from := ac.first
	if u != nil {
		for ; from < ac.last && from+1 < len(u.starts); from++ {
			h := pl.clock.tick(u.starts[from+1]) - at
			out = append(out, h)
			at += h
		}
	}
	if from == ac.last || j.Stuck {
		return append(out, end-at)
	}
	return append(out, c.at(from, pl.clock.moment(at)).splitAll(from, ac.last, end-at, int(pl.clock.step), pl.clock.phase(at))...)
}

// shares writes the engine's shares in the order of targets and wants.
func (pl *Stated) shares(list []problem.Share) []schedule.Share {
	out := []schedule.Share{}
	list = slices.Clone(list)
	slices.SortFunc(list, func(a, b problem.Share) int { return a.Demand - b.Demand })
	for _, s := range list {
		if s.Units == 0 {
			continue
		}
		d := pl.wants[s.Demand]
		t := &pl.p.Targets[d.Target]
		sh := schedule.Share{Target: t.Name, By: t.By, Want: d.Want, Pieces: s.Units}
		if t.Wants[d.Want].Promised {
			sh.Promised = s.Units
		}
		out = append(out, sh)
	}
	return out
}

// WantResults lists every want and how far it is met, by how many pieces each is short of.
func (pl *Stated) WantResults(short []int) []schedule.WantResult {
	var out []schedule.WantResult
	for d, w := range pl.wants {
		t := &pl.p.Targets[w.Target]
		want := &t.Wants[w.Want]
		out = append(out, schedule.WantResult{Target: t.Name, By: t.By, Want: w.Want, Cheese: want.Cheese, Price: want.Price,
			Promised: want.Promised, Wanted: want.Pieces, Met: want.Pieces - short[d], Short: short[d]})
	}
	return out
}

// stockUses writes what becomes of each entry of stock, past ones included.
func (pl *Stated) stockUses(r *problem.Result) []schedule.StockUse {
	var out []schedule.StockUse
	engine := map[int]int{}
	for s, i := range pl.stocks {
		engine[i] = s
	}
	for i := range pl.p.Stock {
		st := &pl.p.Stock[i]
		use := schedule.StockUse{Cheese: st.Cheese, Pieces: st.Pieces, Packed: st.Packed, Lot: st.Lot, Left: st.Left, At: st.At, Written: st.Written, For: []schedule.Share{}}
		if rec := pl.p.Recipe(st.Cheese); rec != nil {
			use.Ends = st.Packed.Add(rec.Keeps)
		}
		if s, ok := engine[i]; ok {
			sp := &r.Stocks[s]
			use.Ends = pl.clock.moment(sp.End)
			use.For = pl.shares(sp.Shares)
			use.BoxesAt = pl.standing(sp.Place, st.Boxes)
			if sp.Place.Space >= 0 && sp.Place.Space != pl.placeNamed(st.At) {
				use.CarryTo(pl.p.Kitchen.Cold[sp.Place.Space].Name)
			}
		}
		out = append(out, use)
	}
	return out
}
