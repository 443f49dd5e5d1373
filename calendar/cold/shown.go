package cold

import (
	"fmt"

	"ripeby/calendar/layout"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/coldroom"
)

// Shown is what a page shows of the cold places.
type Shown struct {
	Moment   string // of Parts
	Parts    []PartShown
	Notes    []string
	Tightest string
	Fill     layout.Table // by day, from the moment's on; no rows when all of the plan is past
	FillSays string       // what its cells are
}

// PartShown is a shelf, or a place that is counted in boxes, at a moment.
type PartShown struct {
	Title, State string
	Name         string // without its measures
	Place        string // the place that it is, or that it is a shelf of, as the kitchen has it
	Number       int    // among all parts, as [PartPicture] asks for it
	Full         bool   // no box of the kitchen's has a place there then
	Empty        bool
	Small, Large int // how high its pictures are of SmallWide and of LargeWide, in pixels
	Piles        []PileShown
}

// PileShown is boxes of one batch that stand on one another; in a counted place all
// of the batch there.
type PileShown struct {
	Letter string // as the picture has it
	Batch  string // its id as the plan has it; "" for stock
	Text   string
}

// Show gives what [Picture] draws for a moment, in words, and the table that
// [Table] writes from the moment's day on.
func Show(p *schedule.Problem, plan *schedule.Plan, at resources.Moment) (*Shown, error) {
	g, err := newPage(p, plan, Options{At: at})
	if err != nil {
		return nil, err
	}
	g.pen.Most = 0
	g.lettered()
	s := &Shown{Moment: momentText(at, g)}
	parts, ahead := g.parts(), g.since()
	ahead.From = max(ahead.From, at.DateIn(g.zone).Start(g.zone))
	for i := range parts {
		shown := g.showPart(&parts[i])
		shown.Number, shown.Small, shown.Large = i, g.partHeight(parts, i, SmallWide), g.partHeight(parts, i, LargeWide)
		s.Parts = append(s.Parts, shown)
	}
	s.Notes = g.noteLines(resources.Span{From: at, Until: at + 1})
	if len(parts) > 0 && ahead.From < ahead.Until {
		s.FillSays, s.Tightest = g.tableTitle(parts), g.tightest(parts, ahead)
		s.Fill.Heads, s.Fill.Rows = g.fillCells(parts, g.daysOf(ahead), ahead)
	}
	return s, nil
}

func (g *page) showPart(c *part) PartShown {
	step := g.stepNow(c)
	out := PartShown{Title: g.partTitle(c), State: g.partState(c, step), Name: c.name(&g.pen), Place: c.place.Name,
		Full: g.isFull(c), Empty: step.Boxes == 0}
	piles := g.o.Piles(c.place.Name, c.shelfName(), g.opt.At)
	for i, pile := range piles {
		stay := &g.o.Stays[pile.Stay]
		shown := PileShown{Letter: g.letters[pile.Stay], Text: words.Join(", ", g.batchOf(stay), g.pen.Name(stay.Cheese), g.boxesText(pile.Boxes, stay))}
		if c.shelf != nil {
			shown.Text += fmt.Sprintf(", %s from the left and %s from the front, %s", lengthsText(pile.X)+words.Glue+"cm", lengthsText(pile.Y)+words.Glue+"cm",
				lengthsText(pile.Width, pile.Depth)+words.Glue+"cm") + g.onOthers(&pile, piles[:i])
		}
		shown.Text += ", until " + g.untilText(stay)
		if g.plan.Batch(stay.Batch) != nil {
			shown.Batch = stay.Batch
		}
		out.Piles = append(out.Piles, shown)
	}
	return out
}

// boxesText counts boxes, by the name of their kind where they have one.
func (g *page) boxesText(boxes int, stay *coldroom.Stay) string {
	if stay.Kind == "" {
		return words.Count(boxes, "box", "boxes")
	}
	return fmt.Sprintf("%d%sx%s%s", boxes, words.Glue, words.Glue, g.pen.Name(stay.Kind))
}
