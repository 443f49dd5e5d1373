package strips

import (
	"fmt"
	"strings"

	"ripeby/calendar/svg"
	"ripeby/calendar/words"
	"ripeby/schedule/coldroom"
)

// fills draws how full each cold place is at the fullest moment of each day, and
// the line that it may not pass.
func (d *picture) fills() {
	for _, f := range coldroom.Fills(d.p, d.plan) {
		d.fill(&f)
	}
}

// fill draws one place. The full height stands for all its shelves (or boxes);
// the line dips where some are closed.
func (d *picture) fill(f *coldroom.Fill) {
	top := d.y
	if d.narrow() {
		top += 15 * px // the name stands above
	}
	base := top + placeHigh - 16*px
	full := base - fillHigh
	d.grid(top+4*px, base)
	name := f.Place.Name + ", " + words.Unglue(words.Degrees(f.Place.Temperature))
	holds := words.Unglue(words.Count(len(f.Place.Shelves), "shelf", "shelves"))
	all := f.Floor
	if !f.Place.Measured() {
		all = int64(f.Place.Boxes)
		holds = words.Unglue(words.Count(f.Place.Boxes, "box", "boxes"))
	}
	most := f.Tightest(d.span)
	d.Raw("<g>")
	d.Title(name + ": " + words.Unglue(words.Fill(f, most)) + " at the fullest, " + words.Unglue(words.Stamp(most.From, d.zone)))
	if most.Boxes > 0 {
		holds += "; fullest " + words.Midnight(most.From.DateIn(d.zone)).Format("2 Jan") + ":"
	}
	class, state := "s", words.Unglue(words.Fill(f, most))
	if f.Over(most) {
		class = "s bad"
	}
	if d.narrow() {
		d.Text(d.left, top-4*px, "b", "", svg.Fitted("b", name, d.width/2))
		d.Text(d.right(), top-4*px, class+" e", "", svg.Fitted("s", state, d.width/2))
	} else {
		d.Text(12*px, base-30*px, "b", "", svg.Fitted("b", name, gutter-20*px))
		d.Text(12*px, base-17*px, "s", "", holds)
		d.Text(12*px, base-4*px, class, "", state)
	}
	d.Raw("<path class=\"area %s\" d=\"%s\"/>\n", d.colour(f.Place.Name), d.outline(f, all, base, true))
	d.Raw("<path class=\"cap\" d=\"%s\"/>\n", d.outline(f, all, base, false))
	d.Line(d.left, base, d.right(), base, "base")
	if !d.narrow() {
		d.Text(d.right()+2*px, full+3*px, "s", "", "full")
	}
	d.Raw("</g>\n")
	d.y = base + 10*px
}

// overMost is how far above full an area is drawn at most, in hundredths: more
// than that is told by the text beside it.
const overMost = 120

// outline is the steps of a place's days: what it holds (closed down to the
// base), or what can be used.
func (d *picture) outline(f *coldroom.Fill, all int64, base int, held bool) string {
	var b strings.Builder
	last := -1
	for _, day := range d.days {
		span := day.Span(d.zone)
		most := f.Tightest(span)
		n := most.Open
		if held {
			n = most.Taken
			if !f.Place.Measured() {
				n = int64(most.Boxes)
			}
		}
		y := base
		if all > 0 {
			y -= int(min(n*fillHigh/all, fillHigh*overMost/100))
		} else if n > 0 {
			y -= fillHigh * overMost / 100
		}
		if y == last {
			continue
		}
		x := d.x(span.From)
		if last < 0 {
			start := y
			if held {
				start = base
			}
			fmt.Fprintf(&b, "M%s %s", svg.Pixels(x), svg.Pixels(start))
		} else {
			fmt.Fprintf(&b, "H%s", svg.Pixels(x))
		}
		fmt.Fprintf(&b, "V%s", svg.Pixels(y))
		last = y
	}
	fmt.Fprintf(&b, "H%s", svg.Pixels(d.right()))
	if held {
		fmt.Fprintf(&b, "V%sz", svg.Pixels(base))
	}
	return b.String()
}
