package strips

import (
	"ripeby/calendar/svg"
	"ripeby/calendar/words"
)

// legend tells patterns and colours.
func (d *picture) legend() {
	d.y += 6 * px
	x, y := gutter, d.y
	item := func(class, pattern, label string) {
		label, _ = words.Short(words.Printable(label), 30)
		wide := 26*px + svg.TextWidth("s", label) + 14*px
		if x+wide > d.right() && x > gutter {
			x, y = gutter, y+18*px
		}
		d.Rect(x, y, 20*px, 11*px, class, "")
		if pattern != "" {
			d.Rect(x, y, 20*px, 11*px, "", pattern)
		}
		d.Rect(x, y, 20*px, 11*px, "edge", "")
		d.Text(x+26*px, y+9*px, "s", "", label)
		x += wide
	}
	if len(d.stages) == 0 {
		d.y = y
		return
	}
	d.Text(12*px, y+9*px, "s", "", "Pattern: the stage")
	for _, s := range d.stages {
		item("bg", d.pattern(s), s)
	}
	x, y = gutter, y+20*px
	d.Text(12*px, y+9*px, "s", "", "Colour: where it is")
	for _, s := range d.places {
		item(d.colour(s), "", s)
	}
	y += 20 * px
	d.Text(12*px, y+9*px, "s", "", "Diamond: pieces leave")
	d.Text(gutter, y+9*px, "s", "", "Times are local, "+d.zone.String()+".")
	if d.anySharp() {
		y += 18 * px
		d.Text(12*px, y+9*px, "s", "", "Heavy outline: sharp")
		d.Rect(gutter, y, 20*px, 11*px, "sharp", "")
		d.Text(gutter+26*px, y+9*px, "s", "", "the stage may begin no later, or a target breaks")
	}
	d.y = y + 12*px
}

// anySharp reports whether some stage is critical.
func (d *picture) anySharp() bool {
	for i := range d.plan.Batches {
		for _, t := range d.plan.Batches[i].Stages {
			if t.Critical {
				return true
			}
		}
	}
	return false
}

// pattern is the name of a stage's pattern, "" for plain. After all of them have
// been used they come round again, which the legend then shows.
func (d *picture) pattern(stage string) string {
	for i, s := range d.stages {
		if s == stage {
			return svg.Pattern(i)
		}
	}
	return ""
}

// colour is the class of a place's fill.
func (d *picture) colour(place string) string {
	for i, s := range d.places {
		if s == place {
			return svg.Colour(i)
		}
	}
	return svg.Colour(0)
}
