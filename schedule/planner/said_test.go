package planner

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/needs"
)

// fullKitchen has much of everything that can stand in the way, each with such a name.
func fullKitchen(t *testing.T, names string) (*Stated, *schedule.Plan) {
	t.Helper()
	zone, err := time.LoadLocation("Europe/Dublin")
	if err != nil {
		t.Fatal(err)
	}
	p := &schedule.Problem{}
	p.Kitchen.Zone, p.Kitchen.Step = zone, 5
	for i := range 4 {
		p.Kitchen.Pots = append(p.Kitchen.Pots, resources.Pot{Name: fmt.Sprintf(names+"pot %d", i)})
		p.Kitchen.People = append(p.Kitchen.People, resources.Person{Name: fmt.Sprintf("Nell %d", i)})
		p.Kitchen.Cold = append(p.Kitchen.Cold, resources.ColdPlace{Name: fmt.Sprintf(names+"fridge %d", i), Boxes: 3})
		p.Kitchen.Milk = append(p.Kitchen.Milk, resources.Milk{Name: fmt.Sprintf(names+"farm %d", i)})
		p.Recipes = append(p.Recipes, schedule.Recipe{Name: fmt.Sprintf("Wold hoop %d", i), Batch: schedule.BatchSize{Serves: 5}})
	}
	plan := &schedule.Plan{}
	for i := range 4 {
		plan.Targets = append(plan.Targets, schedule.WantResult{Target: fmt.Sprintf("Stall %d", i), Cheese: "Wold hoop 0", Met: 3})
	}
	pl := &Stated{p: p, clock: clock{step: 5}}
	pl.model = &problem.Model{}
	for i := range p.Kitchen.Pots {
		pl.things = append(pl.things, needs.Thing{Name: p.Kitchen.Pots[i].Name})
		pl.model.Pools = append(pl.model.Pools, problem.Pool{Capacity: 2})
	}
	return pl, plan
}

// However much stands in the way, it is said in one sentence of 25 words at most.
func TestManyFactsAreSaidInFewWords(t *testing.T) {
	pl, plan := fullKitchen(t, "the big old ")
	kinds := []problem.FactKind{problem.FactServes, problem.FactPool, problem.FactSpace, problem.FactWorker, problem.FactSupply, problem.FactDemand}
	for n := range 1 << (2 * len(kinds)) { // none, one, two or four of each kind
		var facts []problem.Fact
		for i, kind := range kinds {
			for k := range []int{0, 1, 2, 4}[n>>(2*i)&3] {
				facts = append(facts, problem.Fact{Kind: kind, Index: k, From: 0, Until: 1440})
			}
		}
		if len(facts) == 0 {
			continue
		}
		text := pl.inWords(facts, plan, "Without that, it is still ruled out by ")
		if words := len(strings.Fields(text)); words > mostWords {
			t.Fatalf("%d words: %s", words, text)
		}
	}
}

// A sentence with too many names says less of them, one kind of detail after another.
func TestWhatIsSaidOfFacts(t *testing.T) {
	pl, plan := fullKitchen(t, "")
	facts := func(of ...problem.Fact) []problem.Fact { return of }
	serves := func(i int) problem.Fact { return problem.Fact{Kind: problem.FactServes, Index: i} }
	kit := func(i int) problem.Fact { return problem.Fact{Kind: problem.FactPool, Index: i} }
	room := func(i int) problem.Fact { return problem.Fact{Kind: problem.FactSpace, Index: i} }
	milk := func(i int) problem.Fact { return problem.Fact{Kind: problem.FactSupply, Index: i} }
	given := func(i int) problem.Fact { return problem.Fact{Kind: problem.FactDemand, Index: i} }
	tests := []struct {
		name  string
		facts []problem.Fact
		want  string
	}{
		{"few", facts(kit(0), given(1)), "It is ruled out by 2 x pot 0 and 3 Wold hoop 0 for Stall 1 on Thu 1 Jan."},
		{"four kinds of kit and room", facts(kit(0), kit(1), kit(2), kit(3), room(0)),
			"It is ruled out by 2 x pot 0, 2 x pot 1, 2 more kinds of kit and the room in fridge 0."},
		{"much of everything", facts(kit(0), kit(1), kit(2), room(0), milk(0), given(0)),
			"It is ruled out by kit, the room in fridge 0, farm 0 milk and another delivery."},
		{"two recipes and more", facts(serves(0), serves(1), kit(0), room(0), milk(0)),
			"It is ruled out by the least a batch serves, 2 x pot 0, the room in fridge 0 and farm 0 milk."},
	}
	for _, c := range tests {
		t.Run(c.name, func(t *testing.T) {
			if got := pl.inWords(c.facts, plan, "It is ruled out by "); got != c.want {
				t.Errorf("got  %s\nwant %s", got, c.want)
			}
		})
	}
	r := problem.Reason{Kind: problem.ReasonMoments, Sets: []problem.FactSet{{Facts: facts(kit(0), given(1))}}}
	for times, want := range map[int]string{
		1: "It is ruled out by 2 x pot 0 and 3 Wold hoop 0 for Stall 1 on Thu 1 Jan.",
		2: "It is ruled out by 2 x pot 0, twice in that time, and 3 Wold hoop 0 for Stall 1 on Thu 1 Jan.",
		3: "It is ruled out by 2 x pot 0, 3 times in that time, and another delivery.",
	} {
		plan.Targets[0].Met, r.Times = 0, times
		if got := pl.Because("", &r, plan); got != want {
			t.Errorf("full %d times: got  %s, want %s", times, got, want)
		}
	}
	at := &plan.Targets[2]
	at.By = resources.Moment(57 * 365 * resources.Day)
	at.Target = "Stall " + at.By.DateIn(pl.p.Kitchen.Zone).String()
	if got, want := pl.givenText(facts(given(2)), plan, 2), "3 Wold hoop 0 for Stall on "+resources.ShowDay(at.By, pl.p.Kitchen.Zone); got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

// How long is left is counted up to when it must be packed.
func TestTimeIsLeftUntilItMustBePacked(t *testing.T) {
	pl, _ := fullKitchen(t, "")
	by := resources.Moment(40 * resources.Day)
	pl.p.From = by.Add(-2 * resources.Day)
	w := &schedule.WantResult{Target: "Stall", Cheese: "Wold hoop", By: by}
	for packed, want := range map[resources.Minutes]string{
		0:                 "Wold hoop takes at least 9 d from make to packing, and 2 d is left before " + pl.when(by) + ".",
		resources.Day:     "Wold hoop takes at least 9 d from make to packing, and 2 d is left before " + pl.when(by.Add(-resources.Day)) + ", by when it must be packed.",
		3 * resources.Day: "Wold hoop takes at least 9 d from make to packing, and would have to be packed by " + pl.when(by.Add(-3*resources.Day)) + ".",
	} {
		pl.p.Targets = []schedule.Target{{Name: "Stall", By: by, Packed: packed}}
		if got := pl.noTime(w, "9 d", "2 d"); got != want {
			t.Errorf("got  %s\nwant %s", got, want)
		}
	}
}
