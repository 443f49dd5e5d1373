package coldroom

import (
	"slices"
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
)

// A batch's boxes stand from the end of the work until the stage ends, on through
// stages that nobody is needed for, and for good where the batch goes no further.
func TestStaysOfABatch(t *testing.T) {
	box := func(y resources.Micrometres) []schedule.Standing {
		return []schedule.Standing{{Place: "fridge", Shelf: "top", Layer: 1, Y: y, Width: cm, Depth: cm}}
	}
	recipe := schedule.Recipe{Name: "Hoop", Box: &schedule.Boxing{Name: "tub", Takes: 4}}
	for _, name := range []string{"chill", "rest", "bloom", "pack"} {
		recipe.Stages = append(recipe.Stages, schedule.Stage{Name: name, Uses: []schedule.Use{{Kind: schedule.UseBox}}})
	}
	recipe.Stages[3].Box = &schedule.Boxing{Name: "carton", Takes: 4}
	p := &schedule.Problem{Recipes: []schedule.Recipe{recipe}}
	p.Kitchen.Cold = []resources.ColdPlace{{Name: "fridge", Shelves: []resources.Shelf{{Name: "top"}}}}
	stages := []schedule.Task{
		{Stage: "chill", Start: 0, Work: 2, Hold: 8, Ends: 10, BoxesAt: box(0)},
		{Stage: "rest", Start: 10, Hold: 5, Ends: 15, BoxesAt: box(0)},
		{Stage: "bloom", Start: 15, Work: 1, Hold: 4, Ends: 20, BoxesAt: box(0)},
		{Stage: "pack", Start: 20, Work: 1, Hold: 9, Ends: 30, BoxesAt: box(cm)},
	}
	plan := &schedule.Plan{
		Batches:  []schedule.Batch{{ID: "H-1", Cheese: "Hoop", Stages: stages}, {ID: "H-2", Cheese: "Hoop", Stages: stages[:2]}},
		Warnings: []schedule.Warning{{Code: "begun-stuck", Text: "H-2 goes no further."}},
		Stock:    []schedule.StockUse{{Cheese: "Hoop", Packed: -5, Ends: 3, BoxesAt: box(2 * cm)}, {Cheese: "Hoop", Packed: -9, Ends: 4}},
	}
	want := []Stay{
		{Cheese: "Hoop", Kind: "carton", Span: resources.Span{From: -5, Until: 3}},
		{Batch: "H-1", Cheese: "Hoop", Kind: "tub", Span: resources.Span{From: 2, Until: 15}},
		{Batch: "H-1", Cheese: "Hoop", Kind: "tub", Span: resources.Span{From: 16, Until: 20}},
		{Batch: "H-1", Cheese: "Hoop", Kind: "carton", Span: resources.Span{From: 21, Until: 30}},
		{Batch: "H-2", Cheese: "Hoop", Kind: "tub", Span: resources.Span{From: 2, Until: Forever}},
	}
	o := Of(p, plan)
	if len(o.Stays) != len(want) {
		t.Fatalf("got %d stays, want %d: %+v", len(o.Stays), len(want), o.Stays)
	}
	for i, w := range want {
		got := o.Stays[i]
		got.Boxes = nil
		if got.Batch != w.Batch || got.Cheese != w.Cheese || got.Kind != w.Kind || got.Span != w.Span {
			t.Errorf("stay %d: got %+v, want %+v", i, got, w)
		}
	}
	if got := o.Piles("fridge", "top", 2); len(got) != 3 || got[0].Stay != 1 || got[2].Stay != 0 {
		t.Errorf("piles at 2: got %+v, want those of both batches and then stock", got)
	}
	if got := o.Elsewhere(resources.Span{From: 2, Until: 3}); got != nil {
		t.Errorf("got boxes at %q, want none elsewhere", got)
	}
	p.Kitchen.Cold[0].Shelves[0].Name = "upper"
	if got := o.Elsewhere(resources.Span{From: 2, Until: 3}); len(got) != 1 || got[0] != "fridge, top" {
		t.Errorf("with the shelf renamed: got %q, want the old name once", got)
	}
}

// Boxes that are carried stand where they stood until then, stages that go on with them too, and
// stock.
func TestStaysThatAreCarried(t *testing.T) {
	there, stood := []schedule.Standing{{Place: "cave"}}, []schedule.Standing{{Place: "fridge", Shelf: "top", Layer: 1}}
	plan := &schedule.Plan{
		Batches: []schedule.Batch{{ID: "H-1", Cheese: "Hoop", Stages: []schedule.Task{
			{Stage: "chill", Start: 0, Work: 2, Hold: 8, Ends: 10, At: "cave", BoxesAt: there},
			{Stage: "rest", Start: 10, Hold: 5, Ends: 15, At: "cave", BoxesAt: there},
			{Stage: "bloom", Start: 15, Work: 1, Hold: 4, Ends: 20, At: "cave", BoxesAt: there}}}},
		Stock: []schedule.StockUse{{Cheese: "Hoop", Packed: -5, Ends: 30, At: "cave", BoxesAt: there}, {Cheese: "Hoop", Packed: -5, Ends: 30, At: "cave", BoxesAt: there}},
		Carries: []schedule.Carry{{Batch: "H-1", Stage: "chill", Stock: -1, From: "fridge", To: "cave", Since: 12, Stood: stood},
			{Stock: 1, From: "fridge", To: "cave", Since: 4, Stood: stood}},
	}
	type place struct {
		place string
		span  resources.Span
	}
	want := []place{{"cave", resources.Span{From: -5, Until: 30}}, {"fridge", resources.Span{From: -5, Until: 4}}, {"cave", resources.Span{From: 4, Until: 30}},
		{"fridge", resources.Span{From: 2, Until: 12}}, {"cave", resources.Span{From: 12, Until: 15}}, {"cave", resources.Span{From: 16, Until: 20}}}
	var got []place
	for _, s := range Of(&schedule.Problem{}, plan).Stays {
		got = append(got, place{s.Boxes[0].Place, s.Span})
	}
	if !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	plan.Carries = nil
	plan.Batches[0].Stages[0].Carried, plan.Batches[0].Stages[1].Carried = 12, 12 // by a plan before
	for _, s := range Of(&schedule.Problem{}, plan).Stays {
		if s.Batch == "H-1" && s.Span.From < 12 {
			t.Errorf("carried at 12: it stands in the %s from %d on", s.Boxes[0].Place, s.Span.From)
		}
	}
}
