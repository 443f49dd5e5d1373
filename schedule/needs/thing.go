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
