package record

import "ripeby/resources"

// BatchFacts is what may be said of a batch. Stages are names as the recipe has them.
type BatchFacts struct {
	Began  string                  // the stage whose work began at At
	Did    string                  // the stage whose work was done at At
	NotYet string                  // the stage before which the hold is not over
	Look   Said[resources.Minutes] // with NotYet: look again after so long

	Litres Said[resources.Millilitres]
	Pot    string
	Drew   Said[Draw]
	Stands Said[Stand]

	Pieces Said[int] // what there is of it now, spare included
	Gone   Said[int] // so many more are gone
	Why    string    // of Gone or Lost
	Weight Said[resources.Milligrams]
	Lost   bool

	Measured []Measure
	Lots     []Packet
}

// Draw is the collection that milk came from.
type Draw struct {
	Supply string
	Day    resources.Date
}

// Stand is where something really stands; Shelf is "" in a place without shelves, or
// where nobody said which.
type Stand struct{ Place, Shelf string }

// Measure is one reading: what was measured and what it was, as written ("5.1", "19 °C").
type Measure struct{ What, Is string }

// Packet is which packet or bottle something came from.
type Packet struct{ What, Lot string }

// MilkFacts is what may be said of a collection of milk.
type MilkFacts struct {
	Ordered  Said[resources.Millilitres]
	Came     Said[resources.Millilitres] // 0: none came
	Lot      string                      // the supplier's own, or the delivery note
	Measured []Measure
}

// TargetFacts is what may be said of one cheese of one target.
type TargetFacts struct {
	Took    Said[int] // pieces that left
	Of      []FromLot // of which batches; nil: as planned
	Back    Said[int] // pieces that came back
	Resell  bool      // those that came back may be sold again
	SoldOut Said[resources.Clock]
	To      string // one of the businesses
}

// FromLot is how many pieces came from a batch, by its id or lot, or from stock, by its
// lot.
type FromLot struct {
	Lot    string
	Pieces int
}

// PlaceFacts is what may be said of a cold place or one of its shelves.
type PlaceFacts struct {
	Measured []Measure
	Closed   Said[Stretch]
	Open     bool // from At on
}

// PersonFacts is what may be said of a person.
type PersonFacts struct {
	Away  Said[Stretch]
	Here  bool // from At on
	Takes Said[Task]
}

// Stretch is a time that begins, and ends at Until where that is given. From is the
// entry's At where no other was written. Dates have been written out: one that begins at
// a date begins with its first minute, one that ends with a date ends with its last.
type Stretch struct {
	From  resources.Moment
	Until Said[resources.Moment]
}

// Task is the work of one stage of a batch, by its id or lot.
type Task struct{ Batch, Stage string }

// RoundFacts is what may be said of the round of a day: one of the two.
type RoundFacts struct{ Did, Skipped bool }

// PacketFacts is what is said of a packet or bottle that was opened. Its lot is that of
// all that uses it from At on.
type PacketFacts struct {
	Lot      string
	UseBy    Said[resources.Date]
	Strength string // a number and its unit as written: "200 IMCU/mL"
	Holds    string // likewise: "50 mL"
}
