package judge

import (
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
)

// The settled time is from 100 to 200. Before stands what the earlier plan had, after it this plan.
func TestUnrest(t *testing.T) {
	type task struct {
		id, stage string
		start     resources.Moment
		work      resources.Minutes
		who       string
		begun     bool
	}
	planOf := func(list []task) *schedule.Plan {
		p := &schedule.Plan{}
		for _, x := range list {
			at := len(p.Batches)
			for i := range p.Batches {
				if p.Batches[i].ID == x.id {
					at = i
				}
			}
			if at == len(p.Batches) {
				p.Batches = append(p.Batches, schedule.Batch{ID: x.id})
			}
			p.Batches[at].Stages = append(p.Batches[at].Stages, schedule.Task{Stage: x.stage, Start: x.start, Work: x.work, Who: x.who, Begun: x.begun})
		}
		return p
	}
	taken := []schedule.TakenOn{{Batch: "T", Stage: "make", Who: "Finn"}}
	for _, x := range []struct {
		name        string
		before, now []task
		lost        []string
		moved       int
		points      int64
	}{
		{"by the one who has taken it on", []task{{"T", "make", 150, 10, "Nell", false}}, []task{{"T", "make", 150, 10, "Finn", false}}, nil, 0, 0},
		{"taken on, and not by them", []task{{"T", "make", 150, 10, "Nell", false}}, []task{{"T", "make", 150, 10, "Nell", false}}, nil, 1, 0},
		{"taken on after the settled time, and not by them", []task{{"T", "make", 300, 10, "Nell", false}}, []task{{"T", "make", 300, 10, "Nell", false}}, nil, 1, 0},
		{"taken on after the settled time, and later", []task{{"T", "make", 300, 10, "Nell", false}}, []task{{"T", "make", 310, 10, "Finn", false}}, nil, 0, 3},
		{"taken on, and at another time", []task{{"T", "make", 150, 10, "Nell", false}}, []task{{"T", "make", 160, 10, "Finn", false}}, nil, 1, 0},
		{"taken on, and at another time by another", []task{{"T", "make", 150, 10, "Nell", false}}, []task{{"T", "make", 160, 10, "Nell", false}}, nil, 2, 0},
		{"taken on, and begun", []task{{"T", "make", 150, 10, "Nell", false}}, []task{{"T", "make", 90, 10, "Nell", true}}, nil, 0, 0},
		{"taken on, and not made", []task{{"T", "make", 300, 10, "Nell", false}, {"T", "pack", 400, 10, "Nell", false}}, nil, nil, 1, 6},
		{"taken on, and was to be before the planning start", []task{{"T", "make", 90, 10, "Nell", false}}, []task{{"T", "make", 110, 10, "Nell", false}}, nil, 1, 0},
		{"taken on, to be before the planning start, and theirs", []task{{"T", "make", 90, 10, "Nell", false}}, []task{{"T", "make", 110, 10, "Finn", false}}, nil, 0, 0},
		{"the same", []task{{"A", "make", 150, 10, "Nell", false}}, []task{{"A", "make", 150, 10, "Nell", false}}, nil, 0, 0},
		{"later in the settled time", []task{{"A", "make", 150, 10, "Nell", false}}, []task{{"A", "make", 160, 10, "Nell", false}}, nil, 1, 0},
		{"by somebody else", []task{{"A", "make", 150, 10, "Nell", false}}, []task{{"A", "make", 150, 10, "Finn", false}}, nil, 1, 0},
		{"longer, by the same at the same time", []task{{"A", "make", 150, 10, "Nell", false}}, []task{{"A", "make", 150, 40, "Nell", false}}, nil, 0, 0},
		{"at its last moment", []task{{"A", "make", 199, 10, "Nell", false}}, []task{{"A", "make", 210, 10, "Nell", false}}, nil, 1, 0},
		{"just after it", []task{{"A", "make", 200, 10, "Nell", false}}, []task{{"A", "make", 210, 10, "Nell", false}}, nil, 0, 3},
		{"out of the settled time", []task{{"A", "make", 150, 10, "Nell", false}}, []task{{"A", "make", 300, 10, "Nell", false}}, nil, 1, 0},
		{"into it counts once", []task{{"A", "make", 300, 10, "Nell", false}}, []task{{"A", "make", 150, 10, "Nell", false}}, nil, 1, 0},
		{"dropped", []task{{"A", "make", 150, 10, "Nell", false}, {"A", "pack", 300, 10, "Nell", false}}, nil, nil, 1, 3},
		{"new", nil, []task{{"A", "make", 150, 10, "Nell", false}, {"A", "pack", 300, 10, "Nell", false}}, nil, 1, 0},
		{"another batch in its stead", []task{{"A", "make", 150, 10, "Nell", false}}, []task{{"B", "make", 150, 10, "Nell", false}}, nil, 2, 0},
		{"lost", []task{{"A", "make", 150, 10, "Nell", false}, {"A", "pack", 300, 10, "Nell", false}}, nil, []string{"A"}, 0, 0},
		{"begun now", []task{{"A", "make", 150, 10, "Nell", false}}, []task{{"A", "make", 90, 10, "Nell", true}}, nil, 0, 0},
		{"was to be before the planning start", []task{{"A", "make", 90, 10, "Nell", false}}, []task{{"A", "make", 110, 10, "Nell", false}}, nil, 0, 0},
		{"without work", []task{{"A", "set", 150, 0, "", false}}, []task{{"A", "set", 160, 0, "", false}}, nil, 0, 0},
		{"without work now", []task{{"A", "set", 150, 10, "Nell", false}}, []task{{"A", "set", 150, 0, "", false}}, nil, 1, 0},
	} {
		p := &schedule.Problem{Earlier: planOf(x.before), From: 100, Lost: x.lost, TakenOn: taken}
		for _, settled := range []resources.Minutes{100, 0} {
			p.Kitchen.Settled = settled
			h := &hearing{problem: p, plan: planOf(x.now), from: 100}
			moved, points := h.unrest()
			if settled == 0 && (moved != 0 || points != 0) {
				t.Errorf("%s: got %d moved and %d points with nothing settled, want none", x.name, moved, points)
			}
			if settled > 0 && (moved != x.moved || points != x.points) {
				t.Errorf("%s: got %d moved and %d points, want %d and %d", x.name, moved, points, x.moved, x.points)
			}
		}
	}
}

// What changes must be told, each once, with a reason, and nothing else.
func TestChangesAreTold(t *testing.T) {
	for _, x := range []struct {
		name  string
		spoil func(plan *schedule.Plan)
		want  string
	}{
		{"as it is", func(*schedule.Plan) {}, ""},
		{"one is not told", func(plan *schedule.Plan) { plan.Changes = plan.Changes[1:] }, "change"},
		{"one is told twice", func(plan *schedule.Plan) { plan.Changes = append(plan.Changes, plan.Changes[0]) }, "change"},
		{"from another time", func(plan *schedule.Plan) { plan.Changes[0].Was += 5 }, "change"},
		{"to somebody else", func(plan *schedule.Plan) { plan.Changes[0].NowWho = "Bram" }, "change"},
		{"nobody says why", func(plan *schedule.Plan) { plan.Changes[0].Because = "" }, "change"},
		{"what does not change", func(plan *schedule.Plan) { plan.Changes[0].Stage = "no stage" }, "change"},
	} {
		t.Run(x.name, func(t *testing.T) {
			_, p, plan := sound(t)
			_, _, p.Earlier = sound(t)
			p.Kitchen.Settled = 30 * resources.Day
			for k := range plan.Batches[2].Stages {
				p.Earlier.Batches[2].Stages[k].Who = "Somebody"
			}
			reseal(p, plan)
			if len(plan.Changes) == 0 || plan.Score.Moved == 0 {
				t.Fatalf("got %+v and %d moved, want some", plan.Changes, plan.Score.Moved)
			}
			x.spoil(plan)
			expect(t, p, plan, x.want)
		})
	}
}
