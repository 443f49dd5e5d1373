package planner

import (
	"ripeby/resources"
	"ripeby/schedule/cp/problem"
)

// thing is a pot, station, mould or box of a kitchen.
type thing struct {
	name  string
	count *int
	clean resources.Minutes
}

// things lists what is counted in a kitchen, in its order: pots, stations, moulds, boxes.
// To change a count changes the kitchen.
func things(k *resources.Kitchen) []thing {
	var out []thing
	for i := range k.Pots {
		out = append(out, thing{k.Pots[i].Name, &k.Pots[i].Count, k.Pots[i].Clean})
	}
	for i := range k.Stations {
		out = append(out, thing{k.Stations[i].Name, &k.Stations[i].Count, k.Stations[i].Clean})
	}
	for i := range k.Moulds {
		out = append(out, thing{k.Moulds[i].Name, &k.Moulds[i].Count, k.Moulds[i].Clean})
	}
	for i := range k.Boxes {
		out = append(out, thing{k.Boxes[i].Name, &k.Boxes[i].Count, k.Boxes[i].Clean})
	}
	return out
}

// addKit states the pots, stations, moulds and boxes as pools, one a name.
func (pl *planning) addKit() {
	k := &pl.p.Kitchen
	for _, t := range things(k) {
		pl.poolOf[t.name] = len(pl.model.Pools)
		pl.model.Pools = append(pl.model.Pools, problem.Pool{Capacity: *t.count})
	}
	for i := range k.Boxes {
		b := &k.Boxes[i]
		pl.kindOf[b.Name] = len(pl.model.Kinds)
		pl.model.Kinds = append(pl.model.Kinds, problem.Kind{
			Size:   problem.Rect{W: int64(b.Size.Width), D: int64(b.Size.Depth)},
			Height: int64(b.Size.Height),
		})
	}
}

// poolNames are the names of the pools by number.
func (pl *planning) poolNames() []string {
	out := make([]string, len(pl.model.Pools))
	for name, i := range pl.poolOf {
		out[i] = name
	}
	return out
}

// cleanOf is how long a thing is cleaned after its release.
func (pl *planning) cleanOf(name string) int {
	for _, t := range things(&pl.p.Kitchen) {
		if t.name == name {
			return int(t.clean)
		}
	}
	return 0
}
