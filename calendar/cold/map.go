package cold

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/coldroom"
)

// Map writes what stands where at one moment: each shelf drawn to scale with
// plain characters, its front edge below, a letter for each batch and a number where
// boxes stand on one another; under it, which batch each letter is and until when it
// stands there.
func Map(w io.Writer, p *schedule.Problem, plan *schedule.Plan, opt Options) error {
	g, err := newPage(p, plan, opt)
	if err != nil {
		return err
	}
	g.Heading(fmt.Sprintf("%s, cold places on %s", g.pen.Name(p.Kitchen.Name), momentText(opt.At, g)))
	parts := g.parts()
	if len(parts) == 0 {
		g.Para("", "The kitchen has no cold place.")
	}
	if err := g.maps(parts); err != nil {
		return err
	}
	g.notes(resources.Span{From: opt.At, Until: opt.At + 1})
	return g.Finish(w)
}

// momentText is a moment with its year.
func momentText(m resources.Moment, g *page) string {
	return words.Midnight(m.DateIn(g.zone)).Format("Mon 2 Jan 2006") + " at " + words.Clock(m, g.zone)
}

// maps writes the maps of parts at the page's moment.
func (g *page) maps(parts []part) error {
	g.lettered()
	for i := range parts {
		if err := g.mapOf(&parts[i]); err != nil {
			return err
		}
	}
	return nil
}

// lettered gives every stay of the moment its letters, in the order in which they
// stand in the kitchen, shown or not: so a batch has the same on every map.
func (g *page) lettered() {
	g.letters = map[int]string{}
	for _, c := range (&page{p: g.p, o: g.o}).parts() {
		for _, pile := range g.o.Piles(c.place.Name, c.shelfName(), g.opt.At) {
			if g.letters[pile.Stay] == "" {
				g.letters[pile.Stay] = lettersOf(len(g.letters))
			}
		}
	}
}

// lettersOf is A to Z, then AA, AB and so on.
func lettersOf(i int) string {
	if i < 26 {
		return string(rune('A' + i))
	}
	return lettersOf(i/26-1) + string(rune('A'+i%26))
}

// mapOf writes one part: its name, how full it is, the drawing and the legend.
func (g *page) mapOf(c *part) error {
	piles := g.o.Piles(c.place.Name, c.shelfName(), g.opt.At)
	g.Gap()
	g.Heading(g.partTitle(c))
	step := c.fill.Tightest(resources.Span{From: g.opt.At, Until: g.opt.At + 1})
	g.Para("", g.partState(c, step))
	if len(piles) == 0 {
		return nil
	}
	if c.shelf == nil {
		g.slots(c, piles)
	} else {
		g.drawing(c, piles)
	}
	return g.legend(piles)
}

// partTitle is a part's name, temperature and size.
func (g *page) partTitle(c *part) string {
	title := fmt.Sprintf("%s (%s)", c.name(&g.pen), words.Degrees(c.place.Temperature))
	if c.shelf != nil {
		title += ", " + sizeText(c.shelf.Size)
	}
	return title
}

// partState is how full a part is, and until when it is taken.
func (g *page) partState(c *part, step coldroom.FillStep) string {
	taken := ""
	for _, s := range c.closings() {
		if s.From <= g.opt.At && g.opt.At < s.Until {
			taken = "taken until " + words.Stamp(s.Until, g.zone)
		}
	}
	switch {
	case taken != "" && step.Boxes == 0:
		return taken
	case taken != "":
		return words.Fill(&c.fill, step) + "; " + taken
	}
	return words.Fill(&c.fill, step)
}

// sizeText writes a size, as in "45 x 41 x 24 cm".
func sizeText(s resources.Size) string {
	return lengthsText(s.Width, s.Depth, s.Height) + words.Glue + "cm"
}

// lengthsText writes lengths in centimetres, as in "45 x 41".
func lengthsText(lengths ...resources.Micrometres) string {
	var parts []string
	for _, l := range lengths {
		parts = append(parts, strings.TrimSuffix(resources.FormatLength(l), " cm"))
	}
	return strings.Join(parts, words.Glue+"x"+words.Glue)
}

// slots writes the boxes of a counted place, a letter for each and a dot for each
// that there is room for.
func (g *page) slots(c *part, piles []coldroom.Pile) {
	var marks []string
	longest, boxes := 1, 0
	for _, p := range piles {
		longest, boxes = max(longest, len(g.letters[p.Stay])), boxes+p.Boxes
		marks = append(marks, slices.Repeat([]string{g.letters[p.Stay]}, p.Boxes)...)
	}
	if c.place.Boxes <= dotsMost {
		marks = append(marks, slices.Repeat([]string{"."}, max(0, c.place.Boxes-boxes))...)
	}
	sep := ""
	if longest > 1 {
		sep = " "
	}
	for _, l := range chunks(marks, max(1, (g.Width()-2)/(longest+len(sep)))) {
		g.Line("[" + strings.Join(l, sep) + "]")
	}
}

// dotsMost is how large a counted place may be for the room that is left in it to be
// drawn; that of a larger one is only told in figures.
const dotsMost = 200

// chunks cuts a list into pieces of n.
func chunks[T any](list []T, n int) [][]T {
	return slices.Collect(slices.Chunk(list, n))
}

// drawing writes the map of a shelf; where that is too fine for the width it says so
// and lists where each box stands.
func (g *page) drawing(c *part, piles []coldroom.Pile) {
	labels := make([]string, len(piles))
	for i, p := range piles {
		labels[i] = g.letters[p.Stay]
	}
	if d, ok := drawShelf(c.shelf.Size, piles, labels, g.Width()); ok {
		g.Para("", d.scale(c.shelf.Size))
		if slices.ContainsFunc(piles, func(p coldroom.Pile) bool { return p.Below > 0 }) {
			g.Para("", "Where letters are joined by +, the first stands below; to take it out, lift off the others and put them back.")
		}
		for _, row := range d.cells {
			g.Line(string(row))
		}
		return
	}
	g.Para("", fmt.Sprintf("Too fine to draw in %d columns and %d lines. In cm, from the left and from the front:", g.Width(), linesMost))
	for i, p := range piles {
		g.Para("  ", fmt.Sprintf("%s: %d%sx%sat%s%s, %s", labels[i], p.Boxes, words.Glue, words.Glue, words.Glue, lengthsText(p.X, p.Y), lengthsText(p.Width, p.Depth)+words.Glue+"cm")+g.onOthers(&p, piles[:i]))
	}
}

// onOthers says of a pile on which others' boxes it stands, of those that come before it; "" for on
// the shelf.
func (g *page) onOthers(p *coldroom.Pile, before []coldroom.Pile) string {
	if p.Below == 0 {
		return ""
	}
	under, left := "", p.Below
	for i := len(before) - 1; i >= 0 && left > 0; i-- {
		under = words.Join(" and ", g.letters[before[i].Stay], under)
		left -= before[i].Boxes
	}
	return ", on " + under
}

// legend tells which batch each letter is.
func (g *page) legend(piles []coldroom.Pile) error {
	heads := []string{"", "Batch", "Cheese", "Boxes", "Kind of box", "Stands until"}
	var rows [][]string
	for _, s := range g.staysOf(piles) {
		stay := &g.o.Stays[s.stay]
		rows = append(rows, []string{g.letters[s.stay], g.batchOf(stay), orDash(g.pen.Name(stay.Cheese)),
			fmt.Sprint(s.boxes), orDash(g.pen.Name(stay.Kind)), g.untilText(stay)})
	}
	floors := []int{0, 11, 9, 5, 8, len("Sat 20 Mar 18:55")}
	for _, r := range rows {
		floors[0] = max(floors[0], len(r[0])) // letters are not broken
	}
	if widths, fit := g.Columns(heads, rows, floors); fit {
		return g.Table(heads, rows, widths)
	}
	for _, r := range rows {
		mark := r[0] + "  "
		g.Para(mark, r[1]+", "+r[2])
		mark = strings.Repeat(" ", len(mark))
		g.Para(mark, r[3]+words.Glue+"x"+words.Glue+r[4])
		g.Para(mark, "until "+r[5])
	}
	return nil
}

// stayCount is how many boxes of a stay are on one map.
type stayCount struct{ stay, boxes int }

// staysOf adds the piles of each stay up, in the order of the letters.
func (g *page) staysOf(piles []coldroom.Pile) []stayCount {
	var out []stayCount
	for _, p := range piles {
		i := slices.IndexFunc(out, func(s stayCount) bool { return s.stay == p.Stay })
		if i < 0 {
			i, out = len(out), append(out, stayCount{stay: p.Stay})
		}
		out[i].boxes += p.Boxes
	}
	slices.SortStableFunc(out, func(a, b stayCount) int {
		la, lb := g.letters[a.stay], g.letters[b.stay]
		return 2*(len(la)-len(lb)) + strings.Compare(la, lb)
	})
	return out
}

// batchOf is a stay's batch; stock has none.
func (g *page) batchOf(s *coldroom.Stay) string {
	if s.Batch == "" {
		return words.Stock
	}
	return g.pen.Name(s.Batch)
}

// untilText is until when a stay lasts.
func (g *page) untilText(s *coldroom.Stay) string {
	if s.Span.Until >= coldroom.Forever {
		return "no end planned"
	}
	return words.Stamp(s.Span.Until, g.zone)
}

func orDash(s string) string {
	if s == "" {
		return "-"
	}
	return s
}
