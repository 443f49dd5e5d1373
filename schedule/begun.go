package schedule

import "ripeby/resources"

// Begun is a batch under way, as begun.yaml tells it.
type Begun struct {
	ID     string
	Cheese string
	Litres resources.Millilitres
	Stages []BegunStage // the stages that have begun, in the recipe's order
	Pieces int          // what is left of it; -1: all that was made
	Pot    string       // "" where there is no choice
	At     string       // cold place of the running stage; "" where there is no choice
}

// BegunStage is the moment at which a stage began. It may lie off the grid.
type BegunStage struct {
	Stage string
	Start resources.Moment
}

// Stock is packed cheese in the kitchen.
type Stock struct {
	Cheese string
	Pieces int
	Packed resources.Moment
	At     string // cold place
	Boxes  int    // of the kind that the recipe packs into
}

// Ordered is milk that has been ordered: usable after its order moment too. It is all
// that comes that day, what stands included; 0 says that none has been ordered.
type Ordered struct {
	Milk   string
	Day    resources.Date
	Litres resources.Millilitres
}

// Came is milk that has come, whatever was ordered of it or stands; 0 says that none came.
type Came struct {
	Milk   string
	Day    resources.Date
	Litres resources.Millilitres
}
