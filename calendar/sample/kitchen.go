package sample

import (
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// Zone is the time zone of that name.
func Zone(name string) *time.Location {
	zone, err := time.LoadLocation(name)
	if err != nil {
		panic(err)
	}
	return zone
}

// At reads "2027-03-16 07:30" in the zone.
func At(zone *time.Location, s string) resources.Moment {
	m, err := time.ParseInLocation("2006-01-02 15:04", s, zone)
	if err != nil {
		panic(err)
	}
	return resources.MomentOf(m)
}

const cm = resources.Centimetre

// Kitchen is one fridge of two shelves, one counted cave, two people, one supply and
// one cheese that is asked for.
func Kitchen() *schedule.Problem {
	zone := Zone("Europe/Dublin")
	size := resources.Size{Width: 52 * cm, Depth: 36 * cm, Height: 26 * cm}
	hold := func(least, most resources.Minutes) *schedule.Hold {
		return &schedule.Hold{Least: least, Most: most}
	}
	hands := &schedule.Hands{Fixed: 20_000}
	return &schedule.Problem{
		From: At(zone, "2027-03-14 06:00"),
		Kitchen: resources.Kitchen{
			Name: "Saltgrass Lane", TimeZone: "Europe/Dublin", Zone: zone, Step: 5, Room: 20_000,
			People: []resources.Person{{Name: "Nell"}, {Name: "Oisín"}},
			Cold: []resources.ColdPlace{
				{Name: "kitchen fridge", Temperature: 4_000, Shelves: []resources.Shelf{
					{Name: "top", Size: size}, {Name: "middle", Size: size}}},
				{Name: "cheese cave", Temperature: 11_000, Boxes: 3},
			},
			Milk: []resources.Milk{{Name: "Hill Farm cow", Order: 2 * resources.Day, Most: 40_000, Keeps: 2 * resources.Day}},
		},
		Recipes: []schedule.Recipe{
			{Name: "Bramble hoop", Keeps: 6 * resources.Day, Stages: []schedule.Stage{
				{Name: "make", Hands: hands},
				{Name: "set", Hold: hold(20*resources.Hour, 30*resources.Hour)},
				{Name: "mould", Hands: hands},
				{Name: "chill", Hold: hold(20*resources.Hour, 36*resources.Hour), At: schedule.At{Kind: schedule.AtPlace, Place: "kitchen fridge"}},
				{Name: "ripen", Hands: hands, Hold: hold(7*resources.Day, 14*resources.Day), At: schedule.At{Kind: schedule.AtRange, Low: 2_000, High: 12_000}},
				{Name: "pack", Hands: hands, At: schedule.At{Kind: schedule.AtPlace, Place: "kitchen fridge"}},
			}},
			{Name: "Never asked for", Keeps: resources.Day},
		},
		Targets: []schedule.Target{{Name: "Easter market", Wants: []schedule.Want{{Cheese: "Bramble hoop", Pieces: 30}}}},
	}
}
