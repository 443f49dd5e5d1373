package strips

import (
	"fmt"

	"ripeby/calendar/svg"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

// batches draws a strip a batch, each on its own row, or packed where there are
// more than looseMost of them.
func (d *picture) batches() {
	top := d.y
	loose := len(d.plan.Batches) <= looseMost && !d.narrow()
	rows := make([]int, len(d.plan.Batches))
	count := 0
	var pack packing
	for i := range d.plan.Batches {
		rows[i] = i
		if b := &d.plan.Batches[i]; !loose && len(b.Stages) > 0 {
			left, right := d.extent(b)
			rows[i] = pack.row(left, right)
		}
		count = max(count, rows[i]+1)
	}
	below := top + max(count, 1)*rowHigh + 6*px
	d.grid(top, below)
	for _, t := range d.leaving() {
		d.Line(d.x(t.by), top, d.x(t.by), below, "by")
	}
	now := d.x(d.plan.From)
	if d.shows(d.plan.From) {
		d.Line(now, top, now, below, "now")
	}
	for i := range d.plan.Batches {
		d.strip(&d.plan.Batches[i], top+rows[i]*rowHigh, loose)
	}
	if count == 0 {
		d.Text(d.left+8*px, top+22*px, "n", "", d.none())
	}
	if !d.shows(d.plan.From) {
		d.y = below + 8*px
		return
	}
	d.Text(now+4*px, below+10*px, "s", "", "the plan starts "+words.Unglue(words.Stamp(d.plan.From, d.zone)))
	d.y = below + 22*px
}

// label is what stands over a packed strip.
func (d *picture) label(b *schedule.Batch) string {
	short, _ := words.Short(words.Printable(b.Cheese), 20)
	return words.Unglue(fmt.Sprintf("%s %s, %s, %s", b.ID, short, words.Litres(b.Litres), words.Count(b.Pieces, "piece", "pieces")))
}

// extent is how far a packed strip and its label reach.
func (d *picture) extent(b *schedule.Batch) (left, right int) {
	left, right = d.x(b.Stages[0].Start), d.x(b.Stages[len(b.Stages)-1].Ends)
	wide := svg.TextWidth("s", d.label(b))
	if left+wide > d.full() {
		left = d.full() - wide
	}
	return left, max(right, left+wide) + 8*px
}

// strip draws one batch: its name, its stages as segments, and marks where its
// pieces leave.
func (d *picture) strip(b *schedule.Batch, y int, loose bool) {
	d.Raw("<g id=\"%s\">", "b-"+svgID(b.ID))
	d.Title(fmt.Sprintf("%s: %s", b.ID, d.amount(b)))
	bar := y + 14*px
	if loose {
		begun := ""
		if b.Begun {
			begun = ", begun"
		}
		d.Text(12*px, y+16*px, "b", "", svg.Fitted("b", b.ID+begun, gutter-20*px))
		amount := words.Unglue(fmt.Sprintf(", %s, %s", words.Litres(b.Litres), words.Count(b.Pieces, "piece", "pieces")))
		room := gutter - 20*px - svg.TextWidth("s", amount)
		d.Text(12*px, y+29*px, "s", "", svg.Fitted("s", b.Cheese, room)+amount)
		bar = y + (rowHigh-barHigh)/2 + 3*px
	} else if len(b.Stages) > 0 {
		left, _ := d.extent(b)
		d.Text(left, y+9*px, "k", "", d.label(b))
	}
	for i := range b.Stages {
		d.segment(&b.Stages[i], bar)
	}
	if n := len(b.Stages); n > 0 {
		x := d.x(b.Stages[0].Start)
		d.Rect(x, bar, max(d.x(b.Stages[n-1].Ends)-x, px), barHigh, "edge", "")
	}
	for i := range b.Stages {
		if t := &b.Stages[i]; t.Critical && d.within(t) {
			x := d.x(t.Start)
			d.Rect(x, bar, max(d.x(t.Ends)-x, 2*px), barHigh, "sharp", "")
		}
	}
	const never = resources.Moment(-1 << 62) // before every moment of a plan
	seen := never
	for _, s := range b.For {
		if s.Pieces > 0 && s.By != seen && d.shows(s.By) {
			d.diamond(d.x(s.By), bar+barHigh/2)
			seen = s.By
		}
	}
	d.Raw("</g>\n")
}

// segment draws one stage: the colour of its place, the pattern of its name, and
// the name itself where it fits.
func (d *picture) segment(t *schedule.Task, y int) {
	x := d.x(t.Start)
	w := d.x(t.Ends) - x
	if w <= 0 {
		return
	}
	class := d.colour(t.At)
	if t.Begun {
		class += " past"
	}
	d.Rect(x, y, w, barHigh, class, "")
	if pattern := d.pattern(t.Stage); pattern != "" {
		d.Rect(x, y, w, barHigh, "", pattern)
	}
	if svg.TextWidth("s", t.Stage)+6*px <= w {
		d.Text(x+w/2, y+barHigh-4*px, "k", "m", t.Stage)
	}
}

// svgID keeps what an XML name may hold; the rest becomes its number, so that two
// ids stay two.
func svgID(s string) string {
	var id []byte
	for _, r := range s {
		if r == '-' || r >= '0' && r <= '9' || r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z' {
			id = append(id, byte(r))
			continue
		}
		id = fmt.Appendf(id, "_%x_", r)
	}
	return string(id)
}
