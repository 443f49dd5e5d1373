package needs

import (
	"ripeby/resources"
	"ripeby/schedule"
)

// Thing is a kind of kit that is counted in a kitchen: a pot, station, mould or box. Its
// name is no other thing's.
type Thing struct {
	Name  string
	Count *int                  // in the kitchen itself: to change it changes the kitchen
	Clean resources.Minutes     // not usable for so long after its release
	Holds resources.Millilitres // the most milk of a batch in a pot; NoLimit for other things
}

// Things lists what is counted in a kitchen: pots, stations, moulds, boxes, each in the
// kitchen's order.
func Things(k *resources.Kitchen) []Thing {
	var out []Thing
	for i := range k.Pots {
		x := &k.Pots[i]
		out = append(out, Thing{x.Name, &x.Count, x.Clean, x.Holds})
	}
	for i := range k.Stations {
		x := &k.Stations[i]
		out = append(out, Thing{x.Name, &x.Count, x.Clean, resources.NoLimit})
	}
	for i := range k.Moulds {
		x := &k.Moulds[i]
		out = append(out, Thing{x.Name, &x.Count, x.Clean, resources.NoLimit})
	}
	for i := range k.Boxes {
		x := &k.Boxes[i]
		out = append(out, Thing{x.Name, &x.Count, x.Clean, resources.NoLimit})
	}
	return out
}

// IsPot reports whether it is a pot.
func (t Thing) IsPot() bool { return t.Holds != resources.NoLimit }

// Occupied is so many of the thing kept for a time, and cleaned after it.
func (t Thing) Occupied(count int, held resources.Span) schedule.Occupied {
	return schedule.Occupied{Thing: t.Name, Count: count, From: held.From, Until: held.Until, CleanUntil: held.Until.Add(t.Clean)}
}

// Kit are the names of the things of which the run keeps one kind, those to be tried first
// before others: any pot large enough or the one named, else the one kind that is meant.
func (x Run) Kit(k *resources.Kitchen, r *schedule.Recipe, litres resources.Millilitres) []string {
	var out []string
	switch x.Use.Kind {
	case schedule.UsePot:
		for i := range k.Pots {
			if p := &k.Pots[i]; (x.Use.Name == "" || x.Use.Name == p.Name) && p.Holds >= litres {
				out = append(out, p.Name)
			}
		}
	case schedule.UseStation:
		out = append(out, x.Use.Name)
	case schedule.UseBox:
		out = append(out, x.Box.Name)
	default:
		out = append(out, r.Mould)
	}
	return out
}

// Count is how many of its kind the run keeps for a batch of a size.
func (x Run) Count(k *resources.Kitchen, z Size) int {
	switch x.Use.Kind {
	case schedule.UsePot:
		return 1
	case schedule.UseStation:
		for i := range k.Stations {
			if k.Stations[i].Name == x.Use.Name {
				return stationsOf(&k.Stations[i], z)
			}
		}
		return 0
	case schedule.UseBox:
		return Boxes(x.Box, z.Pieces)
	}
	return z.Pieces
}

// stationsOf is how many of a station a batch uses.
func stationsOf(s *resources.Station, z Size) int {
	switch {
	case s.TakesVolume > 0:
		return int((z.Litres + s.TakesVolume - 1) / s.TakesVolume)
	case s.TakesPieces > 0:
		return (z.Pieces + s.TakesPieces - 1) / s.TakesPieces
	}
	return 1
}

// Boxes is how many boxes so many pieces take.
func Boxes(b *schedule.Boxing, pieces int) int { return (pieces + b.Takes - 1) / b.Takes }
