package calendar

import (
	"fmt"
	"strings"

	"ripeby/calendar/svg"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/coldroom"
)

// Lengths of the picture, in tenths of a pixel. All shelves are drawn to one scale:
// the widest takes coldWide, or the deepest coldDeep.
const (
	coldPx   = svg.Px
	coldEdge = 12 * coldPx // around everything
	coldWide = 640 * coldPx
	coldDeep = 220 * coldPx
	coldSlot = 26 * coldPx // one box of a counted place
)

// coldPicture is the picture under construction.
type coldPicture struct {
	svg.Pen
	g            *coldPage
	y            int
	per          int64 // micrometres that take coldWide or coldDeep
	unit         int64 // tenths of a pixel that they take
	descriptions []string
}

// ColdPicture draws what stands where at one moment as an SVG: each shelf to scale
// with its front edge below, each pile of boxes with its batch's letter and how many
// stand on one another, and a legend. It stands alone, follows the reader's light or
// dark scheme, and tells batches apart by letter and pattern and not by colour alone.
func ColdPicture(p *schedule.Problem, plan *schedule.Plan, opt ColdOptions) ([]byte, error) {
	return coldPictureOf(p, plan, nil, opt)
}

// ColdAnswerPicture is [ColdPicture] at the moment of a question, with the boxes asked
// for where they have a place.
func ColdAnswerPicture(p *schedule.Problem, plan *schedule.Plan, ask ColdQuestion, opt ColdOptions) ([]byte, error) {
	return coldPictureOf(p, plan, &ask, opt)
}

func coldPictureOf(p *schedule.Problem, plan *schedule.Plan, ask *ColdQuestion, opt ColdOptions) ([]byte, error) {
	g, err := newColdPage(p, plan, opt)
	if err != nil {
		return nil, err
	}
	if ask != nil {
		g.opt.At = ask.Question.Span.From
		if len(ask.Reply.Boxes) > 0 {
			g.withAsked(*ask)
		}
	}
	g.lettered()
	d := &coldPicture{g: g, y: 26 * coldPx, per: 1, unit: coldWide}
	parts := g.parts()
	for _, c := range parts {
		if c.shelf != nil {
			d.fit(int64(c.shelf.Size.Width), coldWide)
			d.fit(int64(c.shelf.Size.Depth), coldDeep)
		}
	}
	d.Text(coldEdge, d.y, "h", "", p.Kitchen.Name)
	d.y += 18 * coldPx
	d.Text(coldEdge, d.y, "s", "", "Cold places on "+words.Unglue(coldMoment(g.opt.At, g))+", local time ("+g.zone.String()+")")
	var shown []coldroom.Pile
	for i := range parts {
		shown = append(shown, d.part(&parts[i])...)
	}
	d.legend(shown)
	return d.Page(p.Kitchen.Name+": what stands where in the cold", strings.Join(d.descriptions, " "),
		coldWide+2*coldEdge, d.y+coldEdge, svg.Colours), nil
}

// fit makes the scale so small that a length takes at most so much.
func (d *coldPicture) fit(length, most int64) {
	if length*d.unit > most*d.per {
		d.per, d.unit = length, most
	}
}

// scaled is a length as drawn.
func (d *coldPicture) scaled(l resources.Micrometres) int { return int(int64(l) * d.unit / d.per) }

// part draws one shelf or one counted place and gives what stands on it.
func (d *coldPicture) part(c *coldPart) []coldroom.Pile {
	piles := d.g.o.Piles(c.place.Name, c.shelfName(), d.g.opt.At)
	title, state := d.g.partTitle(c), d.g.partState(c, c.fill.Tightest(resources.Span{From: d.g.opt.At, Until: d.g.opt.At + 1}))
	d.descriptions = append(d.descriptions, words.Unglue(title+": "+state+"."))
	d.y += 30 * coldPx
	d.Text(coldEdge, d.y, "b", "", svg.Fitted("b", words.Unglue(title), coldWide))
	d.y += 15 * coldPx
	d.Text(coldEdge, d.y, "s", "", words.Unglue(state))
	d.y += 8 * coldPx
	if c.shelf == nil {
		d.slots(c.place.Boxes, piles)
		return piles
	}
	top, width, depth := d.y, d.scaled(c.shelf.Size.Width), d.scaled(c.shelf.Size.Depth)
	d.Rect(coldEdge, top, width, depth, "we", "")
	if coldroom.Taken(c.closings(), d.g.opt.At) {
		d.Rect(coldEdge, top, width, depth, "", coldHatch)
	}
	for _, p := range piles {
		x, y := coldEdge+d.scaled(p.X), top+depth-d.scaled(p.Y+p.Depth)
		d.box(p, x, y, coldEdge+d.scaled(p.X+p.Width)-x, top+depth-d.scaled(p.Y)-y)
	}
	d.Rect(coldEdge, top, width, depth, "edge", "")
	d.y += depth + 12*coldPx
	d.Text(coldEdge, d.y, "s", "", "front")
	return piles
}

// box draws one pile with its label.
func (d *coldPicture) box(p coldroom.Pile, x, y, w, h int) {
	letter := d.g.letters[p.Stay]
	stay := &d.g.o.Stays[p.Stay]
	d.Raw("<g class=\"pile\">")
	d.Title(words.Unglue(fmt.Sprintf("%s: %s, %s until %s", letter, d.g.batchOf(stay), words.Count(p.Boxes, "box", "boxes"), d.g.untilText(stay))))
	d.filled(p.Stay, x, y, w, h)
	label := letter
	if p.Boxes > 1 {
		label = fmt.Sprintf("%s x %d", letter, p.Boxes)
	}
	d.Text(x+w/2, y+h/2+4*coldPx, "k", "m", label)
	d.Raw("</g>\n")
}

// filled draws a rectangle in the colour and the pattern of a stay.
func (d *coldPicture) filled(stay, x, y, w, h int) {
	n := d.g.order(stay)
	d.Rect(x, y, w, h, svg.Colour(n), "")
	if pattern := svg.Pattern(n % svg.Shapes); pattern != "" {
		d.Rect(x, y, w, h, "", pattern)
	}
	d.Rect(x, y, w, h, "edge", "")
}

// order is the place of a stay's letters among all letters.
func (g *coldPage) order(stay int) int {
	n := 0
	for _, r := range g.letters[stay] {
		n = 26*n + int(r-'A') + 1
	}
	return n - 1
}

// coldHatch is the pattern over a shelf that is taken.
const coldHatch = "g6"

// slots draws a counted place, a square a box, and where the place is not too large
// an empty one for each that there is room for.
func (d *coldPicture) slots(holds int, piles []coldroom.Pile) {
	each := coldWide / coldSlot
	n := 0
	for _, p := range piles {
		for range p.Boxes {
			one := p
			one.Boxes = 1
			d.box(one, coldEdge+n%each*coldSlot, d.y+n/each*coldSlot, coldSlot, coldSlot)
			n++
		}
	}
	for ; n < holds && holds <= coldDots; n++ {
		d.Rect(coldEdge+n%each*coldSlot, d.y+n/each*coldSlot, coldSlot, coldSlot, "edge", "")
	}
	d.y += (n + each - 1) / each * coldSlot
}

// legend tells which batch each letter is, once for all parts shown.
func (d *coldPicture) legend(piles []coldroom.Pile) {
	d.y += 24 * coldPx
	for _, s := range d.g.staysOf(piles) {
		stay := &d.g.o.Stays[s.stay]
		d.filled(s.stay, coldEdge, d.y-9*coldPx, 20*coldPx, 11*coldPx)
		text := d.g.letters[s.stay] + ": " + d.g.batchOf(stay)
		if stay.Cheese != "" {
			text += ", " + d.g.pen.Name(stay.Cheese)
		}
		text += ", " + d.g.boxesText(s.boxes, stay) + ", until " + d.g.untilText(stay)
		d.Text(coldEdge+26*coldPx, d.y, "s", "", svg.Fitted("s", words.Unglue(text), coldWide-26*coldPx))
		d.descriptions = append(d.descriptions, words.Unglue(text)+".")
		d.y += 16 * coldPx
	}
}
