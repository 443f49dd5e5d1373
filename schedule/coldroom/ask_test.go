package coldroom

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"ripeby/resources"
	"ripeby/resources/shelf"
	"ripeby/schedule"
)

const cm = resources.Centimetre

// horizon is after everything that happens in a tiny kitchen.
const horizon = 16

// tiny draws a kitchen with up to three small shelves and a counted place, and a
// plan whose boxes share no floor but crates a spot, over a few minutes.
func tiny(r *rand.Rand) (*schedule.Problem, *schedule.Plan) {
	span := func() resources.Span {
		from := resources.Moment(r.IntN(horizon - 1))
		return resources.Span{From: from, Until: from + 1 + resources.Moment(r.IntN(int(horizon-from)))}
	}
	var closings []resources.Span
	if r.IntN(3) == 0 {
		closings = append(closings, span())
	}
	p := &schedule.Problem{}
	fridge := resources.ColdPlace{Name: "fridge"}
	for i := range 1 + r.IntN(3) {
		s := resources.Shelf{Name: fmt.Sprint("shelf ", i),
			Size: resources.Size{Width: cm * resources.Micrometres(2+r.IntN(4)), Depth: cm * resources.Micrometres(2+r.IntN(3)), Height: cm * resources.Micrometres(1+r.IntN(4))}}
		if r.IntN(3) == 0 {
			s.Taken = append(s.Taken, span())
		}
		fridge.Shelves = append(fridge.Shelves, s)
	}
	cave := resources.ColdPlace{Name: "cave", Boxes: r.IntN(4), Taken: closings}
	p.Kitchen.Cold = []resources.ColdPlace{fridge, cave}
	crate := resources.Box{Name: "crate", Size: resources.Size{Width: cm * resources.Micrometres(1+r.IntN(3)), Depth: cm * resources.Micrometres(1+r.IntN(2)), Height: cm},
		Stack: []resources.Stacking{resources.StackKind, resources.StackKind, resources.StackBatch, resources.StackNo}[r.IntN(4)]}
	p.Kitchen.Boxes = []resources.Box{crate}
	p.Recipes = []schedule.Recipe{{Name: "crated", Box: &schedule.Boxing{Name: "crate", Takes: 1}, Stages: []schedule.Stage{{Uses: []schedule.Use{{Kind: schedule.UseBox}}}}}}
	plan := &schedule.Plan{}
	for i := range r.IntN(9) {
		stay := span()
		if r.IntN(12) == 0 { // it goes no further
			stay.Until = 10 * horizon
			plan.Warnings = append(plan.Warnings, schedule.Warning{Code: "begun-stuck", Text: fmt.Sprintf("[%d]", i)})
		}
		var boxes []schedule.Standing
		cheese := []string{"", "crated"}[r.IntN(2)]
		if r.IntN(4) == 0 {
			boxes = []schedule.Standing{{Place: "cave"}}
		} else {
			s := fridge.Shelves[r.IntN(len(fridge.Shelves))]
			w, d := cm*resources.Micrometres(1+r.IntN(3)), cm*resources.Micrometres(1+r.IntN(2))
			if cheese != "" {
				if w, d = crate.Size.Width, crate.Size.Depth; r.IntN(2) == 0 {
					w, d = d, w
				}
			}
			if w > s.Size.Width || d > s.Size.Depth {
				continue
			}
			boxes = []schedule.Standing{{Place: "fridge", Shelf: s.Name, Layer: 1, Width: w, Depth: d,
				X: cm * resources.Micrometres(r.IntN(int((s.Size.Width-w)/cm)+1)), Y: cm * resources.Micrometres(r.IntN(int((s.Size.Depth-d)/cm)+1))}}
		}
		if n := len(plan.Batches); n > 0 && cheese == plan.Batches[n-1].Cheese && r.IntN(2) == 0 {
			boxes = plan.Batches[n-1].Stages[0].BoxesAt // on the one before
		}
		if !free(p, plan, boxes, cheese == "crated", stay) {
			continue
		}
		plan.Batches = append(plan.Batches, schedule.Batch{ID: fmt.Sprintf("[%d]", i), Cheese: cheese, Stages: []schedule.Task{
			{Start: stay.From, Hold: stay.Length(), Ends: stay.Until, BoxesAt: boxes}}})
	}
	return p, plan
}

// free reports whether boxes share no floor with the plan's in a span, box by box, or, crates, a spot
// in which there is room for them at each minute.
func free(p *schedule.Problem, plan *schedule.Plan, boxes []schedule.Standing, crates bool, span resources.Span) bool {
	for m := span.From; m < min(span.Until, 2*horizon); m++ {
		for _, n := range boxes {
			below := 0
			for _, b := range plan.Batches {
				t := &b.Stages[0]
				if m < t.Start || t.Ends <= m {
					continue
				}
				for _, o := range t.BoxesAt {
					if o.Shelf == "" || o.Shelf != n.Shelf || o.Place != n.Place || o.X >= n.X+n.Width || n.X >= o.X+o.Width || o.Y >= n.Y+n.Depth || n.Y >= o.Y+o.Depth {
						continue
					}
					square := o.X == n.X && o.Y == n.Y && o.Width == n.Width && o.Depth == n.Depth
					if below++; !crates || b.Cheese != "crated" || !square || p.Kitchen.Boxes[0].Stack != resources.StackKind {
						return false
					}
				}
			}
			for _, s := range p.Kitchen.Cold[0].Shelves {
				if s.Name == n.Shelf && below > 0 && below >= int(s.Size.Height/cm) {
					return false
				}
			}
		}
	}
	return true
}

// onCrates is how many more crates stand on those of the plan on a shelf for a whole span.
func onCrates(p *schedule.Problem, plan *schedule.Plan, place string, s *resources.Shelf, span resources.Span) int {
	sum, seen := 0, map[schedule.Standing]bool{}
	for _, b := range plan.Batches {
		at := b.Stages[0].BoxesAt[0]
		at.Layer = 0
		if t := &b.Stages[0]; b.Cheese != "crated" || at.Place != place || at.Shelf != s.Name || seen[at] || t.Start >= span.Until || span.From >= t.Ends {
			continue
		}
		seen[at] = true
		// As many as go there one after another, each for all the time.
		more := *plan
		for free(p, &more, []schedule.Standing{at}, true, span) {
			sum++
			more.Batches = append(more.Batches[:len(more.Batches):len(more.Batches)], schedule.Batch{Cheese: "crated", Stages: []schedule.Task{{Start: span.From, Ends: span.Until, BoxesAt: []schedule.Standing{at}}}})
		}
	}
	return sum
}

// tried answers a question by trying every whole centimetre. It shares nothing with
// the package but the types.
func tried(p *schedule.Problem, plan *schedule.Plan, q Question, span resources.Span) bool {
	for _, place := range p.Kitchen.Cold {
		if shut(place.Taken, span) {
			continue
		}
		most := 0
		if len(place.Shelves) == 0 {
			if q.In == "" || q.In == place.Name {
				most = place.Boxes
				for m := span.From; m < span.Until; m++ {
					n := place.Boxes
					for _, b := range plan.Batches {
						if t := b.Stages[0]; t.BoxesAt[0].Place == place.Name && t.Start <= m && m < t.Ends {
							n -= len(t.BoxesAt)
						}
					}
					most = min(most, n)
				}
			}
		}
		for _, s := range place.Shelves {
			if (q.In == "" || q.In == place.Name || q.In == s.Name) && !shut(s.Taken, span) && q.Box.Height > 0 {
				layers := int(s.Size.Height / q.Box.Height)
				if q.Kind != "" && p.Kitchen.Boxes[0].Stack == resources.StackNo {
					layers = min(layers, 1)
				}
				most += layers * piledAtMost(p, plan, place.Name, &s, q, span, 0, 0)
				if q.Kind != "" {
					most += onCrates(p, plan, place.Name, &s, span)
				}
			}
		}
		if most >= q.Count {
			return true
		}
	}
	return false
}

func shut(closings []resources.Span, span resources.Span) bool {
	for m := span.From; m < span.Until; m++ {
		for _, c := range closings {
			if c.From <= m && m < c.Until {
				return true
			}
		}
	}
	return false
}

// piledAtMost is the most piles that stand from the n-th position on, where those of
// the plan's extra batches, the piles tried so far, stand already; it ends at the
// number of boxes asked for.
func piledAtMost(p *schedule.Problem, plan *schedule.Plan, place string, s *resources.Shelf, q Question, span resources.Span, n, piled int) int {
	w, d, box := int(s.Size.Width/cm), int(s.Size.Depth/cm), q.Box
	best := piled
	for ; n < w*d*2 && best < q.Count; n++ {
		b := schedule.Standing{Place: place, Shelf: s.Name, Layer: 1, Width: box.Width, Depth: box.Depth,
			X: cm * resources.Micrometres(n/2%w), Y: cm * resources.Micrometres(n/2/w)}
		if n%2 == 1 {
			b.Width, b.Depth = b.Depth, b.Width
		}
		if b.X+b.Width > s.Size.Width || b.Y+b.Depth > s.Size.Depth || !free(p, plan, []schedule.Standing{b}, false, span) {
			continue
		}
		with := *plan
		with.Batches = append(append([]schedule.Batch(nil), plan.Batches...), schedule.Batch{Stages: []schedule.Task{
			{Start: span.From, Ends: span.Until, BoxesAt: []schedule.Standing{b}}}})
		best = max(best, piledAtMost(p, &with, place, s, q, span, n+1, piled+1))
	}
	return best
}

// Every answer, the longest stay and the next moment are those that trying every
// position at every minute gives; and boxes that have a place stand where nothing
// else does.
func TestAskAgreesWithTryingEverything(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 11))
	seen := map[string]int{}
	for n := range 8000 {
		p, plan := tiny(r)
		q := Question{Count: 1 + r.IntN(4), Box: resources.Size{Width: cm * resources.Micrometres(1+r.IntN(3)),
			Depth: cm * resources.Micrometres(1+r.IntN(2)), Height: cm * resources.Micrometres(1+r.IntN(2))}}
		switch r.IntN(12) {
		case 0:
			q.Box = resources.Size{}
		case 1, 2, 3, 4, 5:
			q.Kind, q.Box = "crate", p.Kitchen.Boxes[0].Size
		}
		q.In = []string{"", "", "fridge", "cave", "shelf 0"}[r.IntN(5)]
		q.Span.From = resources.Moment(r.IntN(horizon))
		long := resources.Moment(1 + r.IntN(5))
		open := r.IntN(3) == 0
		if !open {
			q.Span.Until = q.Span.From + long
		} else {
			long = 1
			q.Span.Until = q.Span.From
		}
		reply := Of(p, plan).Ask(q, DefaultBudget)
		at := func(from, until resources.Moment) bool {
			return tried(p, plan, q, resources.Span{From: from, Until: until})
		}
		yes := at(q.Span.From, q.Span.From+long)
		if got := reply.Answer == shelf.Yes; got != yes || reply.Answer == shelf.Unknown {
			t.Fatalf("case %d: %+v: got %v, want %t\n%+v\n%+v", n, q, reply.Answer, yes, p.Kitchen.Cold, plan.Batches)
		}
		longest := Bound{Sure: true}
		for until := q.Span.From + 1; until <= horizon+1 && at(q.Span.From, until); until++ {
			longest.At, longest.Found = until, true
		}
		if longest.At == horizon+1 {
			longest.At = Forever
		}
		if reply.Longest != longest {
			t.Fatalf("case %d: %+v: longest: got %+v, want %+v\n%+v\n%+v", n, q, reply.Longest, longest, p.Kitchen.Cold, plan.Batches)
		}
		next := Bound{}
		if !yes {
			next.Sure = true
			for m := q.Span.From + 1; m <= horizon && !next.Found; m++ {
				if at(m, m+long) {
					next.At, next.Found = m, true
				}
			}
		}
		if reply.Next != next {
			t.Fatalf("case %d: %+v: next: got %+v, want %+v\n%+v\n%+v", n, q, reply.Next, next, p.Kitchen.Cold, plan.Batches)
		}
		if yes {
			span := resources.Span{From: q.Span.From, Until: q.Span.From + long}
			if open {
				span.Until = reply.Longest.At
			}
			standsFree(t, p, plan, q, reply, span)
		}
		if slices.ContainsFunc(reply.Boxes, func(b schedule.Standing) bool {
			return b.Shelf != "" && !free(p, plan, []schedule.Standing{b}, false, resources.Span{From: q.Span.From, Until: q.Span.From + long})
		}) {
			seen["on others"]++
		}
		seen[fmt.Sprintf("yes %t, open %t, spread %t, next %t", yes, open, spread(reply.Boxes), next.Found)]++
	}
	for _, kind := range []string{"on others", "yes true, open false, spread true, next false", "yes true, open true, spread false, next false",
		"yes false, open false, spread false, next true", "yes false, open false, spread false, next false", "yes false, open true, spread false, next true"} {
		if seen[kind] < 10 {
			t.Errorf("%s: seen %d times, want more: %v", kind, seen[kind], seen)
		}
	}
}

func spread(boxes []schedule.Standing) bool {
	for _, b := range boxes {
		if b.Shelf != boxes[0].Shelf {
			return true
		}
	}
	return false
}

// standsFree holds the boxes of a Yes against the kitchen and the plan one by one.
func standsFree(t *testing.T, p *schedule.Problem, plan *schedule.Plan, q Question, reply Reply, span resources.Span) {
	t.Helper()
	if len(reply.Boxes) != q.Count {
		t.Fatalf("got %d boxes, want %d", len(reply.Boxes), q.Count)
	}
	for i, b := range reply.Boxes {
		if b.Place != reply.Place || !free(p, plan, reply.Boxes[i:i+1], q.Kind != "", span) {
			t.Fatalf("%+v at %s: not in the place, or not free over %v", b, reply.Place, span)
		}
		for _, o := range reply.Boxes[:i] {
			apart := o.Shelf != b.Shelf || o.X+o.Width <= b.X || b.X+b.Width <= o.X || o.Y+o.Depth <= b.Y || b.Y+b.Depth <= o.Y
			pile := o.X == b.X && o.Y == b.Y && o.Width == b.Width && o.Depth == b.Depth && o.Layer < b.Layer
			if b.Shelf != "" && !apart && !pile {
				t.Fatalf("%+v and %+v need the same space", o, b)
			}
		}
		if b.Shelf == "" {
			continue
		}
		for _, s := range p.Kitchen.Cold[0].Shelves {
			turned := b.Width == q.Box.Depth && b.Depth == q.Box.Width
			inside := b.X >= 0 && b.Y >= 0 && b.X+b.Width <= s.Size.Width && b.Y+b.Depth <= s.Size.Depth &&
				b.Layer >= 1 && resources.Micrometres(b.Layer)*q.Box.Height <= s.Size.Height
			if s.Name == b.Shelf && (!inside || !turned && (b.Width != q.Box.Width || b.Depth != q.Box.Depth)) {
				t.Fatalf("%+v is not a box of %+v inside %+v", b, q.Box, s.Size)
			}
		}
	}
}

// A question that gets no budget is not called No where only a search could say so,
// and what was not searched is not called the longest or the next.
func TestAskGivesUpByName(t *testing.T) {
	p := &schedule.Problem{}
	p.Kitchen.Cold = []resources.ColdPlace{{Name: "fridge", Shelves: []resources.Shelf{{Name: "top", Size: resources.Size{Width: 7 * cm, Depth: 7 * cm, Height: cm}}}}}
	plan := &schedule.Plan{Batches: []schedule.Batch{{ID: "A", Stages: []schedule.Task{{Ends: 10, Hold: 10,
		BoxesAt: []schedule.Standing{{Place: "fridge", Shelf: "top", Layer: 1, X: 3 * cm, Y: 3 * cm, Width: cm, Depth: cm}}}}}}}
	q := Question{Box: resources.Size{Width: 4 * cm, Depth: 3 * cm, Height: cm}, Count: 4, Span: resources.Span{From: 1, Until: 5}}
	if r := Of(p, plan).Ask(q, DefaultBudget); r.Answer != shelf.Yes || r.Spent == 0 {
		t.Errorf("a pinwheel round the box: got %+v, want Yes by a search", r)
	}
	r := Of(p, plan).Ask(q, 0)
	if r.Answer != shelf.Unknown || r.Longest.Sure || r.Next.Sure || r.Boxes != nil {
		t.Errorf("without a budget: got %+v, want nothing known", r)
	}
	q.Count = 5 // not even the area
	if r := Of(p, plan).Ask(q, 0); r.Answer != shelf.No || r.Longest.Found || !r.Longest.Sure || r.Next.Found || !r.Next.Sure {
		t.Errorf("more than the area: got %+v, want a No that needs no budget", r)
	}
}

// What comes later for good does not hide the place before it, though nothing has a
// place once it has come.
func TestNextBeforeSomethingComesForGood(t *testing.T) {
	p := &schedule.Problem{}
	p.Kitchen.Cold = []resources.ColdPlace{{Name: "cave", Boxes: 2}}
	box := []schedule.Standing{{Place: "cave"}}
	plan := &schedule.Plan{Warnings: []schedule.Warning{{Code: "begun-stuck", Text: "B"}}, Batches: []schedule.Batch{
		{ID: "A", Stages: []schedule.Task{{Start: 0, Hold: 5, Ends: 5, BoxesAt: box}}},
		{ID: "B", Stages: []schedule.Task{{Start: 10, Hold: 5, Ends: 15, BoxesAt: box}}},
		{ID: "C", Stages: []schedule.Task{{Start: 12, Hold: 2, Ends: 14, BoxesAt: box}}}}}
	for length, want := range map[resources.Moment]Bound{5: {At: 5, Found: true, Sure: true}, 6: {Sure: true}} {
		q := Question{Count: 2, Span: resources.Span{From: 1, Until: 1 + length}}
		if got := Of(p, plan).Ask(q, DefaultBudget).Next; got != want {
			t.Errorf("for %d minutes: got %+v, want %+v", length, got, want)
		}
	}
}
