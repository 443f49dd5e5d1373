package planner_test

import (
	"context"
	"slices"
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/planner/whatif"
)

// What undoes a line of the folder, or is as much more as a batch takes, is offered too.
func TestFixesThatUndoALineOfTheFolder(t *testing.T) {
	zone := zoneNamed(t, "Europe/Dublin")
	from, by := at(zone, 2027, 1, 20, 9, 0), at(zone, 2027, 2, 14, 9, 0)
	hands := &schedule.Hands{Fixed: rate(30_000)}
	day := func(d int) resources.Span {
		return resources.Span{From: at(zone, 2027, 1, d, 0, 0), Until: at(zone, 2027, 1, d+1, 0, 0)}
	}
	inTheCold := func(p *schedule.Problem) {
		r := &p.Recipes[0]
		r.Keeps = 0
		r.Box = &schedule.Boxing{Name: "tray", Takes: 3}
		r.Stages[0].Hands, r.Stages[4].Hands, r.Stages[5].Hands = hands, hands, hands
		r.Stages[4].At, r.Stages[4].Uses = schedule.At{Kind: schedule.AtPlace, Place: "cave"}, []schedule.Use{{Kind: schedule.UseBox}}
		p.Kitchen.Boxes = []resources.Box{{Name: "tray", Count: 4}}
	}
	tests := []struct {
		name string
		by   []resources.Moment
		with func(*schedule.Problem)
		want string
		kind whatif.ChangeKind
	}{
		{"one is enough", []resources.Moment{by}, func(p *schedule.Problem) {
			inTheCold(p)
			p.Recipes[0].Box.Takes = 4
			p.Kitchen.Cold = []resources.ColdPlace{{Name: "cave", Boxes: 1}}
		}, "room for one more box in cave", whatif.ChangeKit},
		{"moulds for a whole batch", []resources.Moment{by, by.Add(60)}, func(p *schedule.Problem) {
			p.Recipes[0].Keeps = 0
			p.Recipes[0].Stages[3].Uses, p.Recipes[0].Stages[4].Hands = []schedule.Use{useMould}, hands
		}, "16 x small mould instead of 8", whatif.ChangeKit},
		{"room for a whole batch", []resources.Moment{by}, func(p *schedule.Problem) {
			inTheCold(p)
			p.Kitchen.Cold = []resources.ColdPlace{{Name: "cave", Boxes: 1}}
		}, "room for 4 boxes in cave instead of 1", whatif.ChangeKit},
		{"a cold place that is closed", []resources.Moment{by}, func(p *schedule.Problem) {
			inTheCold(p)
			p.Kitchen.Cold = []resources.ColdPlace{{Name: "cave", Boxes: 4, Taken: []resources.Span{{From: day(30).From, Until: day(31).Until}}}}
		}, "cave free after all, Sat 30 Jan to Sun 31 Jan", whatif.ChangePlan},
		{"somebody who is away", []resources.Moment{by}, func(p *schedule.Problem) {
			p.Recipes[0].Stages[0].Hands = hands
			p.Kitchen.People[0].Away = []resources.Span{day(28)}
			p.Recipes[0].Keeps = 0
		}, "Nell there after all, Thu 28 Jan", whatif.ChangeHours},
		{"somebody with a short day", []resources.Moment{by}, func(p *schedule.Problem) {
			p.Recipes[0].Stages[0].Hands = hands
			p.Kitchen.People[0].MostPerDay = 20
			p.Recipes[0].Keeps = 0
		}, "Nell up to 1 h 20 min of work a day instead of 20 min", whatif.ChangeHours},
		{"milk that is not collected", []resources.Moment{by}, func(p *schedule.Problem) {
			p.Recipes[0].Stages[0].Hands, p.Recipes[0].Keeps, p.Recipes[0].Milk = hands, 0, "farm"
			p.Kitchen.Milk = []resources.Milk{{Name: "farm", Days: resources.Daily, Ready: clock(8, 0), Most: litres(40),
				Keeps: 12 * resources.Hour, Closed: []resources.Span{day(28)}}}
		}, "farm collected after all, Thu 28 Jan", whatif.ChangeKit},
	}
	for _, c := range tests {
		t.Run(c.name, func(t *testing.T) {
			p := paperKitchen(zone, from, c.by...)
			c.with(p)
			p.Earlier = planFor(t, p, smallBudget)
			short := -1
			for d := range p.Earlier.Targets {
				if p.Earlier.Targets[d].Short > 0 {
					short = d
				}
			}
			if short < 0 {
				t.Fatal("nothing is short")
			}
			for _, why := range whatif.WhyShort(context.Background(), p, []int{short}, whatif.WhyOptions{}) {
				if why == nil {
					t.Fatal("the plan is not in force")
				}
				found := false
				for _, f := range why.Fixes {
					if f.Text != c.want {
						continue
					}
					found = true
					mustHold(t, f.With, f.Plan)
					if f.Kind != c.kind || f.Gains != 8 {
						t.Errorf("%s is of kind %d and gains %d", f.Text, f.Kind, f.Gains)
					}
				}
				if c.name == "one is enough" && slices.Contains(texts(why.Fixes), "room for 3 boxes in cave instead of 1") {
					t.Errorf("more is offered than is needed: %v", texts(why.Fixes))
				}
				if !found {
					t.Errorf("%s is not among %v: %s", c.want, texts(why.Fixes), why.Because)
				}
			}
		})
	}
}

func texts(fixes []whatif.Fix) []string {
	var out []string
	for _, f := range fixes {
		out = append(out, f.Text)
	}
	return out
}
