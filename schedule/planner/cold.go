package planner

import (
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp/problem"
)

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

// placesFor are the cold places that a stage may be at, in the kitchen's order;
// none for the room.
func placesFor(k *resources.Kitchen, at schedule.At) []int {
	var out []int
	for i := range k.Cold {
		c := &k.Cold[i]
		switch at.Kind {
		case schedule.AtPlace:
			if c.Name == at.Place {
				out = append(out, i)
			}
		case schedule.AtRange:
			if at.Low <= c.Temperature && c.Temperature <= at.High {
				out = append(out, i)
			}
		}
	}
	return out
}

// both are the numbers in a that are in b too.
func both(a, b []int) []int {
	var out []int
	for _, x := range a {
		for _, y := range b {
			if x == y {
				out = append(out, x)
			}
		}
	}
	return out
}
