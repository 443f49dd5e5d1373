package planner

import "ripeby/schedule/cp"

// addKit states the pots, stations, moulds and boxes as pools, one a name.
func (pl *planning) addKit() {
	k := &pl.p.Kitchen
	add := func(name string, count int) {
		pl.poolOf[name] = len(pl.model.Pools)
		pl.model.Pools = append(pl.model.Pools, cp.Pool{Capacity: count})
	}
	for i := range k.Pots {
		add(k.Pots[i].Name, k.Pots[i].Count)
	}
	for i := range k.Stations {
		add(k.Stations[i].Name, k.Stations[i].Count)
	}
	for i := range k.Moulds {
		add(k.Moulds[i].Name, k.Moulds[i].Count)
	}
	for i := range k.Boxes {
		b := &k.Boxes[i]
		add(b.Name, b.Count)
		pl.kindOf[b.Name] = len(pl.model.Kinds)
		pl.model.Kinds = append(pl.model.Kinds, cp.Kind{
			Size:   cp.Rect{W: int64(b.Size.Width), D: int64(b.Size.Depth)},
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
	k := &pl.p.Kitchen
	for i := range k.Pots {
		if k.Pots[i].Name == name {
			return int(k.Pots[i].Clean)
		}
	}
	for i := range k.Stations {
		if k.Stations[i].Name == name {
			return int(k.Stations[i].Clean)
		}
	}
	for i := range k.Moulds {
		if k.Moulds[i].Name == name {
			return int(k.Moulds[i].Clean)
		}
	}
	for i := range k.Boxes {
		if k.Boxes[i].Name == name {
			return int(k.Boxes[i].Clean)
		}
	}
	return 0
}
