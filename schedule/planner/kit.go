package planner

import (
	"ripeby/resources"
	"ripeby/schedule/cp/problem"
)

// Thing is a pot, station, mould or box of a kitchen.
type Thing struct {
	Name  string
	Count *int // in the kitchen itself
	Clean resources.Minutes
}

// Things lists what is counted in a kitchen, in its order: pots, stations, moulds, boxes.
// To change a count changes the kitchen.
func Things(k *resources.Kitchen) []Thing {
	var out []Thing
	for i := range k.Pots {
		out = append(out, Thing{k.Pots[i].Name, &k.Pots[i].Count, k.Pots[i].Clean})
	}
	for i := range k.Stations {
		out = append(out, Thing{k.Stations[i].Name, &k.Stations[i].Count, k.Stations[i].Clean})
	}
	for i := range k.Moulds {
		out = append(out, Thing{k.Moulds[i].Name, &k.Moulds[i].Count, k.Moulds[i].Clean})
	}
	for i := range k.Boxes {
		out = append(out, Thing{k.Boxes[i].Name, &k.Boxes[i].Count, k.Boxes[i].Clean})
	}
	return out
}

// addKit states the pots, stations, moulds and boxes as pools, one a name.
func (pl *Stated) addKit() {
	k := &pl.p.Kitchen
	for _, t := range Things(k) {
		pl.poolOf[t.Name] = len(pl.model.Pools)
		pl.model.Pools = append(pl.model.Pools, problem.Pool{Capacity: *t.Count})
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
func (pl *Stated) poolNames() []string {
	out := make([]string, len(pl.model.Pools))
	for name, i := range pl.poolOf {
		out[i] = name
	}
	return out
}

// cleanOf is how long a thing is cleaned after its release.
func (pl *Stated) cleanOf(name string) int {
	for _, t := range Things(&pl.p.Kitchen) {
		if t.Name == name {
			return int(t.Clean)
		}
	}
	return 0
}
