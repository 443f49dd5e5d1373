package cold

import (
	"strings"

	"ripeby/calendar/svg"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/resources/shelf"
	"ripeby/schedule"
	"ripeby/schedule/coldroom"
)

// Widths of a picture of one part, in pixels: beside another on a phone, and alone.
const (
	SmallWide = 156
	LargeWide = 328
)

// Lengths of such a picture, in tenths of a pixel.
const (
	partEdge = 4 * px
	smallest = 22 * px // one box of a counted place, of which seven stand side by side in a small picture
)

// PartPicture draws what stands on one shelf, or in one counted place, at a moment, in so many pixels: the
// part by its number in [Shown.Parts]. All parts are drawn to one scale, with the letters that they have
// on every map of the moment. It is nil where there is no such part.
func PartPicture(p *schedule.Problem, plan *schedule.Plan, at resources.Moment, number, pixels int) (picture []byte, err error) {
	g, err := newPage(p, plan, Options{At: at})
	if err != nil {
		return nil, err
	}
	parts := g.parts()
	if number < 0 || number >= len(parts) {
		return nil, nil
	}
	g.lettered()
	d, c := g.alone(parts, pixels), &parts[number]
	piles := g.o.Piles(c.place.Name, c.shelfName(), at)
	d.stand(c, piles, partEdge)
	title := words.Unglue(g.partTitle(c) + ": " + g.stateNow(c))
	texts := []string{title + "."}
	for _, s := range g.staysOf(piles) {
		stay := &g.o.Stays[s.stay]
		texts = append(texts, words.Unglue(g.letters[s.stay]+": "+g.batchOf(stay)+", "+g.boxesText(s.boxes, stay)+", until "+g.untilText(stay))+".")
	}
	return d.Page(title, strings.Join(texts, " "), pixels*px, d.y+partEdge, svg.Colours), nil
}

// alone begins a picture of one part.
func (g *page) alone(parts []part, pixels int) *picture {
	wide := pixels*px - 2*partEdge
	d := newPicture(g, parts, wide, wide, smallest)
	d.y = partEdge
	return d
}

// partHeight is how high a picture of a part is, in pixels.
func (g *page) partHeight(parts []part, number, pixels int) int {
	d, c := g.alone(parts, pixels), &parts[number]
	d.stand(c, g.o.Piles(c.place.Name, c.shelfName(), g.opt.At), partEdge)
	return (d.y + partEdge) / px
}

// stateNow is how full a part is at the page's moment.
func (g *page) stateNow(c *part) string { return g.partState(c, g.stepNow(c)) }

func (g *page) stepNow(c *part) coldroom.FillStep {
	return c.fill.Tightest(resources.Span{From: g.opt.At, Until: g.opt.At + 1})
}

// isFull reports whether no box of the kitchen's has a place in a part at the page's moment. What the search
// for a place leaves open is not called full.
func (g *page) isFull(c *part) bool {
	step := g.stepNow(c)
	if c.shelf == nil || step.Boxes == 0 {
		return step.Boxes > 0 && int64(step.Boxes) >= step.Open
	}
	kitchen, o := *g.o.Kitchen, *g.o
	kitchen.Cold, o.Kitchen = []resources.ColdPlace{*c.place}, &kitchen
	sized := false
	for _, kind := range kitchen.Boxes {
		if kind.Size == (resources.Size{}) {
			continue
		}
		sized = true
		span := resources.Span{From: g.opt.At, Until: g.opt.At + 1}
		if o.Ask(coldroom.Question{Box: kind.Size, Kind: kind.Name, Count: 1, Span: span}, shelf.DefaultBudget).Answer != shelf.No {
			return false
		}
	}
	return sized
}
