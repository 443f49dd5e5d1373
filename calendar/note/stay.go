package note

import (
	"ripeby/resources"
	"ripeby/schedule"
)

// Stay is all that a calendar says about one stay in the cold: a batch's boxes
// in one place from the end of a piece of work until they are taken out, or stock
// until it leaves.
type Stay struct {
	TimeZone string
	Batch    string           // "" for stock
	Stage    string           // the first stage of the stay, "" for stock
	Packed   resources.Moment // of stock; 0 for a batch
	Cheese   string
	Pieces   int
	At       string
	From     resources.Moment
	Until    resources.Moment
	Boxes    []ShelfCount
	Before   string // the place out of which it is carried, "" for none
	Carried  resources.Moment
}

// OfStay gives the note of the stay that begins with stage i of the batch; it is
// not ok when none does. Stages without work that follow a hold form one stay with
// it, since nobody is there to move anything.
func OfStay(plan *schedule.Plan, b *schedule.Batch, i int) (n Stay, ok bool) {
	t := &b.Stages[i]
	for k := 0; k < i; k++ {
		if !inTheCold(&b.Stages[k]) {
			continue
		}
		if k = stayEnd(b, k); k >= i {
			return Stay{}, false // it goes on with an earlier one
		}
	}
	if !inTheCold(t) {
		return Stay{}, false
	}
	n = Stay{TimeZone: plan.TimeZone, Batch: b.ID, Stage: t.Stage, Cheese: b.Cheese, Pieces: b.Pieces,
		At: t.At, From: t.Start.Add(t.Work), Until: b.Stages[stayEnd(b, i)].Ends, Boxes: shelves(t.BoxesAt)}
	for k := i; k <= stayEnd(b, i); k++ {
		if c := plan.CarryOf(b, k); c != nil && c.From != c.To {
			n.Before, n.Carried = c.From, c.Start
		}
	}
	return n, true
}

// stayEnd is the last stage that a stay goes on through which begins with stage i, of one
// that is in the cold.
func stayEnd(b *schedule.Batch, i int) int {
	for i+1 < len(b.Stages) && b.Stages[i+1].Work == 0 && b.Stages[i+1].At == b.Stages[i].At {
		i++
	}
	return i
}

// inTheCold reports whether a stage holds its cheese in a cold place. A hold of no
// length needs no space there.
func inTheCold(t *schedule.Task) bool { return t.At != "room" && t.Hold > 0 }

// OfStock gives the notes of stock in the cold and, beside them, for each entry
// of the plan's stock the place of its note, -1 for none. Entries of one cheese
// that were packed at one moment cannot be told apart from plan to plan, and share
// a note; it names the place of the first.
func OfStock(plan *schedule.Plan) (notes []Stay, noteOf []int) {
	at := map[stockKey]int{}
	for i := range plan.Stock {
		s := &plan.Stock[i]
		if s.At == "" || s.At == "room" || s.Ends <= s.Packed {
			noteOf = append(noteOf, -1)
			continue
		}
		key := stockKey{s.Cheese, s.Packed}
		k, known := at[key]
		if !known {
			k = len(notes)
			at[key] = k
			notes = append(notes, Stay{TimeZone: plan.TimeZone, Packed: s.Packed, Cheese: s.Cheese, At: s.At, From: s.Packed})
		}
		n := &notes[k]
		n.Pieces += s.Pieces
		n.Until = max(n.Until, s.Ends)
		if c := plan.CarryOfStock(i); c != nil && c.From != c.To {
			n.Before, n.Carried = c.From, c.Start
		}
		n.Boxes = append(n.Boxes, shelves(s.BoxesAt)...)
		noteOf = append(noteOf, k)
	}
	return notes, noteOf
}

// stockKey tells stock apart.
type stockKey struct {
	cheese string
	packed resources.Moment
}
