package schedule

import (
	"testing"

	"ripeby/resources"
)

func TestMarkOverdue(t *testing.T) {
	recipe := Recipe{Name: "Dew", Stages: []Stage{{Name: "make"}, {Name: "set"}, {Name: "drain"}, {Name: "pack"}}}
	batch := func(begun int, overdue resources.Moment, starts ...resources.Moment) *Plan {
		b := Batch{ID: "A", Cheese: "Dew", Begun: begun > 0}
		for i, at := range starts {
			task := Task{Stage: recipe.Stages[i].Name, Start: at, Work: 10, Begun: i < begun}
			if i == 1 {
				task.Work = 0
			}
			if i == 2 {
				task.Overdue = overdue
			}
			b.Stages = append(b.Stages, task)
		}
		return &Plan{Batches: []Batch{b}}
	}
	for _, x := range []struct {
		name   string
		before *Plan
		now    *Plan
		looks  []Look
		want   [4]resources.Moment
	}{
		{"as planned", batch(1, 0, 50, 60, 120, 200), batch(1, 0, 50, 60, 120, 200), nil, [4]resources.Moment{}},
		{"the drain should have begun", batch(1, 0, 50, 60, 90, 200), batch(1, 0, 50, 60, 120, 200), nil, [4]resources.Moment{2: 90}},
		{"and the packing", batch(1, 0, 50, 60, 80, 90), batch(1, 0, 50, 60, 120, 200), nil, [4]resources.Moment{2: 80, 3: 90}},
		{"still", batch(1, 80, 50, 60, 110, 200), batch(1, 0, 50, 60, 120, 200), nil, [4]resources.Moment{2: 80}},
		{"it has begun now", batch(1, 80, 50, 60, 90, 200), batch(3, 0, 50, 60, 95, 200), nil, [4]resources.Moment{}},
		{"somebody looks at it again later", batch(1, 80, 50, 60, 90, 95), batch(1, 0, 50, 60, 120, 200), []Look{{Batch: "A", Stage: "drain"}}, [4]resources.Moment{}},
		{"at another batch", batch(1, 0, 50, 60, 90, 200), batch(1, 0, 50, 60, 120, 200), []Look{{Batch: "B", Stage: "drain"}}, [4]resources.Moment{2: 90}},
		{"not begun, and planned anew", batch(0, 0, 90, 95, 150, 200), batch(0, 0, 110, 115, 160, 210), nil, [4]resources.Moment{0: 90}},
		{"not begun, planned anew before, and where it was put then", batch(0, 80, 110, 115, 150, 200), batch(0, 0, 110, 115, 150, 200), nil, [4]resources.Moment{2: 80}},
		{"and elsewhere", batch(0, 80, 110, 115, 150, 200), batch(0, 0, 110, 115, 155, 200), nil, [4]resources.Moment{}},
	} {
		p := &Problem{From: 100, Recipes: []Recipe{recipe}, Earlier: x.before, Looks: x.looks}
		p.MarkOverdue(x.now)
		for i, task := range x.now.Batches[0].Stages {
			if task.Overdue != x.want[i] {
				t.Errorf("%s: got the %s overdue since %d, want %d", x.name, task.Stage, task.Overdue, x.want[i])
			}
		}
	}
	p := &Problem{From: 100, Recipes: []Recipe{recipe}}
	p.MarkOverdue(batch(1, 0, 50, 60, 120, 200)) // nothing was planned before
}
