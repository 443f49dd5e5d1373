package resources

import (
	"slices"
	"time"
)

// Kitchen is all that kitchen.yaml says. Lists keep the order of the file, which
// decides wherever the contract says "the first listed".
type Kitchen struct {
	Name     string
	TimeZone string         // IANA name, as written
	Zone     *time.Location // the same, loaded
	Step     Minutes        // planning grid; divides 60
	Room     MilliCelsius   // temperature of the make room; of several the first of Rooms
	Rooms    []RoomFrom     // by date, in their order; nil where it is the same all year: [Kitchen.RoomOn]
	Settled  Minutes        // what is planned for so long from now on is not moved without need; 0 for none
	Alarm    Minutes        // how long before work its alarm goes off, AlarmAtOnce for at its moment; 0 where that is not said
	Scale    Amount         // the smallest step that the kitchen's scale shows; zero where that is not said
	Ahead    int            // weeks for which targets that repeat without end are planned

	UnsaidWaits bool // what nobody spoke of has not been done; else it went as planned

	People   []Person
	Round    *Round // nil when the kitchen has none
	Pots     []Pot
	Stations []Station
	Moulds   []Mould
	Boxes    []Box
	Cold     []ColdPlace
	Milk     []Milk

	Businesses []Business // to which cheese goes
	Labels     *Labels    // nil where nothing is said of them: [UsualLabels]
}

// Business is one to which cheese goes: what a maker must be able to name who is asked where it went.
type Business struct{ Name, Address string }

// AlarmAtOnce has alarms go off when the work begins.
const AlarmAtOnce Minutes = -1

// DefaultStep is the planning grid of a kitchen that does not say.
const DefaultStep Minutes = 5

// Clone is the kitchen with lists of its own, whose entries may be changed; what an entry
// lists in its turn may not.
func (k *Kitchen) Clone() Kitchen {
	out := *k
	out.Rooms = slices.Clone(k.Rooms)
	out.People = slices.Clone(k.People)
	out.Pots = slices.Clone(k.Pots)
	out.Stations = slices.Clone(k.Stations)
	out.Moulds = slices.Clone(k.Moulds)
	out.Boxes = slices.Clone(k.Boxes)
	out.Cold = slices.Clone(k.Cold)
	out.Milk = slices.Clone(k.Milk)
	out.Businesses = slices.Clone(k.Businesses)
	return out
}
