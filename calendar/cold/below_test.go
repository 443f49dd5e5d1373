package cold

import (
	"bytes"
	"strings"
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/coldroom"
)

// Of boxes in one spot it is said which are below, by the order in which they came, on the map and
// in the list where there is no room to draw.
func TestMapSaysWhatIsBelow(t *testing.T) {
	p, plan := kitchen(t)
	at := schedule.Standing{Place: "kitchen fridge", Shelf: "top", X: 60 * cm, Width: 12 * cm, Depth: 30 * cm}
	stock := func(hours resources.Minutes, layers ...int) {
		s := schedule.StockUse{Cheese: "Curd", Packed: plan.From.Add(-hours), Ends: plan.From.Add(2 * resources.Day), At: at.Place}
		for _, layer := range layers {
			at.Layer = layer
			s.BoxesAt = append(s.BoxesAt, at)
		}
		plan.Stock = append(plan.Stock, s)
	}
	stock(600, 3)
	stock(1200, 4, 5) // they stood on three that have left
	stock(600, 2, 1)
	for width, wants := range map[int][]string{120: {"Ax2+Bx2+C", "Where letters are joined by +"}, 20: {", on ", " and "}} {
		text := textOf(t, func(b *bytes.Buffer) error {
			return Map(b, p, plan, Options{At: plan.From, In: "top", Width: width})
		})
		for _, want := range wants {
			if !strings.Contains(strings.Join(strings.Fields(text), " "), want) {
				t.Errorf("width %d: no %q in\n%s", width, want, text)
			}
		}
	}
	piles := coldroom.Of(p, plan).Piles("kitchen fridge", "top", plan.From)
	n := len(piles)
	if n < 3 || piles[n-1].Below != 4 || piles[n-2].Below != 2 || piles[n-3].Below != 0 || piles[n-2].Boxes != 2 {
		t.Errorf("got %+v, want two boxes at the bottom, on them the two of layers 1 and 2, then the one of layer 3", piles)
	}
}

// Boxes that have a place on those of a batch are said to stand on them.
func TestAnswerSaysWhatIsBelow(t *testing.T) {
	p, plan := kitchen(t)
	plan.Batches = nil
	plan.Stock = []schedule.StockUse{{Cheese: p.Recipes[0].Name, Packed: plan.From - 60, Ends: plan.From + 600, At: "kitchen fridge",
		BoxesAt: []schedule.Standing{{Place: "kitchen fridge", Shelf: "top", Width: 30 * cm, Depth: 36 * cm, Layer: 1}}}}
	box := p.Kitchen.Boxes[0]
	p.Kitchen.Cold[0].Shelves[0].Size.Height = 38 * cm
	for stack, want := range map[resources.Stacking]string{resources.StackKind: "2, on 1", resources.StackBatch: "kitchen fridge top 2 30 cm"} {
		p.Kitchen.Boxes[0].Stack = stack
		q := coldroom.Question{Count: 2, Box: box.Size, Kind: box.Name, In: "top", Span: resources.Span{From: plan.From, Until: plan.From + 60}}
		ask := asked(p, plan, q, coldroom.DefaultBudget)
		text := textOf(t, func(b *bytes.Buffer) error { return Answer(b, p, plan, ask, Options{At: plan.From, Width: 100}) })
		if !strings.Contains(strings.ReplaceAll(strings.Join(strings.Fields(text), " "), "\u00a0", " "), want) {
			t.Errorf("stack: %s: no %q in\n%s", stack, want, text)
		}
	}
}
