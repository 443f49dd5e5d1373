package planner_test

import (
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
)

// What stands in the way of a short want, in words.
func TestWhyAWantIsShort(t *testing.T) {
	zone := zoneNamed(t, "Europe/Dublin")
	from, by := at(zone, 2027, 1, 20, 9, 0), at(zone, 2027, 2, 14, 9, 0)
	hands := &schedule.Hands{Fixed: rate(30_000)}
	moulds := func(p *schedule.Problem) {
		p.Recipes[0].Keeps = 0
		p.Recipes[0].Stages[3].Uses, p.Recipes[0].Stages[4].Hands = []schedule.Use{useMould}, hands
	}
	tests := []struct {
		name string
		by   []resources.Moment
		with func(*schedule.Problem)
		want string
	}{
		{"one set of moulds for two markets", []resources.Moment{by, by.Add(60)}, moulds,
			"It is ruled out by 8 x small mould and 8 Paper for Market B on Sun 14 Feb."},
		{"too late to begin", []resources.Moment{from.Add(10 * resources.Day)}, func(*schedule.Problem) {},
			"Paper takes at least 16 d 22 h from make to packing, and 10 d is left before Sat 30 Jan 09:00."},
		{"nobody there on the day", []resources.Moment{by}, func(p *schedule.Problem) {
			p.Recipes[0].Stages[0].Hands = hands
			p.Kitchen.People[0].Away = []resources.Span{{From: at(zone, 2027, 1, 28, 0, 0), Until: at(zone, 2027, 1, 29, 0, 0)}}
			p.Recipes[0].Keeps = 0
		}, "It is ruled out by Nell's hours on Thu 28 Jan."},
		{"there for too short on the day", []resources.Moment{by}, func(p *schedule.Problem) {
			p.Recipes[0].Stages[0].Hands = hands
			p.Kitchen.People[0].Away = []resources.Span{{From: at(zone, 2027, 1, 28, 0, 0), Until: at(zone, 2027, 1, 28, 8, 0)},
				{From: at(zone, 2027, 1, 28, 8, 20), Until: at(zone, 2027, 1, 29, 0, 0)}}
			p.Recipes[0].Keeps = 0
		}, "It is ruled out by Nell's hours on Thu 28 Jan, 08:00 to 08:20."},
		{"fewer wanted than a batch is made for", []resources.Moment{by}, func(p *schedule.Problem) {
			p.Recipes[0].Batch.Serves = 6
			p.Targets[0].Wants[0].Pieces = 5
		}, "It is ruled out by batches of Paper only for 6 or more pieces."},
	}
	for _, c := range tests {
		t.Run(c.name, func(t *testing.T) {
			p := paperKitchen(zone, from, c.by...)
			c.with(p)
			plan := planFor(t, p, smallBudget)
			mustHold(t, p, plan)
			if got := plan.Targets[0].Because; got != c.want {
				t.Errorf("got  %s\nwant %s", got, c.want)
			}
		})
	}
}
