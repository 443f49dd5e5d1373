package strips

import (
	"fmt"
	"strconv"
	"time"

	"ripeby/calendar/svg"
	"ripeby/calendar/words"
	"ripeby/resources"
)

// axis draws weekends and lines of days over the height of what follows, which
// is not known yet: so it only writes the labels here, and [picture.grid]
// draws behind each panel.
func (d *picture) axis() {
	y := d.y + 14*px
	monthEnds := 0
	for i, day := range d.days {
		if x := d.x(day.Start(d.zone)); (i == 0 || day.Day == 1) && x >= monthEnds {
			name := d.monthName(i)
			d.Text(x+2*px, y, "b", "", name)
			monthEnds = x + 2*px + svg.TextWidth("b", name) + 6*px
		}
	}
	y += 15 * px
	each := d.width / len(d.days)
	for _, day := range d.days {
		x := d.x(day.Start(d.zone))
		switch {
		case each >= 16*px:
			d.Text(x+each/2, y, "s", "m", strconv.Itoa(day.Day))
		case each*7 >= 20*px && day.Weekday() == time.Monday && x+16*px < d.right():
			d.Text(x+px, y, "s", "", strconv.Itoa(day.Day))
		}
	}
	d.y = y + 6*px
	d.targets()
}

// monthName is the name of the month of day i, with the year where it begins and
// on the picture's left.
func (d *picture) monthName(i int) string {
	day := d.days[i]
	if i == 0 || day.Month == time.January {
		return words.Midnight(day).Format("Jan 2006")
	}
	return words.Midnight(day).Format("Jan")
}

// grid draws weekends, lines of days (of weeks, where days are narrow) and of
// months from y down to below.
func (d *picture) grid(y, below int) {
	each := d.width / len(d.days)
	for _, day := range d.days {
		span := day.Span(d.zone)
		x := d.x(span.From)
		if w := day.Weekday(); w == time.Saturday || w == time.Sunday {
			d.Rect(x, y, d.x(span.Until)-x, below-y, "we", "")
		}
		switch {
		case day.Day == 1:
			d.Line(x, y, x, below, "month")
		case each >= 10*px || day.Weekday() == time.Monday:
			d.Line(x, y, x, below, "day")
		}
	}
}

// target is one moment at which something leaves.
type target struct {
	name               string
	by                 resources.Moment
	wanted, met, short int
}

// leaving gathers the wants of each target, in the plan's order.
func (d *picture) leaving() []target {
	type key struct {
		name string
		by   resources.Moment
	}
	index := map[key]int{}
	var all []target
	for _, w := range d.plan.Targets {
		k := key{w.Target, w.By}
		i, known := index[k]
		if !known {
			i = len(all)
			index[k] = i
			all = append(all, target{name: w.Target, by: w.By})
		}
		all[i].wanted += w.Wanted
		all[i].met += w.Met
		all[i].short += w.Short
	}
	return all
}

// targets writes the targets' names under the axis, each with a mark at its
// moment, packed so that none covers another.
func (d *picture) targets() {
	const most = 34 // columns of a name
	const line = 15 * px
	var rows packing
	top := d.y
	for _, t := range d.leaving() {
		short, _ := words.Short(words.Printable(t.name), most)
		label := fmt.Sprintf("%s %d/%d", short, t.met, t.wanted)
		class := "s"
		if t.short > 0 {
			class = "s bad"
		}
		x, wide := d.x(t.by), svg.TextWidth("s", label)+10*px
		left, anchor, at := x-5*px, "", x+8*px
		if x+wide > d.full() { // no room on the right: the name stands on the left
			left, anchor, at = x-wide, "e", x-8*px
		}
		y := top + rows.row(left, left+wide+8*px)*line + 10*px
		d.Raw("<g>")
		d.Title(fmt.Sprintf("%s, %s: %d of %s", t.name, words.Stamp(t.by, d.zone), t.met, words.Unglue(words.Count(t.wanted, "piece", "pieces"))))
		d.diamond(x, y-3*px)
		d.Text(at, y, class, anchor, label)
		d.Raw("</g>\n")
		d.y = max(d.y, y+8*px)
	}
	d.y += 4 * px
}

// diamond marks a moment at which something leaves.
func (d *picture) diamond(x, y int) {
	const r = 5 * px
	d.Raw("<path class=\"mark\" d=\"M%s %sl5 5l-5 5l-5 -5z\"/>\n", svg.Pixels(x), svg.Pixels(y-r))
}
