package list

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/coldroom"
)

// share is what one batch, or one entry of stock, gives to a target.
type share struct {
	cheese string
	batch  string // "" for stock
	lot    string // "" while it has none
	pieces int
	packed resources.Moment
	at     string // "room" or a cold place, when it leaves
	boxes  []schedule.Standing
	kind   string // of box; "" where the recipe does not say
}

// sharesOf are the pieces that a target is to have or had, by cheese and what was packed first.
func sharesOf(p *schedule.Problem, plan *schedule.Plan, t Target) (all []share) {
	o := coldroom.Of(p, plan)
	for _, b := range slices.Concat(plan.Batches, plan.Past) {
		pieces := piecesFor(t, b.For, b.Left)
		if pieces == 0 || len(b.Stages) == 0 {
			continue
		}
		last := &b.Stages[len(b.Stages)-1]
		s := share{cheese: b.Cheese, batch: b.ID, lot: b.Lot, pieces: pieces, packed: last.Start.Add(last.Work), at: last.At, boxes: last.BoxesAt}
		stood(&s, o, t, func(stay *coldroom.Stay) bool { return stay.Batch == b.ID })
		all = append(all, s)
	}
	for _, e := range slices.Concat(plan.Stock, plan.PastStock) {
		pieces := piecesFor(t, e.For, e.Left)
		if pieces == 0 {
			continue
		}
		s := share{cheese: e.Cheese, lot: e.Lot, pieces: pieces, packed: e.Packed, at: e.At, boxes: e.BoxesAt}
		stood(&s, o, t, func(stay *coldroom.Stay) bool {
			return stay.Batch == "" && stay.Cheese == e.Cheese && slices.Equal(stay.Boxes, e.BoxesAt)
		})
		all = append(all, s)
	}
	slices.SortStableFunc(all, func(x, y share) int {
		return cmp.Or(strings.Compare(x.cheese, y.cheese), cmp.Compare(x.packed, y.packed))
	})
	return all
}

// stood notes in which boxes a share stands just before it leaves: what is carried before that is
// elsewhere then.
func stood(s *share, o *coldroom.Occupancy, t Target, of func(*coldroom.Stay) bool) {
	for i := range o.Stays {
		stay := &o.Stays[i]
		if of(stay) && stay.Span.From < t.By && t.By <= stay.Span.Until {
			s.boxes, s.kind, s.at = stay.Boxes, stay.Kind, stay.Boxes[0].Place
		}
	}
}

func piecesFor(t Target, coming []schedule.Share, left []schedule.LeftShare) (n int) {
	for _, s := range coming {
		if s.Target == t.Name && s.By == t.By {
			n += s.Pieces
		}
	}
	for _, l := range left {
		if l.Target == t.Name && l.By == t.By {
			n += l.Pieces
		}
	}
	return n
}

// keepsUntil is the last day on which a share keeps, by the recipe: the maker's own estimate; zero where no
// recipe says.
func (s *share) keepsUntil(p *schedule.Problem, zone *time.Location) resources.Date {
	r := p.Recipe(s.cheese)
	if r == nil || r.Keeps == 0 || s.packed == 0 {
		return resources.Date{}
	}
	return s.packed.Add(r.Keeps).DateIn(zone)
}

// from is where a share is to be taken: place and shelf, and boxes as the map of the cold places has them.
func (s *share) from(n *words.Pen) string {
	if len(s.boxes) == 0 {
		return n.Name(s.at)
	}
	type pile struct {
		place, shelf string
		x, y         resources.Micrometres
	}
	var order []pile
	boxes := map[pile]int{}
	for _, b := range s.boxes {
		at := pile{b.Place, b.Shelf, b.X, b.Y}
		if boxes[at]++; boxes[at] == 1 {
			order = append(order, at)
		}
	}
	var parts []string
	for i, at := range order {
		text := ""
		if i == 0 || order[i-1].place != at.place || order[i-1].shelf != at.shelf {
			text = words.Join(", ", n.Name(at.place), n.Name(at.shelf)) + ": "
		}
		if s.kind == "" {
			text += words.Count(boxes[at], "box", "boxes")
		} else {
			text += fmt.Sprintf("%d%sx%s%s", boxes[at], words.Glue, words.Glue, n.Name(s.kind))
		}
		if at.shelf != "" {
			text += fmt.Sprintf(", %s from the left, %s from the front", centimetres(at.x), centimetres(at.y))
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, "; ")
}

// centimetres is a length that is not torn from its unit.
func centimetres(l resources.Micrometres) string {
	return strings.ReplaceAll(resources.FormatLength(l), " ", words.Glue)
}
