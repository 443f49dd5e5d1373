package needs

import (
	"ripeby/resources"
	"ripeby/schedule"
)

// A hold may go by how warm the make room is on the day on which it begins. The kitchen says that by
// date, so there are few spells, over each of which a hold has the same limits.

// Spell is what a hold of a recipe is that begins at From or later, before the next spell. The first
// goes back as far as one likes.
type Spell struct {
	From resources.Moment
	Hold
}

// Spells are those of the hold of stage i, the earliest first: at least one, and no two alike that
// follow one another.
func Spells(r *schedule.Recipe, i int, k *resources.Kitchen) []Spell {
	first := Spell{Hold: holdIn(r, i, k.Step, k.Room)}
	if !r.Stages[i].Hold.ByRoom() || len(k.Rooms) == 0 {
		return []Spell{first}
	}
	out := []Spell{first}
	for _, is := range k.Rooms {
		if h := holdIn(r, i, k.Step, is.Is); h != out[len(out)-1].Hold {
			out = append(out, Spell{is.From.Start(k.Zone), h})
		}
	}
	return out
}

// HoldAt is the hold of stage i that begins at a moment.
func HoldAt(r *schedule.Recipe, i int, k *resources.Kitchen, begins resources.Moment) Hold {
	return holdIn(r, i, k.Step, RoomAt(k, begins))
}

// RoomAt is how warm the make room is at a moment.
func RoomAt(k *resources.Kitchen, at resources.Moment) resources.MilliCelsius {
	if len(k.Rooms) == 0 {
		return k.Room
	}
	return k.RoomOn(at.DateIn(k.Zone))
}

// Ever is what a hold may be by any of some spells: no shorter, and no longer. It has no best.
func Ever(spells []Spell) Hold {
	out := Hold{Least: spells[0].Least, Most: spells[0].Most}
	for _, s := range spells {
		out.Least, out.Most = min(out.Least, s.Least), max(out.Most, s.Most)
	}
	return out
}
