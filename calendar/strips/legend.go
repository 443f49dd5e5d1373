package strips

import (
	"ripeby/calendar/svg"
	"ripeby/calendar/words"
	"ripeby/schedule"
)

// legend tells patterns and colours.
func (d *picture) legend() {
	d.y += 6 * px
	left, y := d.left, d.y
	// head writes what the items after it tell: beside them, or above where there is no room.
	head := func(text string) {
		if d.narrow() {
			d.Text(left, y+9*px, "s", "", text)
			y += 16 * px
			return
		}
		d.Text(12*px, y+9*px, "s", "", text)
	}
	x := left
	item := func(class, pattern, label string) {
		label, _ = words.Short(words.Printable(label), 30)
		wide := 26*px + svg.TextWidth("s", label) + 14*px
		if x+wide > d.right() && x > left {
			x, y = left, y+18*px
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
	head("Pattern: the stage")
	for _, s := range d.stages {
		if d.drawn(func(t *schedule.Task) bool { return t.Stage == s }) {
			item("bg", d.pattern(s), s)
		}
	}
	x, y = left, y+20*px
	head("Colour: where it is")
	for _, s := range d.places {
		if s == d.places[0] || d.drawn(func(t *schedule.Task) bool { return t.At == s }) {
			item(d.colour(s), "", s)
		}
	}
	y += 20 * px
	head("Diamond: pieces leave")
	if !d.narrow() {
		d.Text(left, y+9*px, "s", "", "Times are local, "+d.zone.String()+".")
	} else {
		y -= 16 * px
	}
	if d.anySharp() {
		y += 18 * px
		head("Heavy outline: sharp")
		d.Rect(left, y, 20*px, 11*px, "sharp", "")
		d.Text(left+26*px, y+9*px, "s", "", "the stage may begin no later, or a target breaks")
	}
	d.y = y + 12*px
}

// anySharp reports whether some stage is critical.
func (d *picture) anySharp() bool {
	return d.drawn(func(t *schedule.Task) bool { return t.Critical })
}

// drawn reports whether such a stage is in the picture.
func (d *picture) drawn(such func(*schedule.Task) bool) bool {
	for i := range d.plan.Batches {
		for k := range d.plan.Batches[i].Stages {
			if t := &d.plan.Batches[i].Stages[k]; such(t) && d.within(t) {
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
