package cold

import (
	"fmt"
	"io"
	"slices"

	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/resources/shelf"
	"ripeby/schedule"
	"ripeby/schedule/coldroom"
)

// Asked is a question about boxes with its answer, as it is shown.
type Asked struct {
	Question coldroom.Question
	Reply    coldroom.Reply
	Kind     string // the kitchen's name for the box; "" for one of a size only
}

// Answer writes the answer in one or two sentences; of a Yes also where each of
// the boxes would stand, and the maps of those shelves with the boxes on them.
func Answer(w io.Writer, p *schedule.Problem, plan *schedule.Plan, ask Asked, opt Options) error {
	g, err := newPage(p, plan, opt)
	if err != nil {
		return err
	}
	g.Para("", ask.first(g)+" "+ask.second(g))
	if ask.Reply.Answer == shelf.Yes {
		if err := g.standings(ask.Reply); err != nil {
			return err
		}
		g.withAsked(ask)
		parts := g.parts()
		parts = slices.DeleteFunc(parts, func(c part) bool {
			return !slices.ContainsFunc(ask.Reply.Boxes, func(s schedule.Standing) bool {
				return s.Place == c.place.Name && s.Shelf == c.shelfName()
			})
		})
		if err := g.maps(parts); err != nil {
			return err
		}
	}
	g.notes(ask.told(), ask.givenUp())
	return g.Finish(w)
}

// Said is the answer in words, for a page: a sentence or two, and of a Yes a line for each place where boxes
// would stand.
func Said(p *schedule.Problem, plan *schedule.Plan, ask Asked) (text string, stand []string, err error) {
	g, err := newPage(p, plan, Options{})
	if err != nil {
		return "", nil, err
	}
	g.pen.Most = 0
	text = words.Join(" ", ask.first(g)+" "+ask.second(g), ask.givenUp())
	if ask.Reply.Answer == shelf.Yes {
		for _, r := range g.standingRows(ask.Reply) {
			stand = append(stand, standingText(r))
		}
	}
	return text, stand, nil
}

// told is the time that the answer speaks of.
func (a Asked) told() resources.Span {
	span := a.Question.Span
	length := max(span.Length(), 1)
	span.Until = max(span.From.Add(length), a.Reply.Longest.At)
	if a.Reply.Next.Found {
		span.Until = max(span.Until, a.Reply.Next.At.Add(length))
	}
	return span
}

// givenUp says how far the search for places went where it did not settle all.
func (a Asked) givenUp() string {
	r := &a.Reply
	if r.Answer != shelf.Unknown && r.Longest.Sure && (r.Answer == shelf.Yes || r.Next.Sure) {
		return ""
	}
	return fmt.Sprintf("The search for places was given up after %d positions, at its limit of %d for a shelf at one time or of %d in all.",
		r.Spent, shelf.DefaultBudget, coldroom.DefaultBudget)
}

// withAsked has the page show the boxes asked for beside the plan's, at the moment
// from which they stand there.
func (g *page) withAsked(ask Asked) {
	until := ask.Question.Span.Until
	if ask.Question.Span.Empty() {
		until = ask.Reply.Longest.At
	}
	o := *g.o
	o.Stays = append(slices.Clone(o.Stays), coldroom.Stay{Batch: "asked for", Kind: ask.kind(),
		Span: resources.Span{From: ask.Question.Span.From, Until: until}, Boxes: ask.Reply.Boxes})
	g.o, g.opt.At = &o, ask.Question.Span.From
}

// kind names the box.
func (a Asked) kind() string {
	if a.Kind != "" {
		return a.Kind
	}
	return words.Unglue(sizeText(a.Question.Box))
}

// boxes is how many of what.
func (a Asked) boxes(g *page) string {
	if a.Kind != "" {
		return fmt.Sprintf("%d%sx%s%s", a.Question.Count, words.Glue, words.Glue, g.pen.Name(a.Kind))
	}
	return words.Count(a.Question.Count, "box", "boxes") + " of " + sizeText(a.Question.Box)
}

// time is for how long they were to stand.
func (a Asked) time(g *page) string {
	text := "from " + words.Stamp(a.Question.Span.From, g.zone)
	if !a.Question.Span.Empty() {
		text += " until " + words.Stamp(a.Question.Span.Until, g.zone)
	}
	return text
}

// verbs are "has" or "have", and "it" or "they".
func (a Asked) verbs() (have, they string) {
	if a.Question.Count == 1 {
		return "has", "it"
	}
	return "have", "they"
}

// first is the answer itself.
func (a Asked) first(g *page) string {
	have, _ := a.verbs()
	switch a.Reply.Answer {
	case shelf.Yes:
		return fmt.Sprintf("Yes: %s %s a place %s.", a.boxes(g), have, a.time(g))
	case shelf.No:
		return fmt.Sprintf("No: %s %s no place %s.", a.boxes(g), have, a.time(g))
	}
	return fmt.Sprintf("Not known: %s may have a place %s.", a.boxes(g), a.time(g))
}

// second is until when they have a place, and otherwise from when on.
func (a Asked) second(g *page) string {
	have, they := a.verbs()
	text := a.longest(g, they+" "+have)
	if a.Reply.Answer != shelf.Yes {
		text = words.Join("; ", text, a.next(g))
	}
	return words.Capital(text) + "."
}

// longest is until when boxes that are put down at the moment have a place; ""
// where they have no place then at all.
func (a Asked) longest(g *page, they string) string {
	l := a.Reply.Longest
	switch {
	case !l.Found:
		return ""
	case l.At >= coldroom.Forever:
		return "nothing that is planned ends it"
	case l.Sure:
		return fmt.Sprintf("at the longest %s one until %s", they, words.Stamp(l.At, g.zone))
	}
	return fmt.Sprintf("%s one until %s, perhaps longer", they, words.Stamp(l.At, g.zone))
}

// next is from when there is place for the whole time.
func (a Asked) next(g *page) string {
	n, what := a.Reply.Next, "for all that time there is place from "
	if a.Question.Span.Empty() {
		what = "there is place from "
	}
	switch {
	case n.Found && n.Sure:
		return what + words.Stamp(n.At, g.zone)
	case n.Found:
		return what + words.Stamp(n.At, g.zone) + ", perhaps sooner"
	case !n.Sure:
		return what + "a moment not known"
	case a.Reply.Longest.Found:
		return "for all that time there is never place"
	}
	return "no later moment has a place either"
}

// standings lists where the boxes would stand, a row a pile; on how many that stand there already is
// told beside their number.
func (g *page) standings(r coldroom.Reply) error {
	g.Gap()
	heads := []string{"Place", "Shelf", "Boxes", "From left", "From front", "Wide x deep"}
	rows := g.standingRows(r)
	if widths, fit := g.Columns(heads, rows, []int{8, 6, 5, 7, 7, 11}); fit {
		return g.Table(heads, rows, widths)
	}
	for _, r := range rows {
		g.Para("- ", standingText(r))
	}
	return nil
}

// standingText is a row of them in words.
func standingText(r []string) string {
	if r[1] == "-" {
		return r[0] + ": " + r[2]
	}
	return fmt.Sprintf("%s, %s: %s at %s from the left and %s from the front; %s wide and deep", r[0], r[1], r[2], r[3], r[4], r[5])
}

// standingRows are the piles: place, shelf, boxes, how far from the left and from the front, how large.
func (g *page) standingRows(r coldroom.Reply) (rows [][]string) {
	for i := 0; i < len(r.Boxes); {
		b, n := r.Boxes[i], 1
		for i++; i < len(r.Boxes) && samePile(b, r.Boxes[i]); i++ {
			n++
		}
		row := []string{g.pen.Name(b.Place), orDash(g.pen.Name(b.Shelf)), fmt.Sprint(n), "-", "-", "-"}
		if b.Layer > 1 {
			row[2] += fmt.Sprintf(", on%s%d", words.Glue, b.Layer-1)
		}
		if b.Shelf != "" {
			row[3], row[4], row[5] = lengthsText(b.X)+words.Glue+"cm", lengthsText(b.Y)+words.Glue+"cm", lengthsText(b.Width, b.Depth)+words.Glue+"cm"
		}
		rows = append(rows, row)
	}
	return rows
}

// samePile reports whether two boxes stand on one another, or both in a place that
// is counted in boxes.
func samePile(a, b schedule.Standing) bool {
	b.Layer = a.Layer
	return a == b
}
