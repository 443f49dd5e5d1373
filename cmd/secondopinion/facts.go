package main

import (
	"encoding/json"

	"ripeby/resources"
)

// facts is a statement as JSON for models that are no MiniZinc: the same kitchen, but
// lengths and moments as they were written, in minutes from grid step 0, so that such a
// model rounds, counts costs and finds starts by itself. Lists count from 0 and keep the
// order of the statement; -1 is none or no limit.
type facts struct {
	Step   int  `json:"step"`  // minutes
	Start  int  `json:"start"` // the planning start, at or before 0
	Until  int  `json:"until"` // no stage starts later
	Capped bool `json:"capped"`

	People list[personFact] `json:"people"`
	Kit    list[kitFact]    `json:"kit"`
	Busy   list[busyFact]   `json:"busy"`
	Boxes  list[stackFact]  `json:"boxes"`
	Places list[placeFact]  `json:"places"`
	Milk   list[milkFact]   `json:"milk"`
	Rows   list[rowFact]    `json:"rows"`
	Slots  list[int]        `json:"slots"` // row of each
	Ended  list[endedFact]  `json:"ended"`
	Wants  list[wantFact]   `json:"wants"`
	Stock  list[stockFact]  `json:"stock"`
	Told   toldFact         `json:"told"`
}

// toldFact is what an earlier plan told, and until when that is settled; always is what is otherwise in
// every plan.
type toldFact struct {
	Settled int             `json:"settled"` // 0 or less: nothing counts
	Batches list[toldBatch] `json:"batches"`
	Always  map[string]int  `json:"always"` // moved, and points of bother
}

// toldBatch is a batch of the earlier plan: it may be one of the batches of a row.
type toldBatch struct {
	Row   int            `json:"row"`
	Tasks list[toldTask] `json:"tasks"`
}

// toldTask is when a stage's work was to begin, and by whom; before the planning start it counts in nothing.
type toldTask struct {
	Stage int  `json:"stage"`
	At    int  `json:"at"`
	Who   int  `json:"who"`
	Taken bool `json:"taken"` // by one who has taken it on
}

// list is written as [] when there is nothing in it.
type list[T any] []T

// MarshalJSON writes it.
func (l list[T]) MarshalJSON() ([]byte, error) {
	if len(l) == 0 {
		return []byte("[]"), nil
	}
	return json.Marshal([]T(l))
}

// spanFact is from one minute to another, half-open.
type spanFact [2]int

// personFact is when somebody may work: in hours, never in taken, and no more minutes of a
// day than it has left for pieces of work that start on it.
type personFact struct {
	Hours     list[spanFact] `json:"hours"`
	Taken     list[spanFact] `json:"taken"`
	RatherNot list[spanFact] `json:"rather_not"`
	Days      list[dayFact]  `json:"days"`
}

type dayFact struct {
	Day  spanFact `json:"day"`
	Left int      `json:"left"`
}

// kitFact is a kind of thing; holds is in millilitres, of pots.
type kitFact struct {
	Name  string `json:"name"`
	Count int    `json:"count"`
	Clean int    `json:"clean"`
	Holds int64  `json:"holds"`
}

// busyFact is kit still in hand or being cleaned after a use that is over.
type busyFact struct {
	Kit   int `json:"kit"`
	Count int `json:"count"`
	Until int `json:"until"`
}

// boxFact is the outer size of a kind of box, in micrometres.
type boxFact struct {
	Width  int64 `json:"width"`
	Depth  int64 `json:"depth"`
	Height int64 `json:"height"`
}

// stackFact is a kind of box, and which boxes it may stand on: kind, batch or no.
type stackFact struct {
	boxFact
	Stack string `json:"stack"`
}

// placeFact is a cold place: so many boxes, or shelves.
type placeFact struct {
	Boxes   int             `json:"boxes"`
	Closed  list[spanFact]  `json:"closed"`
	Shelves list[shelfFact] `json:"shelves"`
}

type shelfFact struct {
	boxFact
	Closed list[spanFact] `json:"closed"`
}

// milkFact is a collection: makes that start from ready to until may draw on it.
type milkFact struct {
	Supply string `json:"supply"`
	Ready  int    `json:"ready"`
	Until  int    `json:"until"`
	Most   int64  `json:"most"` // millilitres
}

// wantFact is a want; packed is how long before by the packing has to be done.
type wantFact struct {
	Cheese   int   `json:"cheese"`
	Pieces   int   `json:"pieces"`
	Price    int64 `json:"price"`
	Promised bool  `json:"promised"`
	Packed   int   `json:"packed"`
	By       int   `json:"by"`
}

// stockFact is packed cheese; ends is when it leaves if no want is served by it.
type stockFact struct {
	Pieces int       `json:"pieces"`
	Kit    int       `json:"kit"`
	Count  int       `json:"count"`
	Box    int       `json:"box"`
	Place  int       `json:"place"`
	Ends   int       `json:"ends"`
	May    list[int] `json:"may"` // wants
}

// endedFact is a hold of what has begun that ended at the planning start: it still counts.
type endedFact struct {
	Length int       `json:"length"`
	Hold   *holdFact `json:"hold"`
}

// json writes the facts. The same problem gives the same bytes.
func (s *statement) json() ([]byte, error) {
	return json.MarshalIndent(s.facts(), "", " ")
}

// minute is a moment in minutes from step 0.
func (s *statement) minute(m resources.Moment) int { return int(m - s.zero) }

// spans are spans in minutes from step 0.
func (s *statement) spans(list []resources.Span) []spanFact {
	out := []spanFact{}
	for _, x := range list {
		out = append(out, spanFact{s.minute(x.From), s.minute(x.Until)})
	}
	return out
}

// facts gathers them.
func (s *statement) facts() *facts {
	f := &facts{Step: int(s.step), Start: s.minute(s.p.From), Until: s.steps * int(s.step), Capped: s.capped, Slots: s.slots}
	s.factsOfPeople(f)
	s.factsOfKit(f)
	s.factsOfPlaces(f)
	for _, c := range s.supply {
		m := &s.p.Kitchen.Milk[c.supply]
		f.Milk = append(f.Milk, milkFact{m.Name, s.minute(c.ready), s.minute(c.ready.Add(m.Keeps)), int64(c.most)})
	}
	for _, e := range s.endedNow() {
		f.Ended = append(f.Ended, endedFact{int(e.length), holdOf(e.row.r.Stages[e.stage].Hold)})
	}
	for r := range s.recipes {
		f.Rows = append(f.Rows, s.rowFact(r))
	}
	for _, v := range s.wants {
		t := &s.p.Targets[v.target]
		f.Wants = append(f.Wants, wantFact{v.recipe, v.pieces, int64(v.price), v.promised, int(t.Packed), s.minute(t.By)})
	}
	for _, t := range s.stock {
		f.Stock = append(f.Stock, stockFact{t.pieces, t.thing, t.boxes, t.kind, t.place, s.minute(t.ends), t.may})
	}
	f.Told = s.toldFact()
	return f
}

func (s *statement) factsOfPeople(f *facts) {
	k, caps := &s.p.Kitchen, s.caps()
	for i := range k.People {
		who := personFact{Hours: s.spans(k.People[i].Windows(s.horizon(), k.Zone)), Taken: s.spans(s.blocked(i)),
			RatherNot: s.spans(k.People[i].Avoids(s.horizon(), k.Zone))}
		for _, c := range caps {
			if c.person == i {
				who.Days = append(who.Days, dayFact{spanFact{s.minute(c.day.From), s.minute(c.day.Until)}, int(c.left)})
			}
		}
		f.People = append(f.People, who)
	}
}

func (s *statement) factsOfKit(f *facts) {
	for _, t := range s.things {
		holds := int64(-1)
		if t.IsPot() {
			holds = int64(t.Holds)
		}
		f.Kit = append(f.Kit, kitFact{t.Name, *t.Count, int(t.Clean), holds})
	}
	for _, b := range s.busy {
		f.Busy = append(f.Busy, busyFact{b.thing, b.count, s.minute(b.until)})
	}
}

func (s *statement) factsOfPlaces(f *facts) {
	size := func(z resources.Size) boxFact { return boxFact{int64(z.Width), int64(z.Depth), int64(z.Height)} }
	for _, b := range s.p.Kitchen.Boxes {
		f.Boxes = append(f.Boxes, stackFact{size(b.Size), b.Stack.String()})
	}
	for _, c := range s.p.Kitchen.Cold {
		place := placeFact{Boxes: -1, Closed: s.spans(c.Taken)}
		if !c.Measured() {
			place.Boxes = c.Boxes
		}
		for _, x := range c.Shelves {
			place.Shelves = append(place.Shelves, shelfFact{size(x.Size), s.spans(x.Taken)})
		}
		f.Places = append(f.Places, place)
	}
}
