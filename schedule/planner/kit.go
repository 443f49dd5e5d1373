package planner

import (
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/needs"
)

// addKit states the pots, stations, moulds and boxes as pools, one a name.
func (pl *Stated) addKit() {
	k := &pl.p.Kitchen
	pl.things = needs.Things(k)
	for _, t := range pl.things {
		pl.poolOf[t.Name] = len(pl.model.Pools)
		pl.model.Pools = append(pl.model.Pools, problem.Pool{Capacity: *t.Count})
	}
	for i := range k.Boxes {
		b := &k.Boxes[i]
		pl.kindOf[b.Name] = len(pl.model.Kinds)
		pl.model.Kinds = append(pl.model.Kinds, problem.Kind{
			Size:   problem.Rect{W: int64(b.Size.Width), D: int64(b.Size.Depth)},
			Height: int64(b.Size.Height),
			Stack:  stackings[b.Stack],
		})
	}
}

// stackings is what boxes may stand on, in the engine's words.
var stackings = map[resources.Stacking]problem.Stacking{
	resources.StackKind: problem.OnKind, resources.StackBatch: problem.OnStay, resources.StackNo: problem.OnNone,
}

// addCold states the cold places: shelves as floors, or a count of boxes.
func (pl *Stated) addCold() {
	for i := range pl.p.Kitchen.Cold {
		c := &pl.p.Kitchen.Cold[i]
		sp := problem.Space{Capacity: c.Boxes, Closed: pl.spans(resources.Merge(c.Taken))}
		for k := range c.Shelves {
			s := &c.Shelves[k]
			sp.Floors = append(sp.Floors, problem.Floor{
				Size:   problem.Rect{W: int64(s.Size.Width), D: int64(s.Size.Depth)},
				Height: int64(s.Size.Height),
				Closed: pl.spans(resources.Merge(s.Taken)),
			})
		}
		pl.model.Spaces = append(pl.model.Spaces, sp)
	}
}

// poolNamed is the pool of a thing, with the cleaning after each use; ok is false when the
// kitchen has none of that name.
func (pl *Stated) poolNamed(name string) (choice problem.PoolChoice, ok bool) {
	pool, ok := pl.poolOf[name]
	if !ok {
		return problem.PoolChoice{}, false
	}
	return problem.PoolChoice{Pool: pool, Clean: int(pl.things[pool].Clean)}, true
}

// thingOf is the thing that a pool stands for, cleaned as the engine was told: not at all
// where it stands in for kit that is gone.
func (pl *Stated) thingOf(choice problem.PoolChoice) needs.Thing {
	thing := pl.Thing(choice.Pool)
	thing.Clean = resources.Minutes(choice.Clean)
	return thing
}

// poolsFor are the pools of which a run keeps one for a size, those first that the kitchen
// lists first, and how many units of it.
func (pl *Stated) poolsFor(c *chain, r run, z needs.Size) (choices []problem.PoolChoice, amount int) {
	for _, name := range r.Kit(&pl.p.Kitchen, c.recipe, z.Litres) {
		if choice, ok := pl.poolNamed(name); ok {
			choices = append(choices, choice)
		}
	}
	return choices, r.Count(&pl.p.Kitchen, z)
}

// boxStock puts stock in boxes of a kind, which it keeps until it has left.
func (pl *Stated) boxStock(s *problem.Stock, box *schedule.Boxing) {
	pool, _ := pl.poolNamed(box.Name)
	s.Kind, s.Pool, s.Clean = pl.kindOf[box.Name], pool.Pool, pool.Clean
}

// enough leaves the pools that have so many: what is in use for no time at all still
// has to be there.
func (pl *Stated) enough(choices []problem.PoolChoice, amount int) []problem.PoolChoice {
	var out []problem.PoolChoice
	for _, c := range choices {
		if pl.model.Pools[c.Pool].Capacity >= amount {
			out = append(out, c)
		}
	}
	return out
}
