package coldroom

import (
	"ripeby/resources"
	"ripeby/resources/shelf"
	"ripeby/schedule"
)

// Question asks whether boxes have a place for a time.
type Question struct {
	Box   resources.Size // all 0 for a box without a size: it can stand only in a counted place
	Kind  string         // of the kitchen's boxes: what they stand on is its to say; "" for boxes of their own
	Count int            // of such boxes, 1 or more
	Span  resources.Span // when they stand there; an empty one asks for as long as can be from From on
	In    string         // only this shelf, or this cold place; "" for any
}

// Reply answers a [Question].
type Reply struct {
	// Answer is about the whole span, or about From alone when the span is empty.
	Answer shelf.Answer
	Place  string              // of Yes
	Boxes  []schedule.Standing // of Yes: where each stands
	// Longest is until when boxes that are put down at From may stay at most, in
	// one place; its At is Forever where nothing that the plan knows ends it.
	Longest Bound
	// Next is the next moment after From from which they have a place for the whole
	// length of the span. It is looked for only where the answer is not Yes.
	Next  Bound
	Spent int64 // positions tried
}

// Bound is a moment that was looked for. Not Found and Sure: there is none. Not
// Sure: the search was given up somewhere, so that a better one may exist.
type Bound struct {
	At    resources.Moment
	Found bool
	Sure  bool
}

// DefaultBudget is the work that a question is usually given: positions tried, of
// which a common machine does some millions a second. No single shelf at a single
// time gets more than shelf.DefaultBudget of it.
const DefaultBudget = 100 * shelf.DefaultBudget

// Ask answers a question with at most budget work. The same question about the same
// plan has always the same answer.
func (o *Occupancy) Ask(q Question, budget int64) Reply {
	open := q.Span.Empty()
	if open {
		q.Span.Until = q.Span.From + 1
	}
	a := newAsking(o, q, budget)
	var r Reply
	if best, longest := a.longest(); open && longest.Found {
		span := resources.Span{From: q.Span.From, Until: longest.At}
		f := a.rooms[best].fits(span)
		r.Answer, r.Place, r.Boxes, r.Longest = f.answer, a.rooms[best].place.Name, f.boxes, longest
	} else {
		r.Longest = longest
		r.Answer, r.Place, r.Boxes = a.within(q.Span)
	}
	if r.Answer != shelf.Yes {
		r.Next = a.next()
	}
	r.Spent = a.spent
	return r
}

// asking is one question being answered.
type asking struct {
	q       Question
	kitchen *resources.Kitchen
	rooms   []room // cold places in the kitchen's order that may be asked
	left    int64  // of the budget
	spent   int64
}

func newAsking(o *Occupancy, q Question, budget int64) *asking {
	a := &asking{q: q, kitchen: o.Kitchen, left: budget}
	for i := range o.Kitchen.Cold {
		place := &o.Kitchen.Cold[i]
		r := room{a: a, place: place}
		for k := range place.Shelves {
			if s := &place.Shelves[k]; q.In == "" || q.In == place.Name || q.In == s.Name {
				r.shelves = append(r.shelves, newBoard(o, place, s))
			}
		}
		if place.Measured() && len(r.shelves) == 0 || !place.Measured() && q.In != "" && q.In != place.Name {
			continue
		}
		r.count(o)
		a.rooms = append(a.rooms, r)
	}
	return a
}

// within answers for one span: the first place in the kitchen's order that has room.
func (a *asking) within(span resources.Span) (shelf.Answer, string, []schedule.Standing) {
	answer := shelf.No
	for i := range a.rooms {
		switch f := a.rooms[i].fits(span); f.answer {
		case shelf.Yes:
			return shelf.Yes, a.rooms[i].place.Name, f.boxes
		case shelf.Unknown:
			answer = shelf.Unknown
		}
	}
	return answer, "", nil
}
