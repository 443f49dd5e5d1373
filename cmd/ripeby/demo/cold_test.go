package demo_test

import (
	"context"
	"slices"
	"testing"

	"ripeby/resources"
	"ripeby/resources/shelf"
	"ripeby/schedule"
	"ripeby/schedule/coldroom"
	"ripeby/schedule/judge"
	"ripeby/schedule/planner"
)

// Boxes that have a place by schedule/coldroom keep the judge's rules for shelves and
// counted places when they stand there as stock; a minute longer than the longest
// stay they do not, unless a shelf closes then.
func TestBoxesThatHaveAPlaceKeepTheJudgesRules(t *testing.T) {
	p := load(t)
	plan, err := planner.Plan(context.Background(), p, planner.Options{Budget: 1_000_000})
	if err != nil {
		t.Fatal(err)
	}
	const cheese = "Spoon curd" // its stock stands in crates
	crate := p.Kitchen.Boxes[slices.IndexFunc(p.Kitchen.Boxes, func(b resources.Box) bool { return b.Name == "crate" })]
	breaches := func(boxes []schedule.Standing, until resources.Moment) (found []string) {
		q, with := *p, *plan
		q.Stock = append(slices.Clone(p.Stock), schedule.Stock{Cheese: cheese, Pieces: 1, Packed: p.From - 1, At: boxes[0].Place, Boxes: len(boxes)})
		with.Stock = append(slices.Clone(plan.Stock), schedule.StockUse{Cheese: cheese, Pieces: 1, Packed: p.From - 1, At: boxes[0].Place, Ends: until, BoxesAt: boxes})
		for _, v := range judge.Check(&q, &with) {
			if slices.Contains([]string{"shelf-overlap", "spot-over", "place-over", "box-place"}, v.Rule) {
				found = append(found, v.String())
			}
		}
		return found
	}
	yes, ended := 0, 0
	for _, in := range []string{"", "upper", "lower", "root cellar"} {
		for count := 1; count <= 8; count++ {
			r := coldroom.Of(p, plan).Ask(coldroom.Question{Box: crate.Size, Kind: crate.Name, Count: count, In: in, Span: resources.Span{From: p.From, Until: p.From}}, coldroom.DefaultBudget)
			if r.Answer != shelf.Yes {
				continue
			}
			yes++
			until := min(r.Longest.At, p.From.Add(200*resources.Day))
			if found := breaches(r.Boxes, until); len(found) > 0 {
				t.Errorf("%d in %q until %v: %v", count, in, until, found)
			}
			if closes(p, until) || r.Longest.At >= coldroom.Forever {
				continue
			}
			ended++
			if found := breaches(r.Boxes, until+1); len(found) == 0 {
				t.Errorf("%d in %q: the judge lets them stay a minute longer than the longest stay, %v", count, in, until)
			}
		}
	}
	if yes < 10 || ended < 5 {
		t.Errorf("got %d answers of yes, %d with an end, want more", yes, ended)
	}
}

// closes reports whether some shelf is taken from the moment on.
func closes(p *schedule.Problem, m resources.Moment) bool {
	for _, c := range p.Kitchen.Cold {
		for _, s := range c.Shelves {
			if slices.ContainsFunc(s.Taken, func(c resources.Span) bool { return c.From == m }) {
				return true
			}
		}
	}
	return false
}
