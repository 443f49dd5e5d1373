package cold

import (
	"fmt"
	"strings"

	"ripeby/calendar/svg"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/coldroom"
)

// Lengths of the picture, in tenths of a pixel. All shelves are drawn to one scale: the widest takes
// chartWide, or the deepest chartDeep. A picture of one part has others (small.go).
const (
	px        = svg.Px
	margin    = 12 * px // around everything
	chartWide = 640 * px
	chartDeep = 220 * px
	slotSize  = 26 * px // one box of a counted place
)

// picture is the picture under construction.
type picture struct {
	svg.Pen
	g            *page
	y            int
	wide, deep   int   // what the widest shelf, or the deepest, takes
	slot         int   // one box of a counted place
	per          int64 // micrometres that take wide or deep
	unit         int64 // tenths of a pixel that they take
	descriptions []string
}

// Picture draws what stands where at one moment as an SVG: each shelf to scale
// with its front edge below, each pile of boxes with its batch's letter and how many
// stand on one another, and a legend. It stands alone, follows the reader's light or
// dark scheme, and tells batches apart by letter and pattern and not by colour alone.
func Picture(p *schedule.Problem, plan *schedule.Plan, opt Options) ([]byte, error) {
	return pictureOf(p, plan, nil, opt)
}

// AnswerPicture is [Picture] at the moment of a question, with the boxes asked
// for where they have a place.
func AnswerPicture(p *schedule.Problem, plan *schedule.Plan, ask Asked, opt Options) ([]byte, error) {
	return pictureOf(p, plan, &ask, opt)
}

func pictureOf(p *schedule.Problem, plan *schedule.Plan, ask *Asked, opt Options) ([]byte, error) {
	g, err := newPage(p, plan, opt)
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
	parts := g.parts()
	d := newPicture(g, parts, chartWide, chartDeep, slotSize)
	d.y = 26 * px
	d.Text(margin, d.y, "h", "", p.Kitchen.Name)
	d.y += 18 * px
	d.Text(margin, d.y, "s", "", "Cold places on "+words.Unglue(momentText(g.opt.At, g))+", local time ("+g.zone.String()+")")
	var shown []coldroom.Pile
	for i := range parts {
		shown = append(shown, d.part(&parts[i])...)
	}
	d.legend(shown)
	return d.Page(p.Kitchen.Name+": what stands where in the cold", strings.Join(d.descriptions, " "),
		chartWide+2*margin, d.y+margin, svg.Colours), nil
}

// newPicture begins a picture in which parts are drawn to one scale.
func newPicture(g *page, parts []part, wide, deep, slot int) *picture {
	d := &picture{g: g, wide: wide, deep: deep, slot: slot, per: 1, unit: int64(wide)}
	for _, c := range parts {
		if c.shelf != nil {
			d.fit(int64(c.shelf.Size.Width), int64(wide))
			d.fit(int64(c.shelf.Size.Depth), int64(deep))
		}
	}
	return d
}

// fit makes the scale so small that a length takes at most so much.
func (d *picture) fit(length, most int64) {
	if length*d.unit > most*d.per {
		d.per, d.unit = length, most
	}
}

// scaled is a length as drawn.
func (d *picture) scaled(l resources.Micrometres) int { return int(int64(l) * d.unit / d.per) }

// part draws one shelf or one counted place and gives what stands on it.
func (d *picture) part(c *part) []coldroom.Pile {
	piles := d.g.o.Piles(c.place.Name, c.shelfName(), d.g.opt.At)
	title, state := d.g.partTitle(c), d.g.partState(c, c.fill.Tightest(resources.Span{From: d.g.opt.At, Until: d.g.opt.At + 1}))
	d.descriptions = append(d.descriptions, words.Unglue(title+": "+state+"."))
	d.y += 30 * px
	d.Text(margin, d.y, "b", "", svg.Fitted("b", words.Unglue(title), chartWide))
	d.y += 15 * px
	d.Text(margin, d.y, "s", "", words.Unglue(state))
	d.y += 8 * px
	d.stand(c, piles, margin)
	if c.shelf != nil {
		d.y += 12 * px
		d.Text(margin, d.y, "s", "", "front")
	}
	return piles
}

// stand draws what stands in a part from d.y on, its left edge at x.
func (d *picture) stand(c *part, piles []coldroom.Pile, left int) {
	if c.shelf == nil {
		d.slots(c.place.Boxes, piles, left)
		return
	}
	top, width, depth := d.y, d.scaled(c.shelf.Size.Width), d.scaled(c.shelf.Size.Depth)
	d.Rect(left, top, width, depth, "we", "")
	if coldroom.Taken(c.closings(), d.g.opt.At) {
		d.Rect(left, top, width, depth, "", hatch)
	}
	for i, p := range piles {
		x, y := left+d.scaled(p.X), top+depth-d.scaled(p.Y+p.Depth)
		w, h := left+d.scaled(p.X+p.Width)-x, top+depth-d.scaled(p.Y)-y
		n, all := sharing(piles, i)
		// Piles of one spot side by side, the lowest on the left.
		d.box(p, piles[:i], x+w*n/all, y, w*(n+1)/all-w*n/all, h)
	}
	d.Rect(left, top, width, depth, "edge", "")
	d.y += depth
}

// sharing is the place of a pile among those of its spot, from the bottom, and how many there are.
func sharing(piles []coldroom.Pile, i int) (n, all int) {
	for n = 0; piles[i-n].Below > 0; {
		n++
	}
	for all = n + 1; i-n+all < len(piles) && piles[i-n+all].Below > 0; {
		all++
	}
	return n, all
}

// box draws one pile with its label; before are those that come before it on the shelf.
func (d *picture) box(p coldroom.Pile, before []coldroom.Pile, x, y, w, h int) {
	letter := d.g.letters[p.Stay]
	stay := &d.g.o.Stays[p.Stay]
	d.Raw("<g class=\"pile\">")
	d.Title(words.Unglue(fmt.Sprintf("%s: %s, %s%s until %s", letter, d.g.batchOf(stay), words.Count(p.Boxes, "box", "boxes"), d.g.onOthers(&p, before), d.g.untilText(stay))))
	d.filled(p.Stay, x, y, w, h)
	label := letter
	if p.Boxes > 1 {
		label = fmt.Sprintf("%s x %d", letter, p.Boxes)
	}
	if p.Below > 0 {
		label = "+ " + label
	}
	d.Text(x+w/2, y+h/2+4*px, "k", "m", label)
	d.Raw("</g>\n")
}

// filled draws a rectangle in the colour and the pattern of a stay.
func (d *picture) filled(stay, x, y, w, h int) {
	n := d.g.order(stay)
	d.Rect(x, y, w, h, svg.Colour(n), "")
	if pattern := svg.Pattern(n % svg.Shapes); pattern != "" {
		d.Rect(x, y, w, h, "", pattern)
	}
	d.Rect(x, y, w, h, "edge", "")
}

// order is the place of a stay's letters among all letters.
func (g *page) order(stay int) int {
	n := 0
	for _, r := range g.letters[stay] {
		n = 26*n + int(r-'A') + 1
	}
	return n - 1
}

// hatch is the pattern over a shelf that is taken.
const hatch = "g6"

// slots draws a counted place, a square a box, and where the place is not too large
// an empty one for each that there is room for.
func (d *picture) slots(holds int, piles []coldroom.Pile, left int) {
	each := d.wide / d.slot
	n := 0
	for _, p := range piles {
		for range p.Boxes {
			one := p
			one.Boxes = 1
			d.box(one, nil, left+n%each*d.slot, d.y+n/each*d.slot, d.slot, d.slot)
			n++
		}
	}
	for ; n < holds && holds <= dotsMost; n++ {
		d.Rect(left+n%each*d.slot, d.y+n/each*d.slot, d.slot, d.slot, "edge", "")
	}
	d.y += (n + each - 1) / each * d.slot
}

// legend tells which batch each letter is, once for all parts shown.
func (d *picture) legend(piles []coldroom.Pile) {
	d.y += 24 * px
	for _, s := range d.g.staysOf(piles) {
		stay := &d.g.o.Stays[s.stay]
		d.filled(s.stay, margin, d.y-9*px, 20*px, 11*px)
		text := d.g.letters[s.stay] + ": " + d.g.batchOf(stay)
		if stay.Cheese != "" {
			text += ", " + d.g.pen.Name(stay.Cheese)
		}
		text += ", " + d.g.boxesText(s.boxes, stay) + ", until " + d.g.untilText(stay)
		d.Text(margin+26*px, d.y, "s", "", svg.Fitted("s", words.Unglue(text), chartWide-26*px))
		d.descriptions = append(d.descriptions, words.Unglue(text)+".")
		d.y += 16 * px
	}
}
