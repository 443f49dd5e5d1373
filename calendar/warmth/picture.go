package warmth

import (
	"strings"

	"ripeby/calendar/svg"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule/readings"
)

// Size of a picture in pixels: as wide as a phone's page, like that of a shelf.
const (
	Wide = 328
	High = 196
)

// Lengths of a picture, in tenths of a pixel.
const (
	px     = svg.Px
	left   = 38 * px
	right  = Wide*px - 6*px
	top    = 8 * px
	bottom = High*px - 40*px
	dot    = 3 * px // half of the sign of what was measured by hand
)

// sign is what was measured by hand, from its upper corner on.
const sign = `l3 3l-3 3l-3 -3z"/>`

// gapPattern is drawn where no readings came, ahead of the line.
const gapPattern = "g4"

// picture is the picture under construction.
type picture struct {
	svg.Pen
	said
	scale
}

// draw draws a course that is not empty: the line, cut at its gaps; days, whose first moment stands where the
// clocks have it; and what was measured by hand.
func draw(place string, s said) []byte {
	d := &picture{said: s, scale: scaleOf(append(s.All(), s.Told...))}
	for _, g := range d.Gaps {
		d.Rect(d.x(g.From), top, d.x(g.Until)-d.x(g.From), bottom-top, "", gapPattern)
	}
	d.degrees()
	d.days()
	d.Rect(left, top, right-left, bottom-top, "edge", "")
	for _, run := range d.Runs {
		d.run(run)
	}
	for _, t := range d.Told {
		x, y := d.x(t.At), d.y(t.Is)
		d.Raw("<g>")
		d.Title(words.Unglue(words.Degrees(t.Is) + " by hand, " + d.stamp(t.At)))
		d.Raw(`<path class="mark" d="M%s %s`+sign+"</g>\n", svg.Pixels(x), svg.Pixels(y-dot))
	}
	d.legend()
	return d.Page(words.Unglue(title(place)+": temperature over seven days"), words.Unglue(strings.Join(s.sentences(), " ")), Wide*px, High*px, 0)
}

// x is where a moment is: by elapsed time, so that a day of 23 hours is narrower than one of 24.
func (d *picture) x(m resources.Moment) int {
	return left + int(int64(m.Sub(d.Span.From))*int64(right-left)/int64(d.Span.Until.Sub(d.Span.From)))
}

// y is where a temperature is.
func (d *picture) y(t resources.MilliCelsius) int {
	return bottom - int(int64(t-d.least)*int64(bottom-top)/int64(d.greatest-d.least))
}

// degrees draws a line a step, with its number on the left.
func (d *picture) degrees() {
	for t := d.least; t <= d.greatest; t += d.step {
		y := d.y(t)
		if t > d.least && t < d.greatest {
			d.Line(left, y, right, y, "day")
		}
		d.Text(left-4*px, y+4*px, "s", "e", strings.TrimSuffix(words.Unglue(words.Degrees(t)), "C"))
	}
}

// days draws the first moment of each day, and a short line at noon.
func (d *picture) days() {
	for _, day := range resources.Days(d.Span, d.zone) {
		if x := d.x(day.Start(d.zone)); x > left {
			d.Line(x, top, x, bottom, "month")
		}
		if x := d.x(day.At(12*60, d.zone)); x > left && x < right {
			d.Line(x, bottom, x, bottom+3*px, "base")
		}
		from, until := max(d.x(day.Start(d.zone)), left), min(d.x(day.AddDays(1).Start(d.zone)), right)
		if name := words.Midnight(day).Format("Mon 2"); until-from >= svg.TextWidth("s", name) {
			d.Text((from+until)/2, bottom+14*px, "s", "m", name)
		}
	}
}

// run draws readings without a gap between them, a single one as a dot. Of those that fall on one tenth of a
// pixel only the outermost are drawn.
func (d *picture) run(run []readings.Reading) {
	if len(run) == 1 {
		d.Raw(`<circle class="dot" cx="%s" cy="%s" r="1.5"/>`+"\n", svg.Pixels(d.x(run[0].At)), svg.Pixels(d.y(run[0].Is)))
		return
	}
	var path strings.Builder
	at, low, high := -1, 0, 0
	for i, r := range run {
		x, y := d.x(r.At), d.y(r.Is)
		if x == at && low <= y && y <= high {
			continue
		}
		if x != at {
			at, low, high = x, y, y
		}
		low, high = min(low, y), max(high, y)
		if i == 0 {
			path.WriteString("M")
		} else {
			path.WriteString("L")
		}
		path.WriteString(svg.Pixels(x) + " " + svg.Pixels(y))
	}
	d.Raw(`<path class="ink" stroke-width="1.6" stroke-linejoin="round" d="%s"/>`+"\n", path.String())
}

// legend says what the hatching and the signs are, where there are any.
func (d *picture) legend() {
	x, y := left, bottom+32*px
	if len(d.Gaps) > 0 {
		d.Rect(x, y-8*px, 12*px, 9*px, "edge", "")
		d.Rect(x, y-8*px, 12*px, 9*px, "", gapPattern)
		d.Text(x+16*px, y, "s", "", "no readings")
		x += 16*px + svg.TextWidth("s", "no readings") + 12*px
	}
	if len(d.Told) > 0 {
		d.Raw(`<path class="mark" d="M%s %s`+sign+"\n", svg.Pixels(x+dot), svg.Pixels(y-7*px))
		d.Text(x+11*px, y, "s", "", "measured by hand")
	}
}
